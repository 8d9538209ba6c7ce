"""Where a body that flies free is drawn: the rigid motion that its gauge takes away."""

import numpy as np

from strength.errors import SolveError
from strength.frame.links import Links
from strength.frame.response import Array

UNSEEN = 1e-9  # share of the gauge's greatest row below which it does not see a rigid motion


def gauged(links: Links, motions: Array, gauge: Array | None) -> Array:
    """How much of each rigid motion to take away: (6, freedoms), to be multiplied by scaled movements.

    motions: (6, freedoms) scaled. gauge: (6, points, 6), conditions sum(gauge * u) = 0. A motion that the
    gauge does not see (turning about a line through all masses) is taken away so that the points move
    least. Raises SolveError without a gauge.
    """
    if gauge is None:
        raise SolveError("a body that flies free needs masses to say where its middle stays")
    weight = np.zeros((6, links.freedoms))
    weight[:, : 6 * links.points] = gauge.reshape(6, -1)
    weight /= links.unit
    seen = weight @ motions.T
    size = np.linalg.norm(seen, axis=1, keepdims=True)
    size = np.where(size < UNSEEN * size.max(), np.inf, size)
    left, values, right = np.linalg.svd(seen / size)
    known = values > UNSEEN * values.max()
    inverse = right[known].T @ (left[:, known].T / values[known, None])
    out = inverse @ (weight / size)
    if np.all(known):
        return np.asarray(out)
    shift = np.zeros((2, links.freedoms))
    shift[0, : 6 * links.points].reshape(-1, 6)[:, :3] = 1.0
    shift[1] = 1.0  # turning about a line through all points moves none of them: their turning counts
    for weights in shift:
        unseen = np.eye(6) - out @ motions.T
        moved = (motions.T @ unseen) * weights[:, None]
        if np.linalg.norm(unseen) > UNSEEN and np.linalg.norm(moved) > UNSEEN * np.linalg.norm(motions):
            rest = np.diag(weights) - (weights[:, None] * motions.T) @ out
            out = out + unseen @ np.linalg.pinv(moved, rcond=UNSEEN) @ rest
    return np.asarray(out)
