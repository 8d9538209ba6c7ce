"""Worst von Mises stress at every station."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.arrays import distinct
from strength.case.model import Case, Shoulder
from strength.case.shape import Bar, Tube
from strength.checks.places import Gaps
from strength.sections.matrices import bore_ratio, stress_matrix
from strength.sections.net_stress import net_matrix
from strength.sections.round_stress import round_bounds, round_matrix, round_scale, unit_round
from strength.sections.stress import StressMatrix
from strength.values import frozen

if TYPE_CHECKING:
    from strength.sections.bars import Bars

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

CLOSE = 1e-4  # where a safe bound is this close to the stress, it stands for it


@frozen(kw_only=True, eq=False)
class Peaks:
    """Worst stresses of stations, and what must be known of them.

    low, high: (designs, loads, stations) [MPa], what each lies between; equal where it is known.
    """

    low: Array
    high: Array

    def governing(self, bar: Index, strengths: tuple[Array, ...]) -> Flags:
        """Where the worst place of a bar may be, against any of the strengths (designs, stations)."""
        starts = np.flatnonzero(np.diff(bar, prepend=-1))
        own = np.cumsum(np.diff(bar, prepend=-1) != 0) - 1
        found = np.zeros(self.low.shape, dtype=bool)
        for strength in strengths:
            least = np.maximum.reduceat(self.low / strength[:, None], starts, axis=-1)
            found |= self.high / strength[:, None] >= least[..., own]
        return found


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
    plain = np.array([not gap for gap in gaps], dtype=bool) & (shoulder < 0)
    is_round = np.array([isinstance(shape, Tube | Bar) for shape in bars.shapes], dtype=bool)
    groups = _groups(bars, bar, plain & ~is_round[bar])
    rounds = np.flatnonzero(plain & is_round[bar])
    nominal = _round_nominal(bars, bar[rounds], forces[:, :, rounds])
    found = Peaks(low=np.full(forces.shape[:-1], np.nan), high=np.full(forces.shape[:-1], np.nan))
    found.low[:, :, rounds], found.high[:, :, rounds] = round_bounds(nominal)
    for n in np.flatnonzero(~plain):
        matrix = station_matrix(case, bars, int(bar[n]), gaps[n], int(shoulder[n]))
        if matrix is not None:
            found.low[:, :, n] = found.high[:, :, n] = matrix.von_mises(forces[:, :, n])
    for matrix, own in groups:
        rows = forces[:, :, own].reshape(forces.shape[0], -1, 6)
        for part, bound in zip((found.low, found.high), matrix.bounds(rows), strict=True):
            part[:, :, own] = bound.reshape(part.shape[:2] + own.shape)
    wanted = found.governing(bar, strengths) & (found.high > 0.0)
    exact = np.where(found.high <= found.low * (1.0 + CLOSE), found.high, found.low)
    wanted &= exact != found.high
    _put(exact, wanted, rounds, unit_round(), nominal)
    for matrix, own in groups:
        _put(exact, wanted, own, matrix, forces[:, :, own])
    return exact


def _put(exact: Array, wanted: Flags, own: Index, matrix: StressMatrix, forces: Array) -> None:
    where = wanted[:, :, own]
    if where.any():
        rows = forces.reshape(forces.shape[0], -1, 6)
        block = exact[:, :, own]
        block[where] = matrix.needed(rows, where.reshape(where.shape[0], -1))
        exact[:, :, own] = block


def _groups(bars: "Bars", bar: Index, chosen: Flags) -> list[tuple[StressMatrix, Index]]:
    """Stress matrices, each with the stations it serves: bars of one shape and size share one."""
    alike: dict[tuple[object, ...], list[int]] = {}
    for n in distinct(bar[chosen]).tolist():
        sizes = (bars.depth[:, n].tobytes(), bars.width[:, n].tobytes(), bars.wall[:, n].tobytes())
        alike.setdefault((bars.shapes[n], *sizes), []).append(n)
    found = []
    for numbers in alike.values():
        matrix = stress_matrix(bars, numbers[0])
        if matrix is not None:
            found.append((matrix, np.flatnonzero(chosen & np.isin(bar, numbers))))
    return found


def _round_nominal(bars: "Bars", bar: Index, forces: Array) -> Array:
    """Nominal stresses of round stations: after scaling, one matrix serves every size."""
    scale = round_scale(bars.area[:, bar], bars.modulus_y[:, bar], bore_ratio(bars)[:, bar])
    return forces * scale[:, None]


def station_matrix(case: Case, bars: "Bars", bar: int, gaps: Gaps, shoulder: int) -> StressMatrix | None:
    """Stress matrix of a bar at a station with these holes or this shoulder."""
    if shoulder >= 0:
        least = smaller_diameter(case.shoulders[shoulder], bars.depth[:, bar])
        return round_matrix(np.pi / 4.0 * least**2, np.pi / 32.0 * least**3, np.zeros_like(least))
    if gaps:
        whole = np.ones(bars.area.shape[0])
        sides: dict[str, list[tuple[Array, Array]]] = {"thickness": [], "width": []}
        for n, breadth in gaps:
            hole = case.holes[n]
            sides[hole.across].append((hole.off_centre * whole, breadth * whole))
        return net_matrix(bars.depth[:, bar], bars.width[:, bar], sides["thickness"], sides["width"])
    return stress_matrix(bars, bar)


def smaller_diameter(shoulder: Shoulder, diameter: Array) -> Array:
    """Diameter [mm] beside a shoulder: the lesser of the two, or the core where a thread is cut."""
    if shoulder.root is not None:
        from strength.library import thread

        return np.minimum(diameter, thread(shoulder.root).root)
    return np.minimum(diameter, shoulder.larger)
