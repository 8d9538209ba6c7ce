"""Wheel forces by hand: on every shipped case, and on a trike whose loads are known in closed form."""

from pathlib import Path

import pytest

from strength.case import case_from_text, read_case
from strength.studies.explain.loads import explain_load
from tests.studies.explain.worked import PATHS, named

TRIKE = """
title = "Rigid trike"
[points]
left = "0 350 200 mm"
right = "0 -350 200 mm"
rear = "-1100 0 250 mm"
[members]
front = {from="left", to="right", section="bar 30 mm", material="S235JR"}
spine = {from="rear", to="0 0 200 mm", section="bar 30 mm", material="S235JR"}
[wheels]
front-l = {centre="left", radius="200 mm", braked=true}
front-r = {centre="right", radius="200 mm", braked=true}
back = {centre="rear", radius="250 mm"}
[masses]
all = {mass="120 kg", at="-385 0 550 mm", carried_by=["left", "right", "rear"]}
[loads]
stop = {braking="0.4 g"}
"""


@pytest.mark.parametrize("path", PATHS, ids=named)
def test_every_load_is_worked_out(path: Path) -> None:
    """Lean, lifted wheels, hitches, strikes and tipping: the sheet comes to the load's forces."""
    case = read_case(path)
    assert not [load.name for load in case.loads if not explain_load(case, load.name).agrees]


def test_braked_trike_in_closed_form() -> None:
    """Load on the front axle W b/L + m a h/L, b from the rear axle (any text on vehicle statics)."""
    found = explain_load(case_from_text(TRIKE, "trike.toml"), "stop")
    weight, base, height = 120.0 * 9.80665, 1100.0, 550.0
    front = weight * (base - 385.0) / base + weight * 0.4 * height / base
    forces = {wheel.name: wheel.found for wheel in found.wheels}
    assert forces["front-l"][2] == pytest.approx(front / 2.0, rel=1e-9)
    assert forces["back"][2] == pytest.approx(weight - front, rel=1e-9)
    assert forces["front-r"][0] == pytest.approx(-0.4 * weight / 2.0, rel=1e-9)
    assert forces["back"][:2] == pytest.approx((0.0, 0.0))
    assert [(mass.name, mass.height) for mass in found.masses] == [("all", 550.0)]


def test_load_by_hand_has_no_wheels() -> None:
    """Loads of hand forces alone on a held structure: nothing stands on the road."""
    path = next(path for path in PATHS if named(path) == "one-arm")
    case = read_case(path)
    found = explain_load(case, case.loads[0].name)
    assert found.by_hand
    assert found.agrees
    assert found.wheels == ()
