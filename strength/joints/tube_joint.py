"""Round tube on round tube: chord face failure and punching shear, EN 1993-1-8:2005.

Tables 7.2 (axial force) and 7.5 (moments), formulas from memory; characteristic values [N, N*mm],
to be divided by gamma_M5. d0, t0: chord diameter and wall, d1: brace diameter [mm], angle: between
the two [rad], fy: chord yield [MPa], kp: `chord_factor`. All arguments broadcast.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def chord_factor(n_p: Array) -> Array:
    """Chord factor kp = 1 - 0.3 n_p (1 + n_p); n_p: chord compression over its yield, tension 0.

    >>> chord_factor(np.array([-0.2, 0.2, 0.5, 0.8])).round(3).tolist()
    [1.0, 0.928, 0.775, 0.568]
    """
    n = np.clip(n_p, 0.0, 1.0)
    found: Array = 1.0 - 0.3 * n * (1.0 + n)
    return found


def axial_t(d0: Array, t0: Array, d1: Array, angle: Array | float, fy: Array, kp: Array) -> Array:
    """Face failure of T and Y joints: gamma^0.2 kp fy t0^2/sin (2.8 + 14.2 beta^2) [N]."""
    beta, gamma = d1 / d0, d0 / (2.0 * t0)
    found: Array = gamma**0.2 * fy * t0**2 / np.sin(angle) * (2.8 + 14.2 * beta**2) * kp
    return found


def axial_x(d0: Array, t0: Array, d1: Array, angle: Array | float, fy: Array, kp: Array) -> Array:
    """Face failure of X joints: kp fy t0^2/sin 5.2/(1 - 0.81 beta) [N]."""
    found: Array = fy * t0**2 / np.sin(angle) * 5.2 / (1.0 - 0.81 * d1 / d0) * kp
    return found


def gap_factor(d0: Array, t0: Array, gap: Array) -> Array:
    """Gap factor kg = gamma^0.2 (1 + 0.024 gamma^1.2/(1 + exp(0.5 g/t0 - 1.33))); gap g [mm]."""
    gamma = d0 / (2.0 * t0)
    rise = 1.0 + np.exp(np.minimum(0.5 * gap / t0 - 1.33, 500.0))
    found: Array = gamma**0.2 * (1.0 + 0.024 * gamma**1.2 / rise)
    return found


def axial_k(
    d0: Array, t0: Array, pressing: Array, angle: Array | float, fy: Array, kp: Array, gap: Array
) -> Array:
    """Face failure of K and N joints, brace at `angle`; pressing: diameter of the one in compression."""
    found: Array = gap_factor(d0, t0, gap) * kp * fy * t0**2 / np.sin(angle) * (1.8 + 10.2 * pressing / d0)
    return found


def axial_punching(t0: Array, d1: Array, angle: Array | float, fy: Array) -> Array:
    """Punching shear under axial force: fy/sqrt(3) t0 pi d1 (1 + sin)/(2 sin^2) [N]."""
    sine = np.sin(angle)
    found: Array = fy / np.sqrt(3.0) * t0 * np.pi * d1 * (1.0 + sine) / (2.0 * sine**2)
    return found


def in_plane(d0: Array, t0: Array, d1: Array, angle: Array | float, fy: Array, kp: Array) -> Array:
    """Face failure by bending in the plane of both: 4.85 fy t0^2 d1/sin sqrt(gamma) beta kp [N*mm]."""
    beta, gamma = d1 / d0, d0 / (2.0 * t0)
    found: Array = 4.85 * fy * t0**2 * d1 / np.sin(angle) * np.sqrt(gamma) * beta * kp
    return found


def out_of_plane(d0: Array, t0: Array, d1: Array, angle: Array | float, fy: Array, kp: Array) -> Array:
    """Face failure by bending out of that plane: fy t0^2 d1/sin 2.7/(1 - 0.81 beta) kp [N*mm]."""
    found: Array = fy * t0**2 * d1 / np.sin(angle) * 2.7 / (1.0 - 0.81 * d1 / d0) * kp
    return found


def in_plane_punching(t0: Array, d1: Array, angle: Array | float, fy: Array) -> Array:
    """Punching shear by bending in the plane: fy t0 d1^2/sqrt(3) (1 + 3 sin)/(4 sin^2) [N*mm]."""
    sine = np.sin(angle)
    found: Array = fy * t0 * d1**2 / np.sqrt(3.0) * (1.0 + 3.0 * sine) / (4.0 * sine**2)
    return found


def out_of_plane_punching(t0: Array, d1: Array, angle: Array | float, fy: Array) -> Array:
    """Punching shear by bending out of the plane: fy t0 d1^2/sqrt(3) (3 + sin)/(4 sin^2) [N*mm]."""
    sine = np.sin(angle)
    found: Array = fy * t0 * d1**2 / np.sqrt(3.0) * (3.0 + sine) / (4.0 * sine**2)
    return found


def interaction(axial: Array, in_plane: Array, out_of_plane: Array) -> Array:
    """The multiple u of the load for which N/N_R + (Mip/Mip_R)^2 + Mop/Mop_R, each over u, is 1.

    Arguments: the three ratios, none negative. u = (A + sqrt(A^2 + 4 B))/2 with A = N/N_R + Mop/Mop_R
    and B = (Mip/Mip_R)^2.
    Source: EN 1993-1-8:2005 7.4.2, equation 7.3, solved for the load.

    >>> float(interaction(np.array(0.5), np.array(0.0), np.array(0.25)))
    0.75
    """
    a = axial + out_of_plane
    found: Array = (a + np.sqrt(a**2 + 4.0 * in_plane**2)) / 2.0
    return found
