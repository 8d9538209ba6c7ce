"""Proof that a frame stands: its matrix is positive definite on the movements it has."""

import numpy as np

from strength.frame.assembly import LARGE, Assembly
from strength.frame.links import Links
from strength.frame.response import Array, Flags
from strength.values import frozen

TOGETHER = 4  # matrices that stand in memory at once


@frozen(kw_only=True, eq=False)
class BucklingPlan:
    """Freedoms and assembly of a frame whose struts hold their length; the same for all designs."""

    links: Links
    assembly: Assembly
    rigid: Array  # (unknowns, 6) rigid motions of a free body, (unknowns, 0) of a supported one
    amount: Array  # (6 or 0, unknowns): how much of them the gauge sees in a movement


def steady(ready: BucklingPlan, matrices: Array) -> Array:
    """Matrices (items, unknowns, unknowns) with a free body's rigid motions made stiff, in place.

    A movement is u + rigid (amount v), with u = v - rigid (amount v) one that keeps the gauge at zero. The
    result judges u by the matrix itself and gives the rigid rest a stiffness of its own, so that it is
    positive definite exactly where the matrix is so on all u: K - V amount - (V amount)^T with
    V = K rigid - amount^T (rigid^T K rigid + D) / 2.
    """
    if ready.rigid.shape[1] == 0:
        return matrices
    pushed = matrices @ ready.rigid
    inner = ready.rigid.T @ pushed
    scale = np.trace(matrices, axis1=1, axis2=2) / np.sum(ready.amount**2)
    inner += np.abs(scale)[:, None, None] * np.eye(6)
    pushed -= 0.5 * (ready.amount.T @ inner)
    wide = np.concatenate([pushed, np.broadcast_to(ready.amount.T, pushed.shape)], axis=2)
    tall = np.concatenate(
        [np.broadcast_to(ready.amount, pushed.transpose(0, 2, 1).shape), pushed.transpose(0, 2, 1)], axis=1
    )
    matrices -= wide @ tall
    return matrices


def stands(ready: BucklingPlan, coefficient: Array) -> Flags:
    """Whether each item's matrix is positive definite: coefficients (items, segments, 8) to (items,)."""
    out = np.ones(coefficient.shape[0], dtype=bool)
    if ready.assembly.unknowns == 0:
        return out
    if ready.assembly.unknowns > LARGE:
        from strength.frame.envelope import narrow
        from strength.frame.factor import factorise

        envelope = narrow(ready.assembly)
        for n in range(out.size):
            out[n] = factorise(envelope, envelope.fill(coefficient[n])).pivot > 0.0
        return out
    for at in range(0, out.size, TOGETHER):
        for n, matrix in enumerate(steady(ready, ready.assembly.matrix(coefficient[at : at + TOGETHER]))):
            try:
                np.linalg.cholesky(matrix)
            except np.linalg.LinAlgError:
                out[at + n] = False
    return out
