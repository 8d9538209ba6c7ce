"""Worst von Mises stress at every station.

Places are worked out in squares, and laid out by station, load and design: the long axes last.
"""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.arrays import run_maxima
from strength.case.model import Case
from strength.checks.places import Gaps
from strength.checks.section_groups import groups

if TYPE_CHECKING:
    from strength.sections.bars import Bars

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

CLOSE = 1e-4  # where a safe bound is this close to the stress, it stands for it


def peaks(
    case: Case,
    bars: "Bars",
    bar: Index,
    inner: Array,
    gaps: tuple[Gaps, ...],
    shoulder: Index,
    strengths: tuple[Array, ...],
    divisors: tuple[Array, ...] = (),
    chosen: Flags | None = None,
) -> Array:
    """Worst von Mises [MPa] (stations, loads, designs) of forces (6, stations, loads, designs).

    Holes: the net section. Shoulders: the smaller diameter. nan on bars without a section or with bare
    properties only. Worked out where a bar's worst place may be, judged by stress over strength,
    for each of `strengths` (designs, stations); elsewhere a lower bound of it. divisors: of each strength
    (bars, loads, designs or 1); with them only the worst place of a bar over all loads is asked for.
    chosen: (stations,) those of the bars to look at, whole bars each; all where left out.
    """
    rows = np.arange(bar.size) if chosen is None else np.flatnonzero(chosen)
    place = np.zeros(bar.size, dtype=np.intp)
    place[rows] = np.arange(rows.size)
    found = [
        (group, place[group.own], group.nominal(inner))
        for group in groups(case, bars, bar, gaps, shoulder, chosen)
    ]
    low, high = np.full((2, rows.size, *inner.shape[2:]), np.nan)
    for group, own, nominal in found:
        low[own], high[own] = group.bounds(nominal)
    weights = [np.ascontiguousarray(strength[:, rows].T ** -2.0)[:, None] for strength in strengths]
    if divisors:
        every = zip(weights, divisors, strict=True)
        weights = [weight * np.square(divisor)[bar[rows]] for weight, divisor in every]
    wanted = governing(low, high, bar[rows], weights, each_load=not divisors)
    known = high <= low * (1.0 + CLOSE) ** 2
    np.copyto(low, high, where=known)
    wanted &= ~known
    for group, own, nominal in found:
        where = np.flatnonzero(wanted[own])
        if where.size:
            block = low[own]
            block.reshape(-1)[where] = group.worst(nominal, where)
            low[own] = block
    worst: Array = np.sqrt(low, out=low)
    return worst


def governing(low: Array, high: Array, bar: Index, weights: list[Array], *, each_load: bool) -> Flags:
    """Where the worst place of a bar may be, in each load or over all, for any of the weights.

    low, high: (stations, loads, designs), what the squares of the stresses lie between; weights:
    broadcast to the same.
    """
    turns = np.diff(bar, prepend=-1) != 0
    first, own = np.flatnonzero(turns), np.cumsum(turns) - 1
    found = np.zeros(low.shape, dtype=bool)
    for weight in weights:
        least = run_maxima(low * weight, first)
        if not each_load:
            least = least.max(axis=1, keepdims=True)
        found |= high * weight >= least[own]
    return found
