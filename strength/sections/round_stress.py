"""Stresses of tubes and bars, on the outer radius."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.stress import StressMatrix, selector, stretch

Array = NDArray[np.float64]

COUNT = 48  # with the parabola between points the peak is right to 0.01 %


def shear_peak(m: Array | float) -> Array:
    """Greatest transverse shear stress over V/A, (4/3)(1 + m + m^2)/(1 + m^2), m = inner/outer diameter.

    Source: Timoshenko and Gere, Mechanics of Materials: V Q/(I b) at the neutral axis.

    >>> round(float(shear_peak(0.0)), 4), round(float(shear_peak(1.0)), 4)
    (1.3333, 2.0)
    """
    m = np.asarray(m, dtype=np.float64)
    found: Array = 4.0 / 3.0 * (1.0 + m + m**2) / (1.0 + m**2)
    return found


def round_scale(area: Array, modulus: Array, m: Array) -> Array:
    """Scale (..., 6) of a round section: N/A, k V/A, T r/J, M r/I."""
    one, shear = 1.0 / area, shear_peak(m) / area
    return np.stack([one, shear, shear, 0.5 / modulus, 1.0 / modulus, 1.0 / modulus], axis=-1)


def round_matrix(area: Array, modulus: Array, m: Array) -> StressMatrix:
    """Stress matrix of round sections; area, elastic modulus and m = inner/outer: (designs,).

    At angle phi from y_m: sigma = N/A + (My sin phi - Mz cos phi) r/I and
    tau = T r/J + (k/A)(Vz cos phi - Vy sin phi), which takes the greatest of the transverse shear all
    through the wall: on the safe side by no more than the step from mean to greatest.
    """
    phi = np.arange(COUNT) * (2.0 * np.pi / COUNT)
    sin, cos = np.sin(phi), np.cos(phi)
    return StressMatrix(
        scale=round_scale(area, modulus, m),
        sigma=selector((0, 1.0), (4, sin), (5, -cos), points=COUNT)[None],
        tau_1=selector((3, 1.0), (2, cos), (1, -sin), points=COUNT)[None],
        tau_2=None,
        neighbours=stretch(COUNT, closed=True)[None],
    )
