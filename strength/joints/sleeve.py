"""Tube in tube: pressure and wall load of the couple that carries bending [N, N*mm, mm]."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Value = float | Array


def bearing(shear: Value, moment: Value, diameter: Value, overlap: float) -> Array:
    """V/(d s) + 6 M/(d s^2): pressure at the mouth, V and M at mid-overlap [MPa].

    A stiff bar in an elastic bore, the pressure linear along it (Roloff/Matek, plug pin in bending,
    from memory).
    """
    return np.asarray(shear / (diameter * overlap) + 6.0 * moment / (diameter * overlap * overlap))


def wall_load(shear: Value, moment: Value, overlap: float) -> Array:
    """V/2 + 1.5 M/s: the greater of the two forces two thirds of the overlap apart [N]."""
    return np.asarray(shear / 2.0 + 1.5 * moment / overlap)


def wall_resistance(fy: Value, thickness: Value) -> Array:
    """24 fy t^2 [N]: a saddle as wide as the tube, 4 + 20 beta^2 with beta = 1 (EN 1993-1-8 Table 7.3)."""
    return np.asarray(24.0 * fy * thickness * thickness)
