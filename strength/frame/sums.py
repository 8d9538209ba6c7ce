"""Sums of internal forces at places along bars: what a joint sees of them, in its own directions."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.frame.response import Index, Layout, Response, at_places, find_places

Array = NDArray[np.float64]


def sums_at(layout: Layout, response: Response, bar: Index, place: Array, later: Index, rows: Array) -> Array:
    """Sums of N Vy Vz T My Mz, as `at_places` has them: (places, sums, loads, designs).

    bar, place, later: as there. rows: (places, sums, 6) factors of each sum. One product for each place: the
    forces of all six directions are never laid out at all places.
    """
    segment, share = find_places(layout, bar, place, later)
    count = max(response.forces.shape[0], place.shape[0])
    ends = spread(response.forces, (count, *response.forces.shape[1:])).transpose(2, 3, 4, 0, 1)
    designs, loads = ends.shape[3:]
    moves = (segment != segment[:1]).any(axis=0).tolist()
    slides = (share != share[:1]).any(axis=0).tolist()
    at_end = [{0.0: 0, 1.0: 1}.get(own) for own in share[0].tolist()]
    weight = share[0][:, None, None]
    fixed = np.concatenate([(1.0 - weight) * rows, weight * rows], axis=2)
    found = np.empty((bar.size, rows.shape[1], designs * loads))
    for n, own in enumerate(segment[0].tolist()):
        if moves[n]:  # past a via point in some designs
            one = slice(n, n + 1)
            inside = at_places(layout, response, bar[one], place[:, one], later[one])[:, :, 0]
            inside = spread(inside, (designs, loads, 6)).transpose(2, 0, 1)
            np.matmul(rows[n], inside.reshape(6, -1), out=found[n])
        elif slides[n]:
            start, end = (rows[n] @ ends[own, side].reshape(6, -1) for side in (0, 1))
            np.add(start, (end - start) * np.repeat(share[:, n], loads), out=found[n])
        elif at_end[n] is not None:
            np.matmul(rows[n], ends[own, at_end[n]].reshape(6, -1), out=found[n])
        else:
            np.matmul(fixed[n], ends[own].reshape(12, -1), out=found[n])
    # designs last, as sizes are the same at all loads
    return np.ascontiguousarray(found.reshape(bar.size, -1, designs, loads).transpose(0, 1, 3, 2))
