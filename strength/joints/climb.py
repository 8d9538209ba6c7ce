"""From a sample near a maximum along a piece of a line to the maximum."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from strength.arrays import picked

Array = NDArray[np.float64]

FIVE = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
THREE = np.array([-1.0, 0.0, 1.0])
# Of the sampling step: each parabola lands well inside the next.
STEEP = (0.25, 0.04, 0.005)
GENTLE = (0.04, 0.005)
FAR = 2.0  # places of a stencil beyond which a parabola through three is not trusted


def climbed(
    height: Callable[[Array], Array], start: Array, wide: Array, step: float, *, steep: bool
) -> Array:
    """Where a smooth height is greatest within some `wide` of `start` (...), from 0 to 1.

    height: (..., n) of places (..., n), sampled at `step`. Parabolas through the best of five places and its
    neighbours, on ever closer places, or once it is near and the height not steep, through three: right to
    some 1e-6 of a step, and the height there to rounding.
    """
    found = _through_five(height, start, wide)
    for zoom in STEEP if steep else GENTLE:
        by = np.full(1, zoom * step)
        found = _through_five(height, found, by) if steep else _through_three(height, found, by)
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


def _through_three(height: Callable[[Array], Array], middle: Array, by: Array) -> Array:
    middle = np.clip(middle, by, 1.0 - by)
    value = height(middle[..., None] + by[..., None] * THREE)
    rise = value[..., 2] - value[..., 0]
    bend = 2.0 * value[..., 1] - value[..., 0] - value[..., 2]
    bent = bend > 0.0
    shift = np.where(bent, rise / np.where(bent, 2.0 * bend, 1.0), FAR * np.sign(rise))
    return np.asarray(np.clip(middle + by * np.clip(shift, -FAR, FAR), 0.0, 1.0))
