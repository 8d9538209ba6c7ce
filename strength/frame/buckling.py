"""Elastic critical multiplier of each load.

Wittrick & Williams 1971 (Q. J. Mech. Appl. Math. 24:263, from memory): with exact beam-column stiffness
K(a) at a times the load's axial forces, the multipliers below `a` are as many as K(a) has negative
pivots, plus those at which members buckle between resting ends. So one Cholesky factorisation of K(a),
with every member below its own pole, proves that nothing buckles below a; and bisection on that proof
finds the multiplier itself. Struts given by stiffness hold their length. Axial forces only: lateral
torsional buckling belongs to the members' own check.
"""

from typing import TYPE_CHECKING

import attrs
import numpy as np

from strength.case.model import Case
from strength.frame.assembly import LARGE, Assembly, map_assembly
from strength.frame.flying import gauged
from strength.frame.links import Links, link
from strength.frame.modes import EVEN_Y, EVEN_Z, ODD_Y, ODD_Z, SWAY_Y, SWAY_Z
from strength.frame.plan import constrain, rigid_motions, steadiest
from strength.frame.reduction import Reduction
from strength.frame.response import Array, Flags, Index, Layout, Response
from strength.frame.solve import rigidities, stiffness
from strength.frame.stability import bending, first_pole

if TYPE_CHECKING:
    from strength.sections.bars import Bars
    from strength.vehicle.sheet import Pushes

NOTHING = 1e-9  # compression beside the load's greatest axial force, below which there is none
FAR = 1e6  # a greater multiplier counts as none
CLOSE = 1e-7  # relative width at which bisection stops


@attrs.frozen(kw_only=True, eq=False)
class BucklingPlan:
    """Freedoms and assembly of a frame whose struts hold their length; the same for all designs."""

    links: Links
    reduction: Reduction
    assembly: Assembly
    rigid: Array  # (unknowns, 6) rigid motions of a free body, (unknowns, 0) of a supported one
    amount: Array  # (6 or 0, unknowns): how much of them the gauge sees in a movement
    kept: Index  # unknowns that stay when the gauge takes six away


def plan_buckling(case: Case, layout: Layout, pushes: "Pushes") -> BucklingPlan:
    """Prepare for buckling. A free body moves only so that `pushes.gauge` stays zero.

    A large free body is held at six freedoms far apart instead, which keeps its matrix narrow (own choice).
    """
    links = link(case, layout, struts_hold=True)
    constrained = constrain(case, layout, links)
    reduction = constrained.reduction
    n = reduction.unknowns
    rigid: Array = np.zeros((n, 0))
    amount: Array = np.zeros((0, n))
    kept = np.arange(n)
    motions = None if case.supports else rigid_motions(layout, links, constrained.loose)
    if motions is not None and n > LARGE:
        reduction = reduction.drop(steadiest(motions, reduction))
    elif motions is not None:
        free = np.flatnonzero(reduction.place >= 0)
        rigid = np.zeros((n, 6))
        rigid[reduction.place[free]] = motions[:, free].T
        amount = reduction.gather(gauged(links, motions, pushes.gauge).T).T
        kept = np.delete(kept, steadiest(motions, reduction))
    return BucklingPlan(
        links=links,
        reduction=reduction,
        assembly=map_assembly(links, reduction, 8),
        rigid=rigid,
        amount=amount,
        kept=kept,
    )


def at_least(
    case: Case,
    layout: Layout,
    bars: "Bars",
    pushes: "Pushes",
    response: Response,
    multiplier: float,
    prepared: BucklingPlan | None = None,
) -> Flags:
    """Where the critical multiplier is greater than `multiplier`, proved exactly: (designs, loads).

    First all loads of a design at once, with the greatest compression any of them puts on each segment:
    compression only ever softens, so if that holds, each load does.
    """
    ready = prepared or plan_buckling(case, layout, pushes)
    squeeze = compression(response)
    designs, loads, _ = squeeze.shape
    sizes = _Sizes.of(layout, ready.links, bars, designs)
    design = np.arange(designs)
    together = _holds(layout, ready, sizes, design, multiplier * squeeze.max(axis=1))
    out = np.repeat(together[:, None], loads, axis=1)
    for d in np.flatnonzero(~out[:, 0]):
        out[d] = _holds(layout, ready, sizes, np.full(loads, d), multiplier * squeeze[d])
    return out


