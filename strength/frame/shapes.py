"""Upper bounds of critical multipliers from a growing set of buckling shapes.

Ritz's method on the exact, load-dependent stiffness: whatever shapes are tried, the multiplier found is
never below the true one. Shapes are added where the balance is worst, softened by the frame's own
flexibility (nonlinear Arnoldi; Voss 2004, BIT 44:387, from memory), so a few dozen are plenty. All loads
of a design go in step.
"""

import numpy as np

from strength.frame.proof import BucklingPlan, steady
from strength.frame.response import Array
from strength.frame.softening import Softening

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
    give = np.linalg.inv(steady(ready, ready.assembly.matrix(rest))[0])
    pull = scattered(ready.assembly.unknowns, loads)
    shapes = np.zeros((loads, stiff.size, 0))
    small = np.where(np.isfinite(cap), cap, 1.0) * STEP
    at, stood, high = np.zeros(loads), np.zeros(loads), cap * BELOW
    settled, near, calm = np.zeros(loads, dtype=bool), np.zeros(loads, dtype=bool), np.zeros(loads, dtype=int)
    for _ in range(SHAPES):
        fresh = strains(ready, segments, give @ (pull - ready.amount.T @ (ready.rigid.T @ pull))).T
        force = np.sqrt(np.einsum("lp,p,lp->l", fresh, stiff, fresh))
        settled |= near & (force < SETTLED)
        if np.all(settled | (calm >= 3)):
            break
        if shapes.shape[2] < ready.assembly.unknowns:
            shapes = _joined(shapes, np.where(settled[:, None], 0.0, fresh), stiff)
        first = at == 0.0
        step = np.where(first, small, -STEP * at)
        now = softening.under(here, at[:, None] * push).reshape(loads, -1)
        slope = softening.under(here, (at + step)[:, None] * push).reshape(loads, -1) - now
        slope /= step[:, None]
        judged = np.where(first[:, None], slope, now)
        lowest, least = _lowest(shapes, judged)
        fall = np.einsum("lp,lp,lp->l", lowest, slope, lowest)
        pull = balance(ready, (judged * lowest).T)
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
    """Lowest combination of shapes (loads, patterns) under stiffnesses (loads, patterns), and its height."""
    matrix = shapes.transpose(0, 2, 1) @ (judged[:, :, None] * shapes)
    empty = ~np.any(shapes, axis=1)
    matrix += empty[:, None, :] * np.eye(empty.shape[1])
    values, vectors = np.linalg.eigh(matrix)
    return (shapes @ vectors[:, :, :1])[..., 0], values[:, 0]


def strains(ready: BucklingPlan, segments: int, movement: Array) -> Array:
    """Deformations of all patterns (8 segments, loads) of movements (unknowns, loads)."""
    out = np.zeros((segments, 8, movement.shape[1]))
    known = np.concatenate([movement, np.zeros_like(movement[:1])])  # the last stands for what is not there
    for block in ready.assembly.blocks:
        out[block.segment] = block.vec @ known[block.number]
    return out.reshape(8 * segments, -1)


def balance(ready: BucklingPlan, force: Array) -> Array:
    """Forces on the unknowns (unknowns, loads) that balance those of all patterns (8 segments, loads)."""
    own = force.reshape(-1, 8, force.shape[1])
    out = np.zeros((ready.assembly.unknowns + 1, force.shape[1]))
    for block in ready.assembly.blocks:
        np.add.at(out, block.number, block.vec.transpose(0, 2, 1) @ own[block.segment])
    return out[:-1]


def _joined(shapes: Array, fresh: Array, stiff: Array) -> Array:
    """Shapes with one more, of unit energy and without what the others hold already; 0 if nothing is new."""
    before = np.einsum("lp,p,lp->l", fresh, stiff, fresh)
    for _ in range(2):
        shared = shapes.transpose(0, 2, 1) @ (stiff * fresh)[..., None]
        fresh = fresh - (shapes @ shared)[..., 0]
    energy = np.einsum("lp,p,lp->l", fresh, stiff, fresh)
    new = energy > NEW**2 * before
    fresh = np.where(new[:, None], fresh / np.sqrt(np.where(new, energy, 1.0))[:, None], 0.0)
    return np.concatenate([shapes, fresh[..., None]], axis=2)
