"""Proof that designs are far from buckling, many at once.

A frame only gains by stiffness and loses by compression. So one frame that has of every stiffness the least
of some designs, under the greatest compression of all their loads, proves by standing that each of
them stands under each load.
"""

import numpy as np
from numpy.typing import NDArray

from strength.frame.buckling import compression
from strength.frame.proof import BucklingPlan, stands
from strength.frame.response import Response
from strength.frame.softening import Softening
from strength.sections import Bars
from strength.studies.prepared import Prepared
from strength.values import evolve

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


def far_from_buckling(
    ready: Prepared, bars: Bars, response: Response, plan: BucklingPlan, multiplier: float
) -> Flags:
    """Where every load of a design is proved to have a critical multiplier above `multiplier`: (designs,)."""
    squeeze = multiplier * compression(response)
    designs = squeeze.shape[0]
    softening = Softening.of(ready.layout, plan.links, bars, designs)
    out = np.ones(squeeze.shape[:2], dtype=bool)
    _prove(plan, softening, squeeze, (np.arange(designs), np.arange(squeeze.shape[1])), out)
    return np.asarray(out.all(axis=1))


def _prove(
    plan: BucklingPlan, softening: Softening, squeeze: Array, some: tuple[Index, Index], out: Flags
) -> None:
    """Prove some designs under some loads together; where that fails load by load, then design by half."""
    own, loads = some
    push = squeeze[np.ix_(own, loads)].max(axis=(0, 1))
    if _stands(plan, _softest(softening, own), np.zeros(1, dtype=np.intp), push[None])[0]:
        return
    if loads.size > 1:
        for load in loads:
            _prove(plan, softening, squeeze, (own, np.array([load])), out)
    elif own.size > 1:
        for half in (own[: own.size // 2], own[own.size // 2 :]):
            _prove(plan, softening, squeeze, (half, loads), out)
    else:
        out[own, loads] = False


def _softest(softening: Softening, own: Index) -> Softening:
    """The least of each stiffness and each pole of some designs, as one design."""

    def least(values: Array) -> Array:
        found: Array = values[own].min(axis=0, keepdims=True)
        return found

    return evolve(
        softening,
        coefficient=least(softening.coefficient),
        ei=(least(softening.ei[0]), least(softening.ei[1])),
        ga=(least(softening.ga[0]), least(softening.ga[1])),
        pole=least(softening.pole),
    )


def _stands(plan: BucklingPlan, softening: Softening, design: Index, push: Array) -> Flags:
    """Whether the frame of each item stands under compressions (items, segments) N."""
    out: Flags = np.all(push < softening.pole[design], axis=1)
    item = np.flatnonzero(out)
    if item.size:
        out[item] = stands(plan, softening.under(design[item], push[item]))
    return out
