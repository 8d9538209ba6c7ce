"""Wheel forces in balance, against closed forms and against scipy.

Closed forms: a rigid body on equal springs, Z_i = W/n + (M_x y_i)/sum y^2 + (M_y x_i)/sum x^2 about the
springs' centre (as a rivet group; any strength text); levers.
"""

import math

import attrs
import numpy as np
import pytest
from hypothesis import given, settings

from strength.case.model import Case, Load
from strength.vehicle import balance
from tests.vehicle.build import G, mass, tadpole, vehicle, wheel
from tests.vehicle.reference import equations, least_norm, residual
from tests.vehicle.strategies import vehicles


def _quad(loads: list[Load], *, side: float = 40.0, **keys: object) -> Case:
    """Wheelbase 1300 about x = 150, track 820; 160 kg at (230, side, 510)."""
    wheels = [
        wheel(f"{end}.{name}", 150.0 + x, y, braked=end == "front", driven=name == "left", grip=0.7)
        for end, x in (("front", 650.0), ("rear", -650.0))
        for name, y in (("left", 410.0), ("right", -410.0))
    ]
    return vehicle(wheels, [mass("all", 160.0, (230.0, side, 510.0))], loads, **keys)


def test_four_equal_springs() -> None:
    """Closed form of four equal springs with the resultant off centre both ways (bump, braking and bend)."""
    (load,) = balance(_quad([Load(name="all", vertical=1.4, braking=0.11 * G, cornering=0.17 * G)]))
    weight = 160.0 * 9.80665
    off_x = 80.0 * 1.4 + 510.0 * 0.11
    off_y = 40.0 * 1.4 - 510.0 * 0.17
    for wheel_force, (x, y) in zip(
        load.wheels, ((650.0, 410.0), (650.0, -410.0), (-650.0, 410.0), (-650.0, -410.0)), strict=True
    ):
        want = weight * (1.4 / 4.0 + off_x * x / (4 * 650.0**2) + off_y * y / (4 * 410.0**2))
        assert wheel_force.force[2] == pytest.approx(want, rel=1e-12)


def test_one_wheel_of_four_lifts() -> None:
    """Resultant near one corner: the opposite wheel lifts and three wheels follow from the levers."""
    wheels = [
        wheel(n, x, y)
        for n, x, y in (("a", 1000.0, 400.0), ("b", 1000.0, -400.0), ("c", 0.0, 400.0), ("d", 0.0, -400.0))
    ]
    (load,) = balance(vehicle(wheels, [mass("all", 100.0, (850.0, -300.0, 500.0))]))
    weight = 980.665
    # c lifts: y: (a - b - d) 400 = -300 W; x: (a + b) 1000 = 850 W
    a = 0.5 * weight * (1.0 - 300.0 / 400.0)
    want = {"a": a, "b": 0.85 * weight - a, "c": 0.0, "d": 0.15 * weight}
    assert {w.name: w.force[2] for w in load.wheels} == pytest.approx(want, rel=1e-12, abs=1e-9)
    assert [w.name for w in load.wheels if w.lifts] == ["c"]
    assert load.notes == ("lifts c",)
    assert load.scaled_to == 1.0


def test_side_force_follows_the_weight() -> None:
    """Y_i = Z_i a_y/g upright in a left turn (positive), M a_y in all."""
    (load,) = balance(_quad([Load(name="bend", cornering=0.21 * G)]))
    for w in load.wheels:
        assert w.force[1] == pytest.approx(0.21 * w.force[2], rel=1e-12)
    assert sum(w.force[1] for w in load.wheels) == pytest.approx(160.0 * 0.21 * 9.80665, rel=1e-12)


@pytest.mark.parametrize(
    ("load", "takers", "sign"),
    [
        (Load(name="stop", braking=0.3 * G), ("front.left", "front.right"), -1.0),
        (Load(name="go", driving=0.3 * G), ("front.left", "rear.left"), 1.0),
    ],
)
def test_x_is_shared_by_those_that_brake_or_drive(load: Load, takers: tuple[str, ...], sign: float) -> None:
    """X in proportion to Z among them, nothing on the others."""
    (found,) = balance(_quad([load]))
    carried = sum(w.force[2] for w in found.wheels if w.name in takers)
    for w in found.wheels:
        want = sign * 160.0 * 0.3 * 9.80665 * w.force[2] / carried if w.name in takers else 0.0
        assert w.force[0] == pytest.approx(want, rel=1e-12, abs=1e-12)


