"""Buckling curves by Perry and Robertson."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# imperfection factor, plateau: EN 1993-1-1 Table 6.1, EN 1999-1-1 Table 6.6
CURVES = {
    "a0": (0.13, 0.2),
    "a": (0.21, 0.2),
    "b": (0.34, 0.2),
    "c": (0.49, 0.2),
    "d": (0.76, 0.2),
    "A": (0.20, 0.10),
    "B": (0.32, 0.0),
}
TWISTING = {"steel": (0.76, 0.2), "aluminium": (0.20, 0.4)}  # EN 1993-1-1 curve d, EN 1999-1-1 6.3.2.2


def chi(slenderness: Array, alpha: float | Array, plateau: float | Array) -> Array:
    """Reduction factor of a buckling resistance, at most 1.

    chi = 1/(phi + sqrt(phi^2 - s^2)), phi = (1 + alpha (s - plateau) + s^2)/2
    Source: EN 1993-1-1:2005 6.3.1.2.

    >>> round(float(chi(1.0, *CURVES["c"])), 4)
    0.5399
    """
    phi = 0.5 * (1.0 + alpha * (slenderness - plateau) + np.square(slenderness))
    found = 1.0 / (phi + np.sqrt(np.maximum(phi**2 - np.square(slenderness), 0.0)))
    return np.minimum(found, 1.0)
