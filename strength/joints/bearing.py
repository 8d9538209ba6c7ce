"""What a plate carries beside a bolt's hole: bearing, tear-out, net section, pull-through.

Arguments broadcast; mm, MPa; results N, characteristic.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Value = float | Array

LEAST_EDGE = 1.2  # hole diameters: EN 1993-1-8 Table 3.3
LEAST_K1 = 0.01  # own choice: holes nearer to the edge than k1 allows carry next to nothing


def bearing_allowable(diameter: Value, thickness: Value, fu: Value, fub: Value) -> Array:
    """2.4 d t fu min(1, fub/fu) (AISC 360-16 J3.10; the bolt's own strength: EN 1993-1-8 Table 3.4)."""
    return np.asarray(2.4 * diameter * thickness * np.minimum(fu, fub))


def bearing_limit_state(
    diameter: Value, thickness: Value, fu: Value, fub: Value, edge: Value, hole: Value
) -> Array:
    """k1 d t fu min(1, fub/fu, e/(3 d0)), k1 = min(2.5, 2.8 e/d0 - 1.7) (EN 1993-1-8:2005 Table 3.4).

    The same edge distance is taken along the force and across it.
    """
    k1 = np.clip(2.8 * edge / hole - 1.7, LEAST_K1, 2.5)
    return np.asarray(k1 * diameter * thickness * np.minimum(np.minimum(fu, fub), fu * edge / (3.0 * hole)))


def bearing_single_lap(diameter: Value, thickness: Value, fu: Value) -> Array:
    """1.5 d t fu: the most that one bolt in single shear may bear (EN 1993-1-8:2005 3.6.1(10))."""
    return np.asarray(1.5 * diameter * thickness * fu)


def bearing_pin(diameter: Value, thickness: Value, fy: Value) -> Array:
    """1.5 t d fy, fy the lesser of pin and plate (EN 1993-1-8:2005 Table 3.10)."""
    return np.asarray(1.5 * diameter * thickness * fy)


def tear_out(thickness: Value, fu: Value, edge: Value, hole: Value) -> Array:
    """1.2 (e - d0/2) t fu (AISC 360-16 J3.10)."""
    return np.asarray(1.2 * (edge - hole / 2.0) * thickness * fu)


def net_section(thickness: Value, fu: Value, width: Value, hole: Value) -> Array:
    """0.9 (width - d0) t fu (EN 1993-1-1:2005 6.2.3)."""
    return np.asarray(0.9 * (width - hole) * thickness * fu)


def pull_through(mean: Value, thickness: Value, fu: Value) -> Array:
    """0.6 pi dm t fu, dm the mean width of head or nut (EN 1993-1-8:2005 Table 3.4)."""
    return np.asarray(0.6 * np.pi * mean * thickness * fu)
