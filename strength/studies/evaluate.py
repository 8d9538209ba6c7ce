"""The one evaluation all studies call: many designs at once, exactly as each would come out by itself."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut
from strength.case.shape import Shape
from strength.errors import StrengthError
from strength.sections import Sizes, rebuilt, sizes_of
from strength.studies.batch import Batch, context_of, judged
from strength.studies.branches import branches, parted
from strength.studies.evaluated import Evaluated, failure, together
from strength.studies.makeup import by_proportion, grouped
from strength.studies.prepared import Prepared, prepare, sharing
from strength.vehicle.sheet import Pushes

Index = NDArray[np.intp]
Step = Callable[[int], None]

CHUNK = 32  # designs at a time: what the processor's cache holds


def evaluate(
    cases: Sequence[Case],
    *,
    known: Prepared | None = None,
    buckling: bool = True,
    step: Step = lambda _: None,
) -> Evaluated:
    """Utilisations of designs, each a case of its own.

    A design that cannot be computed is told in `failed`. known: a case already prepared, such as the one
    the designs were made from. step: told how many more designs are done.
    """
    parts: list[tuple[Index, Evaluated]] = []
    for own in grouped(cases):
        chosen = [cases[n] for n in own]
        try:
            ready = prepare(chosen[0]) if known is None else sharing(known, chosen[0])
        except StrengthError as error:
            if own.size > 1:  # one design's fault is not the others'
                parts += [
                    (own[n : n + 1], evaluate([case], known=known, buckling=buckling, step=step))
                    for n, case in enumerate(chosen)
                ]
            else:
                parts.append((own, failure(str(error))))
                step(1)
            continue
        known = known or ready
        found = _group(ready, chosen, buckling=buckling, step=step)
        parts += [(own[numbers], each) for numbers, each in found]
    return together(parts, len(cases))


def evaluate_sizes(
    ready: Prepared,
    sizes: Sizes,
    *,
    buckling: bool = True,
    exact_flats: bool = True,
    step: Step = lambda _: None,
) -> Evaluated:
    """Utilisations of designs of one make-up that differ in sizes alone, (designs, bars) [mm].

    exact_flats: False lets flats of several proportions share one torsion field, good to 1e-5.
    """
    every = np.arange(sizes.wall.shape[0])
    sets = by_proportion(ready.bars.shapes, sizes) if exact_flats else [every]
    parts = [
        part
        for own in sets
        for part in _chunks(ready, _taken(sizes, own), own, [], buckling=buckling, step=step)
    ]
    return together(parts, every.size)


def shapes_of(case: Case) -> tuple[Shape | None, ...]:
    """Shapes of all bars: members, then struts."""
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    return tuple(part.shape for part in parts)


def _group(
    ready: Prepared, cases: list[Case], *, buckling: bool, step: Step
) -> list[tuple[Index, Evaluated]]:
    """Designs of one make-up, in chunks."""
    sizes = sizes_of([shapes_of(case) for case in cases])
    pushes: list[Pushes] = []
    known = ready
    failed: list[tuple[Index, Evaluated]] = []
    kept = []
    for n, case in enumerate(cases):
        try:
            known = sharing(known, case) if _loaded_apart(case, known.case) else known
        except StrengthError as error:
            failed.append((np.array([n]), failure(str(error), ready.load_names)))
            step(1)
            continue
        pushes.append(known.pushes)
        kept.append(n)
    if all(each is ready.pushes for each in pushes):
        pushes = []
    every = np.array(kept, dtype=np.intp)
    return failed + _chunks(ready, _taken(sizes, every), every, pushes, buckling=buckling, step=step)


def _loaded_apart(case: Case, other: Case) -> bool:
    return any(
        getattr(case, name) != getattr(other, name)
        for name in ("masses", "loads", "wheels", "tows", "leaning")
    )


def _chunks(
    ready: Prepared, sizes: Sizes, every: Index, pushes: list[Pushes], *, buckling: bool, step: Step
) -> list[tuple[Index, Evaluated]]:
    found = []
    for at in range(0, every.size, CHUNK):
        own = np.arange(at, min(at + CHUNK, every.size))
        part = _sound(
            ready, _taken(sizes, own), [pushes[n] for n in own] if pushes else [], buckling=buckling
        )
        found += [(every[own[numbers]], each) for numbers, each in part]
        step(own.size)
    return found


def _taken(sizes: Sizes, own: Index) -> Sizes:
    return Sizes(depth=sizes.depth[own], width=sizes.width[own], wall=sizes.wall[own])


def _sound(
    ready: Prepared, sizes: Sizes, pushes: list[Pushes], *, buckling: bool
) -> list[tuple[Index, Evaluated]]:
    """One chunk; parted until all in it go the same ways and what cannot be computed stands alone."""
    designs = sizes.wall.shape[0]
    every = np.arange(designs)
    try:
        bars = rebuilt(ready.bars, ready.case.basis, sizes)
        batch = Batch(prepared=ready, bars=bars, own=tuple(pushes))
        context, response = context_of(batch, buckling=buckling)
        ways = parted(branches(context))
        if len(ways) == 1:
            return [(every, judged(context, batch, response, buckling=buckling))]
    except StrengthError as error:
        if designs == 1:
            return [(every, failure(str(error), ready.load_names))]
        ways = [every[: designs // 2], every[designs // 2 :]]
    found = []
    for own in ways:
        part = _sound(
            ready, _taken(sizes, own), [pushes[n] for n in own] if pushes else [], buckling=buckling
        )
        found += [(own[numbers], each) for numbers, each in part]
    return found
