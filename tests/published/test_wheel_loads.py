"""Wheel loads, tipping and braking limits of three- and four-wheeled vehicles, from print.

Sources:
- J. C. Huston, B. J. Graves, D. B. Johnson, "Three wheeled vehicle dynamics", SAE 820139, 1982
  (abstract): two wheels in front are helped by braking, hurt by accelerating.
- The tadpole's formulas, rigid vehicle, level road: first wheel lifts at a_y/g = (t/2h)(b/L + (a_x/g)(h/L));
  statics, worked out for the data below (no published numeric tipping example of a tadpole was found).
- T. D. Gillespie, Fundamentals of Vehicle Dynamics, SAE 1992, ch. 9: t/2h for four wheels (from memory).
- P. Riel, "The pitch-over of a bicycle", 2005: a_max = g l_f/h on the level, about a_max + s g on a slope s.
- Lean of a single track, tan p = v^2/(r g): every dynamics text (from memory).
- Driver's examination questions on axle loads (numbers seen, wording lost).
"""

import math

import attrs
import pytest

from strength.case.model import Load
from strength.vehicle import balance, limits
from strength.vehicle.sheet import Balanced, Limit
from tests.vehicle.build import G, mass, tadpole, vehicle, wheel

S1 = {"kg": 200.0, "wheelbase": 1400.0, "ahead": 900.0, "height": 600.0, "track": 900.0}
TO_981 = 9.80665 / 9.81  # the published figures take g = 9.81 m/s^2
ROUNDED = 1e-6  # the figures have seven digits


def _z(load: Balanced) -> dict[str, float]:
    return {w.name: w.force[2] / TO_981 for w in load.wheels}


def _limit(found: tuple[Limit, ...], what: str) -> Limit:
    return next(x for x in found if x.what == what and x.with_payload)


def test_standing_tadpole() -> None:
    """S1, worked out from the lever: front axle 1261.286 N (630.643 each), rear 700.714 N."""
    (load,) = balance(tadpole(**S1))
    assert _z(load) == pytest.approx(
        {"front.left": 630.643, "front.right": 630.643, "rear": 700.714}, rel=ROUNDED
    )


def test_braking_tadpole() -> None:
    """S2: 0.5 g moves 420.429 N forward: front axle 1681.714, rear 280.286 N; the rear lifts at 0.8333 g."""
    (load,) = balance(tadpole(**S1, loads=[Load(name="stop", braking=0.5 * G)]))
    z = _z(load)
    assert z["front.left"] + z["front.right"] == pytest.approx(1681.714, rel=ROUNDED)
    assert z["rear"] == pytest.approx(280.286, rel=2 * ROUNDED)
    assert _limit(limits(tadpole(**S1)), "brake").tips_at == pytest.approx(0.8333, abs=5e-5)


@pytest.mark.parametrize(("sign", "outer", "inner"), [(1, "right", "left"), (-1, "left", "right")])
def test_cornering_tadpole(sign: int, outer: str, inner: str) -> None:
    """S3: 0.3 g moves 392.400 N within the front axle: outer 1023.043, inner 238.243 N, rear unchanged."""
    (load,) = balance(tadpole(**S1, loads=[Load(name="bend", cornering=sign * 0.3 * G)]))
    z = _z(load)
    assert z[f"front.{outer}"] == pytest.approx(1023.043, rel=ROUNDED)
    assert z[f"front.{inner}"] == pytest.approx(238.243, rel=2 * ROUNDED)
    assert z["rear"] == pytest.approx(700.714, rel=ROUNDED)


def test_tipping_tadpole() -> None:
    """S4: a_y/g = (t/2h)(b/L) = 0.482143 each way."""
    found = limits(tadpole(**S1))
    assert _limit(found, "corner left").tips_at == pytest.approx(0.482143, abs=5e-7)
    assert _limit(found, "corner right").tips_at == pytest.approx(0.482143, abs=5e-7)


def test_tipping_four_wheels() -> None:
    """S4: the same body on four wheels tips at t/2h = 0.75 (Gillespie ch. 9, from memory)."""
    wheels = [
        wheel(f"{end}.{side}", x, y)
        for end, x in (("front", 1400.0), ("rear", 0.0))
        for side, y in (("left", 450.0), ("right", -450.0))
    ]
    found = limits(vehicle(wheels, [mass("all", 200.0, (900.0, 0.0, 600.0))]))
    assert _limit(found, "corner left").tips_at == pytest.approx(0.75, rel=1e-12)


