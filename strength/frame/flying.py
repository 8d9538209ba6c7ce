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
    if not np.all(known):
        unseen = right[~known].T
        shift = np.zeros(links.freedoms)
        shift[: 6 * links.points].reshape(-1, 6)[:, :3] = 1.0
        whole = motions.T @ unseen
        moved = whole * shift[:, None]
        moved[:, np.linalg.norm(moved, axis=0) < UNSEEN * np.linalg.norm(whole, axis=0)] = 0.0
        rest = np.diag(shift) - (shift[:, None] * motions.T) @ out
        out = out + unseen @ np.linalg.pinv(moved, rcond=UNSEEN) @ rest
    return np.asarray(out)
