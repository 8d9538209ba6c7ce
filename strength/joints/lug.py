"""The eye of a lug: what its metal ahead of and beside the hole holds. Arguments broadcast."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Value = float | Array

OBLIQUE = 1.6  # exponent for a pull between along and across
LEAST = 0.01  # hole diameters: own choice for an eye with next to no metal


def eye_resistance(thickness: Value, yield_: Value, ahead: float, beside: float, hole: float) -> Array:
    """Pull that an eye holds, 2 t fy min(a - 2 d0/3, c - d0/3) [N], characteristic.

    ahead, beside: from the hole's middle to the edge in the direction of the pull and square to it [mm];
    a and c are these less half the hole. An eye with less metal than Table 3.9 takes for granted holds
    next to nothing.
    Source: EN 1993-1-8:2005 Table 3.9, type A, solved for the force.

    >>> float(eye_resistance(6.0, 250.0, 23.0, 18.0, 12.0))
    24000.0
    """
    a, c = ahead - hole / 2.0, beside - hole / 2.0
    held = max(min(a - 2.0 * hole / 3.0, c - hole / 3.0), LEAST * hole)
    return np.asarray(2.0 * held * np.multiply(thickness, yield_))


def oblique(along: Value, across: Value) -> Array:
    """Utilisation of an eye pulled between two directions: (u1^1.6 + u2^1.6)^(1/1.6).

    along, across: utilisations of each by itself. Source: Melcon and Hoblit 1953 (Bruhn, Analysis and
    Design of Flight Vehicle Structures, chapter D1), from memory.

    >>> round(float(oblique(0.5, 0.5)) ** 1.6, 4), round(1.0 / float(oblique(0.5, 0.5)) - 1.0, 3)
    (0.6598, 0.297)
    """
    return np.asarray((np.power(along, OBLIQUE) + np.power(across, OBLIQUE)) ** (1.0 / OBLIQUE))
