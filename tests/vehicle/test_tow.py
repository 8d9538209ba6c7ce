"""A hand cart on two wheels and a hitch: levers, all by hand."""

import math

import numpy as np
import pytest
from hypothesis import given, settings

from strength.case.model import Case, Load
from strength.vehicle import balance
from tests.vehicle.build import G, mass, vehicle, wheel
from tests.vehicle.reference import equations, least_norm, residual
from tests.vehicle.strategies import vehicles

WEIGHT = 90.0 * 9.80665
HALF, LENGTH, EYE, HIGH = (
    355.0,
    1460.0,
    620.0,
    480.0,
)  # half track, hitch ahead of the axle, its height, mass height


def _cart(load: Load, *, ahead: float = 130.0, braked: bool = False, height: float = HIGH) -> Case:
    wheels = [
        wheel("left", -40.0, HALF, level=-30.0, braked=braked),
        wheel("right", -40.0, -HALF, level=-30.0, braked=braked),
    ]
    at = (ahead - 40.0, 0.0, height - 30.0)
    return vehicle(wheels, [mass("load", 90.0, at)], [load], tow=(LENGTH - 40.0, 0.0, EYE - 30.0))


@pytest.mark.parametrize("ahead", [130.0, -75.0])
def test_standing_on_the_hitch(ahead: float) -> None:
    """Lever: the hitch carries W x ahead/length; pulls down with the mass behind the axle."""
    (load,) = balance(_cart(Load(name="standing"), ahead=ahead))
    assert load.tows[0].force == pytest.approx((0.0, 0.0, WEIGHT * ahead / LENGTH), rel=1e-12)
    assert load.wheels[0].force[2] == pytest.approx(0.5 * WEIGHT * (1.0 - ahead / LENGTH), rel=1e-12)
    assert load.notes == ()


def test_the_hitch_brakes_a_cart_without_brakes() -> None:
    """All of X at the hitch's height: Z_t L = W ahead + M a (h - h_t)."""
    (load,) = balance(_cart(Load(name="stop", braking=0.4 * G)))
    (tow,) = load.tows
    assert tow.force[0] == pytest.approx(-0.4 * WEIGHT, rel=1e-12)
    assert tow.force[2] == pytest.approx((WEIGHT * 130.0 + 0.4 * WEIGHT * (HIGH - EYE)) / LENGTH, rel=1e-12)
    assert [w.force[0] for w in load.wheels] == [0.0, 0.0]


def test_braked_wheels_spare_the_hitch() -> None:
    """X on the ground at the wheels: Z_t L = W ahead + M a h; none of X at the hitch."""
    (load,) = balance(_cart(Load(name="stop", braking=0.4 * G), braked=True))
    (tow,) = load.tows
    assert tow.force[0] == 0.0
    assert tow.force[2] == pytest.approx((WEIGHT * 130.0 + 0.4 * WEIGHT * HIGH) / LENGTH, rel=1e-12)
    assert sum(w.force[0] for w in load.wheels) == pytest.approx(-0.4 * WEIGHT, rel=1e-12)


def test_side_force_at_the_hitch_acts_at_its_height() -> None:
    """Y_t = Z_t a/g at h_t: (Z_right - Z_left) t/2 = M a h - h_t Y_t."""
    (load,) = balance(_cart(Load(name="bend", cornering=0.3 * G)))
    (tow,) = load.tows
    left, right = (w.force for w in load.wheels)
    assert tow.force[1] == pytest.approx(0.3 * tow.force[2], rel=1e-12)
    assert (right[2] - left[2]) * HALF == pytest.approx(0.3 * WEIGHT * HIGH - EYE * tow.force[1], rel=1e-12)


def test_a_cart_tips_about_wheel_and_hitch() -> None:
    """Z_left = 0: a/g = (t/2)(W - Z_t)/(W h - h_t Z_t)."""
    tow = WEIGHT * 130.0 / LENGTH
    want = HALF * (WEIGHT - tow) / (WEIGHT * 900.0 - EYE * tow)
    (load,) = balance(_cart(Load(name="bend", cornering=2.0 * G), height=900.0))
    assert load.cornering / G == pytest.approx(want, rel=1e-12)
    assert load.wheels[0].lifts


def test_a_cart_cannot_lift_both_wheels() -> None:
    """Braked at the wheels so hard that the axle lifts: Z_t = W where a/g = (L - ahead)/h."""
    (load,) = balance(_cart(Load(name="stop", braking=3.9 * G), braked=True, height=700.0))
    assert load.braking / G == pytest.approx((LENGTH - 130.0) / 700.0, rel=1e-12)
    assert load.tows[0].force[2] == pytest.approx(WEIGHT, rel=1e-9)
    # both braked wheels have lifted: what cannot be had is told, and shared alike
    assert any("no braked wheel touches" in n for n in load.notes)
    assert load.wheels[0].force[0] == pytest.approx(load.wheels[1].force[0])
    assert load.wheels[0].slides


@settings(max_examples=60, deadline=None)
@given(vehicles(leaning=False, towed=True))
def test_balance_with_a_hitch(case: Case) -> None:
    """Law: in balance at the hitch's own height; and SLSQP finds the same least sum of squares."""
    (load,) = balance(case)
    rest, turn = residual(case, load)
    size = sum(m.mass for m in case.masses) * 9.80665 * max(1.0, load.vertical)
    assert np.abs(rest).max() <= 1e-9 * size
    assert np.abs(turn[:2]).max() <= 1e-6 * size
    z = np.array([w.force[2] for w in load.wheels] + [load.tows[0].force[2]]) * 1.0
    weight = sum(m.mass for m in case.masses) * 9.80665
    columns, right = equations(case, load)
    other = least_norm(columns, right, len(load.wheels))
    assert (z @ z) / weight**2 <= other @ other + 1e-6
    assert math.isfinite(z.sum())
