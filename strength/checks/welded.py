"""Welds on a part: its own, and those of other parts onto it."""

from collections.abc import Iterator
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.joints.heat import welded_factor
from strength.values import frozen


@frozen(kw_only=True, eq=False)
class WeldOn:
    """A weld on a bar, `at` (designs or 1,) [mm from `from`]; factor on the welded strengths."""

    name: str
    bar: int
    at: NDArray[np.float64]
    factor: float


_known: "WeakKeyDictionary[Context, tuple[WeldOn, ...]]" = WeakKeyDictionary()


def welds_on(context: Context) -> tuple[WeldOn, ...]:
    """All welds on all bars, looked up once; a weld of one part onto another counts for both."""
    if context not in _known:
        _known[context] = tuple(_found(context))
    return _known[context]


def _found(context: Context) -> Iterator[WeldOn]:
    for seat in context.seats:
        places = [(seat.bar, seat.plane)]
        if seat.host is not None:
            at = np.minimum(np.maximum(seat.host.at, 0.0), seat.host.length)
            places.append((seat.host.bar, at))
        for bar, at in places:
            metal = context.bars.metals[bar]
            factor = 1.0 if metal is None else welded_factor(metal, seat.weld.process)
            yield WeldOn(name=seat.weld.name, bar=bar, at=at, factor=factor)
