"""Which of a dropout and its axle yields first where the flats bear."""

import numpy as np
from numpy.typing import NDArray

from strength.case.dropout import Dropout
from strength.checks.context import Context
from strength.checks.joint_rows import bar_number, heat_of
from strength.errors import CaseError, RangeError
from strength.joints.heated import Heated, heated
from strength.library import Metal, Strength
from strength.values import frozen

Array = NDArray[np.float64]

BRITTLE_BELOW = 0.10


@frozen(kw_only=True, eq=False)
class BearingPair:
    """The dropout's metal and the axle's, on flats of a dropout that a member (number `bar`) ends in.

    hot: heat at the member's end, one place. own_yield: (designs,) of the dropout there [MPa]. yield_:
    (designs,) the lesser of it and the axle's. axle: its metal where the case says it. softer: that metal
    where it is the lesser in any design. kind, brittle: of what the limit is divided by.
    """

    bar: int
    metal: Metal
    hot: Heated
    own_yield: Array
    yield_: Array
    axle: Metal | None
    softer: Metal | None
    kind: str
    brittle: bool


def bearing_pair(context: Context, own: Dropout) -> BearingPair:
    """Strengths of both. Raises CaseError for a dropout of no metal or of a thickness without strength."""
    bar = bar_number(context, own.member)
    metal = context.bars.metals[bar] if not own.material else context.case.metals[own.material]
    if metal is None:
        why = f"{own.name}: nothing says what the dropout is made of: write `material`"
        raise CaseError([(own.path or own.name, why)])
    row = _row(own, metal, own.thickness)
    hot = _heat_there(context, own, metal, bar)
    parent = np.full(hot.inside.shape, row.yield_)
    welded = row.yield_ if row.yield_welded is None else row.yield_welded
    limits: Array = hot.take(parent, np.full(parent.shape, welded))[:, 0]
    least, kind, brittle = limits, metal.kind, _is_brittle(row)
    axle = context.case.metals[own.axle_material] if own.axle_material else None
    softer = None
    if axle is not None:
        of_axle = _row(own, axle, own.diameter)
        if of_axle.yield_ < float(limits.max()):
            least, softer, kind = np.minimum(limits, of_axle.yield_), axle, axle.kind
            brittle = brittle or _is_brittle(of_axle)
    return BearingPair(
        bar=bar,
        metal=metal,
        hot=hot,
        own_yield=limits,
        yield_=least,
        axle=axle,
        softer=softer,
        kind=kind,
        brittle=brittle,
    )


def _row(own: Dropout, metal: Metal, thickness: float) -> Strength:
    try:
        return metal.strength(thickness)
    except RangeError as error:
        raise CaseError([(own.path or own.name, f"{own.name}: {error}")]) from error


def _is_brittle(row: Strength) -> bool:
    return row.elongation is None or row.elongation < BRITTLE_BELOW


def _heat_there(context: Context, own: Dropout, metal: Metal, bar: int) -> Heated:
    """Heat at the member's end."""
    designs = context.bars.wall.shape[0]
    at = np.array([0.0 if own.end == "from" else float(context.layout.bar_length[bar])])
    return heated(context.case, heat_of(context), metal, bar, at, at, designs)
