"""What the checks of bolts, studs, sleeves and clamps share: heat, only paths, the worst place."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from strength.arrays import picked, spread
from strength.checks.context import Context
from strength.checks.factors import ONLY_PATH
from strength.checks.notes import by_load
from strength.checks.verdict import Verdict
from strength.joints.heat import HeatLength, heat_lengths

Array = NDArray[np.float64]

LITTLE = 1e-6  # of the greatest force or moment of a joint: less is rounding


def heat_of(context: Context) -> tuple[HeatLength, ...]:
    """Heat-affected lengths of the case, from the context where they stand in it."""
    if context.heat is not None:
        return context.heat
    return heat_lengths(context.case, context.layout, context.bars)


def figure(value: float) -> str:
    """A number for a text: three figures, or whole.

    >>> figure(7.456), figure(1234.5)
    ('7.46', '1234')
    """
    return f"{value:.3g}" if abs(value) < 999.5 else f"{value:.0f}"


def bar_number(context: Context, name: str) -> int:
    """Number of the member or strut of that name."""
    return context.bars.names.index(name)


def joint_path_factor(context: Context, bar: int, only: bool | None) -> float:
    """1.25 where a joint, or with no word of its own its part, is the only path; else 1."""
    if only is None:
        members = context.case.members
        only = (members[bar] if bar < len(members) else context.case.struts[bar - len(members)]).only_path
    return ONLY_PATH if only else 1.0


def worst_place(
    context: Context,
    *,
    part: str,
    kind: str,
    unit: str,
    fails: str,
    source: str,
    demand: ArrayLike,
    limit: ArrayLike,
    path_factor: float,
    places: tuple[str, ...],
    in_range: ArrayLike = True,
    note: str = "",
    amplified: bool = True,
) -> Verdict:
    """The verdict at the worst of several places: demand and limit (designs, loads, places).

    in_range: broadcasts likewise; one place out of range puts the row out of range. amplified:
    moments count in it, so that the note tells where frame buckling raises them.
    """
    demand, limit, in_range = np.asarray(demand), np.asarray(limit), np.asarray(in_range)
    use = demand / limit
    where = use.argmax(axis=-1)
    known = np.asarray(spread(in_range, use.shape).all(axis=-1))
    demand, limit, use = (picked(spread(values, use.shape), where) for values in (demand, limit, use))
    return Verdict(
        part=part,
        kind=kind,
        unit=unit,
        fails=fails,
        source=source,
        demand=demand,
        limit=limit,
        utilisation=use * path_factor,
        places=places,
        where=where,
        in_range=known,
        notes=by_load(context, note) if amplified else (note,) * demand.shape[1],
    )
