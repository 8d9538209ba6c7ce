"""Changes tried on parts over their limits, each on the whole case."""

import re
from collections.abc import Iterator, Sequence

from strength.case.places import other_side
from strength.studies.evaluate import evaluate
from strength.studies.evaluated import Evaluated
from strength.studies.levers import METAL, Change, buildable, levers
from strength.studies.mass import structure_mass
from strength.studies.prepared import Prepared
from strength.studies.screened import ROUNDING, Run
from strength.studies.typed import BLOCK, Edit, TypedCase
from strength.values import frozen


@frozen(kw_only=True)
class Tried:
    """A change evaluated: mass it adds [kg], utilisation of the part it is for, and of the whole case."""

    change: Change
    mass: float
    own: float
    whole: float
    governs: str


def edits_of(changes: Sequence[Change]) -> tuple[Edit, ...]:
    """All that is typed for some changes, each place once: of two sizes for one bar the larger."""
    found: dict[str, Edit] = {}
    for edit in (edit for each in changes for edit in each.edits):
        key = edit.words + (str(edit.value) if edit.way == BLOCK else "")
        if key not in found or _size(edit) >= _size(found[key]):
            found[key] = edit
    return tuple(found.values())


def _size(edit: Edit) -> tuple[float, ...]:
    """The numbers of what is typed, such as a bar's diameter."""
    return tuple(map(float, re.findall(r"\d+(?:\.\d+)?", str(edit.value))))


def folded(part: str) -> str:
    """Both sides of a part by one name."""
    return other_side(part) if part.endswith(".right") else part


def targets_of(found: Evaluated, design: int) -> tuple[str, ...]:
    """Parts over their limit, worst first, both sides as one."""
    worst: dict[str, float] = {}
    for n, (part, _) in enumerate(found.names):
        use = float(found.utilisation[design, n])
        if use > 1.0 + ROUNDING:
            name = folded(part)
            worst[name] = max(worst.get(name, 0.0), use)
    return tuple(sorted(worst, key=lambda name: -worst[name]))


def own_use(found: Evaluated, design: int, target: str) -> float:
    """Worst utilisation of a part and its image."""
    if design in found.failed:
        return float("inf")
    rows = [n for n, (part, _) in enumerate(found.names) if folded(part) == target]
    return float(found.utilisation[design, rows].max(initial=0.0))


def kinds_of(found: Evaluated, target: str) -> Iterator[tuple[str, str]]:
    """The part's checks that are over, worst first, each kind once."""
    rows = [
        n
        for n, (part, _) in enumerate(found.names)
        if folded(part) == target and found.utilisation[0, n] > 1.0 + ROUNDING
    ]
    seen = set()
    for n in sorted(rows, key=lambda n: -found.utilisation[0, n]):
        part, kind = found.names[n]
        if kind not in seen:
            seen.add(kind)
            yield part, kind


def tried_changes(
    file: TypedCase, ready: Prepared, now: Evaluated, targets: Sequence[str], weight: float, run: Run
) -> dict[str, list[Tried]]:
    """All changes that may help each part, evaluated in one call; the cheapest first.

    now: the case as it is.
    """
    wanted: dict[tuple[str, str], Change] = {}
    of: dict[str, list[tuple[str, str]]] = {}
    for target in targets:
        for part, kind in kinds_of(now, target):
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
                own=own_use(found, number[key], target),
                whole=float(found.worst[number[key]]),
                governs=found.governs(number[key]),
            )
            for key in of.get(target, ())
            if key in number
        ]
        tried[target] = sorted(own, key=cost)
    return tried


def cost(each: Tried) -> tuple[bool, float, int]:
    """Cheapest first: mass, then what is more readily done; another metal last."""
    return each.change.rank >= METAL, round(each.mass, 6), each.change.rank
