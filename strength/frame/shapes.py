"""Upper bounds of critical multipliers from a growing set of buckling shapes.

Ritz's method on the exact, load-dependent stiffness: whatever shapes are tried, the multiplier found is
never below the true one. The first shapes are Lanczos's, for the slope at no load (1950, J. Res. Natl.
Bur. Stand. 45:255, from memory): they cost little and come close. More are added where the balance is
worst, softened by the frame's own flexibility (nonlinear Arnoldi; Voss 2004, BIT 44:387, from memory), so
a few dozen are plenty. All loads of a design go in step.
"""

import numpy as np

from strength.frame.proof import BucklingPlan, steady
from strength.frame.response import Array
from strength.frame.softening import Softening
from strength.frame.straining import Straining

FIRST = 8  # shapes before the first look at the multiplier
SHAPES = 40  # at most
SETTLED = 3e-6  # force left out of balance, as the root of its work on a shape of unit energy
STEP = 1e-4  # relative step for slopes
NEW = 1e-4  # share of a shape that must be new, lest round-off be taken for a shape
FAR = -10.0  # height so far past the fall that its slope is of no use
BELOW = 1.0 - 1e-9  # of the pole, as near as is looked


def upper_bounds(ready: BucklingPlan, softening: Softening, design: int, push: Array) -> Array:
    """Multipliers (loads,) not below the true ones, of compressions (loads, segments) N; inf: none found."""
    loads, segments = push.shape
    here = np.full(loads, design)
    cap = softening.limit(here, push)
    rest = softening.under(here[:1], np.zeros((1, segments)))
    stiff = rest.reshape(-1)
    give = np.linalg.inv(steady(ready.assembly.matrix(rest), ready.rigid, ready.amount)[0])
    straining = Straining.of(ready.assembly, segments)
    small = np.where(np.isfinite(cap), cap, 1.0) * STEP
    start = softening.under(here, small[:, None] * push).reshape(loads, -1) - stiff
    pull = scattered(ready.assembly.unknowns, loads)
    held = np.zeros((loads, SHAPES, stiff.size))
    at, stood, high = np.zeros(loads), np.zeros(loads), cap * BELOW
    settled, near, calm = np.zeros(loads, dtype=bool), np.zeros(loads, dtype=bool), np.zeros(loads, dtype=int)
    for n in range(SHAPES):
        fresh = straining.strains(give @ (pull - ready.amount.T @ (ready.rigid.T @ pull))).T
        force = np.sqrt(np.einsum("lp,p,lp->l", fresh, stiff, fresh))
        settled |= near & (force < SETTLED)
        if np.all(settled | (calm >= 3)):
            break
        held[:, n] = _new(held[:, :n], np.where(settled[:, None], 0.0, fresh), stiff)
        if n < FIRST:
            pull = straining.balance((start * held[:, n]).T)
            continue
        first = at == 0.0
        step = np.where(first, small, -STEP * at)
        now = softening.under(here, at[:, None] * push).reshape(loads, -1)
        slope = softening.under(here, (at + step)[:, None] * push).reshape(loads, -1) - now
        slope /= step[:, None]
        judged = np.where(first[:, None], slope, now)
        lowest, least = _lowest(held[:, : n + 1], judged)
        fall = np.einsum("lp,lp,lp->l", lowest, slope, lowest)
        pull = straining.balance((judged * lowest).T)
        # At no load all shapes are alike, so the first look is at the slope itself.
        height = np.where(first, 1.0, least)
        over = ~first & (height < 0.0)
        high = np.where(over, np.minimum(high, at), high)
        # Where it stood with fewer shapes it may not stand now: where it falls just above, look lower.
        stood = np.where(over, np.where(at - stood > 0.02 * at, stood, 0.5 * at), at)
        tangent = np.where(fall < 0.0, at - height / np.where(fall < 0.0, fall, -1.0), np.inf)
        beyond = np.where(high < cap * BELOW, 0.5 * (at + high), high)
        new = np.where(tangent < high, tangent, beyond)
        new = np.where(over & (height < FAR), 0.5 * (stood + at), new)
        new = np.where(first, np.minimum(new, 0.7 * cap), new)
        near = ~first & (np.abs(height) < SETTLED)
        calm = np.where((height > 0.0) & (at >= high), calm + 1, 0)
        at = np.where(settled, at, np.where(np.isfinite(new), new, 0.0))
    found = np.where(settled, at, high)
    return np.where(found >= BELOW * cap, cap, found)


def scattered(rows: int, columns: int) -> Array:
    """Forces without order, so that no buckling shape is at right angles to them: (rows, columns) in +-1/2.

    Fractional parts of n^2 sqrt(2), which have no period (Weyl); numpy's random numbers take 10 ms to load.
    """
    number = np.arange(1.0, rows * columns + 1.0)
    return np.asarray((number**2 * np.sqrt(2.0) % 1.0 - 0.5).reshape(rows, columns))


def _lowest(shapes: Array, judged: Array) -> tuple[Array, Array]:
    """Lowest combination of shapes (loads, patterns) under stiffnesses (loads, patterns), and its height.

    shapes: (loads, shapes, patterns), of unit energy, or 0 where there was nothing new.
    """
    matrix = (judged[:, None] * shapes) @ shapes.transpose(0, 2, 1)
    empty = ~np.any(shapes, axis=2)
    matrix += empty[:, None, :] * np.eye(empty.shape[1])
    values, vectors = np.linalg.eigh(matrix)
    return (vectors[:, None, :, 0] @ shapes)[:, 0], values[:, 0]


def _new(shapes: Array, fresh: Array, stiff: Array) -> Array:
    """What of fresh shapes (loads, patterns) the others do not hold already, of unit energy; 0 if nothing."""
    before = np.einsum("lp,p,lp->l", fresh, stiff, fresh)
    for _ in range(2):
        shared = shapes @ (stiff * fresh)[..., None]
        fresh = fresh - (shared.transpose(0, 2, 1) @ shapes)[:, 0]
    energy = np.einsum("lp,p,lp->l", fresh, stiff, fresh)
    new = energy > NEW**2 * before
    return np.where(new[:, None], fresh / np.sqrt(np.where(new, energy, 1.0))[:, None], 0.0)
