"""Nominal stresses at the worst place of every part, for the record."""

from functools import cached_property
from typing import Any

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

LATE = ("where", "axial", "bending", "shear", "torsion", "von_mises")


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


class LateStress(StressRow):
    """A row whose place and figures are worked out when one of them is asked for: a report shows a few."""

    def __init__(self, member: str, load: str, number: int, of_bar: "_OfBar") -> None:
        vars(self).update(member=member, load=load, _number=number, _of_bar=of_bar)

    def __getattr__(self, name: str) -> Any:
        """What is not there yet."""
        if name not in LATE:
            raise AttributeError(f"{type(self).__name__} has no {name}")
        own = vars(self)
        own.update(zip(LATE, own["_of_bar"].figures[own["_number"]], strict=True))
        return own[name]


def stress_rows(context: Context) -> tuple[StressRow, ...]:
    """A row for each member and strut with a section and each load, of the first design."""
    return tuple(
        LateStress(context.bars.names[number], load, n, of_bar)
        for number in stressed_bars(context)
        for of_bar in [_OfBar(context, number)]
        for n, load in enumerate(context.load_names)
    )


class _OfBar:
    """The rows of one bar."""

    def __init__(self, context: Context, number: int) -> None:
        self.context, self.number = context, number

    @cached_property
    def figures(self) -> list[tuple[Any, ...]]:
        """Place and stresses of each load."""
        stations, number = self.context.stations, self.number
        station = stations.of(number).start + worst_yielding(self.context, number)[0]
        parts = _nominal(self.context, number, station)
        peak = stations.peak[0, np.arange(station.size), station]
        return [
            (stations.labels[place], *own, most)
            for place, own, most in zip(station.tolist(), parts.tolist(), peak.tolist(), strict=True)
        ]


def _nominal(context: Context, bar: int, station: Index) -> Array:
    """Axial, bending, shear and torsion (loads, 4) of a bar at a station for each load."""
    stations, bars = context.stations, context.bars
    forces = stations.forces[0, np.arange(station.size), station]
    simple = next((of_kind for kinds, of_kind in SIMPLE if isinstance(bars.shapes[bar], kinds)), None)
    found = np.empty((station.size, 4))
    for place in dict.fromkeys(station.tolist()):
        here, gaps, shoulder = station == place, stations.gaps[place], int(stations.shoulder[place])
        if simple is not None and not gaps and shoulder < 0:
            found[here] = _columns(simple(bars, bar, forces[here]))
            continue
        matrix = station_matrix(context.case, bars, bar, gaps, shoulder)
        if matrix is None:
            raise TypeError(f"{bars.names[bar]} has no stresses")
        found[here] = _columns(nominal(matrix.first(), forces[here][None]))
    return found


def _columns(parts: Nominal) -> Array:
    return np.stack([parts.axial, parts.bending, parts.shear, parts.torsion], axis=-1)


def _round(bars: Bars, bar: int, forces: Array) -> Nominal:
    return nominal_round(forces, bars.area[0, bar], bars.modulus_y[0, bar], bore_ratio(bars)[0, bar])


def _flat(bars: Bars, bar: int, forces: Array) -> Nominal:
    return nominal_flat(forces, bars.depth[0, bar], bars.width[0, bar])


def _box(bars: Bars, bar: int, forces: Array) -> Nominal:
    sizes = (bars.depth[0, bar], bars.width[0, bar], bars.wall[0, bar])
    return nominal_box(forces, sizes, bars.area[0, bar], bars.iy[0, bar], bars.iz[0, bar])


# shapes whose stresses have a closed form where nothing is cut out
SIMPLE = (((Tube, Bar), _round), ((Flat,), _flat), ((Box,), _box))
