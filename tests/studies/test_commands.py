"""The commands of studies: records, exit codes, plots, and what is refused."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from strength.__main__ import main
from strength.report.cautions import HEADING, ONE_LINE
from tests.studies.cases import CRANE


@pytest.fixture
def crane(tmp_path: Path) -> Path:
    """The bench crane as a file."""
    path = tmp_path / "crane.toml"
    path.write_text(CRANE, encoding="utf-8")
    return path


def record(capsys: pytest.CaptureFixture[str], *arguments: object) -> dict[str, object]:
    """What a command writes to standard output with --json -, and its exit code."""
    code = main([*map(str, arguments), "--json", "-"])
    captured = capsys.readouterr()
    assert captured.err == ""
    return {"code": code, **json.loads(captured.out)}


def test_screen(crane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The record's fixed keys; rows out of range make the exit code 3, not 0."""
    found = record(capsys, "screen", crane, "brace", "--od", "20 .. 25 mm", "--wall", "1.5 mm")
    assert (found["format"], found["part"], found["now"]) == (1, "brace", "tube 22 x 1.5 mm")
    candidates = found["candidates"]
    assert [each["size"] for each in candidates] == [f"tube {od} x 1.5 mm" for od in (20, 22, 25)]
    assert all(set(each) >= {"size", "mass", "utilisation", "governs", "passes"} for each in candidates)
    assert found["lightest"] == next(each["size"] for each in candidates if each["passes"])
    assert found["code"] == 3


def test_none_passes(crane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 1 where no size passes; `lightest` is null, and the words say so."""
    crane.write_text(CRANE.replace("90 55 -680 N", "900 550 -6800 N"), encoding="utf-8")
    found = record(capsys, "screen", crane, "brace", "--wall", "1.5 mm")
    assert (found["code"], found["lightest"]) == (1, None)
    assert main(["screen", str(crane), "brace", "--wall", "1.5 mm"]) == 1
    shown = capsys.readouterr().out
    assert "NO SIZE PASSES" in shown
    assert shown.count(HEADING) == 2
    assert max(map(len, shown.splitlines())) <= 80


def test_thickness_leg_and_payload(crane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Their records; a case that marks no payload is told how to."""
    found = record(capsys, "thickness", crane, "lug", "--wall", "5 .. 8 mm")
    assert [each["size"] for each in found["candidates"]] == [f"flat 40 x {t} mm" for t in (5, 6, 8)]
    found = record(capsys, "leg", crane, "brace-from")
    assert (found["part"], found["now"]) == ("brace-from", "1.5 mm")
    assert found["greatest_sensible"] == "2 mm"
    assert main(["payload", str(crane)]) == 2
    assert "payload = true" in capsys.readouterr().err


def test_payload_record(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Payload in kg and what governs; exit code 0 where the case's own payload is carried."""
    path = tmp_path / "arm.toml"
    path.write_text(
        'title = "arm"\n[defaults]\nmaterial = {tube = "E235+N"}\n'
        '[members]\narm = {from = "0 0 0 mm", to = "500 0 0 mm", section = "tube 30 x 2 mm"}\n'
        '[supports]\narm-from = "all"\n'
        '[masses]\nbag = {mass = "10 kg", at = "500 0 0 mm", carried_by = "arm-to", payload = true}\n'
        "[loads]\nhanging = {}\n",
        encoding="utf-8",
    )
    found = record(capsys, "payload", path)
    assert found["code"] == 0
    assert found["payload"] > 10.0
    assert found["governs"].startswith("arm/")
    assert found["loads"][0]["factor"] == pytest.approx(found["payload"] / 10.0, rel=1e-6)
    assert main(["payload", str(path)]) == 0
    assert "Greatest payload" in capsys.readouterr().out


def test_plot(crane: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An SVG with a mark for every size and the caution above and below."""
    target = tmp_path / "sizes.svg"
    main(["screen", str(crane), "stay", "--wall", "1.5 mm", "--plot", str(target), "--json", "-"])
    sizes = [each["size"] for each in json.loads(capsys.readouterr().out)["candidates"]]
    text = target.read_text(encoding="utf-8")
    root = ET.fromstring(text)  # noqa: S314 - our own text
    titles = [each.text for each in root.iter("{http://www.w3.org/2000/svg}title")]
    assert all(any(str(title).startswith(f"{size}:") for title in titles) for size in sizes)
    assert text.count(ONE_LINE) == 2


def test_executor_gives_the_same_bits(crane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Other processes give the very same record; what is no executor is refused."""
    arguments = ("screen", crane, "brace", "--wall", "1 .. 1.5 mm")
    here = record(capsys, *arguments)
    there = record(capsys, *arguments, "--executor", "concurrent.futures:ProcessPoolExecutor")
    assert here == there
    for path in ("json:dumps", "no_such_module:x", "concurrent.futures:Nothing"):
        assert main([*map(str, arguments), "--executor", path]) == 2
        assert "executor" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (["screen", "crane.toml", "bracee"], "did you mean 'brace'"),
        (["screen", "crane.toml", "brace", "--od", "20"], "od"),
        (["screen", "crane.toml", "brace", "--od", "400 mm"], "no stock size is left"),
        (["screen", "crane.toml", "brace", "--material", "mithril"], "mithril"),
        (["thickness", "crane.toml", "brace"], "is not a flat"),
        (["leg", "crane.toml", "brace"], "no weld is named"),
        (["screen", "crane.toml", "brace", "--json", "crane.toml"], "is the case file itself"),
        (["screen", "none.toml", "brace"], "there is no such file"),
    ],
)
def test_refused(
    crane: Path,
    arguments: list[str],
    why: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One clear message, nothing on standard output, no file written."""
    monkeypatch.chdir(crane.parent)
    assert main(arguments) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert why in captured.err
    assert [path.name for path in crane.parent.iterdir()] == ["crane.toml"]
