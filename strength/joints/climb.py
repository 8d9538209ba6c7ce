"""From a sample near a maximum along a piece of a line to the maximum."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from strength.arrays import picked

Array = NDArray[np.float64]

FIVE = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
ZOOMS = (0.25, 0.04, 0.005)  # of the sampling step: each parabola lands well inside the next


def climbed(height: Callable[[Array], Array], start: Array, step: float) -> Array:
    """Where a height sampled at `step` is greatest within a step of `start` (...), from 0 to 1.

    height: (..., n) of places (..., n). Parabolas through the best of five places and its neighbours, on ever
    closer places: right to some 1e-6 of a step, and the height there to rounding.
    """
    found = start
    for zoom in (1.0, *ZOOMS):
        found = _through_five(height, found, np.full(1, zoom * step))
    return found


def _through_five(height: Callable[[Array], Array], middle: Array, by: Array) -> Array:
    middle = np.clip(middle, by, 1.0 - by)
    value = height(middle[..., None] + by[..., None] * FIVE)
    top = np.argmax(value, axis=-1)
    inner = np.clip(top, 1, FIVE.size - 2)
    low, mid, high = (picked(value, inner + n) for n in (-1, 0, 1))
    bend = low - 2.0 * mid + high
    peaked = (bend < 0.0) & (top == inner)
    shift = np.where(peaked, (low - high) / np.where(peaked, 2.0 * bend, 1.0), 0.0)
    return np.asarray(middle + by * (FIVE[top] + shift * (FIVE[1] - FIVE[0])))
