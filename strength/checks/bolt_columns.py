"""All bolt joints side by side, a column for each hole, so that a check takes all of them in one step."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.arrays import run_maxima, spread
from strength.checks.bolts import BoltEffect, bolt_effects
from strength.checks.context import Context
from strength.checks.verdict import Late, Verdict
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class PlateColumns:
    """Holes of all plates, those of one joint consecutive.

    pull, along: (columns, loads, designs) on the edge of a hole and along its bolt [N], without load
    factor. thickness to yield_: (columns, designs). edge to row: (columns, 1); width: own width of the
    flat, or twice the edge distance, (columns, designs). is_under: head or nut presses on the plate.
    lost: (columns, designs) True where heat has no rule.
    """

    effects: tuple[BoltEffect, ...]
    first: Index
    pull: Array
    along: Array
    thickness: Array
    ultimate: Array
    width: Array
    edge: Array
    hole: Array
    own: Array  # ultimate of the bolt
    diameter: Array
    mean: Array  # dm under head or nut, nan: none
    is_lap: Flags
    is_under: Flags
    lost: Flags


def by_hole(parts: Sequence[Array]) -> Array:
    """Arrays (designs, loads, holes) of joints as one (holes, loads, designs)."""
    return np.concatenate([part.transpose(2, 1, 0) for part in parts])


def first_of(counts: Sequence[int]) -> Index:
    """Number of the first column of each joint that has so many."""
    return np.cumsum([0, *counts[:-1]], dtype=np.intp)


def late(
    context: Context,
    kind: str,
    effects: Sequence[BoltEffect],
    use: Array,
    whole: Callable[[Context, BoltEffect], Verdict],
    covered: Sequence[Flags | bool],
) -> Iterator[Verdict]:
    """Verdicts of joints with utilisations (joints, loads, designs), without the 1.25 of an only path.

    covered: (designs,) False where a row is out of its source's range.
    """
    for effect, own, known in zip(effects, use, covered, strict=True):
        own *= effect.path_factor
        told = np.asarray(known)
        yield Late(
            effect.bolt.name,
            kind,
            own.T,
            partial(whole, context, effect),
            in_range=None if told.all() else spread(told.reshape(-1, 1), own.T.shape),
        )


def late_at_holes(
    context: Context,
    kind: str,
    effects: Sequence[BoltEffect],
    demand: Callable[[BoltEffect], Array],
    limit: Callable[[BoltEffect], float],
    whole: Callable[[Context, BoltEffect], Verdict],
) -> Iterator[Verdict]:
    """Rows of one force on each bolt (designs, loads, bolts) [N] against one ultimate resistance."""
    if not effects:
        return
    use = _worst([demand(effect) for effect in effects])
    use *= _divisor(context) / _column([limit(effect) for effect in effects])
    yield from late(context, kind, effects, use, whole, [not effect.fastener.outside for effect in effects])


def late_at_plates(
    context: Context,
    kind: str,
    columns: PlateColumns,
    demand: Array,
    limit: Array,
    whole: Callable[[Context, BoltEffect], Verdict],
    *,
    outside: Flags | None = None,
    counts: Flags | None = None,
) -> Iterator[Verdict]:
    """Rows of forces (columns, loads, designs) against ultimate resistances (columns, designs) [N].

    outside: (columns, designs or 1) where a hole is out of its source's range. counts: (columns, 1)
    False for holes that have no part in it.
    """
    use = demand / limit[:, None]
    lost = columns.lost if outside is None else columns.lost | outside
    if counts is not None:
        use, lost = np.where(counts[:, None], use, -np.inf), lost & counts
    use = run_maxima(use, columns.first)
    use *= _divisor(context)
    return late(context, kind, columns.effects, use, whole, list(~run_maxima(lost, columns.first)))


def _worst(parts: Sequence[Array]) -> Array:
    return run_maxima(by_hole(parts), first_of([part.shape[2] for part in parts]))


def _divisor(context: Context) -> Array:
    """Load factor times divisor of ultimate resistances (loads, 1)."""
    return np.asarray((context.factors.load() * context.factors.on_ultimate())[:, None])


def _column(values: Sequence[float]) -> Array:
    return np.array(values)[:, None, None]


def under(effect: BoltEffect, plate: int) -> bool:
    """Whether head or nut presses on a plate: in two planes on the cheeks, or what there is."""
    return not effect.two_planes or plate == len(effect.plates) - 1


_known: "WeakKeyDictionary[Context, PlateColumns | None]" = WeakKeyDictionary()


def plate_columns(context: Context) -> PlateColumns | None:
    """Holes of all plates of the case, laid out once for all checks; None: no plates."""
    if context not in _known:
        effects = tuple(effect for effect in bolt_effects(context) if effect.plates)
        _known[context] = _laid_out(effects) if effects else None
    return _known[context]


def _laid_out(effects: tuple[BoltEffect, ...]) -> PlateColumns:
    plates = [(n, k, plate) for n, effect in enumerate(effects) for k, plate in enumerate(effect.plates)]
    holes = [len(effects[n].places) for n, _, _ in plates]
    widths = [
        np.array([[2.0 * plate.entry.edge]]) if plate.own_width is None else plate.own_width / plate.row
        for _, _, plate in plates
    ]
    designs = effects[0].forces.across.shape[0]

    def wide(parts: Sequence[Array]) -> Array:
        """Arrays (designs or 1, holes or 1) of plates as one (columns, designs)."""
        return np.concatenate(
            [spread(part, (designs, count)).T for part, count in zip(parts, holes, strict=True)]
        )

    def long(values: Sequence[float]) -> Array:
        return np.repeat(np.array(values, dtype=np.float64), holes)[:, None]

    own = [effects[n].fastener for n, _, _ in plates]
    return PlateColumns(
        effects=effects,
        first=first_of([sum(len(e.places) for _ in e.plates) for e in effects]),
        pull=by_hole([effects[n].pull_on(k) for n, k, _ in plates]),
        along=by_hole([effects[n].forces.along for n, _, _ in plates]),
        thickness=wide([plate.thickness for _, _, plate in plates]),
        ultimate=wide([plate.ultimate for _, _, plate in plates]),
        width=wide(widths),
        edge=long([plate.entry.edge for _, _, plate in plates]),
        hole=long([plate.entry.hole for _, _, plate in plates]),
        own=long([each.ultimate for each in own]),
        diameter=long([each.diameter for each in own]),
        mean=long([np.nan if each.bearing_mean is None else each.bearing_mean for each in own]),
        is_lap=long([effects[n].is_single and not effects[n].two_planes for n, _, _ in plates]) > 0.0,
        is_under=long([under(effects[n], k) for n, k, _ in plates]) > 0.0,
        lost=~np.concatenate([plate.heat.covered.T for _, _, plate in plates]),
    )
