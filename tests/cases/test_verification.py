"""Published examples shipped as cases: every figure agrees, and `verify` tells where one would not.

The books' figures stand with their sources in cases/verification/*/expected.toml; they were typed from the
publications or worked out apart from this program.
"""

import json
import shutil
import tomllib
from pathlib import Path

import jsonschema
import pytest
from rich.cells import cell_len

from strength.__main__ import main
from strength.case import schema
from strength.errors import LibraryError
from strength.report.console import as_text
from strength.report.verification import SURE, examples, picked
from strength.report.verified import verified_document, verified_exit

PLACE = Path(__file__).parents[2] / "cases" / "verification"
EXAMPLES = examples(PLACE)
FIGURES = [(example, figure) for example in EXAMPLES for figure in example.figures]


@pytest.mark.parametrize(("example", "figure"), FIGURES, ids=[f"{e.name}: {f.what}" for e, f in FIGURES])
def test_figure_agrees(example, figure) -> None:
    """The book's figure is reproduced within its tolerance."""
    assert figure.agrees, (figure.book, figure.here, figure.failure)


def test_every_example_names_its_source() -> None:
    """A source, how sure, why the tolerance; tolerances of a per cent at most."""
    assert len(EXAMPLES) == sum(path.is_dir() for path in PLACE.iterdir())
    for example in EXAMPLES:
        assert len(example.source) > 20
        for figure in example.figures:
            assert figure.sure in SURE
            assert figure.why
            assert 0.0 < figure.tolerance <= 0.01


@pytest.mark.parametrize("path", sorted(PLACE.glob("*/case.toml")), ids=lambda path: path.parent.name)
def test_case_holds_against_the_schema(path: Path) -> None:
    """The case files are plain case files."""
    jsonschema.validate(tomllib.loads(path.read_text(encoding="utf-8")), schema())


def copied(place: Path, name: str, **changes: str) -> Path:
    """A folder with one example, texts of its expected figures changed."""
    shutil.copytree(PLACE / name, place / name)
    file = place / name / "expected.toml"
    text = file.read_text(encoding="utf-8")
    for old, new in changes.values():
        assert old in text
        text = text.replace(old, new, 1)
    file.write_text(text, encoding="utf-8")
    return place


def test_figure_that_differs_is_told(tmp_path: Path) -> None:
    """A wrong figure: a banner, the word at the figure, exit 1."""
    found = examples(copied(tmp_path, "shigley-tube", one=("60.43 MPa", "61.43 MPa")))
    assert verified_exit(found) == 1
    text = as_text(verified_document(found), 80)
    assert "A PUBLISHED FIGURE IS NOT REPRODUCED" in text
    assert text.count("DIFFERS") == 1
    assert "1 of 2 figures agree" in text


def test_case_that_cannot_be_run_fails(tmp_path: Path) -> None:
    """An example whose case is refused counts as failed, and says why."""
    place = copied(tmp_path, "plug-pin")
    case = place / "plug-pin" / "case.toml"
    case.write_text(case.read_text(encoding="utf-8").replace("E235+N", "E999"), encoding="utf-8")
    found = examples(place)
    assert verified_exit(found) == 1
    assert "E999" in found[0].figures[0].failure
    assert "FAILS" in as_text(verified_document(found), 80)


def test_no_example_is_no_success(tmp_path: Path) -> None:
    """An empty folder proves nothing: exit 1."""
    assert verified_exit(examples(tmp_path)) == 1
    assert "NO EXAMPLE IS INSTALLED" in as_text(verified_document(()), 80)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('book = "4.57"', 'book = "four"', "is no figure"),
        ('book = "60.43 MPa"', 'book = "60.43 furlong"', "is no unit"),
        ("tolerance = 0.002", "tolerances = 0.002", "tolerances"),
        ('sure = "seen"', 'sure = "perhaps"', "`sure` is none of"),
        ('value = "checks/tube/yielding/all/demand"', "", "either `value` or `formula`"),
        ('title = "Tube under combined load"', "", "`title` is missing"),
    ],
)
def test_fault_in_expected_figures_is_named(tmp_path: Path, old: str, new: str, told: str) -> None:
    """A file of figures that cannot be used is an error that names it."""
    with pytest.raises(LibraryError, match=told) as refused:
        examples(copied(tmp_path, "shigley-tube", one=(old, new)))
    assert "shigley-tube" in str(refused.value)


def test_number_is_picked_by_names() -> None:
    """Table, names, key and place; a plain number is itself; what is not there is told."""
    record = {"points": [{"name": "a", "load": "l", "displacement": [1.0, 2.5, 3.0]}]}
    assert picked(record, "points/a/l/displacement/1") == 2.5
    assert picked(record, "-3.5") == -3.5
    with pytest.raises(LookupError, match="no such entry"):
        picked(record, "points/b/l/displacement/1")
    with pytest.raises(LookupError, match="no table"):
        picked(record, "ponits/a/l/displacement/1")


def test_command_prints_and_records(capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 0, every example by name, at most 80 characters a line; the record holds every figure."""
    assert main(["verify"]) == 0
    out = capsys.readouterr().out
    told = " ".join(out.split())
    assert all(example.title in told for example in EXAMPLES)
    assert max(map(cell_len, out.splitlines())) <= 80
    assert f"{len(FIGURES)} of {len(FIGURES)} figures agree" in out
    assert main(["verify", "--json", "-"]) == 0
    record = json.loads(capsys.readouterr().out)
    assert record["agrees"] is True
    assert sum(len(example["figures"]) for example in record["examples"]) == len(FIGURES)
