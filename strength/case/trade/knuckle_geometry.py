"""Where a knuckle's plate, steps and stub axle lie, from its balls and its wheel."""

from strength.case.model import Vector
from strength.case.trade.axes import Axes, member_axes, nearly_along
from strength.case.trade.vector import along, cross, distance, dot, length, minus, plus, unit
from strength.values import frozen

PARALLEL = 1e-9
SAME = 0.01  # mm, nearer counts as the same place


@frozen(kw_only=True)
class KnuckleGeometry:
    """Places [mm] and directions of a knuckle, body axes.

    axes: of the plate, x from the lower to the upper ball. normal: the plate's thickness direction
    toward the wheel, unit. low, high: the balls moved onto the plate's middle plane. root: the
    place on the line low-high nearest to the axle line. fraction: root along low-high, may lie
    outside 0 to 1. miss: distance of the axle line from the root [mm].
    """

    axes: Axes
    normal: Vector
    low: Vector
    high: Vector
    root: Vector
    fraction: float
    miss: float
    stepped: bool


def lay_knuckle(
    lower: Vector, upper: Vector, hub: Vector, axle: Vector, up: Vector, offset: float
) -> KnuckleGeometry | str:
    """Lay a knuckle out between two balls; a text says why it cannot be laid out.

    lower, upper, hub: places [mm]. axle: unit. up: direction of the plate's width, any length.
    offset: how far the plate's middle plane stands from the ball-to-ball line toward the wheel
    [mm]; under 0.01 mm the plate lies on that line.
    """
    if distance(lower, upper) < SAME:
        return "the lower and the upper ball are the same place"
    axes = member_axes(lower, upper, up)
    if axes is None or nearly_along(up, axes.x):
        return "`up` points from ball to ball: it says which way the plate's width points, across that line"
    stepped = abs(offset) >= SAME
    toward = dot(minus(hub, lower), axes.y)
    if stepped and abs(toward) < SAME:
        return (
            "the wheel's centre lies in the plane of the plate, so nothing says to which side `set` moves "
            'it: change `up`, or give set = "0 mm"'
        )
    normal = axes.y if toward >= 0 else (-axes.y[0], -axes.y[1], -axes.y[2])
    low, high = (plus(lower, normal, offset), plus(upper, normal, offset)) if stepped else (lower, upper)
    found = nearest_on_line(low, high, hub, axle)
    if found is None:
        return "the wheel's axle line runs along the plate, from ball to ball"
    fraction, miss = found
    return KnuckleGeometry(
        axes=axes,
        normal=normal,
        low=low,
        high=high,
        root=along(low, high, fraction),
        fraction=fraction,
        miss=miss,
        stepped=stepped,
    )


def nearest_on_line(
    start: Vector, end: Vector, through: Vector, direction: Vector
) -> tuple[float, float] | None:
    """Fraction of the line start-end nearest to another line, and the distance there [mm].

    The other line runs both ways along the unit vector `direction`; None where the two are parallel.
    """
    way = minus(end, start)
    x = unit(way)
    across = cross(x, direction)
    sine2 = dot(across, across)
    if sine2 < PARALLEL**2:
        return None
    apart = minus(through, start)
    # the common normal meets the first line at t = det(apart, direction, across) / |across|^2
    t = dot(cross(apart, direction), across) / sine2
    return t / length(way), abs(dot(apart, across)) / sine2**0.5
