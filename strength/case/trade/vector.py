"""Three-component vectors as plain tuples of floats: a case has too few for arrays to pay."""

import math

from strength.case.model import Vector


def plus(a: Vector, b: Vector, times: float = 1.0) -> Vector:
    """The sum, b counted `times` times."""
    return (a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2])


def minus(a: Vector, b: Vector) -> Vector:
    """The way from b to a."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scaled(a: Vector, factor: float) -> Vector:
    """The vector made `factor` times as long."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vector, b: Vector) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Vector product, right-handed."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vector) -> float:
    """Euclidean length."""
    return math.hypot(*a)


def distance(a: Vector, b: Vector) -> float:
    """Between two places."""
    return math.dist(a, b)


def unit(a: Vector) -> Vector:
    """The vector at length 1; raises ZeroDivisionError where it has none."""
    size = length(a)
    return (a[0] / size, a[1] / size, a[2] / size)


def normal_part(a: Vector, axis: Vector) -> Vector:
    """What is left of `a` without its part along the unit vector `axis`."""
    return plus(a, axis, -dot(a, axis))


def along(start: Vector, end: Vector, fraction: float) -> Vector:
    """The place a fraction of the way from start to end."""
    return plus(start, minus(end, start), fraction)


def fraction_of(place: Vector, start: Vector, end: Vector) -> float:
    """Where the foot of the perpendicular from a place stands on a line, 0 at start and 1 at end."""
    way = minus(end, start)
    return dot(minus(place, start), way) / dot(way, way)


def off_line(place: Vector, start: Vector, end: Vector) -> float:
    """Distance of a place from the endless line through two others."""
    return distance(place, along(start, end, fraction_of(place, start, end)))
