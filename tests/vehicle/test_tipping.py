"""Where a manoeuvre tips the vehicle: closed forms with lean, and scipy's linear programming."""

import math

import attrs
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from strength.case.model import Case, Load
from strength.vehicle import balance
from strength.vehicle.edges import first_below, hull_edges
from tests.vehicle.build import G, mass, tadpole, vehicle, wheel
from tests.vehicle.reference import spare_both
from tests.vehicle.strategies import vehicles


def _quad(half_track: float, side: float, height: float, load: Load, lean: float) -> Case:
    wheels = [wheel(f"{x:.0f} {y:.0f}", x, y) for x in (900.0, -300.0) for y in (half_track, -half_track)]
    return vehicle(wheels, [mass("all", 120.0, (250.0, side, height))], [load], leaning=lean)


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_full_lean_helps(sign: float) -> None:
    """Beyond full lean P a tadpole tips at a_y/g = tan P + k/cos^2 P on the flat road, k = (t/2)(b/L)/h.

    By hand: mass centre at h sin P to the inside and h cos P high, contacts widened by 1/cos P; on
    the banked road the limit is tan(P + atan k), always higher.
    """
    k = 410.0 * 780.0 / 1300.0 / 640.0
    lean = math.radians(17.0)
    case = tadpole(
        track=820.0,
        wheelbase=1300.0,
        ahead=780.0,
        height=640.0,
        kg=140.0,
        loads=[Load(name="bend", cornering=sign * 1.9 * G)],
        leaning=lean,
    )
    (load,) = balance(case)
    want = math.tan(lean) + k / math.cos(lean) ** 2
    assert want < math.tan(lean + math.atan(k))
    assert sign * load.cornering / G == pytest.approx(want, rel=1e-12)
    assert load.lean == pytest.approx(sign * lean, rel=1e-14)


def _least_root(a: float, b: float, c: float) -> float:
    real = [float(r.real) for r in np.roots([a, b, c]) if abs(r.imag) < 1e-12 and r.real > 0.0]
    return min(real, default=math.inf)


def test_heavy_while_leaning_tips_inward() -> None:
    """A body pressed down by 3 g while it leans in balance for 1 g falls to the inside.

    With t = tan p = a_y/g, mass centre y off the middle and h high, V = 3, half track T: banked
    h (V - 1) t = (T - y)(t^2 + V); flat y (1 + t^2/V) + h t (1 - 1/V) = T (1 + t^2). The first root counts.
    """
    half, side, height, v = 300.0, 20.0, 900.0, 3.0
    banked = _least_root(half - side, -height * (v - 1.0), (half - side) * v)
    flat = _least_root(half - side / v, -height * (1.0 - 1.0 / v), half - side)
    assert banked < flat
    case = _quad(half, side, height, Load(name="dip", vertical=v, cornering=0.9 * G), math.radians(45.0))
    (load,) = balance(case)
    assert load.cornering / G == pytest.approx(banked, rel=1e-12)


def test_light_while_leaning_tips_outward() -> None:
    """With V under 1, in a right turn, the mass falls outward; the flat road's root is the lesser.

    Banked h (1 - V) t = (T - y)(t^2 + V); flat h (1 - V) t = (T - y) V + t^2 (T V - y).
    """
    half, side, height, v = 300.0, 20.0, 900.0, 0.6
    pull = -height * (1.0 - v)
    flat = _least_root(half * v - side, pull, (half - side) * v)
    banked = _least_root(half - side, pull, (half - side) * v)
    assert flat < banked
    case = _quad(half, side, height, Load(name="crest", vertical=v, cornering=-0.8 * G), math.radians(50.0))
    (load,) = balance(case)
    assert -load.cornering / G == pytest.approx(flat, rel=1e-11)


def test_a_narrow_dip_is_not_missed() -> None:
    """The limit holds for every s' <= s: at full scale it would stand again, past a dip of 0.3 degrees.

    V = 1.5, h = 1000 mm: h (V - 1) t/(t^2 + V) has its top, 204.124 mm, at t = sqrt(V).
    """
    half, v = 204.12, 1.5
    first = _least_root(half, -500.0, half * v)
    second = max(np.roots([half, -500.0, half * v]).real)
    assert math.degrees(math.atan(second) - math.atan(first)) < 0.4
    case = _quad(half, 0.0, 1000.0, Load(name="dip", vertical=v, cornering=1.4 * G), math.radians(60.0))
    (load,) = balance(case)
    assert load.scaled_to * 1.4 == pytest.approx(first, rel=1e-9)
    wide = _quad(204.13, 0.0, 1000.0, Load(name="dip", vertical=v, cornering=1.4 * G), math.radians(60.0))
    assert balance(wide)[0].scaled_to == 1.0


