"""The layout of a frame and its response: the values that pass between the frame's stages.

Signs: body axes for points. Internal forces N, Vy, Vz, T, My, Mz at a station are what the part on
the `to` side exerts on the part on the `from` side, in member axes (right-hand rule); tension
positive.
"""

import attrs
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@attrs.frozen(kw_only=True, eq=False)
class Layout:
    """Geometry of all segments: a member is cut at its via points, a strut is one segment.

    Independent of sizes. `bar` indexes `Bars` (members, then struts).
    """

    points: Array  # (points, 3) mm
    names: tuple[str, ...]  # of points
    bar: Index  # (segments,)
    start: Index  # (segments,) point numbers
    end: Index
    along: Array  # (segments, 2) mm from the bar's `from` to the segment's ends
    axes: Array  # (segments, 3, 3): rows x_m, y_m, z_m in body axes
    length: Array  # (segments,)
    bar_length: Array  # (bars,) from to to
    first: Index  # (bars,) number of the bar's first segment; segments of a bar are consecutive
    last: Index  # (bars,)


@attrs.frozen(kw_only=True, eq=False)
class Response:
    """What the frame does under each load."""

    displacements: Array  # (designs, loads, points, 6) mm, rad
    forces: Array  # (designs, loads, segments, 2, 6) internal forces at the segment's two ends
    reactions: Array  # (designs, loads, supports, 6) on the structure; 0 where not held


def at_places(layout: Layout, response: Response, bar: Index, place: Array, later: Index) -> Array:
    """Internal forces at places along bars.

    bar: (places,) bar numbers. place: (designs or 1, places) mm from `from`. later: (places,) 1
    where, at a via point, the side toward `to` is meant, 0 the side toward `from`.
    Returns (designs, loads, places, 6). Linear within each segment (loads act at points only).
    """
    designs, loads = response.forces.shape[:2]
    place = np.broadcast_to(place, (designs, place.shape[-1]))
    out = np.empty((designs, loads, bar.size, 6))
    for n, b in enumerate(bar):
        own = slice(int(layout.first[b]), int(layout.last[b]) + 1)
        cuts = layout.along[own]
        for d in range(designs):
            s = place[d, n]
            slack = 1e-9 * cuts[-1, 1]
            k = int(np.sum(cuts[:, 1] <= s + slack) if later[n] else np.sum(cuts[:, 1] < s - slack))
            k = min(k, cuts.shape[0] - 1)
            a, b_ = cuts[k]
            t = (s - a) / (b_ - a)
            ends = response.forces[d, :, own.start + k]
            out[d, :, n] = (1.0 - t) * ends[:, 0] + t * ends[:, 1]
    return out
