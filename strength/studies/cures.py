"""Sets of changes that bring everything under its limit: the fewest, then the lightest."""

import itertools
from collections.abc import Iterator, Sequence

import numpy as np

from strength.case.model import Case
from strength.studies.evaluate import evaluate
from strength.studies.evaluated import Evaluated
from strength.studies.levers import METAL, Change, buildable, levers
from strength.studies.prepared import Prepared
from strength.studies.screened import ROUNDING, Run, passes
from strength.studies.tried import Tried, cost, edits_of, kinds_of, own_use, targets_of
from strength.studies.typed import TypedCase

KEPT = 6  # cheapest changes of each part that sets are made of
SETS = 160  # sets that are evaluated at most, and of how many
AT_ONCE = 16
ROUNDS = 12  # changes put on one after another where no small set cures all


def cured_together(
    file: TypedCase, ready: Prepared, tried: dict[str, list[Tried]], run: Run
) -> tuple[Change, ...]:
    """The fewest changes, then the lightest, that bring everything under; verified by evaluating them."""
    best: tuple[float, tuple[Change, ...]] = (float("inf"), ())
    sets = itertools.islice(_sets(tried), SETS)
    while some := tuple(itertools.islice(sets, AT_ONCE)):
        found, made = _evaluated(file, ready, some, run)
        for n, changes in enumerate(made):
            worst = float(found.worst[n])
            if passes(worst):
                return changes
            if worst < best[0]:
                best = (worst, changes)
    return _lighter(file, ready, _one_by_one(file, ready, best[1], run), tried, run)


def _lighter(
    file: TypedCase,
    ready: Prepared,
    chosen: tuple[Change, ...],
    tried: dict[str, list[Tried]],
    run: Run,
) -> tuple[Change, ...]:
    """The set with the cheapest of what cures no part alone, where it does beside the others."""
    for own in tried.values():
        if any(passes(each.own) for each in own):
            continue
        for now in [each for each in own if each.change in chosen]:
            same = [each for each in own if each.change.spot == now.change.spot and cost(each) < cost(now)]
            sets = [tuple(one.change if each == now.change else each for each in chosen) for one in same]
            found, made = _evaluated(file, ready, sets, run)
            cured = [changes for n, changes in enumerate(made) if passes(float(found.worst[n]))]
            chosen = cured[0] if cured else chosen
    return chosen


def _evaluated(
    file: TypedCase, ready: Prepared, sets: Sequence[tuple[Change, ...]], run: Run
) -> tuple[Evaluated, list[tuple[Change, ...]]]:
    made = [(changes, case) for changes in sets if (case := _buildable(file, changes)) is not None]
    cases = [case for _, case in made]
    return (
        evaluate(cases, known=ready, executor=run.executor, step=run.step),
        [changes for changes, _ in made],
    )


def _buildable(file: TypedCase, changes: Sequence[Change]) -> Case | None:
    whole = Change(what="", how="", edits=edits_of(changes), rank=0)
    return buildable(file, whole)


def _sets(tried: dict[str, list[Tried]]) -> Iterator[tuple[Change, ...]]:
    """Sets of changes that cure every part taken by itself, the fewest changes and then the lightest first.

    For a part that no change cures alone the one that helps most is taken.
    """
    cures: list[list[Tried]] = []
    for own in tried.values():
        curing = [each for each in own if passes(each.own)]
        if not curing and own:
            curing = [min(own, key=lambda each: each.own)]
        if curing:
            cures.append(curing)
    shared: dict[str, int] = {}
    for curing in cures:
        for each in curing:
            key = each.change.spot + each.change.how
            shared[key] = shared.get(key, 0) + 1

    def worth(each: Tried) -> tuple[int, tuple[bool, float, int]]:
        """Changes that cure several parts at once first."""
        return -shared[each.change.spot + each.change.how], cost(each)

    kept = [sorted(curing, key=worth)[:KEPT] for curing in cures]
    found: dict[frozenset[str], tuple[tuple[int, int, float, int], tuple[Change, ...]]] = {}
    for picked in itertools.islice(itertools.product(*kept), 20_000):
        by_spot: dict[str, Tried] = {}
        for each in picked:
            other = by_spot.get(each.change.spot)
            if other is None or each.mass > other.mass or each.own < other.own:
                by_spot[each.change.spot] = each
        changes = tuple(each.change for each in by_spot.values())
        named = frozenset(change.spot + change.how for change in changes)
        mass = sum(each.mass for each in by_spot.values())
        metals = sum(change.rank >= METAL for change in changes)
        ranks = sum(change.rank for change in changes)
        found.setdefault(named, ((len(changes), metals, round(mass, 6), ranks), changes))
    for entry in sorted(found.values(), key=lambda entry: entry[0]):
        yield entry[1]


def _one_by_one(file: TypedCase, ready: Prepared, chosen: tuple[Change, ...], run: Run) -> tuple[Change, ...]:
    """More changes on top, one a round, then what is not needed taken away again."""
    for _ in range(ROUNDS):
        case = _buildable(file, chosen)
        if case is None:
            return chosen
        now = evaluate([case], known=ready, step=run.step)
        targets = targets_of(now, 0)
        if not targets:
            return _pruned(file, ready, chosen, run)
        better = next(
            (found for target in targets if (found := _better(file, ready, chosen, now, target, run))), None
        )
        if better is None:
            break
        chosen = better
    return chosen


def _better(
    file: TypedCase, ready: Prepared, chosen: tuple[Change, ...], now: Evaluated, target: str, run: Run
) -> tuple[Change, ...]:
    """The set with one change more, or another in its place, that helps a part most; empty: none does."""
    taken = {(change.spot, change.how) for change in chosen}
    options = [
        (*(each for each in chosen if each.spot != change.spot), change)
        for part, kind in kinds_of(now, target)
        for change in levers(file, part, kind)
        if (change.spot, change.how) not in taken
    ]
    found, made = _evaluated(file, ready, options, run)
    if not made:
        return ()
    own = np.array([own_use(found, n, target) for n in range(len(made))])
    others = np.array([sum(use > 1.0 + ROUNDING for use in found.utilisation[n]) for n in range(len(made))])
    score = np.where(np.isfinite(own), np.maximum(own, 0.999) + 1e-3 * others, np.inf)
    least = int(np.argmin(score))
    return made[least] if own[least] < own_use(now, 0, target) * 0.995 else ()


def _pruned(file: TypedCase, ready: Prepared, chosen: tuple[Change, ...], run: Run) -> tuple[Change, ...]:
    """The set without what it does not need."""
    while len(chosen) > 1:
        fewer = [chosen[:n] + chosen[n + 1 :] for n in range(len(chosen))]
        found, made = _evaluated(file, ready, fewer, run)
        still = [changes for n, changes in enumerate(made) if passes(float(found.worst[n]))]
        if not still:
            break
        chosen = still[0]
    return chosen
