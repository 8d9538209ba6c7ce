"""Heat-affected lengths: where a part has its welded strengths because of a weld."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bare
from strength.joints.draw import Lines, weld_lines
from strength.values import frozen

if TYPE_CHECKING:
    from strength.case.model import Case, Weld
    from strength.frame.response import Layout
    from strength.library.metal import Metal
    from strength.sections.bars import Bars

Array = NDArray[np.float64]

MIG_TO = np.array([6.0, 12.0, 25.0])  # mm of wall: EN 1999-1-1 6.1.6.3
MIG_WIDTH = np.array([20.0, 30.0, 35.0, 40.0])
TIG_TO, TIG_WIDTH = 6.0, 30.0
UNCOVERED = 40.0  # own choice for TIG over 6 mm, stick and brazing on aluminium, which no rule covers
OTHER = 25.0  # own choice for other metals that lose strength beside a weld
TIG_FACTOR = 0.8  # EN 1999-1-1 6.1.6.2, 6xxx and 7xxx welded by TIG
TIG_SERIES = ("6xxx", "7xxx")


@frozen(kw_only=True, eq=False)
class HeatLength:
    """A length of one bar with welded strengths, because of one weld.

    start, end: (designs,) [mm from `from`], within the bar; start = end where there is none.
    factor: on the welded strengths (0.8 for TIG on 6xxx and 7xxx, else 1). in_range: (designs,)
    False where no rule gives its width.
    """

    bar: int
    weld: str
    start: Array
    end: Array
    factor: float
    in_range: NDArray[np.bool_]


def heat_lengths(
    case: "Case", layout: "Layout", bars: "Bars", lines: Lines | None = None
) -> tuple[HeatLength, ...]:
    """All heat-affected lengths, weld by weld: on the part welded, then on the part welded onto.

    From the weld's plane, or the extent of a saddle, to b on either side; on the part welded onto
    from the footprint to b on either side. Stricter than EN 1999-1-1 6.2.3 at local welds.
    lines: `weld_lines` of the same case, to save their cost. Raises CaseError where a weld has no such line.
    """
    known = weld_lines(case, layout, bars) if lines is None else lines
    every = known.seats
    found: dict[int, list[HeatLength]] = {}
    for group, span in zip(known.groups, known.spans, strict=True):
        for k, n in enumerate(group.welds):
            seat = every[n]
            weld, bar = seat.weld, seat.bar
            parts = [(bar, seat.plane + group.own(k, span.low), seat.plane + group.own(k, span.high))]
            if seat.host is not None:
                parts.append((seat.host.bar, group.own(k, span.host_low), group.own(k, span.host_high)))
            found[n] = [
                length
                for bar, start, end in parts
                for length in _clipped(bars, bar, weld, start, end, float(layout.bar_length[bar]))
            ]
    return tuple(length for n in sorted(found) for length in found[n])


def heat_width(
    metal: "Metal", process: str, wall: Array, lost: NDArray[np.bool_]
) -> tuple[Array, NDArray[np.bool_]]:
    """Width b [mm] beside a weld and whether a rule covers it, for walls (designs,) [mm].

    lost: where welding lowers yield or ultimate. Aluminium by EN 1999-1-1 6.1.6.3: MIG to 6, 12, 25
    and over 25 mm 20, 30, 35, 40 mm; TIG to 6 mm 30 mm. TIG over 6 mm and other processes 40 mm,
    covered by no rule. Other metals 25 mm where welding takes strength away, else 0 (own choice).
    """
    covered = np.ones(wall.shape, dtype=bool)
    if metal.kind != "aluminium":
        return np.where(lost, OTHER, 0.0), covered
    if process == "mig":
        return MIG_WIDTH[np.searchsorted(MIG_TO, wall)], covered
    if process == "tig":
        covered = np.asarray(wall <= TIG_TO)
        return np.where(covered, TIG_WIDTH, UNCOVERED), covered
    return np.full(wall.shape, UNCOVERED), ~covered


def welded_factor(metal: "Metal", process: str) -> float:
    """Factor on welded strengths: 0.8 for TIG on 6xxx and 7xxx, not on a user's own metals."""
    return TIG_FACTOR if process == "tig" and metal.series in TIG_SERIES and not metal.own else 1.0


def _clipped(
    bars: "Bars", bar: int, weld: "Weld", low: Array, high: Array, length: float
) -> list[HeatLength]:
    metal = bars.metals[bar]
    wall = bars.wall[:, bar]
    if metal is None or isinstance(bars.shapes[bar], Bare):
        return []
    wall = np.where(np.isfinite(wall), wall, np.inf)  # an outline has no one wall: the widest length
    lost = (bars.yield_welded[:, bar] < bars.yield_[:, bar]) | (
        bars.ultimate_welded[:, bar] < bars.ultimate[:, bar]
    )
    width, covered = heat_width(metal, weld.process, wall, lost)
    if not width.any():
        return []
    start = np.clip(low - width, 0.0, length)
    end = np.clip(high + width, 0.0, length)
    some = width > 0.0
    return [
        HeatLength(
            bar=bar,
            weld=weld.name,
            start=start,
            end=np.where(some, end, start),
            factor=welded_factor(metal, weld.process),
            in_range=covered,
        )
    ]
