"""`advise`: the cheapest single change for every part over its limit, and the fewest that cure all."""

from collections.abc import Sequence

from strength.case.model import Case
from strength.errors import CaseError
from strength.studies.cures import cured_together
from strength.studies.evaluate import evaluate
from strength.studies.evaluated import Evaluated
from strength.studies.levers import Change
from strength.studies.mass import structure_mass
from strength.studies.prepared import prepare
from strength.studies.screened import HERE, Run, passes
from strength.studies.tried import Tried, edits_of, folded, targets_of, tried_changes
from strength.studies.typed import Edit, TypedCase
from strength.values import frozen


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
    targets = targets_of(now, 0)
    tried = tried_changes(file, ready, now, targets, weight, run)
    over = tuple(_over(target, now, tried[target]) for target in targets)
    chosen = _left(cured_together(file, ready, tried, run)) if targets else ()
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


def _left(changes: Sequence[Change]) -> tuple[Change, ...]:
    """Changes without those of which nothing is left beside the others."""
    typed = edits_of(changes)
    return tuple(change for change in changes if any(edit in typed for edit in change.edits))


def _with(file: TypedCase, changes: Sequence[Change]) -> Case:
    return file.changed_case(edits_of(changes))


def _over(target: str, now: Evaluated, tried: list[Tried]) -> Over:
    """The cheapest change that cures a part, or the one that helps most."""
    rows = [n for n, (part, _) in enumerate(now.names) if folded(part) == target]
    worst = max(rows, key=lambda n: now.utilisation[0, n])
    use = float(now.utilisation[0, worst])
    curing = [each for each in tried if passes(each.own)]
    helping = sorted((each for each in tried if each.own < use * 0.995), key=lambda each: each.own)
    best = curing[0] if curing else helping[0] if helping else None
    return Over(part=target, check=now.identity(0, worst), utilisation=use, best=best, cured=bool(curing))
