"""Proof that a frame stands: its matrix is positive definite on the movements it has."""

from functools import cached_property

import numpy as np

from strength.frame.assembly import LARGE, Assembly
from strength.frame.blocks import Blocks, part
from strength.frame.elimination import filled
from strength.frame.fronts import Fronts, plan_fronts
from strength.frame.links import Links
from strength.frame.response import Array, Flags, Index
from strength.values import frozen

TOGETHER = 64  # items whose fronts stand in memory at once


@frozen(kw_only=True, eq=False)
class BucklingPlan:
    """Freedoms and assembly of a frame whose struts hold their length; the same for all designs."""

    links: Links
    assembly: Assembly
    rigid: Array  # (unknowns, 6) rigid motions of a free body, (unknowns, 0) of a supported one
    amount: Array  # (6 or 0, unknowns): how much of them the gauge sees in a movement

    @cached_property
    def fronts(self) -> Fronts:
        """The order of elimination of a small frame; points that the gauge sees go last."""
        return plan_fronts(self.assembly, np.any(self.amount != 0.0, axis=0))

    @cached_property
    def blocks(self) -> Blocks:
        """The blocks of a small frame, none of them with points that the gauge sees."""
        return part(self.assembly, self.fronts)


def steady(matrices: Array, rigid: Array, amount: Array) -> Array:
    """Matrices (items, unknowns, unknowns) with a free body's rigid motions made stiff, in place.

    rigid, amount: as in the plan, or of those unknowns alone that the gauge sees.

    A movement is u + rigid (amount v), with u = v - rigid (amount v) one that keeps the gauge at zero. The
    result judges u by the matrix itself and gives the rigid rest a stiffness of its own, so that it is
    positive definite exactly where the matrix is so on all u: K - V amount - (V amount)^T with
    V = K rigid - amount^T (rigid^T K rigid + D) / 2.
    """
    if rigid.shape[1] == 0:
        return matrices
    pushed = matrices @ rigid
    inner = rigid.T @ pushed
    scale = np.trace(matrices, axis1=1, axis2=2) / np.sum(amount**2)
    inner += np.abs(scale)[:, None, None] * np.eye(6)
    pushed -= 0.5 * (amount.T @ inner)
    wide = np.concatenate([pushed, np.broadcast_to(amount.T, pushed.shape)], axis=2)
    tall = np.concatenate(
        [np.broadcast_to(amount, pushed.transpose(0, 2, 1).shape), pushed.transpose(0, 2, 1)], axis=1
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
        standing = _left_standing(ready, coefficient[at : at + TOGETHER])
        out[at : at + TOGETHER] = False
        out[at + standing] = True
    return out


def _left_standing(ready: BucklingPlan, coefficient: Array) -> Index:
    """Numbers of the items whose matrices are positive definite, by Haynsworth's law of inertia.

    Point after point is eliminated; a matrix is positive definite where what each point leaves is. The
    points that a free body's gauge sees are left for the end, so that no other movement is judged by it.
    """
    item = np.arange(coefficient.shape[0])
    flat = coefficient.reshape(item.size, -1)
    nothing = np.zeros((1, ready.assembly.unknowns, 0))
    handed: dict[int, Array] = {}
    for n, front in enumerate(ready.fronts.fronts[: ready.fronts.early]):
        own = front.end - front.begin
        whole = filled(front, flat[:, front.coefficient] @ front.matrix, nothing, handed)
        sound = definite(whole[:, :own, :own])
        if not sound.all():
            item, flat, whole = item[sound], flat[sound], whole[sound]
            handed = {key: part[sound] for key, part in handed.items()}
        if item.size == 0:
            return item
        if front.border.size:
            found = np.linalg.solve(whole[:, :own, :own], whole[:, :own, own:])
            handed[n] = whole[:, own:, own:] - whole[:, :own, own:].transpose(0, 2, 1) @ found
    if ready.fronts.early == len(ready.fronts.fronts):
        return item
    left = _left(ready.fronts, flat, handed)
    last = ready.fronts.order[-left.shape[1] :]
    return item[definite(steady(left, ready.rigid[last], ready.amount[:, last]))]


def _left(planned: Fronts, flat: Array, handed: dict[int, Array]) -> Array:
    """The matrices that are left of the points that go last: (items, last, last)."""
    fronts = planned.fronts
    base = fronts[planned.early].begin
    size = planned.order.size - base
    out = np.zeros((flat.shape[0], size, size))
    for front in fronts[planned.early :]:
        own, border = slice(front.begin - base, front.end - base), front.border - base
        pivots = front.end - front.begin
        rows = (flat[:, front.coefficient] @ front.matrix)[:, : pivots * (pivots + border.size)]
        rows = rows.reshape(flat.shape[0], pivots, -1)
        across = rows[:, :, pivots:]
        out[:, own, own] += rows[:, :, :pivots]
        out[:, own, border] += across
        out[:, border, own] += across.transpose(0, 2, 1)
        for n, _ in front.children:
            if n in handed:
                at = fronts[n].border - base
                out[:, at[:, None], at] += handed[n]
    return out


def definite(matrices: Array) -> Flags:
    """Which of several matrices (items, n, n) are positive definite."""
    try:
        np.linalg.cholesky(matrices)
    except np.linalg.LinAlgError:
        if matrices.shape[0] == 1:
            return np.zeros(1, dtype=bool)
        half = matrices.shape[0] // 2
        return np.concatenate([definite(matrices[:half]), definite(matrices[half:])])
    return np.ones(matrices.shape[0], dtype=bool)
