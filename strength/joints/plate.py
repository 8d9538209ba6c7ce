"""A load on a plate held along one edge: how far its root moment spreads.

Source: Jaramillo, Deflections and moments due to a concentrated load on a cantilever plate of
infinite length, J. Appl. Mech. 17 (1950), in the form of Roark's Formulas for Stress and Strain,
"beams of great width"; from memory, recomputed by a Fourier integral for Poisson's ratio 0.3.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

PLACES = np.array(
    [0.0, 0.25, 0.5, 0.75, 1.0]
)  # distance of the load from the held edge over the plate's depth
ROOT = np.array([1.0 / np.pi, 0.332, 0.370, 0.428, 0.509])  # at 0: a load close to a long held edge


def root_moment(place: Array) -> Array:
    """Greatest root moment per unit width over the load, K_m; place: distance over depth, 0 to 1.

    Linear between the tabled places, which is on the safe side (K_m is convex).

    >>> root_moment(np.array([0.5, 1.0])).tolist()
    [0.37, 0.509]
    """
    found: Array = np.interp(place, PLACES, ROOT)
    return found


def effective_width(distance: Array, depth: Array) -> Array:
    """Width b_eff = c/K_m [mm] over which a load's root moment may be spread evenly.

    distance c: of the load from the held edge, depth: of the plate from there to its free edge [mm].

    >>> effective_width(np.array([100.0]), np.array([100.0])).round(1).tolist()
    [196.5]
    """
    found: Array = distance / root_moment(distance / depth)
    return found


def lug_width(distance: Array, width: Array) -> Array:
    """Width [mm] over which a lug's root moment may be spread: 1/b^2 = 1/width^2 + (K_m/c)^2.

    distance c: of the load, in the middle of the width, from the held edge; the load enters at the free edge,
    so K_m is that of c/a = 1. Own choice between a strip (b = width, long) and Jaramillo's plate
    (b = c/K_m, wide): unlike the lesser of the two, on the safe side of plate elements up to one width.

    >>> lug_width(np.array([50.0, 400.0]), np.array([100.0])).round(1).tolist()
    [70.1, 99.2]
    """
    found: Array = 1.0 / np.hypot(1.0 / width, ROOT[-1] / distance)
    return found
