"""The JSON Schema: cases that read validate, damaged ones do not."""

import copy
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from strength.case import schema
from strength.case.kinds import KINDS
from tests.case.cases import BENCH, TRIKE
from tests.case.test_forms import BLOCKS
from tests.case.test_mirror import PARTS

FOLDER = Path(__file__).parents[2] / "cases"
# beside a verification case stand its book's figures, which are no case
CASES = sorted(path for path in FOLDER.rglob("*.toml") if path.name != "expected.toml")


@pytest.fixture(scope="module")
def validator() -> jsonschema.Draft202012Validator:
    """The validator of the case file's schema."""
    return jsonschema.Draft202012Validator(schema())


def test_the_schema_is_one():
    """It is a schema of the draft it says it is."""
    jsonschema.Draft202012Validator.check_schema(schema())
    assert schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("text", [BENCH, BLOCKS, TRIKE, TRIKE + PARTS])
def test_right_cases_validate(validator, text):
    """Both forms, dotted names, short forms."""
    assert list(validator.iter_errors(tomllib.loads(text))) == []


@pytest.mark.parametrize("path", CASES, ids=[str(path.parent.name + "/" + path.name) for path in CASES])
def test_shipped_cases_validate(validator, path):
    """Every case that comes with the program."""
    assert list(validator.iter_errors(tomllib.loads(path.read_text(encoding="utf-8")))) == []


def test_there_are_shipped_cases():
    """The test above has something to look at."""
    assert CASES


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('title = "Lamp bracket on the bench"', ""),
        ('title = "Lamp bracket on the bench"', "title = 3"),
        ("[points]", "[pionts]"),
        ("section =", "sektion ="),
        ("tube 25 x 2 mm", "tube 25 mm"),
        ("tube 25 x 2 mm", "pipe 25 x 2 mm"),
        ("0 0 0 mm", "0 0 mm"),
        ("0 0 0 mm", "0,0,0 mm"),
        ("0 0 0 mm", "0 0 0"),
        ("0 0 -700 N", "0 0 -700"),
        ('foot = "all"', 'foot = "everything"'),
        ('class = "8.8"', "class = 8.8"),
        ('class = "8.8"', 'process = "laser"'),
        ('hang = {forces', 'hang = {vertical = "1", forces'),
        ('hang = {forces', 'hang = {braking = 0.5, forces'),
        ('tip = "300 40 120 mm"', 'tip = {from = "foot"}'),
        ('to = "tip", ', ""),
        ('to = "tip", ', 'to = "tip", from_end = "pin", '),
        ('to = "tip", ', 'to = "tip", only_path = "yes", '),
        ("[loads]", '[basis]\nyield_factor = 0.9\n[loads]'),
        ("[loads]", "[members.x]\n[loads]"),
        ("[loads]", '[[weld]]\nmember = "arm"\nend = "to"\n[loads]'),
        ("[loads]", '[holes]\nh = {member = "arm", along = 2, diameter = "3 mm"}\n[loads]'),
        ("[loads]", "[points.p]\nat = 3\n[loads]"),
    ],
)  # fmt: skip
def test_damaged_cases_do_not(validator, old, new):
    """One thing wrong is enough."""
    assert BENCH.count(old) == 1
    assert not validator.is_valid(tomllib.loads(BENCH.replace(old, new)))


def test_each_required_key_is_required(validator):
    """A block without one of its required keys does not validate, whatever the kind."""
    looked_at = 0
    for kind in KINDS.values():
        definition = schema()["$defs"][kind.word]
        assert set(definition["properties"]) == {"name", *(key.name for key in kind.keys)}
        for key in kind.keys:
            looked_at += 1
            assert (key.name in definition["required"]) is bool(key.missing)
    assert looked_at > 100


def test_the_schema_is_made_anew_each_time():
    """Whoever changes the schema he got changes no other."""
    got: dict[str, Any] = schema()
    kept = copy.deepcopy(got)
    got["properties"].clear()
    assert schema() == kept
