"""From a sample near a maximum along a piece of a line to the maximum."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from strength.arrays import picked

Array = NDArray[np.float64]

STENCIL = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
ZOOMS = (1.0, 0.25, 0.04, 0.005)  # of the sampling step: each parabola lands well inside the next


def climbed(height: Callable[[Array], Array], middle: Array, step: float) -> Array:
    """Where a smooth height is greatest next to `middle` (...), from 0 to 1, sampled at `step`.

    height: (..., n) of places (..., n). A parabola through the best of five places and its neighbours, on
    ever closer places: right to some 1e-6 of a step, and the height there to rounding.
    """
    for zoom in ZOOMS:
        by = zoom * step
        middle = np.clip(middle, by, 1.0 - by)
        value = height(middle[..., None] + by * STENCIL)
        top = np.argmax(value, axis=-1)
        inner = np.clip(top, 1, STENCIL.size - 2)
        low, mid, high = (picked(value, inner + n) for n in (-1, 0, 1))
        bend = low - 2.0 * mid + high
        peaked = (bend < 0.0) & (top == inner)
        shift = np.where(peaked, (low - high) / np.where(peaked, 2.0 * bend, 1.0), 0.0)
        middle = middle + by * (STENCIL[top] + shift * (STENCIL[1] - STENCIL[0]))
    return middle
