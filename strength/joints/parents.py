"""What a weld joins: strength and wall of the welded member and of the part it is welded onto."""

from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.case.shape import Box, Flat, Outline, Shape, Tube
from strength.errors import CaseError, RangeError
from strength.joints.heat import heat_width, welded_factor
from strength.joints.seat import Seat
from strength.library import Metal
from strength.sections.bars import Bars
from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Parent:
    """One of two joined parts; (designs,) [MPa, mm].

    ultimate, yield_: beside the weld, TIG on aluminium counted in. wall: what a force across the
    weld must pass, nan where there is none to judge. brittle: elongation under 10 % or unknown.
    in_range: False where no rule covers the strength beside this weld.
    """

    name: str
    metal: Metal
    ultimate: Array
    yield_: Array
    wall: Array
    brittle: bool
    in_range: NDArray[np.bool_]


def parents(case: Case, seat: Seat, bars: Bars) -> tuple[Parent, Parent | None]:
    """The welded member, and the member or plate it is welded onto (None where not said).

    Raises CaseError for a member without a metal, or a plate of a thickness its metal is not held for.
    """
    weld = seat.weld
    own = _bar(seat, bars, seat.bar)
    if own is None:
        why = f"{weld.name}: {weld.member} has no section, so nothing can be welded to it"
        raise CaseError([(weld.path or weld.name, why)])
    if seat.host is not None:
        return own, _bar(seat, bars, seat.host.bar)
    if seat.plate is None:
        return own, None
    metal = case.metals[seat.plate.material]
    try:
        row = metal.strength(seat.plate.thickness)
    except RangeError as error:
        raise CaseError([(weld.path or weld.name, f"{weld.name}: `onto`: {error}")]) from error
    wall = np.array([seat.plate.thickness])
    ultimate = row.ultimate if row.ultimate_welded is None else row.ultimate_welded
    yield_ = row.yield_ if row.yield_welded is None else row.yield_welded
    factor = welded_factor(metal, weld.process)
    return own, Parent(
        name="the plate",
        metal=metal,
        ultimate=np.array([ultimate * factor]),
        yield_=np.array([yield_ * factor]),
        wall=wall,
        brittle=row.elongation is None or row.elongation < 0.10,
        in_range=heat_width(metal, weld.process, wall, wall < 0.0)[1],
    )


_known: "WeakKeyDictionary[Bars, dict[tuple[int, str], Parent]]" = WeakKeyDictionary()


def _bar(seat: Seat, bars: Bars, bar: int) -> Parent | None:
    """A bar beside welds of one process, worked out once for all of them; None without a metal."""
    metal = bars.metals[bar]
    if metal is None:
        return None
    kept, key = _known.setdefault(bars, {}), (bar, seat.weld.process)
    if key not in kept:
        kept[key] = _beside(metal, bars, bar, seat.weld.process)
    return kept[key]


def _beside(metal: Metal, bars: Bars, bar: int, process: str) -> Parent:
    ultimate, yield_ = bars.ultimate_welded[:, bar], bars.yield_welded[:, bar]
    if not np.all(np.isfinite(ultimate)):
        # A section out of a table has no thickness: the least the metal has.
        rows = [(r.ultimate_welded or r.ultimate, r.yield_welded or r.yield_) for r in metal.rows]
        ultimate = np.full(ultimate.shape, min(row[0] for row in rows))
        yield_ = np.full(yield_.shape, min(row[1] for row in rows))
    wall = bars.wall[:, bar]
    thick = np.where(np.isfinite(wall), wall, 0.0)
    factor = welded_factor(metal, process)
    return Parent(
        name=bars.names[bar],
        metal=metal,
        ultimate=ultimate * factor,
        yield_=yield_ * factor,
        wall=_toe_wall(bars.shapes[bar], bars, bar),
        brittle=not bool(np.all(bars.elongation[:, bar] >= 0.10)),
        in_range=heat_width(metal, process, thick, thick < 0.0)[1],
    )


def _toe_wall(shape: Shape | None, bars: Bars, bar: int) -> Array:
    if isinstance(shape, Flat):
        return bars.width[:, bar]
    if isinstance(shape, Tube | Box | Outline):
        return bars.wall[:, bar]
    return np.full(bars.wall.shape[0], np.nan)
