"""Upper bounds of critical multipliers from a growing set of buckling shapes.

Ritz's method on the exact, load-dependent stiffness: whatever shapes are tried, the multiplier found is
never below the true one. The first shapes are Lanczos's, for the slope at no load (1950, J. Res. Natl.
Bur. Stand. 45:255, from memory): they cost little and come close. More are added where the balance is
worst, softened by the frame's own flexibility (nonlinear Arnoldi; Voss 2004, BIT 44:387, from memory), so
a few dozen are plenty. All items, each a load of some design, go in step, and none changes another's figures.
"""

import numpy as np

from strength.arrays import distinct
from strength.frame.proof import BucklingPlan, steady
from strength.frame.response import Array, Index
from strength.frame.softening import Softening
from strength.frame.straining import Straining

FIRST = 8  # shapes before the first look at the multiplier
SHAPES = 40  # at most
SETTLED = 3e-6  # force left out of balance, as the root of its work on a shape of unit energy
STEP = 1e-4  # relative step for slopes
NEW = 1e-4  # share of a shape that must be new, lest round-off be taken for a shape
FAR = -10.0  # height so far past the fall that its slope is of no use
CALM = 3  # looks in a row at which it stood at its bound: no shape is looked for any more
BELOW = 1.0 - 1e-9  # of the pole, as near as is looked


def upper_bounds(ready: BucklingPlan, softening: Softening, here: Index, push: Array) -> Array:
    """Multipliers (items,) not below the true ones, of compressions (items, segments) N; inf: none found.

    here: the design of each item, in rising order.
    """
    items, segments = push.shape
    cap = softening.limit(here, push)
    chosen = distinct(here)
    rest = softening.under(chosen, np.zeros((chosen.size, segments)))
    give = np.linalg.inv(steady(ready.assembly.matrix(rest), ready.rigid, ready.amount))
    own = [slice(*ends) for ends in np.searchsorted(here, [chosen, chosen + 1]).T.tolist()]
    stiff = rest.reshape(chosen.size, -1)[np.searchsorted(chosen, here)]
    straining = Straining.of(ready.assembly, segments)
    small = np.where(np.isfinite(cap), cap, 1.0) * STEP
    start = softening.under(here, small[:, None] * push).reshape(items, -1) - stiff
    twice, pushes = np.tile(here, 2), np.tile(push, (2, 1))
    pull = np.repeat(scattered(ready.assembly.unknowns)[:, None], items, axis=1)
    held = np.zeros((items, SHAPES, stiff.shape[1]))
    moves = np.zeros((items, SHAPES, ready.assembly.unknowns))
    at, stood, high = np.zeros(items), np.zeros(items), cap * BELOW
    settled, near, fell = (np.zeros(items, dtype=bool) for _ in range(3))
    calm = np.zeros(items, dtype=np.intp)
    for n in range(SHAPES):
        pull -= ready.amount.T @ (ready.rigid.T @ pull)
        moved = [inverse @ pull[:, some] for inverse, some in zip(give, own, strict=True)]
        movement = np.concatenate(moved, axis=1)
        fresh = straining.strains(movement).T
        force = np.sqrt(np.einsum("lp,lp,lp->l", fresh, stiff, fresh))
        settled |= near & (calm < CALM) & (force < SETTLED)
        done = settled | (calm >= CALM)
        if np.all(done):
            break
        shared, part = _shared(held[:, :n], fresh, stiff)
        new = ~done & (part > NEW)
        scale = np.where(new, 1.0 / np.where(new, part * force, 1.0), 0.0)
        movement = scale * (movement - (shared[:, None] @ moves[:, :n])[:, 0].T)
        movement -= ready.rigid @ (ready.amount @ movement)
        # Strains anew from the movement: what round-off leaves of strains alone is a shape that cannot be.
        moves[:, n], held[:, n] = movement.T, straining.strains(movement).T
        if n < FIRST:
            pull = straining.balance((start * held[:, n]).T)
            continue
        first = at == 0.0
        step = np.where(first, small, -STEP * at)
        pair = softening.under(twice, np.append(at, at + step)[:, None] * pushes).reshape(2, items, -1)
        now, slope = pair[0], (pair[1] - pair[0]) / step[:, None]
        judged = np.where(first[:, None], slope, now)
        lowest, least = _lowest(held[:, : n + 1], judged)
        fall = np.einsum("lp,lp,lp->l", lowest, slope, lowest)
        pull = straining.balance((judged * lowest).T)
        # At no load all shapes are alike, so the first look is at the slope itself.
        height = np.where(first, 1.0, least)
        over = ~first & ~done & (height < 0.0)
        high = np.where(over, np.minimum(high, at), high)
        # Where it stood with fewer shapes it may not stand now: where it falls just above, look lower.
        stood = np.where(over, np.where(at - stood > 0.02 * at, stood, 0.5 * at), at)
        tangent = np.where(fall < 0.0, at - height / np.where(fall < 0.0, fall, -1.0), np.inf)
        fell |= over
        beyond = np.where(fell, 0.5 * (at + high), high)
        new = np.where(tangent < high, tangent, beyond)
        new = np.where(over & (height < FAR), 0.5 * (stood + at), new)
        new = np.where(first, np.minimum(new, 0.7 * cap), new)
        near = ~first & (np.abs(height) < SETTLED)
        calm = np.where(done, calm, np.where((height > 0.0) & (at >= high), calm + 1, 0))
        at = np.where(done, at, np.where(np.isfinite(new), new, 0.0))
    found = np.where(settled, at, high)
    return np.where(found >= BELOW * cap, cap, found)


def scattered(rows: int) -> Array:
    """Forces without order, so that no buckling shape is at right angles to them: (rows,) in +-1/2.

    Fractional parts of n^2 sqrt(2), which have no period (Weyl); numpy's random numbers take 10 ms to load.
    """
    number = np.arange(1.0, rows + 1.0)
    return np.asarray(number**2 * np.sqrt(2.0) % 1.0 - 0.5)


def _lowest(shapes: Array, judged: Array) -> tuple[Array, Array]:
    """Lowest combination of shapes (items, patterns) under stiffnesses (items, patterns), and its height.

    shapes: (items, shapes, patterns), of unit energy, or 0 where there was nothing new.
    """
    matrix = (judged[:, None] * shapes) @ shapes.transpose(0, 2, 1)
    empty = ~np.any(shapes, axis=2)
    matrix += empty[:, None, :] * np.eye(empty.shape[1])
    values, vectors = np.linalg.eigh(matrix)
    return (vectors[:, None, :, 0] @ shapes)[:, 0], values[:, 0]


def _shared(shapes: Array, fresh: Array, stiff: Array) -> tuple[Array, Array]:
    """How much of each shape fresh ones (items, patterns) hold, (items, shapes), and what share is new."""
    before = np.einsum("lp,lp,lp->l", fresh, stiff, fresh)
    shared = np.zeros(shapes.shape[:2])
    for _ in range(2):
        more = (shapes @ (stiff * fresh)[..., None])[..., 0]
        fresh = fresh - (more[:, None] @ shapes)[:, 0]
        shared += more
    after = np.einsum("lp,lp,lp->l", fresh, stiff, fresh)
    return shared, np.sqrt(after / np.where(before > 0.0, before, 1.0))
