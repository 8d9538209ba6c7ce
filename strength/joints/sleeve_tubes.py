"""The two tubes of a sleeve joint: walls and yield strengths over the overlap, heat counted in."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Tube
from strength.errors import CaseError, RangeError
from strength.joints.end_force import EndForce
from strength.joints.heated import Heated, heated
from strength.library.metal import Metal
from strength.sections.filled import least_wall
from strength.values import frozen

if TYPE_CHECKING:
    from strength.case.model import Case, Sleeve
    from strength.frame.response import Layout
    from strength.joints.heat import HeatLength
    from strength.sections.bars import Bars

Array = NDArray[np.float64]
BRITTLE_BELOW = 0.10


@frozen(kw_only=True, eq=False)
class SleeveTube:
    """One of the tubes, (designs,) [mm, MPa]; bore is nominal."""

    word: str
    metal: Metal
    outside: Array
    wall: Array
    bore: float
    yield_: Array
    brittle: NDArray[np.bool_]
    hot: NDArray[np.bool_]
    covered: NDArray[np.bool_]


def sleeve_tubes(
    case: "Case",
    layout: "Layout",
    bars: "Bars",
    heat: "tuple[HeatLength, ...]",
    sleeve: "Sleeve",
    end: EndForce,
) -> tuple[SleeveTube, SleeveTube]:
    """Inner and outer tube. Raises CaseError for an outer wall that the metal is not held for."""
    low, high = (0.0, sleeve.overlap) if end.into > 0.0 else (end.length - sleeve.overlap, end.length)
    inner = _of_bar(case, bars, heat, "inner tube", end.bar, low, high)
    if isinstance(sleeve.outer, str):
        outer = bars.names.index(sleeve.outer)
        first = int(layout.first[outer])
        ends = end.at + np.array([[0.0], [sleeve.overlap]]) * end.into * end.axes[0]
        at = np.sort((ends - layout.points[layout.start[first]]) @ layout.axes[first][0])
        at = np.clip(at, 0.0, float(layout.bar_length[outer]))
        return inner, _of_bar(case, bars, heat, "outer tube", outer, float(at[0]), float(at[1]))
    return inner, _typed(case, bars, heat, sleeve, inner, end.bar, low, high)


def _of_bar(
    case: "Case",
    bars: "Bars",
    heat: "tuple[HeatLength, ...]",
    word: str,
    bar: int,
    low: float,
    high: float,
) -> SleeveTube:
    metal, shape = bars.metals[bar], bars.shapes[bar]
    if metal is None or not isinstance(shape, Tube):
        raise TypeError(f"{bars.names[bar]} is no tube")
    hot = heated(case, heat, metal, bar, np.array([low]), np.array([high]), bars.wall.shape[0])
    strength = hot.take(bars.yield_[:, bar, None], bars.yield_welded[:, bar, None])[:, 0]
    return _tube(
        word, metal, shape, bars.depth[:, bar], bars.wall[:, bar], strength, bars.elongation[:, bar], hot
    )


def _typed(
    case: "Case",
    bars: "Bars",
    heat: "tuple[HeatLength, ...]",
    sleeve: "Sleeve",
    inner: SleeveTube,
    bar: int,
    low: float,
    high: float,
) -> SleeveTube:
    """An outer tube that is only a section: of the inner one's metal, heated where that one is."""
    shape, metal = sleeve.outer, inner.metal
    if not isinstance(shape, Tube):
        raise TypeError(f"{sleeve.name}: the outer part is no tube")
    try:
        row = metal.strength(shape.wall, shape.od)
    except RangeError as error:
        raise CaseError([(f"{sleeve.path or sleeve.name}.outer", f"{sleeve.name}: {error}")]) from error
    designs = bars.wall.shape[0]
    wall = np.full(designs, shape.wall)
    if case.basis.wall == "minimum":
        wall = least_wall(shape, metal, wall)
    hot = heated(case, heat, metal, bar, np.array([low]), np.array([high]), designs)
    parent = np.full((designs, 1), row.yield_)
    welded = parent if row.yield_welded is None else np.full((designs, 1), row.yield_welded)
    elongation = np.full(designs, np.nan if row.elongation is None else row.elongation)
    strength = hot.take(parent, welded)[:, 0]
    return _tube("outer tube", metal, shape, np.full(designs, shape.od), wall, strength, elongation, hot)


def _tube(
    word: str,
    metal: Metal,
    shape: Tube,
    outside: Array,
    wall: Array,
    strength: Array,
    elongation: Array,
    hot: Heated,
) -> SleeveTube:
    return SleeveTube(
        word=word,
        metal=metal,
        outside=outside,
        wall=wall,
        bore=shape.od - 2.0 * shape.wall,
        yield_=strength,
        brittle=~(elongation >= BRITTLE_BELOW),
        hot=hot.inside[:, 0],
        covered=hot.covered[:, 0],
    )
