"""Manoeuvre to lean and to the force that each unit of mass feels."""

import math

import numpy as np
from numpy.typing import NDArray

from strength.units import GRAVITY

Array = NDArray[np.float64]


def lean_angle(leaning: float, cornering: float) -> float:
    """Lean p = sign(a_y) min(leaning, atan(|a_y|/g)) [rad], left positive.

    leaning [rad] >= 0: the greatest lean; cornering [mm/s^2]: signed, left turn positive. A body
    cannot roll within a bump, so the vertical load has no say. The equilibrium lean
    tan p = v^2/(r g) is that of every dynamics text; the stop at `leaning` is our own choice.
    """
    return math.copysign(min(leaning, math.atan(abs(cornering) / GRAVITY)), cornering) + 0.0


def specific_force(forward: float, cornering: float, vertical: float, lean: float) -> Array:
    """Weight and inertia per unit mass in body axes (3,) [mm/s^2], as on a road banked by the lean.

    f = (-a_x, -a_y cos p + V g sin p, -a_y sin p - V g cos p); forward a_x and cornering a_y in
    mm/s^2, vertical V in multiples of g.
    """
    down = vertical * GRAVITY
    c, s = math.cos(lean), math.sin(lean)
    return np.array([-forward, -cornering * c + down * s, -cornering * s - down * c])
