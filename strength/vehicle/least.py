"""Wheel loads of a rigid body on equal springs that cannot pull."""

from functools import lru_cache
from itertools import product

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

Array = NDArray[np.float64]

SLACK = 1e-11  # of the total: rounding


def least_squares_loads(
    columns: Array, wheels: int, wanted: Array, slack: float = SLACK
) -> tuple[Array, NDArray[np.bool_]]:
    """The set Z of least sum Z^2 with columns Z = wanted and Z >= 0 at the wheels.

    columns: (3, contacts), rows 1, x, y; the first `wheels` contacts cannot pull, a hitch after them
    can. wanted: (loads, 3) [N, N*mm]. Returns Z (loads, contacts) [N], positive up, and (loads,)
    whether such a set exists (`slack`, relative, forgives rounding). Own choice for a body on
    more than three wheels; three wheels leave no choice.

    Every set of wheels that could lift is tried: for each, the least-norm answer of the others. The
    best set is among them, and no other that meets the conditions is smaller.
    """
    known = _answers(columns.tobytes(), columns.shape[1], wheels)
    goal = np.column_stack([wanted[:, 0], (wanted[:, 1:] - wanted[:, :1] * known.middle) / known.span])
    z = np.einsum("snk,lk->sln", known.inverse, goal)
    size = np.max(np.abs(goal), axis=1)
    missed = np.max(np.abs(z @ known.scaled.T - goal), axis=2)
    lowest = z[:, :, :wheels].min(axis=2, initial=0.0)
    meets = (missed <= slack * size) & (lowest >= -slack * size)
    norm = np.where(meets, np.einsum("sln,sln->sl", z, z), np.inf)
    best = norm.argmin(axis=0)
    rows = np.arange(goal.shape[0])
    out = z[best, rows]
    pushed = out[:, :wheels]
    out[:, :wheels] = np.where(pushed <= 1e-9 * size[:, None], 0.0, pushed)
    return out, meets[best, rows]


@frozen(kw_only=True, eq=False)
class _Answers:
    """What serves every load on the same contacts."""

    middle: Array  # (2,) of the contacts
    span: float  # of the contacts from there
    scaled: Array  # (3, contacts) columns about the middle, over the span
    inverse: Array  # (sets, contacts, 3) least-norm answer of each set


@lru_cache(maxsize=16)
def _answers(columns: bytes, contacts: int, wheels: int) -> _Answers:
    """columns: (3, contacts) as bytes, by which they are found again."""
    given = np.frombuffer(columns).reshape(3, contacts)
    middle = given[1:].mean(axis=1)
    span = float(np.max(np.abs(given[1:] - middle[:, None]), initial=1.0))
    scaled = np.vstack([given[:1], (given[1:] - middle[:, None]) / span])
    every = scaled * _sets(wheels, contacts)[:, None, :]
    inverse = np.asarray(np.linalg.pinv(every, rcond=1e-9), dtype=np.float64)
    return _Answers(middle=middle, span=span, scaled=scaled, inverse=inverse)


@lru_cache(maxsize=16)
def _sets(wheels: int, contacts: int) -> Array:
    """All sets of contacts that may carry, (sets, contacts) of 0 and 1; a hitch is in every set."""
    rows = [bits + (1.0,) * (contacts - wheels) for bits in product((1.0, 0.0), repeat=wheels)]
    out = np.array(rows).reshape(len(rows), contacts)
    out.setflags(write=False)
    return out