@pytest.mark.parametrize("braking", [0.0, 0.1, 0.25, 0.4])
def test_braking_helps_a_tadpole(braking: float) -> None:
    """S7 (SAE 820139) with the formula of the module: the limit rises with braking."""
    want = 0.75 * (900.0 / 1400.0 + braking * 600.0 / 1400.0)
    ask = Load(name="bend", braking=braking * 4.0 * G, cornering=want * 4.0 * G)
    (load,) = balance(tadpole(**S1, loads=[ask]))
    assert load.cornering / G == pytest.approx(want, rel=1e-11)
    assert load.braking / G == pytest.approx(braking, rel=1e-11, abs=1e-15)


def test_driving_hurts_a_tadpole() -> None:
    """S7: the same formula with a_x < 0: 0.75 (b/L - 0.2 h/L)."""
    want = 0.75 * (900.0 / 1400.0 - 0.2 * 600.0 / 1400.0)
    base = tadpole(**S1, loads=[Load(name="bend", driving=0.6 * G, cornering=-3.0 * want * G)])
    case = attrs.evolve(base, wheels=tuple(attrs.evolve(w, driven=w.name == "rear") for w in base.wheels))
    (load,) = balance(case)
    assert -load.cornering / G == pytest.approx(want, rel=1e-11)
    assert load.driving / G == pytest.approx(0.2, rel=1e-11)


@pytest.mark.parametrize(
    ("speed", "radius", "lean"), [(15.0, 5.0, 19.4913), (20.0, 8.0, 21.4685), (25.0, 10.0, 26.1784)]
)
def test_lean_in_balance(speed: float, radius: float, lean: float) -> None:
    """S5: tan p = v^2/(r g), km/h and m; figures for g = 9.81 m/s^2."""
    cornering = (speed / 3.6) ** 2 / radius * 1000.0 * TO_981
    case = tadpole(**S1, loads=[Load(name="bend", cornering=-cornering)], leaning=math.radians(40.0))
    (load,) = balance(case)
    assert math.degrees(load.lean) == pytest.approx(-lean, abs=5e-5)
    assert all(w.force[1] == pytest.approx(0.0, abs=1e-9) for w in load.wheels)


def test_golden_rule() -> None:
    """S6 (seen): mass centre a third of the wheelbase behind the front: a third of the weight on each."""
    (load,) = balance(tadpole(track=870.0, wheelbase=1290.0, ahead=860.0, height=540.0, kg=137.0))
    third = 137.0 * 9.80665 / 3.0
    assert [w.force[2] for w in load.wheels] == pytest.approx([third] * 3, rel=1e-12)


@pytest.mark.parametrize(
    ("kg", "front", "wheelbase", "height", "driving", "axle", "want"),
    [
        (1000.0, 0.55, 2500.0, 400.0, 5000.0, "front", 4595.5),
        (1200.0, 0.60, 2700.0, 350.0, 4000.0, "rear", 5331.0),
    ],
)
def test_examination_axle_loads(
    kg: float, front: float, wheelbase: float, height: float, driving: float, axle: str, want: float
) -> None:
    """S8 (numbers seen, interpretation ours): axle loads of a car that accelerates, g = 9.81 m/s^2."""
    wheels = [
        wheel(f"{end}.{side}", x, y, driven=end == "rear")
        for end, x in (("front", wheelbase), ("rear", 0.0))
        for side, y in (("left", 710.0), ("right", -710.0))
    ]
    load = Load(name="pull away", driving=driving * TO_981)
    (found,) = balance(vehicle(wheels, [mass("all", kg, (front * wheelbase, 0.0, height))], [load]))
    z = _z(found)
    assert z[f"{axle}.left"] + z[f"{axle}.right"] == pytest.approx(want, rel=1e-4)


def test_pitch_over_on_the_level() -> None:
    """B8 (seen quoted): l_f = 0.60 m, h = 1.20 m: 0.5 g."""
    case = tadpole(track=700.0, wheelbase=1050.0, ahead=450.0, height=1200.0, kg=95.0)
    assert _limit(limits(case), "brake").tips_at == pytest.approx(0.5, rel=1e-12)


def test_pitch_over_down_a_slope() -> None:
    """B7 (Riel, seen): 0.7 g level is about 0.6 g down 10 %; exactly 0.7 cos - sin."""
    case = tadpole(track=700.0, wheelbase=1250.0, ahead=410.0, height=1200.0, kg=95.0)
    found = limits(case)
    assert _limit(found, "brake").tips_at == pytest.approx(0.7, rel=1e-12)
    down = _limit(found, "brake, 10 % descent").tips_at
    assert down == pytest.approx(0.6, rel=0.01)  # the source linearises the slope
    slope = math.atan(0.1)
    assert down == pytest.approx(0.7 * math.cos(slope) - math.sin(slope), rel=1e-12)
