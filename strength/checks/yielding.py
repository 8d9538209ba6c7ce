"""`yielding` and `rupture`: the worst von Mises stress of members and struts."""

from collections.abc import Iterator
from functools import partial

import numpy as np
from numpy.typing import NDArray

from strength.arrays import picked, spread
from strength.case.model import Case, Member, Strut
from strength.case.shape import Outline
from strength.checks.context import Context
from strength.checks.factors import ONLY_PATH
from strength.checks.notes import station_notes
from strength.checks.strips import outside_strip
from strength.checks.verdict import Late, Verdict
from strength.sections.matrices import STRESSED

Array = NDArray[np.float64]

SOURCES = {
    "yielding": "von Mises stress against yield, as EN 1993-1-1 6.2.1(5)",
    "rupture": "von Mises stress against ultimate; holes 0.9 of it, EN 1993-1-1 6.2.3",
}


def stressed_bars(context: Context) -> Iterator[int]:
    """Numbers of the bars whose stresses are worked out."""
    return (n for n, shape in enumerate(context.bars.shapes) if isinstance(shape, STRESSED))


def yield_divisor(context: Context, number: int) -> Array:
    """Divisor of the yield strength of one bar, (designs or 1, loads)."""
    divisor: Array = context.on_yield[number]
    return divisor.T


def path_factor(case: Case, number: int) -> float:
    """1.25 on the utilisations of a part that is the only path, else 1."""
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    return ONLY_PATH if parts[number].only_path else 1.0


def path_factors(case: Case) -> Array:
    """The same of all bars (bars,)."""
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    return np.array([ONLY_PATH if part.only_path else 1.0 for part in parts])


def yield_limit(context: Context, number: int) -> Array:
    """Yield at the stations of one bar over its divisor, (designs, loads, stations) [MPa]."""
    strength = context.stations.yield_[:, None, context.stations.of(number)]
    return strength / yield_divisor(context, number)[:, :, None]


def ultimate_limit(context: Context, number: int) -> Array:
    """Ultimate at the stations of one bar over its divisor, (designs, loads, stations) [MPa]."""
    strength = context.stations.ultimate[:, None, context.stations.of(number)]
    return strength / context.factors.on_ultimate()[:, None]


def worst_yielding(context: Context, number: int) -> NDArray[np.intp]:
    """Where among a bar's stations `yielding` is worst, (designs, loads)."""
    demand = context.stations.peak[:, :, context.stations.of(number)]
    found: NDArray[np.intp] = (demand / yield_limit(context, number)).argmax(axis=-1)
    return found


def yielding(context: Context) -> Iterator[Verdict]:
    """Worst von Mises against yield, its welded value inside heat-affected lengths."""
    return _verdicts(context, "yielding", context.stations.yield_, context.on_yield)


def rupture(context: Context) -> Iterator[Verdict]:
    """Worst von Mises against ultimate, 0.9 of it at a hole; welded inside heat-affected lengths."""
    return _verdicts(context, "rupture", context.stations.ultimate, context.factors.on_ultimate()[:, None])


def _verdicts(context: Context, kind: str, strength: Array, divisor: Array) -> Iterator[Verdict]:
    """Verdicts of all bars; strength (designs, stations), divisor (bars or none, loads, designs or 1)."""
    stations = context.stations
    use = stations.worst(stations.peak.transpose(2, 1, 0) / strength.T[:, None])
    use *= context.factors.load()[:, None] * divisor
    use *= path_factors(context.case)[:, None, None]
    for number in stressed_bars(context):
        covered = _is_covered(context, number)
        yield Late(
            context.bars.names[number],
            kind,
            use[number].T,
            partial(_whole, context, number, kind),
            in_range=None if covered.all() else spread(covered[:, None], use.shape[:0:-1]),
        )


def _is_covered(context: Context, number: int) -> NDArray[np.bool_]:
    """False (designs,) where heat has no rule, an outline twists as it bends or a flat is no strip."""
    covered: NDArray[np.bool_] = ~context.stations.uncovered[:, number]
    shape = context.bars.shapes[number]
    if isinstance(shape, Outline):
        from strength.sections.outline import meshed

        covered = covered & meshed(shape).is_centred
    return covered & (not outside_strip(context, number))


def _whole(context: Context, number: int, kind: str) -> Verdict:
    stations = context.stations
    own = stations.of(number)
    limit = yield_limit(context, number) if kind == "yielding" else ultimate_limit(context, number)
    demand = stations.peak[:, :, own] * context.factors.load()[:, None]
    where = (demand / limit).argmax(axis=-1)
    demand, limit = (picked(spread(part, demand.shape), where) for part in (demand, limit))
    return Verdict(
        part=context.bars.names[number],
        kind=kind,
        unit="MPa",
        fails="bends" if kind == "yielding" else "parts",
        source=SOURCES[kind],
        demand=demand,
        limit=limit,
        utilisation=demand / limit * path_factor(context.case, number),
        places=stations.labels[own],
        where=where,
        in_range=spread(_is_covered(context, number)[:, None], demand.shape),
        notes=station_notes(context, number, where[0]),
    )
