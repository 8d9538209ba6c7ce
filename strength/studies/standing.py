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
MORE = 4  # times as many in a share as in the one before it
PARTS = 2  # shares at least, so that wherever those stand that fall, a few looks find them


def far_from_buckling(
    ready: Prepared, bars: Bars, response: Response, plan: BucklingPlan, multiplier: float
) -> Flags:
    """Where a load is proved to have a critical multiplier above `multiplier`: (designs, loads).

    Where not all stand together, those whose segments are nearest to their own poles are looked at in
    small sets, the others in large ones: it is the former that fall, mostly.
    """
    squeeze = multiplier * compression(response)
    designs, loads = squeeze.shape[:2]
    softening = Softening.of(ready.layout, plan.links, bars, designs)
    near = (squeeze / softening.pole[:, None]).max(axis=2, initial=0.0)
    out = np.zeros((designs, loads), dtype=bool)
    left = _below_poles(near, (np.arange(designs), np.arange(loads)))
    while left:
        standing = _stand(plan, softening, squeeze, left)
        fallen = []
        for some, stood in zip(left, standing.tolist(), strict=True):
            if stood:
                out[np.ix_(*some)] = True
            else:
                fallen += _parts(near, some)
        left = [each for part in fallen for each in _below_poles(near, part)]
    return out


def _below_poles(near: Array, some: Some) -> list[Some]:
    """A set if no segment is past its pole in it, else such parts of it; near: (designs, loads)."""
    if np.all(near[np.ix_(*some)] < 1.0):
        return [some]
    return [each for part in _parts(near, some) for each in _below_poles(near, part)]


def _parts(near: Array, some: Some) -> list[Some]:
    """What is looked at where not all of a set stand, without what is past a pole by itself.

    A load with a design past its pole is looked at alone; then shares of the loads, of one load shares of
    the designs; of one design nothing.
    """
    own, loads = some
    if own.size == loads.size == 1:
        return []
    if loads.size == 1:
        own = own[near[own, loads[0]] < 1.0]
        return [(own[share], loads) for share in _shares(near[own, loads[0]])]
    worst = near[np.ix_(own, loads)].max(axis=0)
    past, loads, worst = loads[worst >= 1.0], loads[worst < 1.0], worst[worst < 1.0]
    return [(own, past[n : n + 1]) for n in range(past.size)] + [
        (own, loads[share]) for share in _shares(worst)
    ]


def _shares(near: Array) -> list[Index]:
    """Numbers of some, the nearest first: one, four, sixteen..., none more than half of them."""
    most = max(1, near.size // PARTS)
    order = np.argsort(-near, kind="stable")
    out, at, size = [], 0, 1
    while at < order.size:
        out.append(order[at : at + size])
        at, size = at + size, min(MORE * size, most)
    return out


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
