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
    forces: Array,
    gaps: tuple[Gaps, ...],
    shoulder: Index,
    strengths: tuple[Array, ...],
) -> Array:
    """Worst von Mises [MPa] (designs, loads, stations) of forces (designs, loads, stations, 6).

    Holes: the net section. Shoulders: the smaller diameter. nan on bars without a section or with bare
    properties only. Worked out where a bar's worst place may be, judged by stress over strength,
    for each of `strengths` (designs, stations); elsewhere a lower bound of it.
    """
    inner = np.ascontiguousarray(forces.transpose(3, 2, 1, 0))
    found = [(group, group.nominal(inner)) for group in groups(case, bars, bar, gaps, shoulder)]
    low, high = np.full((2, *inner.shape[1:]), np.nan)
    for group, nominal in found:
        low[group.own], high[group.own] = group.bounds(nominal)
    wanted = governing(low, high, bar, strengths)
    known = high <= low * (1.0 + CLOSE) ** 2
    np.copyto(low, high, where=known)
    wanted &= ~known
    for group, nominal in found:
        where = np.flatnonzero(wanted[group.own])
        if where.size:
            block = low[group.own]
            block.reshape(-1)[where] = group.worst(nominal, where)
            low[group.own] = block
    found: Array = np.sqrt(low, out=low).transpose(2, 1, 0)
    return found


def governing(low: Array, high: Array, bar: Index, strengths: tuple[Array, ...]) -> Flags:
    """Where the worst place of a bar may be, against any of the strengths (designs, stations).

    low, high: (stations, loads, designs), what the squares of the stresses lie between.
    """
    turns = np.diff(bar, prepend=-1) != 0
    first, own = np.flatnonzero(turns), np.cumsum(turns) - 1
    found = np.zeros(low.shape, dtype=bool)
    for strength in strengths:
        weight = np.ascontiguousarray(strength.T**-2.0)[:, None]
        found |= high * weight >= run_maxima(low * weight, first)[own]
    return found
