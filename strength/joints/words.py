"""Sides of a part in a welder's words: top, underside, front, rear, left, right."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.intp]

SECTORS = 8
NEAR = 0.38  # just under the sine of 22.5 degrees
WORDS = (("rear", "front"), ("right", "left"), ("underside", "top"))


def sides(axes: Array) -> tuple[str, ...]:
    """Names of eight directions round a member, from y_m toward z_m; axes: rows x, y, z in body axes.

    >>> sides(np.eye(3))
    ('left', 'top left', 'top', 'top right', 'right', 'underside right', 'underside', 'underside left')
    """
    angle = np.arange(SECTORS) * 2.0 * np.pi / SECTORS
    directions = np.cos(angle)[:, None] * axes[1] + np.sin(angle)[:, None] * axes[2]
    return tuple(_side(direction) for direction in directions)


def sector(place: Array, centre: Array) -> Index:
    """Which of the eight directions places (..., 3) lie in, seen from centre (..., 3); member axes."""
    off = place - centre
    angle = np.arctan2(off[..., 2], off[..., 1])
    found: Index = np.rint(angle * SECTORS / (2.0 * np.pi)).astype(np.intp) % SECTORS
    return found


def _side(direction: Array) -> str:
    found = [WORDS[axis][int(direction[axis] > 0.0)] for axis in (2, 0, 1) if abs(direction[axis]) > NEAR]
    return " ".join(found)
