"""What the whole vehicle can stand: bends, brakes and side slopes, with and without its payload."""

import math
from collections.abc import Iterator

from strength.case.model import Case, Mass
from strength.errors import CaseError
from strength.units import GRAVITY
from strength.vehicle.ground import Ground, Weights, ground, weights
from strength.vehicle.least import least_squares_loads
from strength.vehicle.motion import specific_force
from strength.vehicle.sheet import Limit
from strength.vehicle.sliding import MOST, brake_slide, corner_slide
from strength.vehicle.tipping import Manoeuvre, bearable

DESCENT = math.atan(0.1)  # 10 % descent
RADII = (5.0, 10.0, 20.0)  # m


def limits(case: Case) -> tuple[Limit, ...]:
    """Cornering, braking and side-slope limits from the same balance as the loads.

    All wheels on the ground, 1 g, loads put on by hand left out. First with all masses, then with
    the payload left out. Tips: as for a load. Slides: where the first wheel asks for more than
    its grip, beyond tipping with the wheels' shares as they were there. () for a held structure on
    fewer than three contacts. CaseError where there are fewer than three without supports.
    """
    stand = ground(case)
    if stand.x.size < 3:
        if case.supports:
            return ()
        raise CaseError(
            [("wheels", f"{stand.x.size} wheels and hitches cannot stand, at least three must: add wheels")]
        )
    out: list[Limit] = []
    for with_payload in (True, False):
        masses = tuple(m for m in case.masses if with_payload or not m.payload)
        if sum(m.mass for m in masses) > 0.0:
            out += _of(case, stand, masses, with_payload=with_payload)
    return tuple(out)


def _of(case: Case, stand: Ground, masses: tuple[Mass, ...], *, with_payload: bool) -> Iterator[Limit]:
    load = weights(masses, stand.level)
    for side, sign in (("left", 1.0), ("right", -1.0)):
        yield _corner(case, stand, load, f"corner {side}", sign, with_payload=with_payload)
    yield _brake(case, stand, load, "brake", 0.0, with_payload=with_payload)
    yield _brake(case, stand, load, "brake, 10 % descent", DESCENT, with_payload=with_payload)
    # what pulls toward the low left side is what a right turn throws outward
    for side, sign in (("left", -1.0), ("right", 1.0)):
        yield _slope(case, stand, load, f"side slope {side}", sign, with_payload=with_payload)


def _corner(case: Case, stand: Ground, load: Weights, what: str, sign: float, *, with_payload: bool) -> Limit:
    tips = _corner_tip(stand, load, sign, case.leaning)
    slides = corner_slide(case, stand, load, sign, leaning=case.leaning, tips=tips)
    least = min((v for v in (tips, slides) if v is not None), default=None)
    return Limit(
        what=what,
        with_payload=with_payload,
        tips_at=tips,
        slides_at=slides,
        speed=tuple((f"{r:g} m", None if least is None else _speed(least, r)) for r in RADII),
        governs=_first(tips, slides),
    )


def _brake(case: Case, stand: Ground, load: Weights, what: str, slope: float, *, with_payload: bool) -> Limit:
    """Deceleration along the road. Down a slope the weight pulls g sin forward and presses g cos."""
    pull = math.sin(slope)
    braked = [w.name for w in case.wheels if w.braked]
    whole = Manoeuvre(
        forward=-(MOST + pull) * GRAVITY, cornering=0.0, vertical=math.cos(slope), tow_takes=not braked
    )
    tips = _capped(bearable(stand, load, whole) * (MOST + pull) - pull, _stands(stand, load))
    slides = brake_slide(case, stand, load, slope=slope, tips=tips)
    return Limit(
        what=what,
        with_payload=with_payload,
        tips_at=tips,
        slides_at=slides,
        governs=_first(tips, slides),
    )


def _slope(case: Case, stand: Ground, load: Weights, what: str, sign: float, *, with_payload: bool) -> Limit:
    """On a side slope the upright body feels g tan(slope) sideways for each g it stands on."""
    tips = _corner_tip(stand, load, sign, 0.0)
    slides = corner_slide(case, stand, load, sign, leaning=0.0, tips=tips)
    least = min((v for v in (tips, slides) if v is not None), default=None)
    return Limit(
        what=what,
        with_payload=with_payload,
        angle=None if least is None else math.atan(least),
        governs=_first(tips, slides),
    )


def _corner_tip(stand: Ground, load: Weights, sign: float, leaning: float) -> float | None:
    whole = Manoeuvre(forward=0.0, cornering=sign * MOST * GRAVITY, vertical=1.0, leaning=leaning)
    return _capped(bearable(stand, load, whole) * MOST, _stands(stand, load))


def _stands(stand: Ground, load: Weights) -> bool:
    wanted = load.wanted(specific_force(0.0, 0.0, 1.0, 0.0))
    return bool(least_squares_loads(stand.columns(0.0), len(stand.wheels), wanted[None])[1][0])


def _capped(share: float, stands: bool) -> float | None:
    if not stands:
        return 0.0
    return None if share >= MOST else max(share, 0.0)


def _speed(lateral: float, radius: float) -> float:
    """Speed sqrt(a r) [m/s] in a bend; lateral in g, radius in m."""
    return math.sqrt(lateral * GRAVITY / 1000.0 * radius)


def _first(tips: float | None, slides: float | None) -> str:
    if tips is None and slides is None:
        return ""
    if slides is None or (tips is not None and tips <= slides):
        return "tips"
    return "slides"
