"""Strength of a metal by thickness, for many thicknesses at once."""

import numpy as np
from numpy.typing import NDArray

from strength.errors import RangeError
from strength.library import Metal
from strength.values import fields, frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Strengths:
    """Strengths [MPa] and elongation (nan: unknown), one per thickness asked for."""

    yield_: Array
    ultimate: Array
    yield_welded: Array  # the parent's where welding takes nothing away or is not known
    ultimate_welded: Array
    elongation: Array


def strengths(metal: Metal, thickness: Array, diameter: Array | None = None) -> Strengths:
    """Strengths for each thickness [mm]; diameter: outside diameters of a round part [mm].

    The first row of the metal that holds counts, as in `Metal.strength`.
    Raises RangeError where no row holds.
    """
    outside = np.zeros_like(thickness) if diameter is None else diameter
    found = np.full((len(fields(Strengths)), *thickness.shape), np.nan)
    open_ = np.ones(thickness.shape, dtype=bool)
    for row in metal.rows:
        here = open_ & (row.over < thickness) & (thickness <= row.up_to) & (outside <= row.diameter_to)
        open_ &= ~here
        values = (
            row.yield_,
            row.ultimate,
            row.yield_ if row.yield_welded is None else row.yield_welded,
            row.ultimate if row.ultimate_welded is None else row.ultimate_welded,
            np.nan if row.elongation is None else row.elongation,
        )
        for n, value in enumerate(values):
            found[n][here] = value
    if open_.any():
        raise RangeError(
            metal.name, float(thickness[open_][0]), [(row.over, row.up_to) for row in metal.rows]
        )
    return Strengths(
        yield_=found[0],
        ultimate=found[1],
        yield_welded=found[2],
        ultimate_welded=found[3],
        elongation=found[4],
    )
