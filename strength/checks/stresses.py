"""Nominal stresses at the worst place of every part, for the record."""

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.context import Context
from strength.checks.section_groups import station_matrix
from strength.checks.yielding import stressed_bars, worst_yielding
from strength.sections.bars import Bars
from strength.sections.matrices import bore_ratio
from strength.sections.nominal import Nominal, nominal, nominal_box, nominal_flat, nominal_round
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@frozen(kw_only=True)
class StressRow:
    """Nominal stresses [MPa] of a part under one load, where `yielding` is worst; without load factor.

    axial: tension positive; bending: both axes together at the worst fibre; shear: greatest from the
    transverse forces; torsion; the last three never negative. von_mises: the worst of all together.
    """

    member: str
    load: str
    where: str
    axial: float
    bending: float
    shear: float
    torsion: float
    von_mises: float


def stress_rows(context: Context) -> tuple[StressRow, ...]:
    """A row for each member and strut with a section and each load, of the first design."""
    stations, numbers = context.stations, tuple(stressed_bars(context))
    worst = [stations.of(number).start + worst_yielding(context, number)[0] for number in numbers]
    station = np.array(worst, dtype=np.intp).reshape(len(numbers), len(context.loads))
    found = _nominal(context, np.array(numbers, dtype=np.intp), station)
    peak = stations.peak[0, np.arange(station.shape[1]), station]
    return tuple(
        StressRow(
            member=context.bars.names[number],
            load=load,
            where=stations.labels[place],
            axial=axial,
            bending=bending,
            shear=shear,
            torsion=torsion,
            von_mises=von_mises,
        )
        for number, places, parts, peaks in zip(
            numbers, station.tolist(), found.tolist(), peak.tolist(), strict=True
        )
        for load, place, (axial, bending, shear, torsion), von_mises in zip(
            context.load_names, places, parts, peaks, strict=True
        )
    )


def _nominal(context: Context, number: Index, station: Index) -> Array:
    """Axial, bending, shear and torsion (bars, loads, 4) of bars (bars,) at stations (bars, loads)."""
    stations, bars = context.stations, context.bars
    forces = stations.forces[0, np.arange(station.shape[1]), station]
    plain = np.array([not gap for gap in stations.gaps], dtype=bool) & (stations.shoulder < 0)
    bar = np.broadcast_to(number[:, None], station.shape)
    found = np.empty((*station.shape, 4))
    left = np.ones(station.shape, dtype=bool)
    for kinds, of_kind in SIMPLE:
        alike = np.array([isinstance(bars.shapes[n], kinds) for n in number], dtype=bool)
        here = alike[:, None] & plain[station]
        found[here] = _columns(of_kind(bars, bar[here], forces[here]))
        left &= ~here
    for n, place in sorted(set(zip(bar[left].tolist(), station[left].tolist(), strict=True))):
        here = (bar == n) & (station == place)
        shoulder = int(stations.shoulder[place])
        matrix = station_matrix(context.case, bars, n, stations.gaps[place], shoulder)
        if matrix is None:
            raise TypeError(f"{bars.names[n]} has no stresses")
        found[here] = _columns(nominal(matrix.first(), forces[here][None]))
    return found


def _columns(parts: Nominal) -> Array:
    return np.stack([parts.axial, parts.bending, parts.shear, parts.torsion], axis=-1)


def _round(bars: Bars, bar: Index, forces: Array) -> Nominal:
    return nominal_round(forces, bars.area[0, bar], bars.modulus_y[0, bar], bore_ratio(bars)[0, bar])


def _flat(bars: Bars, bar: Index, forces: Array) -> Nominal:
    return nominal_flat(forces, bars.depth[0, bar], bars.width[0, bar])


def _box(bars: Bars, bar: Index, forces: Array) -> Nominal:
    sizes = (bars.depth[0, bar], bars.width[0, bar], bars.wall[0, bar])
    return nominal_box(forces, sizes, bars.area[0, bar], bars.iy[0, bar], bars.iz[0, bar])


# shapes whose stresses have a closed form where nothing is cut out
SIMPLE = (((Tube, Bar), _round), ((Flat,), _flat), ((Box,), _box))
