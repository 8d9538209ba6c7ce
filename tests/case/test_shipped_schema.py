"""Every case that ships, and every starter case, validates against the schema; damaged ones do not.

The validator is the `jsonschema` library (JSON Schema draft 2020-12).
"""

import copy
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from strength.case import schema
from strength.case.starter import KINDS, answered, starter
from strength.case.starter.questions import asked_of

ROOT = Path(__file__).parents[2]
CASES = sorted((ROOT / "cases").glob("*/case.toml"))
VALIDATOR = Draft202012Validator(schema())
STEEL = {"plate-metal": "S235JR", "cargo": "0 kg", "lean": "0 deg", "tube": "square 30 x 2 mm"}
ALUMINIUM = {"plate-metal": "6082-T651", "process": "braze", "lean": "33 deg"}


def faults(document: dict[str, Any]) -> list[str]:
    """What the validator finds."""
    return [f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(document)]


def starter_document(what: str, wanted: dict[str, str]) -> dict[str, Any]:
    """A starter case as parsed TOML; answers that its kind is not asked are left out."""
    keys = {question.key for question in asked_of(what)}
    answers = {key: text for key, text in wanted.items() if key in keys}
    return tomllib.loads(starter(answered(answers | {"what": what})))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.parent.name)
def test_shipped_cases_validate(path: Path) -> None:
    """A case that the program reads is one that an editor does not mark."""
    assert faults(tomllib.loads(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize("wanted", [STEEL, ALUMINIUM], ids=["steel", "aluminium"])
@pytest.mark.parametrize("what", KINDS)
def test_starters_validate(what: str, wanted: dict[str, str]) -> None:
    """All kinds, with and without the lines that some answers leave out."""
    assert faults(starter_document(what, wanted)) == []


def _set(*path: str, to: object) -> Callable[[dict[str, Any]], None]:
    def damage(document: dict[str, Any]) -> None:
        *folders, key = path
        for folder in folders:
            document = document[folder]
        document[key] = to

    return damage


def _drop(*path: str) -> Callable[[dict[str, Any]], None]:
    def damage(document: dict[str, Any]) -> None:
        *folders, key = path
        for folder in folders:
            document = document[folder]
        del document[key]

    return damage


DAMAGE = {
    "no title": _drop("title"),
    "unknown key": _set("titel", to="x"),
    "unknown key of a part": _set("wishbones", "lower", "left", "spreadr", to=0.5),
    "no unit": _set("wheels", "front", "left", "radius", to="254"),
    "bare number": _set("wheels", "front", "left", "radius", to=254),
    "decimal comma": _set("wishbones", "lower", "left", "cup", to="30,5 mm"),
    "two numbers for a place": _set("wishbones", "lower", "left", "ball", to="318 172 mm"),
    "no such section": _set("wishbones", "lower", "left", "tube", to="pipe 25 x 2 mm"),
    "no such pivot": _set("wishbones", "upper", "left", "pivot", to="bearing M10"),
    "no such severity": _set("loads", "hard stop", "severity", to="mild"),
    "text for a truth": _set("wheels", "rear", "driven", to="yes"),
    "missing plate": _drop("knuckles", "knuckle", "left", "plate"),
    "strike without up": _drop("loads", "pothole", "strike", "up"),
    "list for a name": _set("struts", "shock", "left", "from", to=["a", "b"]),
}


@pytest.mark.parametrize("name", DAMAGE)
def test_damaged_ones_do_not(name: str) -> None:
    """The validator marks what the program would refuse, at its place."""
    document = copy.deepcopy(starter_document("trike", {}))
    assert faults(document) == []
    DAMAGE[name](document)
    assert faults(document) != []
