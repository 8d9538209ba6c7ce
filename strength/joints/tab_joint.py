"""Plate or box standing on a round tube: EN 1993-1-8:2005 Table 7.3, from memory.

Characteristic values [N], to be divided by gamma_M5. d0, t0: chord [mm]; b1 across it, h1 along it
[mm]; fy: chord yield [MPa]; kp: `tube_joint.chord_factor`. All arguments broadcast.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def across(d0: Array, t0: Array, b1: Array, fy: Array, kp: Array, *, crossed: bool) -> Array:
    """Plate across the tube: kp fy t0^2 (4 + 20 beta^2); another opposite: 5 kp fy t0^2/(1 - 0.81 beta)."""
    beta = b1 / d0
    found: Array = kp * fy * t0**2 * (5.0 / (1.0 - 0.81 * beta) if crossed else 4.0 + 20.0 * beta**2)
    return found


def along(d0: Array, t0: Array, h1: Array, fy: Array, kp: Array) -> Array:
    """Plate along the tube: 5 kp fy t0^2 (1 + 0.25 h1/d0)."""
    found: Array = 5.0 * kp * fy * t0**2 * (1.0 + 0.25 * h1 / d0)
    return found


def box(d0: Array, t0: Array, b1: Array, h1: Array, fy: Array, kp: Array, *, crossed: bool) -> Array:
    """Box on the tube: as a plate across, times 1 + 0.25 h1/d0."""
    return across(d0, t0, b1, fy, kp, crossed=crossed) * (1.0 + 0.25 * h1 / d0)


def punching(t0: Array, fy: Array, *, plate: bool) -> Array:
    """Greatest (N/A + M/W) x thickness of the standing part [N/mm]: t0 fy/sqrt(3), a plate twice that."""
    found: Array = (2.0 if plate else 1.0) * t0 * fy / np.sqrt(3.0)
    return found