def test_a_wheel_off_the_ground_is_left_out() -> None:
    """Three wheels remain: levers; the fourth has no force and lifts, without a note."""
    (load,) = balance(_quad([Load(name="gap", off_ground=("rear.left",))], side=-90.0))
    weight = 160.0 * 9.80665
    front = weight * (650.0 + 80.0) / 1300.0
    left = weight * (410.0 - 90.0) / 820.0
    want = {
        "front.left": left,
        "front.right": front - left,
        "rear.left": 0.0,
        "rear.right": weight - front,
    }
    assert {w.name: w.force[2] for w in load.wheels} == pytest.approx(want, rel=1e-12, abs=1e-9)
    assert next(w for w in load.wheels if w.name == "rear.left").lifts
    assert load.notes == ()


@pytest.mark.parametrize(("asked", "slides"), [(0.699, False), (0.7, False), (0.701, True)])
def test_grip_is_the_limit_of_side_force(asked: float, slides: bool) -> None:
    """S/N = a_y/g at every wheel against a grip of 0.7; at the limit itself it holds."""
    low = attrs.evolve(_quad([Load(name="bend", cornering=asked * G)], side=0.0))
    low = attrs.evolve(low, masses=(mass("all", 160.0, (230.0, 10.0, 260.0)),))
    (load,) = balance(low)
    assert load.scaled_to == 1.0
    assert [w.slides for w in load.wheels] == [slides] * 4
    assert ("slides rear.right" in load.notes) is slides


def test_grip_is_judged_on_the_road_when_leaning() -> None:
    """Leaning at tan p = a_y/g no side force is left in body axes; on the road S/N = a_y/g all the same."""
    for asked, slides in ((0.69, False), (0.71, True)):
        case = _quad([Load(name="bend", cornering=-asked * G)], leaning=math.radians(44.0))
        (load,) = balance(case)
        assert load.lean == pytest.approx(-math.atan(asked), rel=1e-14)
        assert [w.slides for w in load.wheels] == [slides] * 4
        assert "linkage as drawn" in load.notes


def test_braked_wheels_slide_before_the_rest() -> None:
    """Front brakes only: front X/Z = M a/sum Z over grip while the rear, with side force alone, holds."""
    (load,) = balance(_quad([Load(name="stop", braking=0.6 * G, cornering=0.1 * G)]))
    front = (650.0 + 80.0 + 510.0 * 0.6) / 1300.0  # share of the weight
    assert math.hypot(0.6 / front, 0.1) > 0.7  # by hand: front slides
    assert [w.name for w in load.wheels if w.slides] == ["front.left", "front.right"]
    assert load.notes == ("slides front.left", "slides front.right")


def test_a_small_lean_keeps_the_linkage_as_drawn_unsaid() -> None:
    """10 degrees is the border: atan(0.17) = 9.65, atan(0.18) = 10.2 degrees."""
    for asked, said in ((0.17, False), (0.18, True)):
        (load,) = balance(_quad([Load(name="bend", cornering=asked * G)], leaning=0.5))
        assert ("linkage as drawn" in load.notes) is said


def test_tipping_is_told_and_scaled() -> None:
    """A tadpole asked for twice what it bears is computed where it tips, one wheel just off the ground."""
    case = tadpole(
        kg=150.0, wheelbase=1250.0, ahead=800.0, height=520.0, track=760.0, side=15.0,
        loads=[Load(name="bend", cornering=1.1 * G)],
    )  # fmt: skip
    (load,) = balance(case)
    # from the line between rear and front right contact: half track there, plus 15 mm, over the height
    want = (380.0 * 800.0 / 1250.0 + 15.0) / 520.0
    assert load.scaled_to * 1.1 == pytest.approx(want, rel=1e-12)
    assert load.notes[0] == f"tips at {want:.2f} g"
    assert "lifts front.left" in load.notes


@settings(max_examples=120, deadline=None)
@given(vehicles())
def test_every_load_is_in_balance(case: Case) -> None:
    """Law: forces sum to zero in all three directions, moments about x and y too, whatever the load."""
    (load,) = balance(case)
    rest, turn = residual(case, load)
    size = sum(m.mass for m in case.masses) * 9.80665 * max(1.0, load.vertical)
    assert np.abs(rest).max() <= 1e-9 * size
    assert np.abs(turn[:2]).max() <= 1e-9 * size * 1000.0
    assert all(w.force[2] >= 0.0 for w in load.wheels)


@settings(max_examples=60, deadline=None)
@given(vehicles())
def test_least_sum_of_squares(case: Case) -> None:
    """Second way: scipy's SLSQP finds no wheel loads with a smaller sum of squares, and the same ones."""
    (load,) = balance(case)
    size = sum(m.mass for m in case.masses) * 9.80665
    z = np.array([w.force[2] for w in load.wheels]) / size
    columns, right = equations(case, load)
    other = least_norm(columns, right, len(z))
    assert z @ z <= other @ other + 1e-7
    if load.scaled_to == 1.0:
        assert z == pytest.approx(other, abs=2e-5)
