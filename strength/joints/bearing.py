"""What a plate carries beside a bolt's hole: bearing, tear-out, net section, pull-through.

Arguments broadcast; mm, MPa; results N, characteristic.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

LEAST_EDGE = 1.2  # hole diameters: EN 1993-1-8 Table 3.3
LEAST_K1 = 0.01  # own choice: holes nearer to the edge than k1 allows carry next to nothing


def bearing_allowable(diameter: ArrayLike, thickness: ArrayLike, fu: ArrayLike, fub: ArrayLike) -> Array:
    """2.4 d t fu min(1, fub/fu) (AISC 360-16 J3.10; the bolt's own strength: EN 1993-1-8 Table 3.4)."""
    d, t, fu = np.asarray(diameter), np.asarray(thickness), np.asarray(fu)
    return np.asarray(2.4 * d * t * fu * np.minimum(1.0, fub / fu))


def bearing_limit_state(
    diameter: ArrayLike, thickness: ArrayLike, fu: ArrayLike, fub: ArrayLike, edge: ArrayLike, hole: ArrayLike
) -> Array:
    """k1 d t fu min(1, fub/fu, e/(3 d0)), k1 = min(2.5, 2.8 e/d0 - 1.7) (EN 1993-1-8:2005 Table 3.4).

    The same edge distance is taken along the force and across it.
    """
    d, t, fu = np.asarray(diameter), np.asarray(thickness), np.asarray(fu)
    e, d0 = np.asarray(edge), np.asarray(hole)
    k1 = np.clip(2.8 * e / d0 - 1.7, LEAST_K1, 2.5)
    return np.asarray(k1 * d * t * fu * np.minimum(np.minimum(1.0, fub / fu), e / (3.0 * d0)))


def bearing_single_lap(diameter: ArrayLike, thickness: ArrayLike, fu: ArrayLike) -> Array:
    """1.5 d t fu: the most that one bolt in single shear may bear (EN 1993-1-8:2005 3.6.1(10))."""
    return np.asarray(1.5 * np.asarray(diameter) * thickness * fu)


def bearing_pin(diameter: ArrayLike, thickness: ArrayLike, fy: ArrayLike) -> Array:
    """1.5 t d fy, fy the lesser of pin and plate (EN 1993-1-8:2005 Table 3.10)."""
    return np.asarray(1.5 * np.asarray(diameter) * thickness * fy)


def tear_out(thickness: ArrayLike, fu: ArrayLike, edge: ArrayLike, hole: ArrayLike) -> Array:
    """1.2 (e - d0/2) t fu (AISC 360-16 J3.10)."""
    return np.asarray(1.2 * (np.asarray(edge) - np.asarray(hole) / 2.0) * thickness * fu)


def net_section(thickness: ArrayLike, fu: ArrayLike, width: ArrayLike, hole: ArrayLike) -> Array:
    """0.9 (width - d0) t fu (EN 1993-1-1:2005 6.2.3)."""
    return np.asarray(0.9 * (np.asarray(width) - np.asarray(hole)) * thickness * fu)


def pull_through(mean: ArrayLike, thickness: ArrayLike, fu: ArrayLike) -> Array:
    """0.6 pi dm t fu, dm the mean width of head or nut (EN 1993-1-8:2005 Table 3.4)."""
    return np.asarray(0.6 * np.pi * np.asarray(mean) * thickness * fu)
