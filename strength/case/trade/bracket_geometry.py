"""Where a bracket stands on its host and which way its plate lies."""

import math

from strength.case.model import Vector
from strength.case.shape import Box, Flat, Shape
from strength.case.trade.axes import Axes, half_sizes, wall
from strength.case.trade.vector import dot, fraction_of, minus, scaled
from strength.values import frozen

FLAT_ON = math.cos(math.radians(45.0))


@frozen(kw_only=True)
class Seat:
    """The face of a host that a bracket is bolted to.

    normal: the host plate's thickness direction toward the tip, unit. thickness: of the plate or
    wall the bolts go through [mm]. half: from the host's centre line to that face [mm].
    """

    normal: Vector
    thickness: float
    half: float


def foot_fraction(tip: Vector, start: Vector, end: Vector, at: float | None) -> float:
    """Where on its host a bracket stands: `at`, or the foot of the perpendicular from its tip."""
    return min(1.0, max(0.0, fraction_of(tip, start, end))) if at is None else at


def seat(shape: Shape, host: Axes, root: Vector, tip: Vector, plate_normal: Vector) -> Seat | None:
    """The face a bracket is bolted to; None on a host without a flat face of known thickness.

    On a flat the thickness direction; on a box that pair of sides which lies nearest to the
    bracket's plate (own choice). With the tip in the host's middle plane the face is the one on
    the side of the host's y_m (or z_m).
    """
    half, thickness = half_sizes(shape), wall(shape)
    if not isinstance(shape, Flat | Box) or half is None or thickness is None:
        return None
    across, reach = host.y, half[0]
    if isinstance(shape, Box) and abs(dot(plate_normal, host.z)) > abs(dot(plate_normal, host.y)):
        across, reach = host.z, half[1]
    side = 1.0 if dot(minus(tip, root), across) >= 0 else -1.0
    return Seat(normal=scaled(across, side), thickness=thickness, half=reach)


def lies_flat(plate_normal: Vector, face_normal: Vector) -> bool:
    """Whether a plate lies within 45 degrees of the face it is bolted to."""
    return abs(dot(plate_normal, face_normal)) >= FLAT_ON - 1e-12


def bolt_row(count: int, apart: float, width_direction: Vector) -> tuple[Vector, ...]:
    """Places of equal bolts in a row along the width, from its middle [mm]."""
    return tuple(scaled(width_direction, (i - (count - 1) / 2) * apart) for i in range(count))
