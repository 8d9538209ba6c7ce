"""Stresses of tubes and bars, on the outer radius."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from strength.sections.stress import StressMatrix, selector, stretch
from strength.values import evolve

Array = NDArray[np.float64]

LEAST = 1e-300  # MPa: less is no bending
COUNT = 96  # with the parabola between points the peak is right to 0.01 %


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
    found = np.empty((*np.broadcast_shapes(area.shape, m.shape), 6))
    found[..., 0] = 1.0 / area
    found[..., 1] = found[..., 2] = shear_peak(m) / area
    found[..., 4] = found[..., 5] = 1.0 / modulus
    found[..., 3] = 0.5 * found[..., 4]
    return found


@cache
def unit_round() -> StressMatrix:
    """Stress matrix of every round section, for forces that are nominal stresses already."""
    phi = np.arange(COUNT) * (2.0 * np.pi / COUNT)
    sin, cos = np.sin(phi), np.cos(phi)
    return StressMatrix(
        scale=np.ones((1, 6)),
        sigma=selector((0, 1.0), (4, sin), (5, -cos), points=COUNT)[None],
        tau_1=selector((3, 1.0), (2, cos), (1, -sin), points=COUNT)[None],
        tau_2=None,
        neighbours=stretch(COUNT, closed=True)[None],
        probe=np.arange(0, COUNT, 8),
    )


def round_matrix(area: Array, modulus: Array, m: Array) -> StressMatrix:
    """Stress matrix of round sections; area, elastic modulus and m = inner/outer: (designs,).

    At angle phi from y_m: sigma = N/A + (My sin phi - Mz cos phi) r/I and
    tau = T r/J + (k/A)(Vz cos phi - Vy sin phi), k V/A the greatest shear stress of V.
    """
    return evolve(unit_round(), scale=round_scale(area, modulus, m))


def round_bounds(nominal: Array) -> tuple[Array, Array]:
    """Squares of what the worst von Mises lies between, twice (...): of nominal stresses (6, ...).

    Below: at the fibre that bends most. Above: greatest sigma and greatest tau at one place.
    """
    n, vy, vz, t, my, mz = nominal
    bending, shear = np.sqrt(my * my + mz * mz), np.sqrt(vy * vy + vz * vz)
    # there sin phi = s my/bending and cos phi = -s mz/bending, s the sign of N
    there = vz * mz
    there += vy * my
    there /= np.maximum(bending, LEAST)
    np.negative(there, out=there, where=n >= 0.0)
    there += t
    sigma = np.abs(n)
    sigma += bending
    sigma *= sigma
    shear += np.abs(t)
    for tau in (there, shear):
        tau *= tau
        tau *= 3.0
        tau += sigma
    return there, shear
