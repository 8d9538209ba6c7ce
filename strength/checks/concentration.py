"""Stress concentration at holes and shoulders: printed beside the nominal stress, used in fatigue.

Every function returns the factor on the nominal stress of the net section and whether its source covers
the proportions.
"""

import numpy as np

Found = tuple[float, bool]

HOLE_TO = 0.5  # d/w up to which the fit was compared with Howland's solution
BENDING_TO = (7.0, 0.3)  # d/t and d/w of Peterson's chart
# x = h/r below and above 2: C1 to C4 as (constant, sqrt x, x)
TENSION = (
    ((0.926, 1.157, -0.099), (0.012, -3.036, 0.961), (-0.302, 3.977, -1.744), (0.365, -2.098, 0.878)),
    ((1.200, 0.860, -0.022), (-1.805, -0.346, -0.038), (2.198, -0.486, 0.165), (-0.593, -0.028, -0.106)),
)
BENDING = (
    ((0.947, 1.206, -0.131), (0.022, -3.405, 0.915), (0.869, 1.777, -0.555), (-0.810, 0.422, -0.260)),
    ((1.232, 0.832, -0.008), (-3.813, 0.968, -0.260), (7.423, -4.868, 0.869), (-3.839, 3.070, -0.600)),
)
TORSION = ((0.905, 0.783, -0.075), (-0.437, -1.969, 0.553), (1.557, 1.073, -0.578), (-1.061, 0.171, 0.086))
BEND_RANGE, TORSION_RANGE = (0.1, 20.0), (0.25, 4.0)
Terms = tuple[tuple[float, float, float], ...]


def hole_in_tension(diameter: float, width: float) -> Found:
    """Round hole in the middle of a strip in tension, x = d/w: 3 - 3.14 x + 3.667 x^2 - 1.527 x^3.

    Range d/w <= 0.5. Source: Howland 1930, fit as in Roark's Formulas for Stress and Strain (from memory).

    >>> round(hole_in_tension(30.0, 100.0)[0], 3)
    2.347
    """
    x = diameter / width
    return 3.0 - 3.14 * x + 3.667 * x**2 - 1.527 * x**3, x <= HOLE_TO


def hole_in_bending(diameter: float, width: float, thickness: float) -> Found:
    """Round hole in a plate bent out of its plane.

    (1.79 + 0.25/(0.39 + d/t) + 0.81/(1 + (d/t)^2) - 0.26/(1 + (d/t)^3)) (1 - 1.04 d/w + 1.22 (d/w)^2)
    Range d/t <= 7, d/w <= 0.3. Source: Peterson's Stress Concentration Factors, v = 0.3 (from memory).

    >>> round(hole_in_bending(10.0, 1e9, 10.0)[0], 2)
    2.24
    """
    t, w = diameter / thickness, diameter / width
    wide = 1.79 + 0.25 / (0.39 + t) + 0.81 / (1.0 + t**2) - 0.26 / (1.0 + t**3)
    return wide * (1.0 - 1.04 * w + 1.22 * w**2), t <= BENDING_TO[0] and w <= BENDING_TO[1]


def _fit(terms: Terms, larger: float, smaller: float, fillet: float) -> float:
    x = (larger - smaller) / (2.0 * fillet)
    u = (larger - smaller) / larger
    c = [constant + root * np.sqrt(x) + line * x for constant, root, line in terms]
    return float(c[0] + c[1] * u + c[2] * u**2 + c[3] * u**3)


def _stepped(sets: tuple[Terms, Terms], larger: float, smaller: float, fillet: float) -> Found:
    x = (larger - smaller) / (2.0 * fillet)
    return _fit(sets[0 if x <= 2.0 else 1], larger, smaller, fillet), BEND_RANGE[0] <= x <= BEND_RANGE[1]


def shoulder_in_tension(larger: float, smaller: float, fillet: float) -> Found:
    """Stepped round bar in tension, on the smaller diameter; h = (D - d)/2, range 0.1 <= h/r <= 20.

    Source: Peterson's Stress Concentration Factors, fit as in Roark (from memory).

    >>> round(shoulder_in_tension(30.0, 20.0, 2.0)[0], 2)
    1.86
    """
    return _stepped(TENSION, larger, smaller, fillet)


def shoulder_in_bending(larger: float, smaller: float, fillet: float) -> Found:
    """Stepped round bar in bending; range and source as in tension."""
    return _stepped(BENDING, larger, smaller, fillet)


def shoulder_in_torsion(larger: float, smaller: float, fillet: float) -> Found:
    """Stepped round bar in torsion; range 0.25 <= h/r <= 4, source as in tension."""
    x = (larger - smaller) / (2.0 * fillet)
    return _fit(TORSION, larger, smaller, fillet), TORSION_RANGE[0] <= x <= TORSION_RANGE[1]
