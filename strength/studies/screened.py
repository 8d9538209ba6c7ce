"""Sizes of a part compared: each evaluated with the whole case."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut
from strength.case.places import other_side
from strength.case.shape import Shape
from strength.errors import CaseError, StrengthError
from strength.studies.derived import cases_of, same
from strength.studies.evaluate import evaluate
from strength.studies.evaluated import Evaluated
from strength.studies.mass import structure_masses
from strength.studies.task import Step
from strength.studies.typed import Edit, TypedCase
from strength.values import evolve, frozen

if TYPE_CHECKING:
    from concurrent.futures import Executor

ROUNDING = 1e-9  # a part sized to exactly its limit is not over it


@frozen(kw_only=True)
class Run:
    """Where designs are worked off (executor None: here) and who is told how many more are done."""

    executor: "Executor | None" = None
    step: Step = lambda _: None


HERE = Run()


@frozen(kw_only=True)
class Candidate:
    """One size: mass of all members [kg], worst utilisation of the whole case, what governs.

    own: the worst utilisation of the part itself, and of its image.
    in_range: False where some row of the case is out of its source's range. step_up: what the next
    size costs more [kg], None for the last. edits: what to type for it. sensible: False for a leg too
    great for its wall.
    """

    size: str
    mass: float
    utilisation: float
    own: float
    governs: str
    passes: bool
    in_range: bool
    edits: tuple[Edit, ...]
    step_up: float | None = None
    sensible: bool = True


@frozen(kw_only=True)
class Screened:
    """All sizes of a part that the case can be built with, lightest first.

    part: what is screened. now: its size as it stands, with what that gives. with_it: other parts whose
    size follows the same text. lightest: the first that passes, None where none does. refused: sizes the
    case cannot be built with, and why.
    """

    part: str
    kind: str  # member | strut | bolt | stud | weld
    now: str
    mass_now: float
    utilisation_now: float
    governs_now: str
    candidates: tuple[Candidate, ...]
    refused: tuple[tuple[str, str], ...] = ()
    with_it: tuple[str, ...] = ()
    greatest_sensible: str = ""

    @property
    def lightest(self) -> Candidate | None:
        """The first that passes."""
        return next((each for each in self.candidates if each.passes), None)


@frozen(kw_only=True)
class Option:
    """One size to try, as text, and what to type for it; `shape` where it is a section and nothing else."""

    size: str
    edits: tuple[Edit, ...]
    shape: Shape | None = None
    sensible: bool = True


def passes(utilisation: float) -> bool:
    """Whether nothing is over its limit; a figure that is not a number does not pass."""
    return utilisation <= 1.0 + ROUNDING


def screened(
    file: TypedCase,
    options: Sequence[Option],
    *,
    part: str,
    kind: str,
    now: str,
    greatest_sensible: str = "",
    by_mass: bool = True,
    run: Run = HERE,
) -> Screened:
    """Evaluate the case as it stands and with every option; sorted by mass where asked.

    Raises CaseError where no option can be built.
    """
    made: list[tuple[Option, Case]] = []
    refused: list[tuple[str, str]] = []
    cases = cases_of(file, [option.edits for option in options], [option.shape for option in options])
    for option, case in zip(options, cases, strict=True):
        if isinstance(case, StrengthError):
            refused.append((option.size, str(case)))
            run.step(1)
        else:
            made.append((option, case))
    found = _evaluated(file.case, [case for _, case in made], run)
    refused += [(made[n - 1][0].size, why) for n, why in sorted(found.failed.items())]
    worst, own = found.worst, _own(found, part)
    masses = structure_masses([case for _, case in made], struts=kind == "strut")
    listed = [
        Candidate(
            size=option.size,
            mass=masses[n - 1],
            utilisation=float(worst[n]),
            own=float(own[n]),
            governs=found.governs(n),
            passes=passes(float(worst[n])),
            in_range=bool(found.in_range[n]),
            edits=option.edits,
            sensible=option.sensible,
        )
        for n, (option, _) in enumerate(made, start=1)
        if n not in found.failed
    ]
    if not listed:
        why = refused[0][1] if refused else "no stock size is left"
        raise CaseError([("", f"{part}: no size can be tried: {why}")])
    if by_mass:
        listed.sort(key=lambda each: each.mass)
    ups = [*np.diff([each.mass for each in listed]).tolist(), None]
    return Screened(
        part=part,
        kind=kind,
        now=now,
        mass_now=structure_masses([file.case], struts=kind == "strut")[0],
        utilisation_now=float(worst[0]),
        governs_now=found.governs(0),
        candidates=tuple(evolve(each, step_up=up) for each, up in zip(listed, ups, strict=True)),
        refused=tuple(refused),
        with_it=_following(file.case, made, part),
        greatest_sensible=greatest_sensible,
    )


def _evaluated(now: Case, made: Sequence[Case], run: Run) -> Evaluated:
    """The case as it stands, then all others; one that does not differ from it is not evaluated again.

    Raises CaseError where the case as it stands cannot be computed.
    """
    others = [case for case in made if not same(case, now)]
    found = evaluate([now, *others], executor=run.executor, step=run.step)
    if 0 in found.failed:
        raise CaseError([("", found.failed[0])])
    run.step(len(made) - len(others))
    number = {id(case): n for n, case in enumerate(others, start=1)}
    return found.taken(np.array([0, *(number.get(id(case), 0) for case in made)], dtype=np.intp))


def _own(found: Evaluated, part: str) -> NDArray[np.float64]:
    """Worst utilisation of the rows of a part, or several, and their images (designs,)."""
    named = {side for name in part.split(", ") for side in (name, other_side(name))}
    rows = [n for n, (name, _) in enumerate(found.names) if name in named]
    worst: NDArray[np.float64] = found.utilisation[:, rows].max(axis=1, initial=0.0)
    return worst


def _following(case: Case, made: Sequence[tuple[Option, Case]], part: str) -> tuple[str, ...]:
    """Other bars whose section changes with the part's, images left out."""
    before: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    named = {side for name in part.split(", ") for side in (name, other_side(name))}
    for _, other in made:
        after: tuple[Member | Strut, ...] = (*other.members, *other.struts)
        pairs = zip(before, after, strict=False)
        changed = [old for old, new in pairs if old is not new and old.shape != new.shape]
        found = [old.name for old in changed if old.name not in named]
        if found:
            return tuple(
                name for name in found if not name.endswith(".right") or other_side(name) not in found
            )
    return ()
