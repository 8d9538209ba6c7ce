"""Internal forces at many places along bars, laid out by quantity and place: the long axes last."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.frame.response import at_places, find_places
from strength.values import evolve

if TYPE_CHECKING:
    from strength.frame.response import Layout, Response

Array = NDArray[np.float64]
Index = NDArray[np.intp]


def forces_along(layout: "Layout", response: "Response", bar: Index, place: Array, later: Index) -> Array:
    """Internal forces at places along bars (6, places, loads, designs), linear within each segment.

    As `frame.response.at_places`, which is told the same: place (designs, places). Most places are
    ends of segments in all designs, where there is nothing to work out.
    """
    designs = max(place.shape[0], response.forces.shape[0])
    moves = (place != place[:1]).any(axis=0)
    segment, share = find_places(layout, bar, place[:1], later)
    before, weight = 2 * segment[0], share[0, :, None, None]
    inside = np.flatnonzero((share[0] != 0.0) & (share[0] != 1.0) & ~moves)
    at_end = before + (share[0] == 1.0)
    found = np.empty((6, bar.size, response.forces.shape[1], designs))
    for n, own in enumerate(found):  # one quantity at a time stays in the processor's cache
        ends = np.ascontiguousarray(response.forces[..., n].transpose(2, 3, 1, 0))
        ends = ends.reshape(-1, *ends.shape[2:])  # of a segment's two ends one after the other
        own[:] = ends[at_end]
        own[inside] = _between(ends, before[inside], weight[inside])
    some = np.flatnonzero(moves)
    if some.size:
        if response.forces.shape[0] < designs:
            response = evolve(response, forces=np.repeat(response.forces, designs, axis=0))
        moved = at_places(layout, response, bar[some], place[:, some], later[some])
        found[:, some] = moved.transpose(3, 2, 1, 0)
    return found


def _between(ends: Array, before: Index, weight: Array) -> Array:
    """Between the ends numbered `before` and the next, by weight (places, 1, 1) of the latter."""
    found, after = ends[before], ends[before + 1]
    found *= 1.0 - weight
    after *= weight
    found += after
    return found
