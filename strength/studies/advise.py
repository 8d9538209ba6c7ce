"""`advise`: the cheapest single change for every part over its limit, and the fewest that cure all."""

import itertools
from collections.abc import Iterator, Sequence

import numpy as np

from strength.case.model import Case
from strength.case.places import other_side
from strength.errors import CaseError
from strength.studies.evaluate import evaluate
from strength.studies.evaluated import Evaluated
from strength.studies.levers import METAL, Change, buildable, levers
from strength.studies.mass import structure_mass
from strength.studies.prepared import Prepared, prepare
from strength.studies.screened import HERE, ROUNDING, Run, passes
from strength.studies.typed import Edit, TypedCase
from strength.values import frozen

KEPT = 6  # cheapest changes of each part that sets are made of
SETS = 160  # sets that are evaluated at most, and of how many
AT_ONCE = 16
ROUNDS = 12  # changes put on one after another where no small set cures all


@frozen(kw_only=True)
class Tried:
    """A change evaluated: mass it adds [kg], utilisation of the part it is for, and of the whole case."""

    change: Change
    mass: float
    own: float
    whole: float
    governs: str


@frozen(kw_only=True)
class Over:
    """A part over its limit, its image told with it; `best` None: nothing tried helps.

    check: its worst. cured: the best change brings it under.
    """

    part: str
    check: str
    utilisation: float
    best: Tried | None
    cured: bool


@frozen(kw_only=True)
class Advice:
    """What to change.

    over: parts over the limit, worst first. together: the fewest changes that bring everything under 1,
    or what comes nearest; utilisation and governs: with all of them. mass: what they add [kg].
    """

    over: tuple[Over, ...]
    together: tuple[Change, ...]
    utilisation: float
    governs: str
    mass: float
    mass_now: float
    utilisation_now: float
    in_range_now: bool

    @property
    def cured(self) -> bool:
        """Whether the changes together bring everything under its limit."""
        return passes(self.utilisation)

    @property
    def edits(self) -> tuple[Edit, ...]:
        """What to type for all changes together."""
        return edits_of(self.together)


def advise(file: TypedCase, *, run: Run = HERE) -> Advice:
    """Look for the cheapest changes; raises StrengthError where the case itself cannot be computed."""
    ready = prepare(file.case)
    now = evaluate([file.case], known=ready)
    if now.failed:
        raise CaseError([("", now.failed[0])])
    weight = structure_mass(file.case, struts=True)
    targets = _targets(now, 0)
    tried = _tried(file, ready, targets, weight, run)
    over = tuple(_over(target, now, tried[target]) for target in targets)
    chosen = _together(file, ready, tried, run) if targets else ()
    after = evaluate([_with(file, chosen)], known=ready, step=run.step) if chosen else now
    return Advice(
        over=over,
        together=chosen,
        utilisation=float(after.worst[0]),
        governs=after.governs(0),
        mass=structure_mass(_with(file, chosen), struts=True) - weight if chosen else 0.0,
        mass_now=weight,
        utilisation_now=float(now.worst[0]),
        in_range_now=bool(now.in_range[0]),
    )


def edits_of(changes: Sequence[Change]) -> tuple[Edit, ...]:
    """All that is typed for some changes, each once."""
    return tuple({edit.words + str(edit.value): edit for each in changes for edit in each.edits}.values())


def _with(file: TypedCase, changes: Sequence[Change]) -> Case:
    return file.changed_case(edits_of(changes))


def _folded(part: str) -> str:
    """Both sides of a part by one name."""
    return other_side(part) if part.endswith(".right") else part


def _targets(found: Evaluated, design: int) -> tuple[str, ...]:
    """Parts over their limit, worst first, both sides as one."""
    worst: dict[str, float] = {}
    for n, (part, _) in enumerate(found.names):
        use = float(found.utilisation[design, n])
        if use > 1.0 + ROUNDING:
            name = _folded(part)
            worst[name] = max(worst.get(name, 0.0), use)
    return tuple(sorted(worst, key=lambda name: -worst[name]))


