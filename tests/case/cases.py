"""Small cases for the tests of the reading: a bench with one bracket, a three-wheeler."""

import pytest

from strength.case import Case, case_from_text
from strength.errors import CaseError

BENCH = """
title = "Lamp bracket on the bench"
[defaults]
material = {tube = "E235+N", box = "S235JRH", flat = "S235JR", bar = "42CrMo4+QT"}
filler = "ER70S-6"
class = "8.8"
[points]
foot = "0 0 0 mm"
tip = "300 40 120 mm"
[members]
arm = {from = "foot", to = "tip", section = "tube 25 x 2 mm"}
[supports]
foot = "all"
[loads]
hang = {forces = [{at = "tip", force = "0 0 -700 N"}]}
"""
TRIKE = """
title = "Three wheels on a cross"
mirror = true
[vehicle]
leaning = "20 deg"
[defaults]
material = {tube = "E235+N", flat = "S235JR", bar = "C45+N"}
filler = "ER70S-6"
class = "8.8"
[points]
hub.left = "0 400 250 mm"
tail = "-1100 0 260 mm"
middle = "0 0 250 mm"
[members]
axle.left = {from = "middle", to = "hub.left", section = "tube 40 x 3 mm"}
spine = {from = "middle", to = "tail", section = "tube 50 x 2 mm"}
[wheels]
front.left = {centre = "hub.left", radius = "250 mm", braked = true}
rear = {centre = "tail", radius = "260 mm", driven = true}
[masses]
rider = {mass = "80 kg", at = "-500 0 700 mm", carried_by = ["middle", "tail"]}
[loads]
standing = {}
"""


def faults(text: str) -> dict[str, list[str]]:
    """The faults of a case that is refused, by path."""
    with pytest.raises(CaseError) as caught:
        case_from_text(text)
    found: dict[str, list[str]] = {}
    for path, why in caught.value.faults:
        assert why
        assert "\n" not in why
        found.setdefault(path, []).append(why)
    return found


def only_fault(text: str) -> tuple[str, str]:
    """Path and text of the one fault of a case."""
    found = faults(text)
    assert len(found) == 1, found
    ((path, whys),) = found.items()
    assert len(whys) == 1, found
    return path, whys[0]


def read(text: str) -> Case:
    """A case that is accepted."""
    return case_from_text(text)
