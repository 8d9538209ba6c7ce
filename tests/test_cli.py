"""The commands from the outside: what they print, write, refuse, and how they leave."""

import csv
import json
import math
import os
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from strength.__main__ import main
from strength.cli import COMMANDS
from strength.report.cautions import HEADING, ONE_LINE

# A tube held at one end, pushed aside and down at its tip; no wheels. All figures invented.
BENCH = """
title = "Bracken bench arm"
notes = "a tube in the vice"

[basis]
shear_flexible = false

[points]
vice = "10 -20 300 mm"
tip = "10 330 300 mm"

[members]
arm = {{from = "vice", to = "tip", section = "tube 30 x 2 mm", material = "E235+N"}}

[supports]
vice = "all"

[loads]
"hang a weight" = {{severity = "routine", forces = [{{at = "tip", force = "0 0 -{down} N"}}]}}
"lean on it" = {{severity = "hard", forces = [{{at = "tip", force = "{side} 0 0 N"}}]}}
"""
LENGTH, OUTER, INNER, YOUNGS = 350.0, 30.0, 26.0, 210000.0
INERTIA = math.pi * (OUTER**4 - INNER**4) / 64.0


@pytest.fixture(name="bench")
def fixture_bench(tmp_path: Path) -> Path:
    """A case well within its limits."""
    return written(tmp_path / "bench.toml", down=90.0, side=55.0)


def written(path: Path, down: float, side: float) -> Path:
    """A bench case with these forces at its tip."""
    path.write_text(BENCH.format(down=down, side=side), encoding="utf-8")
    return path


