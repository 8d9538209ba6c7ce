"""Limits of the whole vehicle, by hand from levers and friction."""

import math

import attrs
import pytest
from hypothesis import example, given, settings

from strength.case.model import Case, Load
from strength.vehicle import balance, limits
from strength.vehicle.sheet import Limit
from tests.vehicle.build import G, mass, tadpole, vehicle, wheel
from tests.vehicle.reference import equations, least_norm
from tests.vehicle.strategies import vehicles

GEOMETRY = {"kg": 130.0, "wheelbase": 1240.0, "ahead": 790.0, "height": 460.0, "track": 900.0}


def _get(case: Case, what: str, *, with_payload: bool = True) -> Limit:
    return next(x for x in limits(case) if x.what == what and x.with_payload is with_payload)


def _gripped(case: Case, **grips: float) -> Case:
    return attrs.evolve(
        case,
        wheels=tuple(attrs.evolve(w, grip=grips.get(w.name.replace(".", "_"), 0.8)) for w in case.wheels),
    )


def test_all_limits_in_order() -> None:
    """With all masses, then with the payload left out."""
    names = [
        "corner left",
        "corner right",
        "brake",
        "brake, 10 % descent",
        "side slope left",
        "side slope right",
    ]
    found = limits(tadpole(**GEOMETRY))
    assert [x.what for x in found] == names * 2
    assert [x.with_payload for x in found] == [True] * 6 + [False] * 6


def test_corner_speeds() -> None:
    """V = sqrt(a r) at the lesser limit: tips at (t/2h)(b/L) = 0.623 g before it slides at 0.8 g."""
    corner = _get(tadpole(**GEOMETRY), "corner left")
    tips = 450.0 * 790.0 / 1240.0 / 460.0
    assert corner.tips_at == pytest.approx(tips, rel=1e-12)
    assert corner.slides_at == 0.8
    assert corner.governs == "tips"
    for label, radius in (("5 m", 5.0), ("10 m", 10.0), ("20 m", 20.0)):
        assert dict(corner.speed)[label] == pytest.approx(math.sqrt(tips * 9.80665 * radius), rel=1e-12)


def test_least_grip_slides_first_in_a_bend() -> None:
    """Side force is shared by weight: the wheel of least grip decides, if it still carries weight there."""
    case = _gripped(tadpole(**GEOMETRY), front_left=0.3)
    assert _get(case, "corner left").slides_at == 0.3
    assert _get(case, "corner left").governs == "slides"
    late = _gripped(tadpole(**GEOMETRY), front_left=0.7)
    assert _get(late, "corner left").slides_at == 0.8  # front.left has lifted at 0.623 g
    assert _get(late, "corner right").slides_at == 0.7  # the outer wheel


def test_front_brakes_slide() -> None:
    """Front brakes: M a = grip W (b + a h/g)/L, so a/g = grip b/(L - grip h)."""
    brake = _get(tadpole(**GEOMETRY), "brake")
    assert brake.slides_at == pytest.approx(0.8 * 790.0 / (1240.0 - 0.8 * 460.0), rel=1e-11)
    assert brake.tips_at == pytest.approx(450.0 / 460.0, rel=1e-12)
    assert brake.governs == "slides"
    assert brake.speed == ()


def test_front_brakes_slide_down_a_slope() -> None:
    """M (a + g sin) = grip W (cos b + (a/g + sin) h)/L: a/g + sin = grip b cos/(L - grip h)."""
    slope = math.atan(0.1)
    brake = _get(tadpole(**GEOMETRY), "brake, 10 % descent")
    want = 0.8 * 790.0 * math.cos(slope) / (1240.0 - 0.8 * 460.0) - math.sin(slope)
    assert brake.slides_at == pytest.approx(want, rel=1e-11)


def test_rear_brake_slides() -> None:
    """Rear brake: a/g = grip (L - b)/(L + grip h)."""
    case = tadpole(**GEOMETRY, braked=("rear",))
    brake = _get(case, "brake")
    assert brake.slides_at == pytest.approx(0.8 * 450.0 / (1240.0 + 0.8 * 460.0), rel=1e-11)


def test_all_wheels_braked_slide_at_their_grip() -> None:
    """X/Z = a/g everywhere; beyond tipping the same rule goes on: a high vehicle tips at 450/900 g first."""
    case = tadpole(**{**GEOMETRY, "height": 900.0}, braked=("front.left", "front.right", "rear"))
    brake = _get(case, "brake")
    assert brake.tips_at == pytest.approx(0.5, rel=1e-12)
    assert brake.slides_at == pytest.approx(0.8, rel=1e-9)
    assert brake.governs == "tips"


def test_no_brake_no_slide() -> None:
    """Without a braked wheel nothing slides by braking."""
    assert _get(tadpole(**GEOMETRY, braked=()), "brake").slides_at is None


def test_over_six_g_is_none() -> None:
    """A mass 40 mm high on a 900 mm track, with grip without end."""
    case = _gripped(tadpole(**{**GEOMETRY, "height": 40.0}), front_left=7.0, front_right=7.5, rear=8.0)
    corner = _get(case, "corner right")
    assert (corner.tips_at, corner.slides_at, corner.governs) == (None, None, "")
    assert dict(corner.speed) == {"5 m": None, "10 m": None, "20 m": None}
    assert _get(case, "side slope left").angle is None