@pytest.mark.parametrize(
    ("side", "lean", "v", "braking", "cornering", "at_full_lean"),
    [
        (-95.0, 18.0, 1.0, 0.0, 1.9, True),
        (70.0, 18.0, 1.3, 0.25, -1.9, True),
        (120.0, 42.0, 0.55, 0.9, -0.9, False),
        (-80.0, 42.0, 1.0, 2.6, 0.7, False),
        (110.0, 42.0, 1.2, -2.8, 0.8, False),
    ],
)
def test_tipping_off_centre(
    side: float, lean: float, v: float, braking: float, cornering: float, at_full_lean: bool
) -> None:
    """Second way, with the mass well off the middle, along and across at once, in both parts of the lean.

    The root of the spare load of both roads (linprog, brentq).
    """
    along = {"braking": braking * G} if braking > 0.0 else {"driving": -braking * G}
    load = Load(name="bend", vertical=v, cornering=cornering * G, **along)
    base = _quad(360.0, side, 620.0, load, math.radians(lean))
    case = attrs.evolve(base, wheels=tuple(attrs.evolve(w, braked=True, driven=True) for w in base.wheels))
    (found,) = balance(case)
    assert (abs(found.lean) == pytest.approx(math.radians(lean), rel=1e-12)) is at_full_lean
    grid = np.linspace(0.0, 1.0, 81)
    n = next(n for n, s in enumerate(grid) if spare_both(case, load, float(s)) < 0.0)
    root = brentq(lambda s: spare_both(case, load, s), grid[n - 1], grid[n], xtol=1e-12)
    assert found.scaled_to == pytest.approx(root, rel=1e-7)


@settings(max_examples=24, deadline=None)
@given(vehicles())
def test_tipping_by_linear_programming(case: Case) -> None:
    """Second way: the first zero, by scan and bisection, of the spare load that scipy's linprog finds."""
    (load,) = balance(case)
    ask = case.loads[0]
    grid = np.linspace(0.0, 1.0, 41)
    spares = [spare_both(case, ask, float(s)) for s in grid]
    assume(spares[0] > 1e-6)
    below = [n for n, s in enumerate(spares) if s < 0.0]
    if not below:
        assert load.scaled_to > 1.0 - 1e-6 or spare_both(case, ask, load.scaled_to + 1e-6) < 1e-7
        return
    n = below[0]
    root = brentq(lambda s: spare_both(case, ask, s), grid[n - 1], grid[n], xtol=1e-9)
    assert load.scaled_to <= root + 1e-6
    if load.scaled_to < root - 1e-6:  # a dip between the scan's points
        assert spare_both(case, ask, load.scaled_to + 1e-5) < 1e-6


@settings(max_examples=25, deadline=None)
@given(vehicles(leaning=False, towed=True))
def test_tipping_with_a_hitch_by_linear_programming(case: Case) -> None:
    """The same with a hitch, whose load may be of either sign."""
    (load,) = balance(case)
    ask = case.loads[0]
    shares = np.linspace(0.0, load.scaled_to, 9)
    assert all(spare_both(case, ask, float(s)) > -1e-6 for s in shares)
    if load.scaled_to < 1.0:
        after = min(1.0, load.scaled_to + 1e-5)
        assert spare_both(case, ask, after) < 1e-6


@given(
    st.lists(
        st.tuples(st.floats(-900.0, 900.0), st.floats(-500.0, 500.0)), min_size=1, max_size=7, unique=True
    ),
    st.lists(st.floats(0.0, 1.0), min_size=7, max_size=7),
)
def test_outline_holds_every_mean(spots: list[tuple[float, float]], parts: list[float]) -> None:
    """Law: a weighted mean of the contacts is inside their outline; a place beyond the furthest is not."""
    x, y = np.array(spots).T
    share = np.array(parts[: len(spots)]) + 1e-3
    share = share / share.sum()
    edges = hull_edges(x, y)
    inside = np.array([1.0, share @ x, share @ y])
    assert (edges @ inside >= -1e-9).all()
    far = int(np.argmax(np.hypot(x - x.mean(), y - y.mean())))
    away = np.array([x[far] - x.mean(), y[far] - y.mean()])
    step = away / np.hypot(*away) if np.hypot(*away) > 0.0 else np.array([1.0, 0.0])
    outside = np.array([1.0, x[far] + 0.1 * step[0], y[far] + 0.1 * step[1]])
    assert (edges @ outside).min() < 0.0


@pytest.mark.parametrize(("depth", "found"), [(1e-6, True), (-1e-6, False)])
def test_first_place_below(depth: float, found: bool) -> None:
    """The curve cos 3p + 1 - depth touches zero near p = pi/3, at acos(depth - 1)/3 (closed form)."""
    got = first_below(lambda p: (np.cos(3.0 * p) + 1.0 - depth)[:, None], 1.5, 0.0)
    if found:
        assert got == pytest.approx(math.acos(depth - 1.0) / 3.0, abs=1e-9)
    else:
        assert got is None
