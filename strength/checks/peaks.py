"""Worst von Mises stress at every station."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Shoulder
from strength.case.shape import Bar, Tube
from strength.checks.places import Gaps
from strength.sections.matrices import bore_ratio, stress_matrix
from strength.sections.net_stress import net_matrix
from strength.sections.round_stress import round_matrix
from strength.sections.stress import StressMatrix

if TYPE_CHECKING:
    from strength.sections.bars import Bars

Array = NDArray[np.float64]
Index = NDArray[np.intp]


def peaks(
    case: Case,
    bars: "Bars",
    bar: Index,
    forces: Array,
    gaps: tuple[Gaps, ...],
    shoulder: Index,
) -> Array:
    """Worst von Mises [MPa] (designs, loads, stations) of forces (designs, loads, stations, 6).

    nan on bars without a section or with bare properties only. Holes: the net section. Shoulders: the
    smaller diameter.
    """
    found = np.full(forces.shape[:-1], np.nan)
    plain = np.array([not gap for gap in gaps], dtype=bool) & (shoulder < 0)
    is_round = np.array([isinstance(shape, Tube | Bar) for shape in bars.shapes], dtype=bool)
    own = np.flatnonzero(plain & is_round[bar])
    if own.size:
        found[:, :, own] = _round_peaks(bars, bar[own], forces[:, :, own])
    for numbers in _alike(bars, np.unique(bar[plain & ~is_round[bar]])):
        matrix = stress_matrix(bars, numbers[0])
        if matrix is not None:
            own = np.flatnonzero(plain & np.isin(bar, numbers))
            found[:, :, own] = matrix.von_mises(forces[:, :, own])
    for n in np.flatnonzero(~plain):
        matrix = station_matrix(case, bars, int(bar[n]), gaps[n], int(shoulder[n]))
        if matrix is not None:
            found[:, :, n] = matrix.von_mises(forces[:, :, n])
    return found


def _alike(bars: "Bars", numbers: Index) -> list[list[int]]:
    """Bars of one shape and size in every design, together: they share a stress matrix."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for n in numbers.tolist():
        sizes = (bars.depth[:, n].tobytes(), bars.width[:, n].tobytes(), bars.wall[:, n].tobytes())
        groups.setdefault((bars.shapes[n], *sizes), []).append(n)
    return list(groups.values())


def _round_peaks(bars: "Bars", bar: Index, forces: Array) -> Array:
    """All round stations in one product: after scaling, one matrix serves every size."""
    designs, loads, stations = forces.shape[:3]
    matrix = round_matrix(bars.area[:, bar], bars.modulus_y[:, bar], bore_ratio(bars)[:, bar])
    nominal = forces * np.broadcast_to(matrix.scale, (designs, stations, 6))[:, None]
    unit = StressMatrix(
        scale=np.ones((1, 6)),
        sigma=matrix.sigma,
        tau_1=matrix.tau_1,
        tau_2=matrix.tau_2,
        neighbours=matrix.neighbours,
    )
    return unit.von_mises(nominal).reshape(designs, loads, stations)


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
