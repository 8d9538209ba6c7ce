"""Nominal stresses at the worst place of every part, for the record."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.arrays import distinct
from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.context import Context
from strength.checks.peaks import station_matrix
from strength.checks.yielding import stressed_bars, worst_yielding
from strength.sections.matrices import bore_ratio
from strength.sections.nominal import Nominal, nominal, nominal_box, nominal_flat, nominal_round
from strength.values import frozen

Array = NDArray[np.float64]


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
    return tuple(row for number in stressed_bars(context) for row in _rows(context, number))


def _rows(context: Context, number: int) -> Iterator[StressRow]:
    stations = context.stations
    own = stations.of(number)
    worst = own.start + worst_yielding(context, number)[0]
    found = np.empty((len(context.loads), 4))
    for station in distinct(worst):
        loads = np.flatnonzero(worst == station)
        parts = _nominal(context, number, int(station), stations.forces[:1, loads, station])
        found[loads] = np.stack([parts.axial[0], parts.bending[0], parts.shear[0], parts.torsion[0]], axis=-1)
    for load, name in enumerate(context.load_names):
        axial, bending, shear, torsion = found[load].tolist()
        yield StressRow(
            member=context.bars.names[number],
            load=name,
            where=stations.labels[worst[load]],
            axial=axial,
            bending=bending,
            shear=shear,
            torsion=torsion,
            von_mises=float(stations.peak[0, load, worst[load]]),
        )


def _nominal(context: Context, number: int, station: int, forces: Array) -> Nominal:
    bars, stations = context.bars, context.stations
    shape = bars.shapes[number]
    if not stations.gaps[station] and stations.shoulder[station] < 0:
        if isinstance(shape, Tube | Bar):
            ratio = bore_ratio(bars)[0, number]
            return nominal_round(forces, bars.area[0, number], bars.modulus_y[0, number], ratio)
        if isinstance(shape, Flat):
            return nominal_flat(forces, bars.depth[0, number], bars.width[0, number])
        if isinstance(shape, Box):
            sizes = (bars.depth[0, number], bars.width[0, number], bars.wall[0, number])
            return nominal_box(forces, sizes, bars.area[0, number], bars.iy[0, number], bars.iz[0, number])
    matrix = station_matrix(
        context.case, bars, number, stations.gaps[station], int(stations.shoulder[station])
    )
    if matrix is None:
        raise TypeError(f"{bars.names[number]} has no stresses")
    return nominal(matrix.first(), forces)
