"""The crest of a constant, a wave of one turn and a wave of two turns.

Turned half round, the second wave is as before, so the crest lies within a quarter of a turn of the crest of
the first; mirrored there, the first is as before, so it lies on the side of the nearest crest of the second.
Beyond that one both fall. Between the two crests the slope changes its sign once, which Newton's method
finds, mostly from above.
"""

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

STEPS = 3  # for all; most are then right to rounding
MORE = 60  # for the few where the crest is nearly flat
CLOSE = 1e-7  # rad: after so short a step the next is below rounding


@frozen(kw_only=True, eq=False)
class Crest:
    """Value (...), and where: `run` from the crest of the first wave, signed [rad].

    cos, sin: of the angle of the first wave's crest.
    """

    value: Array
    cos: Array
    sin: Array
    run: Array

    def angle(self, own: Index) -> Array:
        """Of some, by their numbers in one row: where the crest is [rad]."""
        cos, sin, run = (each.reshape(-1)[own] for each in (self.cos, self.sin, self.run))
        return np.asarray(np.arctan2(sin, cos) + run)


def crest(waves: Array) -> Crest:
    """Of waves of 1, cos, sin, cos 2, sin 2: (5, ...).

    >>> one = crest(np.array([[1.0], [0.0], [2.0], [-0.5], [0.0]]))
    >>> one.value.tolist(), one.angle(np.array([0])).round(6).tolist()
    ([3.5], [1.570796])
    """
    zero, c, s, c2, s2 = waves
    first, second = np.sqrt(c * c + s * s), np.sqrt(c2 * c2 + s2 * s2)
    some = first > 0.0
    size = np.where(some, first, 1.0)
    cos, sin = np.where(some, c / size, 1.0), s / size
    twice, both = cos * cos - sin * sin, 2.0 * sin * cos
    ahead, along = s2 * twice - c2 * both, c2 * twice + s2 * both
    beside = np.abs(ahead)
    gap = np.arctan2(beside, along) / 2.0
    bend = first * np.cos(gap) + 4.0 * second
    run = np.maximum(gap - first * np.sin(gap) / np.where(bend > 0.0, bend, 1.0), 0.0)
    for _ in range(STEPS):
        run, step = _nearer(run, gap, first, along, beside)
    left = np.nonzero(np.abs(step) > CLOSE)
    for _ in range(MORE):
        if not left[0].size:
            break
        run[left], step = _nearer(*(each[left] for each in (run, gap, first, along, beside)))
        far = np.abs(step) > CLOSE
        left = tuple(each[far] for each in left)
    value = zero + first * np.cos(run) + second * np.cos(2.0 * (gap - run))
    return Crest(value=value, cos=cos, sin=sin, run=np.where(ahead < 0.0, -run, run))


def _nearer(run: Array, gap: Array, first: Array, along: Array, beside: Array) -> tuple[Array, Array]:
    """One step of Newton's method between both crests, and how long it was.

    Of first cos t + along cos 2 t + beside sin 2 t, with t the run and `gap` the second wave's crest.
    """
    cos, sin = np.cos(run), np.sin(run)
    twice, both = cos * cos - sin * sin, 2.0 * sin * cos
    slope = 2.0 * (beside * twice - along * both) - first * sin
    bend = first * cos + 4.0 * (along * twice + beside * both)
    down = bend > 0.0
    step = np.where(down, slope / np.where(down, bend, 1.0), np.sign(slope))
    found = np.minimum(np.maximum(run + step, 0.0), gap)
    return found, found - run
