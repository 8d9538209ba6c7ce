"""How welded members meet the parts they stand on: angle, planes of bending, and who stands near."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross
from strength.joints.seat import Host, Seat
from strength.values import frozen

Array = NDArray[np.float64]

SAME_PLANE = float(np.cos(np.radians(15.0)))  # members this near to one plane count as in it (own choice)
UPRIGHT = float(np.sin(np.radians(5.0)))  # a brace within this of square may pair either way (own choice)
DEEP = 0.25  # of the chord's diameter: EN 1993-1-8 5.1.5, eccentricity of gap joints
LEAST_SINE = 1e-3  # of the angle between two parts: under it they run side by side


@frozen(kw_only=True, eq=False)
class Meeting:
    """A member on its host. Directions in the member's axes unless said otherwise.

    angle: acute, between the two [rad]. in_plane, out_of_plane: unit vectors of the moments that
    bend the member in the plane of both and out of it. side: from the host toward the member,
    square to the host, body axes. lean: cosine between the member (leaving the host) and the
    host's x. aside: (designs or 1,) distance between the two middle lines [mm]. at: likewise, place
    along the host where they come nearest [mm]. low, high: (designs or 1,) the weld's extent along it [mm].
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


def lies_along(seat: Seat) -> bool:
    """Whether the weld's member runs side by side with its host."""
    return seat.host is not None and math.hypot(*seat.host.axes[0, 1:].tolist()) < LEAST_SINE


def meetings(seats: Sequence[Seat], low: Sequence[Array], high: Sequence[Array]) -> list[Meeting | None]:
    """How the members of all welds meet their hosts; None where there is no host or both run side by side.

    low, high: of each weld (designs or 1,) its extent along the host [mm].
    """
    found: list[Meeting | None] = [None] * len(seats)
    own = [(n, s, s.host) for n, s in enumerate(seats) if s.host is not None and not lies_along(s)]
    if not own:
        return found
    out = np.zeros((len(own), 3))
    out[:, 0] = [seat.into for _, seat, _ in own]
    along = np.stack([host.axes[0] for *_, host in own])
    normal = cross(out, along)
    sine = np.sqrt((normal * normal).sum(axis=1))
    normal /= sine[:, None]
    lean = (out * along).sum(axis=1)
    side = (out - lean[:, None] * along) / sine[:, None]
    out_of_plane = cross(np.array([1.0, 0.0, 0.0]), normal)
    body = (side[:, None] @ np.stack([seat.axes for _, seat, _ in own]))[:, 0]
    origin, at = together([host.origin for *_, host in own]), together([host.at for *_, host in own])
    # where the member's line, through the middle of the weld plane, passes the host's
    run = -(origin @ side[:, :, None])[..., 0] / sine[:, None]
    passing = at - run * lean[:, None]
    aside = np.abs((origin @ normal[:, :, None])[..., 0])
    angle = np.arcsin(np.minimum(sine, 1.0)).tolist()
    for k, (n, seat, host) in enumerate(own):
        found[n] = Meeting(
            seat=seat,
            host=host,
            angle=angle[k],
            in_plane=normal[k],
            out_of_plane=out_of_plane[k],
            side=body[k],
            lean=float(lean[k]),
            aside=aside[k],
            at=passing[k],
            low=low[n],
            high=high[n],
        )
    return found


def together(values: Sequence[Array]) -> Array:
    """Values of many joints (designs or 1, ...) as one (joints, designs or 1, ...)."""
    found = np.empty((len(values), max(map(len, values)), *values[0].shape[1:]))
    for n, value in enumerate(values):
        found[n] = value
    return found


@frozen(kw_only=True, eq=False)
class Neighbour:
    """Another member welded onto the same host close by.

    kind: opposite (same plane, other side, footprints overlap), pair (same plane and side, leaning
    apart or square, their lines crossing near the host's: a K or N joint), crowd (anything else
    whose footprint overlaps). gap: (designs or 1,) between the footprints [mm], negative where they overlap.
    """

    other: Meeting
    kind: str
    gap: Array


@frozen(kw_only=True, eq=False)
class Pairs:
    """All twos of members on one host: their numbers, first < second.

    same: cosine between their sides of the host. gap: (pairs, designs or 1) between the footprints [mm].
    """

    first: NDArray[np.intp]
    second: NDArray[np.intp]
    same: Array
    gap: Array


def pairs(every: Sequence[Meeting]) -> Pairs:
    """All twos of members of their own that stand on one host."""
    host = np.array([one.host.bar for one in every], dtype=np.intp)
    own = np.array([one.seat.bar for one in every], dtype=np.intp)
    first, second = np.nonzero(np.triu((host[:, None] == host) & (own[:, None] != own)))
    side = np.array([one.side for one in every]).reshape(-1, 3)
    if not first.size:
        return Pairs(first=first, second=second, same=np.zeros(0), gap=np.zeros((0, 1)))
    low, high = together([one.low for one in every]), together([one.high for one in every])
    return Pairs(
        first=first,
        second=second,
        same=(side[first] * side[second]).sum(axis=1),
        gap=np.maximum(low[first] - high[second], low[second] - high[first]),
    )


def neighbours(every: Sequence[Meeting], depth: Array) -> list[tuple[Neighbour, ...]]:
    """Of each member those near it on the same host, in order; depth: (designs, bars) of all bars [mm]."""
    found: list[list[tuple[int, Neighbour]]] = [[] for _ in every]
    known = pairs(every)
    overlap = np.asarray((known.gap < 0.0).any(axis=1))
    for n in np.flatnonzero(overlap | (known.same > SAME_PLANE)).tolist():
        two, same = (int(known.first[n]), int(known.second[n])), float(known.same[n])
        for own, other in (two, two[::-1]):
            kind = _kind(every[own], every[other], same, depth, overlap=bool(overlap[n]))
            if kind:
                found[own].append((other, Neighbour(other=every[other], kind=kind, gap=known.gap[n])))
    return [tuple(one for _, one in sorted(each, key=lambda told: told[0])) for each in found]


def _kind(own: Meeting, other: Meeting, same: float, depth: Array, *, overlap: bool) -> str:
    """What two members are to each other; empty: nothing."""
    if same > SAME_PLANE and _leaning_apart(own, other):
        if np.all(crossing(own, other) <= DEEP * depth[:, own.host.bar]):
            return "pair"
    elif same < -SAME_PLANE and overlap:
        return "opposite"
    return "crowd" if overlap else ""


def _leaning_apart(own: Meeting, other: Meeting) -> bool:
    first, second = (own, other) if own.low[0] + own.high[0] < other.low[0] + other.high[0] else (other, own)
    upright = abs(first.lean) < UPRIGHT and abs(second.lean) < UPRIGHT
    return first.lean < UPRIGHT and second.lean > -UPRIGHT and not upright


def crossing(own: Meeting, other: Meeting) -> Array:
    """Distance from the host's middle line to where two members' lines cross (designs or 1,) [mm]."""
    slopes = [np.sign(joint.lean) / np.tan(joint.angle) for joint in (own, other)]
    return np.asarray(np.abs(own.at - other.at) / max(abs(slopes[0] - slopes[1]), 1e-9))
