"""Internal forces at many places along bars, laid out by quantity and place: the long axes last."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.frame.response import find_places

if TYPE_CHECKING:
    from strength.frame.response import Layout, Response

Array = NDArray[np.float64]
Index = NDArray[np.intp]


def forces_along(layout: "Layout", response: "Response", bar: Index, place: Array, later: Index) -> Array:
    """Internal forces at places along bars (6, places, loads, designs), linear within each segment.

    As `frame.response.at_places`, which is told the same: place (designs, places). Most places are
    ends of segments in all designs, where there is nothing to work out.
    """
    ends = np.ascontiguousarray(response.forces.transpose(4, 2, 3, 1, 0))
    ends = ends.reshape(6, -1, *ends.shape[3:])  # of a segment's two ends one after the other
    designs = max(place.shape[0], ends.shape[-1])
    moves = (place != place[:1]).any(axis=0)
    segment, share = find_places(layout, bar, place[:1], later)
    found: Array = np.take(ends, 2 * segment[0] + (share[0] == 1.0), axis=1)
    if ends.shape[-1] < designs:
        found = np.repeat(found, designs, axis=-1)
    inside = np.flatnonzero((share[0] != 0.0) & (share[0] != 1.0) & ~moves)
    if inside.size:
        found[:, inside] = _between(ends, segment[0, inside], share[:, inside])
    some = np.flatnonzero(moves)
    if some.size:
        segment, share = find_places(layout, bar[some], place[:, some], later[some])
        whole = (segment == segment[:1]).all(axis=0)
        here = some[whole]
        found[:, here] = _between(ends, segment[0, whole], share[:, whole])
        for n in np.flatnonzero(~whole).tolist():  # in another segment in some designs
            for number in set(segment[:, n].tolist()):
                own = segment[:, n] == number
                part = ends[..., own] if ends.shape[-1] > 1 else ends
                found[:, some[n]][..., own] = _between(part, np.array([number]), share[own, n : n + 1])[:, 0]
    return found


def _between(ends: Array, segment: Index, share: Array) -> Array:
    """Forces (6, places, loads, designs) at shares (designs or 1, places) of segments."""
    weight = share.T[:, None]
    found, after = np.take(ends, 2 * segment, axis=1), np.take(ends, 2 * segment + 1, axis=1)
    if weight.shape[-1] > found.shape[-1]:
        return np.asarray((1.0 - weight) * found + weight * after)
    found *= 1.0 - weight
    after *= weight
    found += after
    return found
