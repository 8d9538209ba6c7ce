"""The worst place of a weld whose strength depends on which way the force crosses it."""

import numpy as np
from numpy.typing import NDArray

from strength.joints.traced import traced
from strength.joints.traction import Pull
from strength.joints.weld_line import WeldLine
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

SAMPLES = 129  # of each line
ZOOMS = 4  # each finer by the number of samples between two


@frozen(kw_only=True, eq=False)
class DirectionalPeak:
    """The worst place of straight lines in a plane; (designs, loads).

    size: force per length there [N/mm]. gain: 1 + 0.5 sin^1.5 of its angle to the line. parts:
    (..., 3) q_x, q_s, q_n [N/mm]. place: (..., 3) in member axes from the middle of the weld plane [mm].
    """

    size: Array
    gain: Array
    parts: Array
    place: Array


def directional_gain(parts: Array) -> Array:
    """1 + 0.5 sin^1.5 of the angle between force per length (..., 3), q_x q_s q_n, and the line.

    Source: AISC 360-16 equation J2-5.

    >>> directional_gain(np.array([[0.0, 2.0, 0.0], [3.0, 0.0, 4.0]])).tolist()
    [1.0, 1.5]
    """
    across = np.hypot(parts[..., 0], parts[..., 2])
    size = np.hypot(across, parts[..., 1])
    sine = across / np.where(size > 0.0, size, 1.0)
    found: Array = 1.0 + 0.5 * sine**1.5
    return found


def directional_peak(line: WeldLine, pull: Pull) -> DirectionalPeak:
    """Where size over gain is greatest, on straight lines in the plane of the weld.

    It is no convex function of the force, so the lines are sampled, and the best sample's
    neighbourhood again and again.
    """
    grid = np.linspace(0.0, 1.0, SAMPLES)
    designs, loads = pull.spin.shape[:2]
    designs = max(designs, line.length.size)
    count = line.pieces.span.size
    every = np.broadcast_to(np.arange(count)[:, None], (count, SAMPLES)).reshape(1, 1, -1)
    at = np.broadcast_to(np.tile(grid, count), (designs, loads, count * SAMPLES))
    piece = np.broadcast_to(every, at.shape)
    dead = np.broadcast_to(line.pieces.length() <= 0.0, (designs, count))
    skip = np.take_along_axis(dead[:, None], piece, axis=-1)
    step = 1.0 / (SAMPLES - 1)
    for zoom in range(ZOOMS):
        parts, place = _at(line, pull, piece, at)
        size = np.linalg.norm(parts, axis=-1)
        use = size / directional_gain(parts)
        if zoom == 0:
            use = np.where(skip, -1.0, use)
        best = use.argmax(axis=-1)[..., None]
        parts, place = (np.take_along_axis(a, best[..., None], axis=-2)[..., 0, :] for a in (parts, place))
        size = np.take_along_axis(size, best, axis=-1)[..., 0]
        middle, own = (np.take_along_axis(a, best, axis=-1) for a in (at, piece))
        piece = np.broadcast_to(own, (designs, loads, SAMPLES))
        at = np.clip(middle + step * np.linspace(-1.0, 1.0, SAMPLES), 0.0, 1.0)
        step *= 2.0 / (SAMPLES - 1)
    return DirectionalPeak(size=size, gain=directional_gain(parts), parts=parts, place=place)


def _at(line: WeldLine, pull: Pull, piece: Index, u: Array) -> tuple[Array, Array]:
    """q_x, q_s, q_n and place (designs, loads, n, 3) at u on pieces, both (designs, loads, n)."""
    chosen = line.pieces.chosen(np.arange(u.shape[0])[:, None, None], piece)
    there = traced(line.cylinder, *(part[..., 0] for part in chosen.at(u[..., None])))
    place = np.stack([there.x, there.y, there.z], axis=-1)
    q = pull.at(place - line.centroid[:, None, None])
    along = q[..., 1] * there.sy + q[..., 2] * there.sz
    across = q[..., 1] * there.sz - q[..., 2] * there.sy
    return np.stack([q[..., 0], along, across], axis=-1), place