def test_side_slope_by_tipping_and_by_grip() -> None:
    """Tan = distance to the edge / height where that is under the grip; else atan(grip).

    Mass centre 25 mm left: (450 b/L - 25)/h to the left, plus 25 to the right.
    """
    case = tadpole(**GEOMETRY, side=25.0)
    half = 450.0 * 790.0 / 1240.0
    left, right = _get(case, "side slope left"), _get(case, "side slope right")
    assert left.angle == pytest.approx(math.atan((half - 25.0) / 460.0), rel=1e-12)
    assert right.angle == pytest.approx(math.atan((half + 25.0) / 460.0), rel=1e-12)
    assert left.governs == "tips"
    slick = _gripped(case, front_left=0.4, front_right=0.4, rear=0.4)
    assert _get(slick, "side slope left").angle == pytest.approx(math.atan(0.4), rel=1e-12)
    assert _get(slick, "side slope left").governs == "slides"


def test_standing_on_a_slope_does_not_lean() -> None:
    """A body that may lean is judged upright on a side slope, and leaning in a bend."""
    upright, leaning = tadpole(**GEOMETRY), tadpole(**GEOMETRY, leaning=0.4)
    assert _get(leaning, "side slope left").angle == _get(upright, "side slope left").angle
    corner = _get(leaning, "corner left").tips_at
    k = 450.0 * 790.0 / 1240.0 / 460.0
    assert corner == pytest.approx(math.tan(0.4) + k / math.cos(0.4) ** 2, rel=1e-12)


def test_payload_left_out() -> None:
    """A high payload behind: without it the mass centre is the vehicle's own."""
    case = tadpole(**GEOMETRY)
    box = mass("box", 60.0, (95.0, 0.0, 900.0), payload=True)
    case = attrs.evolve(case, masses=(*case.masses, box))
    empty = _get(case, "corner left", with_payload=False)
    assert empty.tips_at == pytest.approx(450.0 * 790.0 / 1240.0 / 460.0, rel=1e-12)
    ahead = (130.0 * 790.0 + 60.0 * 60.0) / 190.0
    height = (130.0 * 460.0 + 60.0 * 900.0) / 190.0
    assert _get(case, "corner left").tips_at == pytest.approx(450.0 * ahead / 1240.0 / height, rel=1e-12)
    only = attrs.evolve(case, masses=(box,))
    assert {x.with_payload for x in limits(only)} == {True}


def test_a_cart_on_a_hitch_has_limits() -> None:
    """The cart of the lever: (t/2)(W - Z_t)/(W h - h_t Z_t) ; braked by its hitch (L - b)/(h - h_t)."""
    wheels = [wheel("left", 0.0, 355.0), wheel("right", 0.0, -355.0)]
    case = vehicle(wheels, [mass("load", 90.0, (130.0, 0.0, 900.0))], tow=(1460.0, 0.0, 620.0))
    tow = 130.0 / 1460.0
    assert _get(case, "corner right").tips_at == pytest.approx(
        355.0 * (1.0 - tow) / (900.0 - 620.0 * tow), rel=1e-12
    )
    brake = _get(case, "brake")
    assert brake.tips_at == pytest.approx((1460.0 - 130.0) / (900.0 - 620.0), rel=1e-12)
    assert brake.slides_at is None


def _touching_again() -> Case:
    """Six wheels; w4, of little grip, lifts before that grip is asked for and touches again later."""
    spots = (
        (1367.0, 432.0),
        (1329.0, -431.0),
        (-4.0, 40.0),
        (-458.0, -365.0),
        (364.0, 493.0),
        (-797.0, 291.0),
    )
    wheels = [
        wheel(f"w{n}", x, y, grip=0.47 if n == 4 else 1.3, braked=n < 2) for n, (x, y) in enumerate(spots)
    ]
    return vehicle(wheels, [mass("m", 50.0, (1099.0, -333.0, 290.0))])


def test_a_wheel_that_touches_again() -> None:
    """In a right turn w4 hangs at its grip, 0.47 g, and touches later, where SLSQP starts to load it."""
    case = _touching_again()
    slides = _get(case, "corner right").slides_at
    assert slides is not None
    assert 0.48 < slides < 1.2

    def carried(cornering: float) -> float:
        (at,) = balance(attrs.evolve(case, loads=(Load(name="bend", cornering=-cornering * G),)))
        return float(least_norm(*equations(case, at), 6)[4])

    assert carried(0.47) < 1e-6
    assert carried(slides - 0.01) < 1e-6
    assert carried(slides + 0.01) > 1e-4


@settings(max_examples=40, deadline=None)
@given(vehicles())
@example(_touching_again())
def test_limits_agree_with_loads(case: Case) -> None:
    """Law: just under the lower limit a load neither tips nor slides; just over, it does one of them."""
    for limit in limits(case):
        if not limit.with_payload or limit.what not in ("corner left", "corner right", "brake"):
            continue
        least = min(v for v in (limit.tips_at, limit.slides_at) if v is not None)
        for factor, bad in ((1.0 - 1e-6, False), (1.0 + 1e-6, True)):
            a = least * factor * G
            ask = {
                "corner left": {"cornering": a},
                "corner right": {"cornering": -a},
                "brake": {"braking": a},
            }
            (load,) = balance(attrs.evolve(case, loads=(Load(name="at", **ask[limit.what]),)))
            assert (load.scaled_to < 1.0 or any(w.slides for w in load.wheels)) is bad
