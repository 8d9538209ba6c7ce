"""How a welded member meets the part it stands on: angle, planes of bending, and who stands near."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross
from strength.joints.seat import Host, Seat
from strength.values import frozen

Array = NDArray[np.float64]

SAME_PLANE = float(np.cos(np.radians(15.0)))  # members this near to one plane count as in it (own choice)
UPRIGHT = float(np.sin(np.radians(5.0)))  # a brace within this of square may pair either way (own choice)
DEEP = 0.25  # of the chord's diameter: EN 1993-1-8 5.1.5, eccentricity of gap joints


@frozen(kw_only=True, eq=False)
class Meeting:
    """A member on its host. Directions in the member's axes unless said otherwise.

    angle: acute, between the two [rad]. in_plane, out_of_plane: unit vectors of the moments that
    bend the member in the plane of both and out of it. side: from the host toward the member,
    square to the host, body axes. lean: cosine between the member (leaving the host) and the
    host's x. aside: (designs or 1,) distance between the two middle lines [mm]. at: likewise, place
    along the host where they come nearest [mm]. low, high: (designs,) the weld's extent along it [mm].
    """

    seat: Seat
    host: Host
    angle: float
    in_plane: Array
    out_of_plane: Array
    side: Array
    lean: float
    aside: Array
    at: Array
    low: Array
    high: Array


def meeting(seat: Seat, low: Array, high: Array) -> Meeting | None:
    """How the weld's member meets its host; None where there is no host or both run side by side."""
    host = seat.host
    if host is None:
        return None
    out = np.array([seat.into, 0.0, 0.0])
    along = host.axes[0]
    normal = cross(out, along)
    sine = float(np.linalg.norm(normal))
    if sine < 1e-3:
        return None
    normal /= sine
    lean = float(out @ along)
    side = (out - lean * along) / sine
    # where the member's line, through the middle of the weld plane, passes the host's
    run = -host.origin @ side / sine
    return Meeting(
        seat=seat,
        host=host,
        angle=float(np.arcsin(min(sine, 1.0))),
        in_plane=normal,
        out_of_plane=cross(np.array([1.0, 0.0, 0.0]), normal),
        side=side @ seat.axes,
        lean=lean,
        aside=np.abs(host.origin @ normal),
        at=host.at - run * lean,
        low=low,
        high=high,
    )


@frozen(kw_only=True, eq=False)
class Neighbour:
    """Another member welded onto the same host close by.

    kind: opposite (same plane, other side, footprints overlap), pair (same plane and side, leaning
    apart or square, their lines crossing near the host's: a K or N joint), crowd (anything else
    whose footprint overlaps). gap: (designs,) between the footprints [mm], negative where they overlap.
    """

    other: Meeting
    kind: str
    gap: Array


def neighbours(own: Meeting, every: tuple[Meeting, ...], host_size: Array) -> tuple[Neighbour, ...]:
    """Members near `own` on the same host; host_size: (designs,) its depth [mm]."""
    found = []
    for other in every:
        if other is own or other.host.bar != own.host.bar or other.seat.bar == own.seat.bar:
            continue
        gap = np.maximum(own.low - other.high, other.low - own.high)
        same = float(own.side @ other.side)
        kind = ""
        if (
            same > SAME_PLANE
            and _leaning_apart(own, other)
            and np.all(_depth(own, other) <= DEEP * host_size)
        ):
            kind = "pair"
        elif same < -SAME_PLANE and np.any(gap < 0.0):
            kind = "opposite"
        elif np.any(gap < 0.0):
            kind = "crowd"
        if kind:
            found.append(Neighbour(other=other, kind=kind, gap=gap))
    return tuple(found)


def _leaning_apart(own: Meeting, other: Meeting) -> bool:
    first, second = (own, other) if own.low[0] + own.high[0] < other.low[0] + other.high[0] else (other, own)
    upright = abs(first.lean) < UPRIGHT and abs(second.lean) < UPRIGHT
    return first.lean < UPRIGHT and second.lean > -UPRIGHT and not upright


def _depth(own: Meeting, other: Meeting) -> Array:
    """Distance from the host's middle line to where the two members' lines cross [mm]."""
    spread = abs(
        1.0 / np.tan(own.angle) * np.sign(own.lean) - 1.0 / np.tan(other.angle) * np.sign(other.lean)
    )
    return np.asarray(np.abs(own.at - other.at) / max(spread, 1e-9))
