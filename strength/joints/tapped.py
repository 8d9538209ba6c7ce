"""The metal that a stud is screwed into: its strengths there, heat counted in."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.errors import RangeError
from strength.joints.end_force import EndForce
from strength.joints.heated import Heated, heated
from strength.library.metal import Metal, Strength
from strength.values import frozen

if TYPE_CHECKING:
    from strength.case.model import Case, Member, Strut, Stud
    from strength.frame.response import Layout
    from strength.joints.heat import HeatLength
    from strength.sections.bars import Bars

Array = NDArray[np.float64]

ALONG = float(np.cos(np.radians(45.0)))  # own choice: nearer to the part's line than across it
BRITTLE_BELOW = 0.10


@frozen(kw_only=True, eq=False)
class Tapped:
    """Tapped metal, (designs, 1) [MPa]. host: the bar it is, or that heats it."""

    metal: Metal
    ultimate: Array
    yield_: Array
    brittle: NDArray[np.bool_]
    heat: Heated
    host: int


def tapped(
    case: "Case",
    layout: "Layout",
    bars: "Bars",
    heat: "tuple[HeatLength, ...]",
    stud: "Stud",
    end: EndForce,
    axis: Array,
) -> Tapped:
    """What a stud screws into.

    A part of that metal: the stud's own, else one that meets it. A metal of no part near is taken at
    the thickness engaged (own choice).
    """
    own = bars.metals[end.bar]
    metal = case.metals[stud.into] if stud.into else own
    if metal is None:
        raise ValueError(f"{stud.name}: nothing to screw into")
    host = _host(case, bars, metal, end.bar)
    designs = bars.wall.shape[0]
    fields = ("yield_", "ultimate", "yield_welded", "ultimate_welded")
    values = [] if host is None else [getattr(bars, field)[:, host, None] for field in fields]
    if host is None or not np.all(np.isfinite(values)):
        row = _row(metal, stud.engaged)
        welded = (row.yield_welded or row.yield_, row.ultimate_welded or row.ultimate)
        values = [np.full((designs, 1), value) for value in (row.yield_, row.ultimate, *welded)]
        brittle = np.full((designs, 1), row.elongation is None or row.elongation < BRITTLE_BELOW)
    else:
        brittle = ~(bars.elongation[:, host, None] >= BRITTLE_BELOW)
    near = end.bar if host is None else host
    low, high = _stretch(layout, near, stud, end, axis)
    hot = heated(case, heat, metal, near, np.array([low]), np.array([high]), designs)
    return Tapped(
        metal=metal,
        yield_=hot.take(values[0], values[2]),
        ultimate=hot.take(values[1], values[3]),
        brittle=brittle,
        heat=hot,
        host=near,
    )


def _host(case: "Case", bars: "Bars", metal: Metal, own: int) -> int | None:
    """The bar of that metal that a stud is in: its own, else the first that shares a point with it."""
    if bars.metals[own] == metal:
        return own
    parts: list[Member | Strut] = [*case.members, *case.struts]
    ends = {parts[own].start, parts[own].end}
    for number, (part, held) in enumerate(zip(parts, bars.metals, strict=True)):
        if held is None or held.name != metal.name or number == own:
            continue
        points = {part.start, part.end, *getattr(part, "via", ())}
        if points & ends and held == metal:
            return number
    return None


def _row(metal: Metal, thickness: float) -> Strength:
    try:
        return metal.strength(thickness)
    except RangeError:
        return min(metal.rows, key=lambda row: row.ultimate)


def _stretch(layout: "Layout", bar: int, stud: "Stud", end: EndForce, axis: Array) -> tuple[float, float]:
    """Where a bar holds the thread, from..to [mm from its `from`], the stud's own end counted in."""
    first, length = int(layout.first[bar]), float(layout.bar_length[bar])
    along = layout.axes[first][0]
    at = float(np.clip((end.at - layout.points[layout.start[first]]) @ along, 0.0, length))
    if abs(axis @ along) < ALONG:
        half = stud.size.diameter / 2.0
        return max(at - half, 0.0), min(at + half, length)
    deep = stud.reach + stud.engaged
    return (at, min(at + deep, length)) if at < length / 2.0 else (max(at - deep, 0.0), at)
