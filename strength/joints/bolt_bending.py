"""How plates bend a bolt or pin, and the couple they put on it [N, N*mm, mm]; arguments broadcast."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Value = float | Array


def couple(moment: Value, carried: Value, cheek: Value, gap: Value) -> Array:
    """|M_p| / (a + b + 2c): force of each cheek that turns against a moment across the bolt."""
    return np.asarray(moment / (cheek + carried + 2.0 * gap))


def bending_two_planes(across: Value, moment: Value, carried: Value, cheek: Value, gap: Value) -> Array:
    """F_p (b + 4c + 2a)/8 + |M_p| (c + a/2)/(a + b + 2c).

    The first term: EN 1993-1-8:2005 Figure 3.11 (from memory). The second, own choice: the couple's
    force at half the cheek from the plate's face.
    """
    straight = across * (carried + 4.0 * gap + 2.0 * cheek) / 8.0
    return np.asarray(straight + couple(moment, carried, cheek, gap) * (gap + cheek / 2.0))


def bending_one_plane(across: Value, moment: Value, carried: Value, gap: Value) -> Array:
    """F_p (c + b/2) + |M_p|: a cantilever from the holding plate's face (own choice)."""
    return np.asarray(across * (gap + carried / 2.0) + moment)
