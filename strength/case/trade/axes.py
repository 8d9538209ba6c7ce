"""Member axes, and how far a part's face stands from its centre line."""

import math

from strength.case.model import Vector
from strength.case.shape import Bar, Box, Flat, Outline, Shape, Tube
from strength.case.trade.vector import cross, dot, length, minus, normal_part, unit
from strength.values import frozen

NEARLY_ALONG = math.sin(math.radians(8.0))  # closer than 8 degrees counts as along
_LONGITUDINAL = 1e-9


@frozen
class Axes:
    """Unit vectors of a member: x from its start to its end, z along `up`, y across."""

    x: Vector
    y: Vector
    z: Vector


def default_up(x: Vector) -> Vector:
    """Body z; body x for a member within 8 degrees of body z."""
    return (1.0, 0.0, 0.0) if math.hypot(x[0], x[1]) < NEARLY_ALONG else (0.0, 0.0, 1.0)


def member_axes(start: Vector, end: Vector, up: Vector | None) -> Axes | None:
    """Axes of a member between two places; None where it has no length or `up` lies along it."""
    way = minus(end, start)
    if length(way) == 0.0:
        return None
    x = unit(way)
    part = normal_part(default_up(x) if up is None else up, x)
    if length(part) <= _LONGITUDINAL * (1.0 if up is None else length(up)):
        return None
    z = unit(part)
    return Axes(x, cross(z, x), z)


def nearly_along(direction: Vector, x: Vector) -> bool:
    """Whether a direction lies within 8 degrees of the unit vector x, either way round."""
    return length(normal_part(unit(direction), x)) < NEARLY_ALONG


def half_sizes(shape: Shape) -> tuple[float, float] | None:
    """Half the extent [mm] of a section along y_m and z_m; None where the shape has no size.

    An outline counts with the greater side from its centroid.
    """
    match shape:
        case Tube():
            return (shape.od / 2, shape.od / 2)
        case Bar():
            return (shape.diameter / 2, shape.diameter / 2)
        case Box():
            return (shape.width / 2, shape.depth / 2)
        case Flat():
            return (shape.thickness / 2, shape.width / 2)
        case Outline():
            y, z = centroid(shape)
            return (
                max(abs(corner[0] - y) for corner in shape.corners),
                max(abs(corner[1] - z) for corner in shape.corners),
            )
        case _:
            return None


def face_distance(shape: Shape, host: Axes, direction: Vector) -> float | None:
    """From a host's centre line to its face, measured along the unit vector `direction` [mm].

    Round hosts: OD / (2 s), s the sine of the angle between the two; others
    min(h_y/|e_y|, h_z/|e_z|). None where the host has no size or the two are parallel.
    """
    half = half_sizes(shape)
    if half is None:
        return None
    if isinstance(shape, Tube | Bar):
        sine = length(cross(host.x, direction))
        return None if sine < _LONGITUDINAL else half[0] / sine
    reached = [
        h / abs(e)
        for h, e in zip(half, (dot(host.y, direction), dot(host.z, direction)), strict=True)
        if abs(e) > _LONGITUDINAL
    ]
    return min(reached, default=None)


def wall(shape: Shape) -> float | None:
    """Thickness a bolt goes through or a weld sits on [mm]: a wall, a flat, a bar's diameter."""
    match shape:
        case Tube() | Box():
            return shape.wall
        case Flat():
            return shape.thickness
        case Bar():
            return shape.diameter
        case _:
            return None


def centroid(outline: Outline) -> tuple[float, float]:
    """Centroid of an outline less its holes, in the coordinates it was typed in [mm]."""
    area, first_y, first_z = _moments(outline.corners)
    for hole in outline.holes:
        a, y, z = _moments(hole)
        area, first_y, first_z = area - a, first_y - y, first_z - z
    return (first_y / area, first_z / area)


def _moments(corners: tuple[tuple[float, float], ...]) -> tuple[float, float, float]:
    """Area and first moments of a polygon, positive whichever way round it is typed."""
    area = y = z = 0.0
    for (y0, z0), (y1, z1) in zip(corners, corners[1:] + corners[:1], strict=True):
        turn = (y0 * z1 - y1 * z0) / 2
        area, y, z = area + turn, y + turn * (y0 + y1) / 3, z + turn * (z0 + z1) / 3
    return (area, y, z) if area > 0 else (-area, -y, -z)
