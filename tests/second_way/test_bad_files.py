"""Spoilt case files through the program's door: one message, exit 2, nothing printed, nothing written."""

import re
from pathlib import Path

import numpy as np
import pytest

from strength.__main__ import main

CASES = Path(__file__).parent / "cases"
GOOD = (CASES / "threaded.toml").read_text(encoding="utf-8")

# what is replaced in the good file, by what, and what the message must name
SLIPS = [
    ('"bar 18 mm"', '"bar 18"', "stub"),
    ('"bar 18 mm"', '"bar 18 kg"', "stub"),
    ('"bar 18 mm"', '"bar 18,5 mm"', "comma"),
    ('"bar 18 mm"', '"bar nan mm"', "stub"),
    ('"bar 18 mm"', '"bar -18 mm"', "stub"),
    ('"bar 18 mm"', '"tube 18 x 9 mm"', "stub"),
    ('"bar 18 mm"', '"rod 18 mm"', "stub"),
    ('"bar 18 mm"', "18", "stub"),
    ('material = "alloy", up', 'material = "aloy", up', "alloy"),
    ('from = "w0"', 'from = "w0x"', "w0x"),
    ('member = "stub", end = "from"', 'member = "stubb", end = "from"', "stub"),
    ('member = "stub", end = "from"', 'member = "stub", end = "front"', "studs.along"),
    ('reach = "21 mm", ', "", "reach"),
    ('reach = "21 mm"', 'reech = "21 mm"', "reach"),
    ('reach = "21 mm"', 'reach = "21 MPa"', "studs.along.reach"),
    ('reach = "21 mm"', 'reach = "inf mm"', "studs.along.reach"),
    ('size = "M10", reach', 'size = "M10.5", reach', "M10"),
    ('class = "5.8"', 'class = "5.9"', "5.8"),
    ('bolts = "2 x M6"', 'bolts = "M6"', "clamps.split"),
    ("friction = 0.13", 'friction = "0.13 N"', "clamps.split.friction"),
    ('overlap = "90 mm"', 'overlap = "900 m"', "sleeves.socket"),
    ("weldable = true", 'weldable = "yes"', "material.inox.weldable"),
    ('yield_welded = "205 MPa"', 'note = "x"', "yield_welded"),
    ('hold = "all"', 'hold = "some"', "support"),
    ('severity = "hard"', 'severity = "harsh"', "hard"),
    ('{at = "t0", force', '{at = "t99", force', "t99"),
    ('process = "tig", onto', 'process = "glue", onto', "tig"),
    ("shear_planes = 2", "shear_planes = 3", "bolts.screw.shear_planes"),
    ('axis = "0 1 0.1"', 'axis = "0 0 0"', "bolts.screw.axis"),
    ('title = "', 'titel = "', "title"),
    ("[studs]", "[stud]", "stud"),
    ("[loads]", "[loads", "line"),
]


def refused(tmp_path, capsys, data):
    """Message of a file that must be refused."""
    case, record = tmp_path / "case.toml", tmp_path / "record.json"
    case.write_bytes(data)
    assert main(["summary", str(case), "--json", str(record)]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert not record.exists()
    assert case.read_bytes() == data
    return printed.err


@pytest.mark.parametrize(("old", "new", "named"), SLIPS)
def test_a_slip_is_named(tmp_path, capsys, old, new, named):
    """The message names the part, the key or the nearest word."""
    assert old in GOOD
    message = refused(tmp_path, capsys, GOOD.replace(old, new, 1).encode())
    assert named in message
    assert message.startswith("strength: ")
    assert "Traceback" not in message


@pytest.mark.parametrize(
    ("data", "named"),
    [
        (b"", "title"),
        (b"\x00\x01\x02" * 900, "line 1"),
        (bytes(range(128, 256)) * 20, "UTF-8"),
        (GOOD.encode("utf-16"), "UTF-8"),
        (b"title = 3\nmembers = 4\n[[weld]]\n", "members"),
        (b'title = "x"\n' * 2, "title"),
        (
            b'title = "x"\n[points]\na = {from = "b", by = "1 0 0 mm"}\nb = {from = "a", by = "1 2 0 mm"}\n',
            "circle",
        ),
    ],
)
def test_no_case_at_all(tmp_path, capsys, data, named):
    """Empty, binary, other encodings, wrong kinds, circles."""
    assert named in refused(tmp_path, capsys, data)


def test_several_slips_are_told_together(tmp_path, capsys):
    """Each with its own path."""
    text = GOOD
    for old, new in (('reach = "21 mm"', 'reach = "21 K"'), ('"bar 18 mm"', '"bar 18"'), ("0.13", '"x"')):
        text = text.replace(old, new, 1)
    message = refused(tmp_path, capsys, text.encode())
    assert "3 faults" in message
    for path in ("studs.along.reach", "members.stub.section", "clamps.split.friction"):
        assert path in message


@pytest.mark.parametrize("target", ["folder", "nothing"])
def test_what_is_no_file(tmp_path, capsys, target):
    """A folder, or a name of nothing."""
    path = tmp_path / "case.toml"
    if target == "folder":
        path.mkdir()
    assert main(["summary", str(path)]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert "folder" in printed.err


def spoil(text, rng):
    """One random slip of the kind that hands make."""

    def pick(options):
        return options[rng.integers(len(options))]

    lines = text.split("\n")
    k = pick([n for n, line in enumerate(lines) if "=" in line])
    line = lines[k]
    quoted, numbers = list(re.finditer(r'"[^"]*"', line)), list(re.finditer(r"\d+\.?\d*", line))
    kind = rng.integers(6)
    if kind == 0:
        lines.pop(k)
    elif kind == 1:
        lines.insert(k, line)
    elif kind == 2 and numbers:
        spot, new = pick(numbers), pick(["nan", "inf", "-", "1,5", "0", "abc"])
        lines[k] = line[: spot.start()] + new + line[spot.end() :]
    elif kind == 3 and quoted:
        spot, new = pick(quoted), pick(['""', "3", "[]", "{}", "true", '"M7"'])
        lines[k] = line[: spot.start()] + new + line[spot.end() :]
    elif kind == 4:
        at = rng.integers(len(line))
        lines[k] = line[:at] + pick("\"'[]{}=#,\\\x07") + line[at + 1 :]
    else:
        return text[: rng.integers(len(text))]
    return "\n".join(lines)


@pytest.mark.parametrize("seed", range(40))
def test_random_slips(tmp_path, capsys, seed):
    """A spoilt file runs or is refused; never anything in between."""
    rng = np.random.default_rng(seed)
    files = sorted(CASES.glob("*.toml"))
    source = files[seed % len(files)]
    case, record = tmp_path / "case.toml", tmp_path / "record.json"
    case.write_text(spoil(source.read_text(encoding="utf-8"), rng), encoding="utf-8")
    code = main(["summary", str(case), "--json", str(record)])
    printed = capsys.readouterr()
    assert code in (0, 1, 2, 3)
    assert (code == 2) == bool(printed.err) == (not printed.out) == (not record.exists())