def _own(found: Evaluated, design: int, target: str) -> float:
    """Worst utilisation of a part and its image."""
    if design in found.failed:
        return float("inf")
    rows = [n for n, (part, _) in enumerate(found.names) if _folded(part) == target]
    return float(found.utilisation[design, rows].max(initial=0.0))


def _kinds(found: Evaluated, target: str) -> Iterator[tuple[str, str]]:
    """The part's checks that are over, worst first, each kind once."""
    rows = [
        n
        for n, (part, _) in enumerate(found.names)
        if _folded(part) == target and found.utilisation[0, n] > 1.0 + ROUNDING
    ]
    seen = set()
    for n in sorted(rows, key=lambda n: -found.utilisation[0, n]):
        part, kind = found.names[n]
        if kind not in seen:
            seen.add(kind)
            yield part, kind


def _tried(
    file: TypedCase, ready: Prepared, targets: Sequence[str], weight: float, run: Run
) -> dict[str, list[Tried]]:
    """All changes that may help each part, evaluated in one call; the cheapest first."""
    now = evaluate([file.case], known=ready)
    wanted: dict[tuple[str, str], Change] = {}
    of: dict[str, list[tuple[str, str]]] = {}
    for target in targets:
        for part, kind in _kinds(now, target):
            for change in levers(file, part, kind):
                key = (change.spot, change.how)
                wanted.setdefault(key, change)
                if key not in of.setdefault(target, []):
                    of[target].append(key)
    cases = {key: case for key, change in wanted.items() if (case := buildable(file, change)) is not None}
    keys = list(cases)
    found = evaluate([cases[key] for key in keys], known=ready, executor=run.executor, step=run.step)
    number = {key: n for n, key in enumerate(keys) if n not in found.failed}
    weights = {key: structure_mass(cases[key], struts=True) - weight for key in number}
    tried = {}
    for target in targets:
        own = [
            Tried(
                change=wanted[key],
                mass=weights[key],
                own=_own(found, number[key], target),
                whole=float(found.worst[number[key]]),
                governs=found.governs(number[key]),
            )
            for key in of.get(target, ())
            if key in number
        ]
        tried[target] = sorted(own, key=_cost)
    return tried


def _cost(each: Tried) -> tuple[bool, float, int]:
    """Cheapest first: mass, then what is more readily done; another metal last."""
    return each.change.rank >= METAL, round(each.mass, 6), each.change.rank


def _over(target: str, now: Evaluated, tried: list[Tried]) -> Over:
    """The cheapest change that cures a part, or the one that helps most."""
    rows = [n for n, (part, _) in enumerate(now.names) if _folded(part) == target]
    worst = max(rows, key=lambda n: now.utilisation[0, n])
    use = float(now.utilisation[0, worst])
    curing = [each for each in tried if passes(each.own)]
    helping = sorted((each for each in tried if each.own < use * 0.995), key=lambda each: each.own)
    best = curing[0] if curing else helping[0] if helping else None
    return Over(part=target, check=now.identity(0, worst), utilisation=use, best=best, cured=bool(curing))


def _together(
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
    return _one_by_one(file, ready, best[1], run)


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
        return -shared[each.change.spot + each.change.how], _cost(each)

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
        targets = _targets(now, 0)
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
        for part, kind in _kinds(now, target)
        for change in levers(file, part, kind)
        if (change.spot, change.how) not in taken
    ]
    found, made = _evaluated(file, ready, options, run)
    if not made:
        return ()
    own = np.array([_own(found, n, target) for n in range(len(made))])
    others = np.array([sum(use > 1.0 + ROUNDING for use in found.utilisation[n]) for n in range(len(made))])
    score = np.where(np.isfinite(own), np.maximum(own, 0.999) + 1e-3 * others, np.inf)
    least = int(np.argmin(score))
    return made[least] if own[least] < _own(now, 0, target) * 0.995 else ()


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
