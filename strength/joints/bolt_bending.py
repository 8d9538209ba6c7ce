"""How plates bend a bolt or pin, and the couple they put on it [N, N*mm, mm]."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def couple(moment: ArrayLike, carried: ArrayLike, cheek: ArrayLike, gap: ArrayLike) -> Array:
    """|M_p| / (a + b + 2c): force of each cheek that turns against a moment across the bolt."""
    return np.asarray(np.asarray(moment) / (np.asarray(cheek) + carried + 2.0 * np.asarray(gap)))


def bending_two_planes(
    across: ArrayLike, moment: ArrayLike, carried: ArrayLike, cheek: ArrayLike, gap: ArrayLike
) -> Array:
    """F_p (b + 4c + 2a)/8 + |M_p| (c + a/2)/(a + b + 2c).

    The first term: EN 1993-1-8:2005 Figure 3.11 (from memory). The second, own choice: the couple's
    force at half the cheek from the plate's face.
    """
    a, b, c = np.asarray(cheek), np.asarray(carried), np.asarray(gap)
    straight = np.asarray(across) * (b + 4.0 * c + 2.0 * a) / 8.0
    return np.asarray(straight + couple(moment, b, a, c) * (c + a / 2.0))


def bending_one_plane(across: ArrayLike, moment: ArrayLike, carried: ArrayLike, gap: ArrayLike) -> Array:
    """F_p (c + b/2) + |M_p|: a cantilever from the holding plate's face (own choice)."""
    return np.asarray(np.asarray(across) * (np.asarray(gap) + np.asarray(carried) / 2.0) + moment)
