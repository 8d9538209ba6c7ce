"""The one evaluation all studies call: many designs at once, exactly as each would come out by itself."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut
from strength.case.shape import Shape
from strength.errors import StrengthError
from strength.sections import Sizes, sizes_of
from strength.studies.evaluated import Evaluated, failure, together
from strength.studies.makeup import by_flats, grouped
from strength.studies.prepared import Prepared, prepare, sharing
from strength.studies.task import Ask, Step, Task, WeldSizes, parts_of, some_of, worked_off
from strength.vehicle.sheet import Pushes

if TYPE_CHECKING:
    from concurrent.futures import Executor

Index = NDArray[np.intp]

MOST = 256  # designs at a time: more cost memory, fewer cost time
LOADING = ("masses", "loads", "wheels", "tows", "leaning")  # of a case: what its forces hang on


def evaluate(
    cases: Sequence[Case],
    *,
    known: Prepared | None = None,
    ask: Ask = Ask(),  # noqa: B008
    executor: "Executor | None" = None,
    step: Step = lambda _: None,
    most: int = MOST,
) -> Evaluated:
    """Utilisations of designs, each a case of its own.

    A design that cannot be computed is told in `failed`. known: a case already prepared, such as the one
    the designs were made from. executor: where the work is done; none: here. step: told how many more
    designs are done. most: at most so many are worked off at once; where makes no difference to the last
    bit, how many may.
    """
    parts: list[tuple[Index, Evaluated]] = []
    tasks: list[tuple[Index, Task]] = []
    left = [(own, [cases[n] for n in own]) for own in grouped(cases)]
    while left:
        own, chosen = left.pop(0)
        try:
            ready = prepare(chosen[0]) if known is None else sharing(known, chosen[0])
        except StrengthError as error:
            parts.append((own[:1], failure(str(error))))
            step(1)
            if own.size > 1:  # one design's fault is not the others'
                left.insert(0, (own[1:], chosen[1:]))
            continue
        known = known or ready
        loaded, failed = _loaded(ready, chosen)
        parts += [(own[[n]], failure(why, ready.load_names)) for n, why in failed.items()]
        step(len(failed))
        kept = np.array([n for n in range(own.size) if n not in failed], dtype=np.intp)
        made = [chosen[n] for n in kept]
        sizes = sizes_of([shapes_of(case) for case in made])
        tasks += [
            (own[kept[numbers]], task)
            for numbers, task in _tasks(ready, sizes, weld_sizes(made), loaded, ask, most)
        ]
    return together([*parts, *worked_off(tasks, executor, step)], len(cases))


def evaluate_sizes(
    ready: Prepared,
    sizes: Sizes,
    *,
    welds: WeldSizes | None = None,
    pushes: Sequence[Pushes] = (),
    ask: Ask = Ask(),  # noqa: B008
    executor: "Executor | None" = None,
    step: Step = lambda _: None,
    most: int = MOST,
) -> Evaluated:
    """Utilisations of designs of one make-up that differ in sizes (designs, bars) [mm], or in loads.

    welds: legs and insets of the welds. pushes: one a design. Left out: those of the prepared case. The
    others as of `evaluate`.
    """
    tasks = _tasks(ready, sizes, welds, list(pushes), ask, most)
    return together(worked_off(tasks, executor, step), sizes.wall.shape[0])


def shapes_of(case: Case) -> tuple[Shape | None, ...]:
    """Shapes of all bars: members, then struts."""
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    return tuple(part.shape for part in parts)


def _loaded(ready: Prepared, cases: list[Case]) -> tuple[list[Pushes], dict[int, str]]:
    """Loads of every design, none where all are those of the first; and why some have none."""
    found, failed = [], {}
    known = ready
    for n, case in enumerate(cases):
        try:
            if any(getattr(case, name) != getattr(known.case, name) for name in LOADING):
                known = sharing(known, case)
        except StrengthError as error:
            failed[n] = str(error)
        else:
            found.append(known.pushes)
    return [] if all(each is ready.pushes for each in found) else found, failed


def weld_sizes(cases: Sequence[Case]) -> WeldSizes | None:
    """Legs and insets of all welds, None where designs do not differ in them."""
    legs = np.array([[weld.leg for weld in case.welds] for case in cases])
    insets = np.array([[weld.inset for weld in case.welds] for case in cases])
    if not legs.size or (np.all(legs == legs[:1]) and np.all(insets == insets[:1])):
        return None
    return WeldSizes(legs=legs, insets=insets)


def _tasks(
    ready: Prepared, sizes: Sizes, welds: WeldSizes | None, pushes: list[Pushes], ask: Ask, most: int
) -> list[tuple[Index, Task]]:
    """Designs of one make-up in parts, with their numbers."""
    whole = Task(ready=ready, sizes=sizes, welds=welds, pushes=tuple(pushes), ask=ask)
    every = np.arange(sizes.wall.shape[0])
    sets = by_flats(ready.bars.shapes, sizes) if ask.exact_flats else [every]
    return [(own[some], task) for own in sets for some, task in parts_of(some_of(whole, own), most)]