def strength(*arguments: object, **more: object) -> subprocess.CompletedProcess[str]:
    """Run the program as a user does."""
    return subprocess.run(
        [sys.executable, "-m", "strength", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        **more,
    )


def refused(done: subprocess.CompletedProcess[str]) -> str:
    """The message of a run that could not use its input."""
    assert done.returncode == 2
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    return done.stderr


def test_summary_against_the_closed_form(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A cantilever: M = F L, deflection F L^3 / (3 E I), bending stress M r / I (any handbook)."""
    assert main(["summary", str(bench), "--json", "-"]) == 0
    record = json.loads(capsys.readouterr().out)
    moved = {(p["name"], p["load"]): p["displacement"] for p in record["points"]}
    sag = 90.0 * LENGTH**3 / (3.0 * YOUNGS * INERTIA)
    assert moved["tip", "hang a weight"][2] == pytest.approx(-sag, rel=1e-9)
    sway = 55.0 * LENGTH**3 / (3.0 * YOUNGS * INERTIA)
    assert moved["tip", "lean on it"][0] == pytest.approx(sway, rel=1e-9)
    held = {s["load"]: s["reaction"] for s in record["supports"]}
    # moment about the vice of the reaction: -(r x F), r = (0, L, 0)
    assert held["hang a weight"] == pytest.approx([0.0, 0.0, 90.0, 90.0 * LENGTH, 0.0, 0.0], abs=1e-6)
    assert held["lean on it"] == pytest.approx([-55.0, 0.0, 0.0, 0.0, 0.0, 55.0 * LENGTH], abs=1e-6)
    bending = {s["load"]: s["bending"] for s in record["stresses"]}
    assert bending["hang a weight"] == pytest.approx(90.0 * LENGTH * OUTER / 2.0 / INERTIA, rel=1e-9)
    assert record["title"] == "Bracken bench arm"
    assert len(record["input_sha256"]) == 64


def test_exit_code_over_the_limit(tmp_path: Path) -> None:
    """At 225 MPa the tube yields under 225 x I / 15 = 260 N m: 1000 N on 350 mm are 350 N m."""
    done = strength("summary", written(tmp_path / "weak.toml", down=1000.0, side=10.0))
    assert done.returncode == 1
    assert "OVER THE LIMIT: 1 PART" in done.stdout
    assert done.stderr == ""


def test_console_in_a_pipe(bench: Path) -> None:
    """80 characters, no escape codes, the caution first and last."""
    environment = {k: v for k, v in os.environ.items() if k != "COLUMNS"}
    done = strength("summary", bench, env=environment)
    assert done.returncode == 0
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert "\x1b" not in done.stdout
    assert done.stdout.count(HEADING) == 2
    assert "hang a weight" in done.stdout


def test_files(bench: Path, tmp_path: Path) -> None:
    """All faces in one run hold the same rows."""
    names = ["out.json", "out.csv", "out.html"]
    record, table, page = (tmp_path / name for name in names)
    done = strength("summary", bench, "--json", record, "--csv", table, "--page", page)
    assert done.returncode == 0
    checks = json.loads(record.read_text())["checks"]
    lines = list(csv.DictReader(table.read_text().splitlines()))
    assert [line["id"] for line in lines] == [row["id"] for row in checks]
    assert page.read_text().startswith("<!doctype html>")
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(["bench.toml", *names])


def test_record_on_standard_output_stands_alone(bench: Path) -> None:
    """With `-` nothing else is printed there."""
    done = strength("summary", bench, "--json", "-")
    assert json.loads(done.stdout)["format"] == 1


def test_same_case_same_bytes(bench: Path) -> None:
    """The same file gives the same record, to the byte."""
    assert (
        strength("summary", bench, "--json", "-").stdout == strength("summary", bench, "--json", "-").stdout
    )


def test_draw(bench: Path, tmp_path: Path) -> None:
    """A drawing that parses, with the caution on it."""
    target = tmp_path / "arm.svg"
    done = strength("draw", bench, target)
    assert (done.returncode, done.stdout) == (0, "")
    text = target.read_text(encoding="utf-8")
    assert ET.fromstring(text).tag.endswith("svg")  # noqa: S314 - our own text
    assert text.count(HEADING) == 2


def test_loads(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A case without wheels has loads but no wheel forces and no limits."""
    assert main(["loads", str(bench), "--json", "-"]) == 0
    record = json.loads(capsys.readouterr().out)
    assert [load["name"] for load in record["loads"]] == ["hang a weight", "lean on it"]
    assert record["limits"] == []
    assert main(["loads", str(bench)]) == 0
    assert HEADING in capsys.readouterr().out


def test_expand_reads_back(bench: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The case written out part by part is a case, and gives the same rows."""
    target = tmp_path / "plain.toml"
    assert main(["expand", str(bench), "--write", str(target)]) == 0
    assert capsys.readouterr().out == ""
    records = []
    for path in (bench, target):
        main(["summary", str(path), "--json", "-"])
        records.append(json.loads(capsys.readouterr().out))
    assert records[0]["checks"] == records[1]["checks"]


def test_new_writes_a_case_that_runs(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The starter case is usable as it is, and is never written over another file."""
    target = tmp_path / "mine.toml"
    assert main(["new", str(target)]) == 0
    text = target.read_text(encoding="utf-8")
    assert main(["summary", str(target)]) in (0, 1, 3)
    assert HEADING in capsys.readouterr().out
    assert main(["new", str(target)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert target.read_text(encoding="utf-8") == text


def test_schema(capsys: pytest.CaptureFixture[str]) -> None:
    """The schema of case files is itself a valid JSON Schema."""
    from jsonschema import validators

    assert main(["new", "--schema"]) == 0
    schema = json.loads(capsys.readouterr().out)
    validators.validator_for(schema).check_schema(schema)


@pytest.mark.parametrize("command", ["materials", "stock"])
def test_library(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Tables with sources, on the console and as a record; every row names its source."""
    assert main([command]) == 0
    assert capsys.readouterr().out.count(ONE_LINE.split(":")[0]) == 2
    assert main([command, "--json", "-"]) == 0
    tables = json.loads(capsys.readouterr().out)["tables"]
    assert tables
    assert all(row["source"] for table in tables for row in table["rows"])


def test_unknown_word(capsys: pytest.CaptureFixture[str]) -> None:
    """A word that nothing in the library has is told, not answered with an empty table."""
    assert main(["materials", "unobtainium"]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert "unobtainium" in captured.err


def test_missing_case(tmp_path: Path) -> None:
    """A file that is not there is named."""
    assert "none.toml" in refused(strength("summary", tmp_path / "none.toml"))


@pytest.mark.parametrize(
    "content",
    [b"", b"title = ", b"\xff\xfe\x00", b"title = 'x'\nwidht = 3", b"[[member]]\nname = 3"],
)
@pytest.mark.parametrize("command", ["summary", "loads", "expand"])
def test_bad_cases(tmp_path: Path, content: bytes, command: str) -> None:
    """Never a traceback, nothing on standard output, no file written."""
    case = tmp_path / "bad.toml"
    case.write_bytes(content)
    assert refused(strength(command, case, "--json", tmp_path / "out.json"))
    assert [path.name for path in tmp_path.iterdir()] == ["bad.toml"]


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (["summary", "bench.toml", "--json", "bench.toml"], "is the case file itself"),
        (["summary", "bench.toml", "--page", "none/out.html"], "there is no folder"),
        (["summary", "bench.toml", "--csv", "."], "is not a file"),
        (["summary", "bench.toml", "--csv", "out", "--json", "out"], "asked for twice"),
        (["summary", "bench.toml", "--csv", "-", "--json", "-"], "asked for twice"),
        (["draw", "bench.toml", "./bench.toml"], "is the case file itself"),
        (["expand", "bench.toml", "--write", "bench.toml"], "is the case file itself"),
        (["new", "bench.toml"], "is there already"),
        (["new"], "name the case file"),
    ],
)
def test_outputs_refused(bench: Path, arguments: list[str], why: str) -> None:
    """An output that cannot be written, or would overwrite the case, is refused; the case stays."""
    before = bench.read_bytes()
    assert why in refused(strength(*arguments, cwd=bench.parent))
    assert bench.read_bytes() == before
    assert [path.name for path in bench.parent.iterdir()] == ["bench.toml"]


@pytest.mark.parametrize("arguments", [[], ["sumary", "x"], ["summary"], ["summary", "a", "--jsn", "b"]])
def test_wrong_usage(arguments: list[str]) -> None:
    """Usage on standard error, nothing else."""
    assert "usage: strength" in refused(strength(*arguments))


def test_broken_pipe_is_quiet(bench: Path) -> None:
    """A reader that stops reading gets no traceback."""
    with subprocess.Popen(
        [sys.executable, "-m", "strength", "stock"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""


def test_interrupt_is_quiet(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Ctrl-C leaves with 130 and no traceback."""

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("strength.library.listing.stock_tables", interrupted)
    assert main(["stock"]) == 130
    assert capsys.readouterr() == ("", "")


def test_console_without_the_letters(bench: Path) -> None:
    """A terminal that knows only ASCII still gets every figure."""
    done = strength("summary", bench, env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"})
    assert done.returncode == 0
    assert done.stderr == ""
    assert "yielding" in done.stdout


def test_version() -> None:
    """Name and version, nothing else."""
    done = strength("--version")
    assert done.stdout.split() == ["strength", "0.1.0"]


@pytest.mark.parametrize("command", [command.name for command in COMMANDS])
def test_help_has_the_caution(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Each help text says what the command gives, and the caution."""
    with pytest.raises(SystemExit):
        main([command, "--help"])
    text = " ".join(capsys.readouterr().out.split())
    assert ONE_LINE in text
    assert "--json" in text


@pytest.mark.parametrize("arguments", [["--version"], ["summary", "--help"], ["summary", "BENCH"]])
def test_start_up_is_light(bench: Path, arguments: list[str]) -> None:
    """What a command does not need is not imported: a summary needs none of these."""
    given = [str(bench) if text == "BENCH" else text for text in arguments]
    heavy = ["scipy", "pint", "sectionproperties", "matplotlib", "jinja2", "tomlkit", "shapely"]
    code = (
        "import sys\nfrom strength.__main__ import main\n"
        f"try:\n    main({given!r})\nexcept SystemExit:\n    pass\n"
        f"sys.exit(repr([name for name in {heavy!r} if name in sys.modules]))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stderr.strip() == "[]"


def test_help_needs_no_arrays() -> None:
    """`--help` answers without numpy or rich."""
    code = (
        "import sys\nfrom strength.__main__ import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        "sys.exit(repr([name for name in ('numpy', 'rich') if name in sys.modules]))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stderr.strip() == "[]"
