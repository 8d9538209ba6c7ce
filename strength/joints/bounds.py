"""What may govern a line in any of many designs, from how far their forces lie apart.

Designs of one study differ little: at each place and under each load the forms of all of them lie between
two figures, and what is below the greatest of the lower ones governs in none.
"""

import numpy as np
from numpy.typing import NDArray

from strength.joints.samples import Frames, formed
from strength.joints.weighed import Weighed
from strength.values import frozen

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

LOW = 0.1  # of the greatest sample; a maximum is no further above its best sample
ROUNDING = 1e-12


@frozen(kw_only=True, eq=False)
class Parts:
    """q_x^2, q_s^2, q_n^2 and q_x q_n of all designs lie between low and high, (rows, 4, loads, places)."""

    low: Array
    high: Array


def parts_between(frames: Frames, force: Array) -> Parts:
    """Of all designs' pulls (rows, designs, loads, 6), from the middle and half the width of each."""
    least, most = force.min(axis=1), force.max(axis=1)
    middle, wide = (most + least) / 2.0, (most - least) / 2.0
    wide += ROUNDING * np.maximum(most, -least)
    q, by = middle[:, None] @ frames.matrix, wide[:, None] @ np.abs(frames.matrix)
    size = np.abs(q)
    low, high = np.empty((2, q.shape[0], 4, *q.shape[2:]))
    low[:, :3], high[:, :3] = np.maximum(size - by, 0.0) ** 2, (size + by) ** 2
    mixed = q[:, 0] * q[:, 2]
    off = size[:, 0] * by[:, 2] + by[:, 0] * (size[:, 2] + by[:, 2])
    low[:, 3], high[:, 3] = mixed - off, mixed + off
    return Parts(low=low, high=high)


def may_govern(frames: Frames, parts: Parts, own: Weighed, dead: Flags, margin: float = LOW) -> Flags:
    """Where a form may be the greatest of its group and row in some design: (rows, forms, loads, places).

    dead: (rows, places) that do not count. margin: by how much of the greatest a maximum may be above the
    places beside it.
    """
    some = slice(0, 4 if own.mixed else 3)
    above = np.maximum(own.forms, 0.0)[..., some]
    high = formed(above, parts.high[:, some], frames.piece)
    low = formed(above, parts.low[:, some], frames.piece)
    if own.mixed:
        below = np.minimum(own.forms[..., 3:], 0.0)
        high += formed(below, parts.low[:, 3:], frames.piece)
        low += formed(below, parts.high[:, 3:], frames.piece)
    high *= np.swapaxes(own.high, 1, 2)[..., None]
    low *= np.swapaxes(own.low, 1, 2)[..., None]
    if dead.any():
        alive = ~dead[:, None, None]
        high, low = np.where(alive, high, -1.0), np.where(alive, low, -1.0)
    best = low.max(axis=(2, 3))
    known = np.stack([best[:, own.group == n].max(axis=1) for n in range(own.groups)], axis=1)
    return np.asarray((high > 0.0) & (high >= (1.0 - margin) * known[:, own.group, None, None]))
