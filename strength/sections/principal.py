"""The axes in which an outline bends without bending sideways."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Outline, Shape

Array = NDArray[np.float64]

ALIGNED = 1e-9  # of the greater second moment: a product moment below it counts as none


def principal_turns(shapes: Sequence[Shape | None]) -> Array:
    """Angle [rad] about x_m from y_m, z_m to the principal axes of each bar; 0 but for outlines."""
    if Outline not in set(map(type, shapes)):
        return np.zeros(len(shapes))
    return np.array([principal_turn(shape) if isinstance(shape, Outline) else 0.0 for shape in shapes])


@lru_cache(maxsize=64)
def principal_turn(shape: Outline) -> float:
    """Angle [rad] about x_m from y_m, z_m to the principal axes of an outline, -45 to 45 degrees.

    tan 2a = 2 Iyz / (Iz - Iy), any handbook; the moments of area of a polygon are exact.
    """
    iy, iz, iyz = polygon_moments(shape)
    if abs(iyz) <= ALIGNED * max(iy, iz):
        return 0.0
    side = 1.0 if iz >= iy else -1.0
    return float(0.5 * np.arctan2(side * 2.0 * iyz, side * (iz - iy)))


def polygon_moments(shape: Outline) -> tuple[float, float, float]:
    """Iy, Iz, Iyz [mm^4] of an outline less its holes, about its centroid (Green's theorem)."""
    sums = np.zeros(6)
    for sign, ring in ((1.0, shape.corners), *((-1.0, hole) for hole in shape.holes)):
        y, z = np.array(ring, dtype=float).T
        y2, z2 = np.roll(y, -1), np.roll(z, -1)
        cross = y * z2 - y2 * z
        own = np.array(
            [
                cross.sum() / 2.0,
                ((y + y2) * cross).sum() / 6.0,
                ((z + z2) * cross).sum() / 6.0,
                ((z**2 + z * z2 + z2**2) * cross).sum() / 12.0,
                ((y**2 + y * y2 + y2**2) * cross).sum() / 12.0,
                ((y * z2 + 2.0 * y * z + 2.0 * y2 * z2 + y2 * z) * cross).sum() / 24.0,
            ]
        )
        sums += sign * own * np.sign(own[0])
    area, first_y, first_z, iy, iz, iyz = sums.tolist()
    return iy - first_z**2 / area, iz - first_y**2 / area, iyz - first_y * first_z / area


def turned(iy: Array, iz: Array, iyz: Array, turn: Array) -> tuple[Array, Array]:
    """Second moments about axes turned by `turn` [rad] about x_m; arrays broadcast.

    The same rule serves any pair of figures with a mixed one, such as shear compliances.
    """
    c, s = np.cos(turn), np.sin(turn)
    about_y = c**2 * iy + s**2 * iz - 2.0 * s * c * iyz
    about_z = c**2 * iz + s**2 * iy + 2.0 * s * c * iyz
    return np.asarray(about_y), np.asarray(about_z)
