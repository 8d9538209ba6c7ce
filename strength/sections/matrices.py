"""The stress matrix of a bar, whatever its shape."""

import numpy as np

from strength.case.shape import Bar, Box, Flat, Outline, Tube
from strength.sections.bars import Array, Bars
from strength.sections.box_stress import box_matrix
from strength.sections.flat_stress import flat_matrix
from strength.sections.round_stress import round_matrix
from strength.sections.stress import StressMatrix

STRESSED = (Tube, Bar, Box, Flat, Outline)  # shapes whose stresses can be worked out


def bore_ratio(bars: Bars) -> Array:
    """Inner over outer diameter of the round bars (designs, bars); no meaning for the others."""
    hollow = np.array([isinstance(shape, Tube) for shape in bars.shapes], dtype=bool)
    return np.where(hollow, 1.0 - 2.0 * bars.wall / bars.depth, 0.0)


def stress_matrix(bars: Bars, number: int) -> StressMatrix | None:
    """Stress matrix of one bar; None where it has no section or only bare properties."""
    column = (slice(None), number)
    shape = bars.shapes[number]
    match shape:
        case Tube() | Bar():
            return round_matrix(bars.area[column], bars.modulus_y[column], bore_ratio(bars)[column])
        case Flat():
            return flat_matrix(bars.depth[column], bars.width[column])
        case Box():
            return box_matrix(
                bars.depth[column],
                bars.width[column],
                bars.wall[column],
                bars.area[column],
                bars.iy[column],
                bars.iz[column],
            )
        case Outline():
            from strength.sections.outline import outline_matrix

            return outline_matrix(shape)
        case _:
            return None
