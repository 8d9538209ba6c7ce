"""All studs side by side, so that a check takes all of them in one step."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.checks.context import Context
from strength.checks.studs import StudEffect, stud_effects
from strength.checks.verdict import Late, Verdict
from strength.values import frozen

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class StudColumns:
    """Studs of a case; figures of each (studs, 1, 1) [mm, MPa].

    along, across, bending: (studs, loads, designs) [N, N*mm], without load factor. yield_: of what they
    screw into, (studs, 1, designs). covered: (studs, designs) heat there has its rule.
    """

    effects: tuple[StudEffect, ...]
    along: Array
    across: Array
    bending: Array
    yield_: Array
    covered: Flags
    reach: Array
    engaged: Array
    diameter: Array
    root: Array
    stress_area: Array


_known: "WeakKeyDictionary[Context, StudColumns | None]" = WeakKeyDictionary()


def stud_columns(context: Context) -> StudColumns | None:
    """The studs of the case, laid out once for all checks; None: there are none."""
    if context not in _known:
        effects = stud_effects(context)
        _known[context] = _laid_out(effects) if effects else None
    return _known[context]


def _laid_out(effects: tuple[StudEffect, ...]) -> StudColumns:
    return StudColumns(
        effects=effects,
        along=np.stack([effect.along.T for effect in effects]),
        across=np.stack([effect.across.T for effect in effects]),
        bending=np.stack([effect.bending.T for effect in effects]),
        yield_=np.stack([effect.into.yield_.T for effect in effects]),
        covered=np.stack([effect.into.heat.covered[:, 0] for effect in effects]),
        reach=column([effect.stud.reach for effect in effects]),
        engaged=column([effect.stud.engaged for effect in effects]),
        diameter=column([effect.thread.diameter for effect in effects]),
        root=column([effect.thread.root for effect in effects]),
        stress_area=column([effect.thread.stress_area for effect in effects]),
    )


def column(values: Sequence[float]) -> Array:
    """A figure of each stud (studs, 1, 1)."""
    return np.array(values, dtype=np.float64)[:, None, None]


def on_yield(context: Context, kinds: Sequence[str]) -> Array:
    """Load factor times divisor of the yield strength of metals that count as brittle (kinds, loads, 1)."""
    of_kind = {kind: context.factors.on_yield(kind, brittle=True) for kind in set(kinds)}
    return (np.stack([of_kind[kind] for kind in kinds]) * context.factors.load())[:, :, None]


def late(
    context: Context,
    kind: str,
    columns: StudColumns,
    use: Array,
    whole: Callable[[Context, StudEffect], Verdict],
    covered: Flags | None = None,
) -> Iterator[Verdict]:
    """Verdicts of studs with utilisations (studs, loads, designs), without the 1.25 of an only path.

    covered: (studs, designs) False where a row is out of its source's range; None: nowhere.
    """
    use *= column([effect.path_factor for effect in columns.effects])
    for n, effect in enumerate(columns.effects):
        known = None if covered is None or covered[n].all() else spread(covered[n, :, None], use[n].T.shape)
        yield Late(effect.stud.name, kind, use[n].T, partial(whole, context, effect), in_range=known)
