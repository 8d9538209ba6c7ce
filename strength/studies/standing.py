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
Some = tuple[Index, Index]  # designs, loads
PARTS = 4  # of a set of designs that does not stand; more of them in one go cost little more


def far_from_buckling(
    ready: Prepared, bars: Bars, response: Response, plan: BucklingPlan, multiplier: float
) -> Flags:
    """Where a load is proved to have a critical multiplier above `multiplier`: (designs, loads)."""
    squeeze = multiplier * compression(response)
    designs, loads = squeeze.shape[:2]
    softening = Softening.of(ready.layout, plan.links, bars, designs)
    out = np.ones((designs, loads), dtype=bool)
    left = [(np.arange(designs), np.arange(loads))]
    while left:
        standing = _stand(plan, softening, squeeze, left)
        fallen = [some for some, stands in zip(left, standing, strict=True) if not stands]
        for own, under in fallen:
            if own.size == under.size == 1:
                out[own, under] = False
        left = [part for some in fallen for part in _parts(*some)]
    return out


def _parts(own: Index, loads: Index) -> list[Some]:
    """What is looked at where not all stand: load by load, then a share of the designs each; at last none."""
    if loads.size > 1:
        return [(own, loads[n : n + 1]) for n in range(loads.size)]
    if own.size > 1:
        return [(part, loads) for part in np.array_split(own, min(PARTS, own.size))]
    return []


def _stand(plan: BucklingPlan, softening: Softening, squeeze: Array, every: list[Some]) -> Flags:
    """Whether each set stands: the softest of its designs under the greatest of its compressions."""
    push = np.stack([squeeze[np.ix_(own, loads)].max(axis=(0, 1)) for own, loads in every])
    softest = _softest(softening, [own for own, _ in every])
    out = np.all(push < softest.pole, axis=1)
    item = np.flatnonzero(out)
    if item.size:
        out[item] = stands(plan, softest.under(item, push[item]))
    return np.asarray(out)


def _softest(softening: Softening, sets: list[Index]) -> Softening:
    """The least of each stiffness and each pole of each set of designs, a set as one design."""

    def least(values: Array) -> Array:
        return np.stack([values[..., own, :].min(axis=-2) for own in sets], axis=-2)

    return evolve(
        softening,
        coefficient=np.stack([softening.coefficient[own].min(axis=0) for own in sets]),
        ei=least(softening.ei),
        ga=least(softening.ga),
        pole=least(softening.pole),
    )
