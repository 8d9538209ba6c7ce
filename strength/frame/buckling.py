"""Elastic critical multiplier of each load.

Wittrick & Williams 1971 (Q. J. Mech. Appl. Math. 24:263, from memory): with exact beam-column stiffness
K(a) at a times the load's axial forces, the multipliers below `a` are as many as K(a) has negative
pivots, plus those at which members buckle between resting ends. So one Cholesky factorisation of K(a),
with every member below its own pole, proves that nothing buckles below a. A multiplier is first bounded
from above by trial shapes, then proved from below; where the proof fails, bisection on it goes on.
Struts given by stiffness hold their length. Axial forces only: lateral torsional buckling belongs to the
members' own check.
"""

from typing import TYPE_CHECKING

import numpy as np

from strength.case.model import Case
from strength.frame.assembly import LARGE, map_assembly
from strength.frame.flying import gauged
from strength.frame.links import holding
from strength.frame.plan import Plan, constrain, plan, steadiest
from strength.frame.proof import TOGETHER, BucklingPlan, stands
from strength.frame.response import Array, Flags, Index, Layout, Response
from strength.frame.shapes import upper_bounds
from strength.frame.softening import Softening

if TYPE_CHECKING:
    from strength.sections.bars import Bars
    from strength.vehicle.sheet import Pushes

NOTHING = 1e-9  # compression beside the load's greatest axial force, below which there is none
FAR = 1e6  # a greater multiplier counts as none
NEAR_NONE = 1e-9  # a smaller one is not looked for
CLOSE = 2e-5  # relative width to which a multiplier is proved


def plan_buckling(case: Case, layout: Layout, pushes: "Pushes", base: Plan | None = None) -> BucklingPlan:
    """Prepare for buckling. A free body moves only so that `pushes.gauge` stays zero.

    A large free body is held at six freedoms far apart instead, which keeps its matrix narrow (own choice).
    base: `plan(case, layout)`, of which much serves here as well.
    """
    base = base or plan(case, layout)
    links = holding(case, layout, base.links)
    reduction, _ = constrain(links, base.holds, base.loose)
    motions = base.rigid_motions
    if motions is not None and reduction.unknowns > LARGE:
        reduction = reduction.drop(steadiest(motions, reduction))
        motions = None
    n = reduction.unknowns
    rigid: Array = np.zeros((n, 0))
    amount: Array = np.zeros((0, n))
    if motions is not None:
        free = np.flatnonzero(reduction.place >= 0)
        rigid = np.zeros((n, 6))
        rigid[reduction.place[free]] = motions[:, free].T
        amount = reduction.gather(gauged(links, motions, pushes.gauge).T).T
    return BucklingPlan(links=links, assembly=map_assembly(links, reduction, 8), rigid=rigid, amount=amount)


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
    compression only ever softens, so if that stands, each load does.
    """
    ready = prepared or plan_buckling(case, layout, pushes)
    squeeze = compression(response)
    designs, loads, _ = squeeze.shape
    softening = Softening.of(layout, ready.links, bars, designs)
    together = _stands(ready, softening, np.arange(designs), multiplier * squeeze.max(axis=1))
    out = np.repeat(together[:, None], loads, axis=1)
    for d in np.flatnonzero(~together):
        out[d] = _stands(ready, softening, np.full(loads, d), multiplier * squeeze[d])
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
    the ones to find; the others are nan. Never below the true value, and proved to lie within 2e-5 of it
    (mostly within 1e-7).
    """
    ready = prepared or plan_buckling(case, layout, pushes)
    squeeze = compression(response)
    chosen = np.ones(squeeze.shape[:2], dtype=bool) if where is None else where
    out = np.full(squeeze.shape[:2], np.nan)
    softening = Softening.of(layout, ready.links, bars, squeeze.shape[0])
    out[chosen] = np.inf
    design, load = np.nonzero(chosen & np.any(squeeze > 0.0, axis=2))
    for at in range(0, design.size, TOGETHER):
        own, under = design[at : at + TOGETHER], load[at : at + TOGETHER]
        out[own, under] = _proved(ready, softening, own, squeeze[own, under])
    return out


def compression(response: Response) -> Array:
    """Compression of each segment (designs, loads, segments) N, tension negative, round-off cleared."""
    push = -response.forces[..., 0, 0]
    greatest = np.abs(push).max(axis=2, keepdims=True, initial=0.0)
    return np.asarray(np.where(np.abs(push) <= NOTHING * greatest, 0.0, push))


def _proved(ready: BucklingPlan, softening: Softening, here: Index, push: Array) -> Array:
    """Multipliers (items,) of compressions (items, segments), bounded above and proved below."""
    high = np.minimum(softening.limit(here, push), FAR)
    if 0 < ready.assembly.unknowns <= LARGE:
        high = np.minimum(high, upper_bounds(ready, softening, here, push))
    low = np.zeros(high.size)
    guess = high * (1.0 - 0.5 * CLOSE)
    open_ = np.ones(high.size, dtype=bool)
    while np.any(open_):
        at = np.flatnonzero(open_)
        safe = _stands(ready, softening, here[at], guess[at, None] * push[at])
        low[at], high[at] = np.where(safe, guess[at], low[at]), np.where(safe, high[at], guess[at])
        open_[at] = (high[at] - low[at] > CLOSE * high[at]) & (high[at] > NEAR_NONE)
        guess = np.where(low > 0.0, np.sqrt(low * high), 0.5 * high)
    return np.where(high >= FAR * (1.0 - CLOSE), np.inf, high)


def _stands(ready: BucklingPlan, softening: Softening, design: Index, push: Array) -> Flags:
    """Whether the frame of each item still stands under compressions (items, segments) N."""
    out = np.all(push < softening.pole[design], axis=1)
    item = np.flatnonzero(out)
    out[item] = stands(ready, softening.under(design[item], push[item]))
    return np.asarray(out)
