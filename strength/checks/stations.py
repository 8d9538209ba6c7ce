"""Where along the bars stresses are looked at, and how great they are there.

Forces are linear between the points of a bar and every norm of stress is greatest at an end of an
interval: the stations are the ends, via points, insets of welds, holes, shoulders and both ends of
each heat-affected length.
"""

from functools import cached_property, partial
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.arrays import run_maxima
from strength.checks.along import forces_along
from strength.checks.divisors import yield_divisors
from strength.checks.kinds import still_bars
from strength.checks.peaks import peaks
from strength.checks.places import NEAR, every_place
from strength.values import frozen

if TYPE_CHECKING:
    from strength.case.model import Case
    from strength.checks.factors import Factors
    from strength.frame.response import Layout, Response
    from strength.joints.heat import HeatLength
    from strength.sections.bars import Bars

Array = NDArray[np.float64]

HOLE = 0.9  # of ultimate, net section: EN 1993-1-1 6.2.3


@frozen(kw_only=True, eq=False)
class Stations:
    """Stations of all bars, those of one bar consecutive and in order along it.

    heated: True where the section has its welded strengths (a boundary counts as heated).
    """

    bar: NDArray[np.intp]  # (stations,)
    place: Array  # (designs, stations) mm from `from`
    later: NDArray[np.intp]  # (stations,) 1: the side toward `to` of a via point
    labels: tuple[str, ...]  # what a builder would call the place: "at hub", "12 mm from ball.left"
    heated: NDArray[np.bool_]  # (designs, stations)
    inner: Array  # (6, stations, loads, designs) internal forces, without load factor
    kept: Array  # (designs, stations) factor on the welded strengths: 0.8 for TIG, else 1
    gaps: tuple[tuple[tuple[int, float], ...], ...]  # per station: (hole, breadth [mm]) in its plane
    shoulder: NDArray[np.intp]  # (stations,) number of the shoulder there, -1: none
    yield_: Array  # (designs, stations) [MPa], welded where heated
    ultimate: Array  # the same, 0.9 of it at a hole
    # (designs, loads, stations) worst von Mises [MPa], without load factor; nan: no section. A lower
    # bound at stations that cannot be a bar's worst: in their load, or in any where that alone was asked for.
    peak: Array
    uncovered: NDArray[np.bool_]  # (designs, bars) True: no rule gives the width of a heat-affected length

    @property
    def forces(self) -> Array:
        """The internal forces, (designs, loads, stations, 6)."""
        return self.inner.transpose(3, 2, 1, 0)

    def of(self, bar: int) -> slice:
        """The stations of one bar."""
        return slice(self._first[bar], self._first[bar + 1])

    def worst(self, values: Array) -> Array:
        """The greatest at the stations of each bar: (stations, loads, designs) to (bars, loads, designs)."""
        return run_maxima(values, self._begin)

    @cached_property
    def _begin(self) -> NDArray[np.intp]:
        return np.array(self._first[:-1], dtype=np.intp)

    @cached_property
    def _first(self) -> list[int]:
        """First station of each bar, and after the last the number of all."""
        found: list[int] = np.searchsorted(self.bar, np.arange(self.uncovered.shape[1] + 1)).tolist()
        return found


def place_stations(
    case: "Case",
    layout: "Layout",
    bars: "Bars",
    response: "Response",
    heat: "tuple[HeatLength, ...]",
    *,
    brief: "Factors | None" = None,
) -> Stations:
    """Stations of all bars with the forces and the worst stress at each.

    brief: only the worst of each bar over all loads is asked for, judged with these factors.
    """
    found = every_place(case, layout, heat, bars.weld_insets)
    designs = bars.area.shape[0]
    bar = np.array([each.bar for each in found], dtype=np.intp)
    place = np.empty((designs, len(found)))
    for n, each in enumerate(found):
        place[:, n] = each.at
    later = np.array([each.later for each in found], dtype=np.intp)
    heated = np.zeros(place.shape, dtype=bool)
    kept = np.ones(place.shape)
    uncovered = np.zeros(bars.area.shape, dtype=bool)
    for part in heat:
        own = slice(*np.searchsorted(bar, [part.bar, part.bar + 1]))
        start, end = part.start[:, None], part.end[:, None]
        inside = (end > start) & (place[:, own] >= start - NEAR) & (place[:, own] <= end + NEAR)
        heated[:, own] |= inside
        kept[:, own] = np.where(inside, np.minimum(kept[:, own], part.factor), kept[:, own])
        uncovered[:, part.bar] |= ~part.in_range
    inner = forces_along(layout, response, bar, place, later)
    gaps = tuple(each.gaps for each in found)
    shoulder = np.array([each.shoulder for each in found], dtype=np.intp)
    strengths = (
        np.where(heated, bars.yield_welded[:, bar] * kept, bars.yield_[:, bar]),
        np.where(heated, bars.ultimate_welded[:, bar] * kept, bars.ultimate[:, bar])
        * [HOLE if gap else 1.0 for gap in gaps],
    )
    divisors: tuple[Array, ...] = ()
    if brief is not None:
        effects = brief.load()[:, None]
        on_ultimate = (effects * brief.on_ultimate()[:, None])[None]
        divisors = (effects * yield_divisors(case, bars, brief), np.repeat(on_ultimate, len(bars.names), 0))
    look = partial(peaks, case, bar=bar, gaps=gaps, shoulder=shoulder)
    still = _still(bars, layout, response, bar, place, heated, kept, *strengths)
    if response.alike is None or not still.any():
        peak = look(bars, inner=inner, strengths=strengths, divisors=divisors)
    else:
        first = response.alike.first
        peak = np.empty(inner.shape[1:])
        peak[~still] = look(bars, inner=inner, strengths=strengths, divisors=divisors, chosen=~still)
        peak[still] = look(
            bars.of_designs(first),
            inner=inner[..., first],
            strengths=tuple(each[first] for each in strengths),
            divisors=tuple(each if each.shape[-1] == 1 else each[..., first] for each in divisors),
            chosen=still,
        )[..., response.alike.kind]
    return Stations(
        bar=bar,
        place=place,
        later=later,
        labels=tuple(each.label for each in found),
        heated=heated,
        inner=inner,
        kept=kept,
        gaps=gaps,
        shoulder=shoulder,
        yield_=strengths[0],
        ultimate=strengths[1],
        peak=peak.transpose(2, 1, 0),
        uncovered=uncovered,
    )


def _still(
    bars: "Bars", layout: "Layout", response: "Response", bar: NDArray[np.intp], *figures: Array
) -> NDArray[np.bool_]:
    """Stations of the bars that carry the same in designs of a kind, and are the same in all (stations,).

    figures: (designs, stations) what else must be the same.
    """
    found = still_bars(bars, layout, response)
    for figure in figures:
        found[bar[(figure != figure[:1]).any(axis=0)]] = False
    return found[bar]
