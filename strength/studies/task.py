"""A piece of work: some designs of one make-up, done here or by any executor."""

import gc
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from strength.errors import StrengthError
from strength.joints.draw import Lines, UndrawnError
from strength.sections import Bars, Sizes, rebuilt
from strength.studies.batch import Batch, context_of, judged
from strength.studies.branches import branches, parted
from strength.studies.evaluated import Evaluated, failure
from strength.studies.prepared import Prepared
from strength.studies.shared import Shared
from strength.values import evolve, frozen
from strength.vehicle.sheet import Pushes

if TYPE_CHECKING:
    from concurrent.futures import Executor

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]
MANY = 4  # tasks from which their leftovers are cleared away at once
Found = list[tuple[Index, Evaluated]]
Step = Callable[[int], None]


@frozen(kw_only=True)
class Ask:
    """What an evaluation is asked for.

    buckling: False leaves the buckling of the whole frame out. every: keep the utilisation of every
    load. exact_flats: False lets flats of several proportions share one torsion field, good to 1e-5.
    """

    buckling: bool = True
    every: bool = False
    exact_flats: bool = True


@frozen(kw_only=True, eq=False)
class WeldSizes:
    """Legs and insets of all welds, (designs, welds) [mm]."""

    legs: Array
    insets: Array

    def taken(self, own: Index) -> "WeldSizes":
        """Some of the designs."""
        return WeldSizes(legs=self.legs[own], insets=self.insets[own])


@frozen(kw_only=True, eq=False)
class Task:
    """Designs of one make-up that fit a processor's cache; can be sent to another machine."""

    ready: Prepared
    sizes: Sizes
    welds: WeldSizes | None
    pushes: tuple[Pushes, ...]
    ask: Ask
    refused: str = ""  # why its one design cannot be built
    bars: Bars | None = None  # of its sizes, where they are measured already
    lines: Lines | None = None  # of its welds, where they are drawn already

    def __reduce__(self) -> tuple[Any, ...]:
        """Sent without what all tasks share, which each process gets but once, and what is soon made anew."""
        own = {name: value for name, value in vars(self).items() if name not in ("ready", "bars")}
        return _sent, (self.ready.shared, own)


def _sent(shared: Shared[Prepared], own: dict[str, Any]) -> Task:
    return Task(ready=shared.value, **own)


class Ways(NamedTuple):
    """Which way each of some designs goes through the checks, (designs, places); their bars and lines."""

    flags: Flags
    lines: Lines | None
    bars: Bars

    def of_designs(self, own: Index) -> "Ways":
        """Those of some of the designs."""
        lines = None if self.lines is None else self.lines.of_designs(own)
        return Ways(self.flags[own], lines, self.bars.of_designs(own))


def taken(sizes: Sizes, own: Index) -> Sizes:
    """Some of the designs."""
    return Sizes(depth=sizes.depth[own], width=sizes.width[own], wall=sizes.wall[own])


def worked_off(tasks: Sequence[tuple[Index, Task]], executor: "Executor | None", step: Step) -> Found:
    """All tasks done; the same figures wherever they are."""
    found: Found = []
    if executor is None:
        many = sum(not task.refused for _, task in tasks) > MANY
        for own, task in tasks:
            found += [(own[numbers], each) for numbers, each in done(task)]
            if many and not task.refused:
                gc.collect(1)  # what the checks kept of it is large and knows itself
            step(own.size)
        return found
    waiting = [(own, executor.submit(done, task)) for own, task in tasks]
    try:
        for own, future in waiting:
            found += [(own[numbers], each) for numbers, each in future.result()]
            step(own.size)
    except BaseException:
        for _, future in waiting:
            future.cancel()
        raise
    return found


def parts_of(task: Task, most: int) -> list[tuple[Index, Task]]:
    """The task in parts of at most so many designs, all of a part going the same ways through the checks.

    Designs whose geometry cannot be built stand alone, with the reason. Parts hang on the designs alone, not
    on where they are worked off, so that the last bits are the same.
    """
    found = []
    built: list[tuple[Index, Ways]] = []
    for own, told in _told(task, np.arange(task.sizes.wall.shape[0])):
        if isinstance(told, str):
            found.append((own, evolve(some_of(task, own), refused=told)))
        else:
            built.append((own, told))
    if not built:
        return found
    every = np.concatenate([own for own, _ in built])
    ways = parted(np.concatenate([told.flags for _, told in built]))
    drawn = built[0][1] if len(built) == len(ways) == 1 else None  # else anew: they may stand on other faces
    for way in ways:
        for part in np.array_split(way, -(-way.size // most)):
            piece = some_of(task, every[part])
            if drawn is not None:
                ways_of = drawn if part.size == every.size else drawn.of_designs(part)
                piece = evolve(piece, bars=ways_of.bars, lines=ways_of.lines)
            found.append((every[part], piece))
    return found


def done(task: Task) -> Found:
    """A part worked off; halved until what cannot be computed stands alone, and is told."""
    designs = task.sizes.wall.shape[0]
    every = np.arange(designs)
    if task.refused:
        return [(every, failure(task.refused, task.ready.load_names))]
    try:
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            return [(every, _judged(task))]
    except StrengthError as error:
        if designs == 1:
            return [(every, failure(str(error), task.ready.load_names))]
        halves = (every[: designs // 2], every[designs // 2 :])
        return [(own[numbers], each) for own in halves for numbers, each in done(some_of(task, own))]


def _judged(task: Task) -> Evaluated:
    """All designs of a task; figures of some may be no numbers where those of others are picked."""
    bars = _bars(task) if task.bars is None else task.bars
    batch = Batch(prepared=task.ready, bars=bars, own=task.pushes, lines=task.lines)
    context = context_of(batch, buckling=task.ask.buckling, brief=not task.ask.every)
    return judged(context, batch, buckling=task.ask.buckling, every=task.ask.every)


def _told(
    task: Task, numbers: Index, bars: Bars | None = None, lines: Lines | None = None
) -> list[tuple[Index, Ways | str]]:
    """Which ways designs go, or why one cannot be built; bars, lines: where they are worked out already."""
    every = np.arange(numbers.size)
    try:
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            bars = _bars(task) if bars is None else bars
            flags, lines = branches(task.ready.case, task.ready.layout, bars, lines)
            return [(numbers, Ways(flags, lines, bars))]
    except UndrawnError as error:
        why = error.by_design(numbers.size)
        sound = np.array([n for n in every if not why[n]], dtype=np.intp)
        told: list[tuple[Index, Ways | str]] = [(numbers[[n]], why[n]) for n in every if why[n]]
        if sound.size and bars is not None:
            told += _told(some_of(task, sound), numbers[sound], bars.of_designs(sound), error.lines)
        return told
    except StrengthError as error:
        if numbers.size == 1:
            return [(numbers, str(error))]
        halves = (every[: numbers.size // 2], every[numbers.size // 2 :])
        return [part for own in halves for part in _told(some_of(task, own), numbers[own])]


def _bars(task: Task) -> Bars:
    bars = rebuilt(task.ready.bars, task.ready.case.basis, task.sizes)
    if task.welds is None:
        return bars
    return evolve(bars, weld_legs=task.welds.legs, weld_insets=task.welds.insets)


def some_of(task: Task, own: Index) -> Task:
    """Some designs of a task."""
    return Task(
        ready=task.ready,
        sizes=taken(task.sizes, own),
        welds=None if task.welds is None else task.welds.taken(own),
        pushes=tuple(task.pushes[n] for n in own) if task.pushes else (),
        ask=task.ask,
    )