def critical_multiplier(
    case: Case,
    layout: Layout,
    bars: "Bars",
    pushes: "Pushes",
    response: Response,
    prepared: BucklingPlan | None = None,
    where: Flags | None = None,
) -> Array:
    """Least positive multiplier of each load at which the frame buckles: (designs, loads).

    inf where nothing is in compression, or the multiplier is over a million. where: (designs, loads),
    the ones to find; the others are nan. Exact to 1e-7 for straight members with axial force.
    """
    ready = prepared or plan_buckling(case, layout, pushes)
    squeeze = compression(response)
    chosen = np.ones(squeeze.shape[:2], dtype=bool) if where is None else where
    design, load = np.nonzero(chosen)
    out = np.full(squeeze.shape[:2], np.nan)
    push = squeeze[design, load]
    sizes = _Sizes.of(layout, ready.links, bars, squeeze.shape[0])
    with np.errstate(divide="ignore"):
        own = np.where(push > 0.0, sizes.pole[design] / np.maximum(push, 1e-300), np.inf)
    high = np.minimum(own.min(axis=1, initial=np.inf), FAR)
    low = np.zeros(high.size)
    # A first guess well below halves the work where the frame is far stouter than its parts.
    step = np.full(high.size, 0.5)
    open_ = np.any(push > 0.0, axis=1)
    high[~open_] = np.inf
    while np.any(open_):
        at = np.flatnonzero(open_)
        middle = np.where(low[at] > 0.0, np.sqrt(low[at] * high[at]), high[at] * step[at])
        safe = _holds(layout, ready, sizes, design[at], middle[:, None] * push[at])
        low[at], high[at] = np.where(safe, middle, low[at]), np.where(safe, high[at], middle)
        step[at] *= np.where(safe, 1.0, step[at])
        open_[at] = high[at] - low[at] > CLOSE * high[at]
    unproved = (high >= FAR * (1.0 - 2.0 * CLOSE)) & np.isfinite(high)
    high[unproved] = np.inf
    out[design, load] = high
    return out


def compression(response: Response) -> Array:
    """Compression of each segment (designs, loads, segments) N, tension negative, round-off cleared."""
    push = -response.forces[..., 0, 0]
    greatest = np.abs(push).max(axis=2, keepdims=True, initial=0.0)
    return np.asarray(np.where(np.abs(push) <= NOTHING * greatest, 0.0, push))


@attrs.frozen(kw_only=True, eq=False)
class _Sizes:
    """Stiffness and poles of all designs, so that items of (design, load) can pick theirs."""

    coefficient: Array  # (designs, segments, 6)
    ei: tuple[Array, Array]  # about y, z
    ga: tuple[Array, Array]  # for Vz, Vy
    pole: Array  # (designs, segments)
    one_ball: Flags
    no_ball: Flags
    bends: Flags

    @classmethod
    def of(cls, layout: Layout, links: Links, bars: "Bars", designs: int) -> "_Sizes":
        _, _, ei_y, ei_z, ga_y, ga_z = (
            np.broadcast_to(value, (designs, layout.bar.size)) for value in rigidities(layout, bars)
        )
        strut = layout.bar >= bars.member_count
        bends = ~links.exact & ~strut
        one, none = links.ball[:, 0] ^ links.ball[:, 1], ~np.any(links.ball, axis=1)
        with np.errstate(invalid="ignore"):
            poles = [first_pole(ei, ga, layout.length, one, none) for ei, ga in ((ei_y, ga_z), (ei_z, ga_y))]
        coefficient = np.broadcast_to(stiffness(layout, links, bars), (designs, layout.bar.size, 6))
        return cls(
            coefficient=coefficient,
            ei=(ei_y, ei_z),
            ga=(ga_z, ga_y),
            pole=np.where(bends, np.fmin(*poles), np.inf),
            one_ball=one & bends,
            no_ball=none & bends,
            bends=bends,
        )


def _holds(layout: Layout, ready: BucklingPlan, sizes: _Sizes, design: Index, push: Array) -> Flags:
    """Whether the frame of each item still stands under compressions (items, segments) N."""
    out = np.all(push < sizes.pole[design], axis=1)
    item = np.flatnonzero(out)
    chosen, push = design[item], push[item]
    whole = np.zeros((item.size, layout.bar.size, 8))
    whole[..., :6] = sizes.coefficient[chosen]
    at = np.flatnonzero(sizes.bends)
    own, one, none = layout.length[at], sizes.one_ball[at], sizes.no_ball[at]
    for (even, odd), ei, ga in zip(((EVEN_Y, ODD_Y), (EVEN_Z, ODD_Z)), sizes.ei, sizes.ga, strict=True):
        parts = bending(push[:, at], ei[chosen][:, at], ga[chosen][:, at], own, one, none)
        whole[:, at, even], whole[:, at, odd] = parts
    whole[..., SWAY_Y] = whole[..., SWAY_Z] = -push / layout.length
    out[item] = _positive(ready, whole)
    return np.asarray(out)


def _positive(ready: BucklingPlan, coefficient: Array) -> Flags:
    """Whether each matrix is positive definite on the movements that a free body's gauge leaves.

    Such a movement is v - rigid (amount v), so the matrix becomes K - W amount - (W amount)^T with
    W = K rigid - amount^T (rigid^T K rigid) / 2.
    """
    out = np.ones(coefficient.shape[0], dtype=bool)
    if ready.kept.size == 0:
        return out
    if ready.assembly.unknowns > LARGE:
        from strength.frame.sparse import factorise, narrow

        band = narrow(ready.assembly)
        for n in range(out.size):
            values = ready.assembly.entries(coefficient[n : n + 1])[:, 0]
            out[n] = factorise(band.fill(values))[1] > 0.0
        return out
    matrices = ready.assembly.matrix(coefficient)
    if ready.rigid.shape[1]:
        pushed = matrices @ ready.rigid
        pushed -= 0.5 * (ready.amount.T @ (ready.rigid.T @ pushed))
        seen = pushed[:, ready.kept] @ ready.amount[:, ready.kept]
        matrices = matrices[:, ready.kept[:, None], ready.kept] - seen - seen.transpose(0, 2, 1)
    for n, matrix in enumerate(matrices):
        try:
            np.linalg.cholesky(matrix)
        except np.linalg.LinAlgError:
            out[n] = False
    return out
