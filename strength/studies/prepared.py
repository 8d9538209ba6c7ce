"""What all designs of one make-up share, worked out once: loads, layout, plans, factors."""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut
from strength.case.shape import Rigid
from strength.checks.factors import Factors, factors_for
from strength.frame.buckling import plan_buckling
from strength.frame.layout import lay_out
from strength.frame.plan import Plan, plan
from strength.frame.proof import BucklingPlan
from strength.frame.response import Layout
from strength.sections import Bars, measure
from strength.studies.shared import Shared
from strength.values import fields, frozen
from strength.vehicle import Balanced, balance, into_structure
from strength.vehicle.sheet import Pushes

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Prepared:
    """A case ready for many evaluations; `bars` are those of the case itself, one design."""

    case: Case
    loads: tuple[Balanced, ...]
    pushes: Pushes
    bars: Bars
    layout: Layout
    plan: Plan
    factors: Factors

    @cached_property
    def buckling(self) -> BucklingPlan:
        """The plan of the frame's buckling, made when first asked for."""
        return plan_buckling(self.case, self.layout, self.pushes, self.plan)

    @cached_property
    def shared(self) -> Shared["Prepared"]:
        """Itself, to be sent to other processes once."""
        return Shared(self)

    def __getstate__(self) -> dict[str, object]:
        return {name: value for name, value in vars(self).items() if name != "shared"}

    @property
    def load_names(self) -> tuple[str, ...]:
        """Names of all loads in order."""
        return tuple(load.name for load in self.loads)

    @property
    def buckling_divisor(self) -> Array:
        """What a critical multiplier is divided by, (loads,): buckling factor, or load factor."""
        factors = self.factors
        return factors.buckling() if factors.method == "allowable" else factors.load()


def prepare(case: Case) -> Prepared:
    """Balance the loads, measure the bars and plan the frame of a case.

    Raises StrengthError where the case cannot be computed.
    """
    loads = balance(case)
    layout = lay_out(case)
    return Prepared(
        case=case,
        loads=loads,
        pushes=into_structure(case, loads),
        bars=measure(case),
        layout=layout,
        plan=plan(case, layout),
        factors=factors_for(case.basis, tuple(load.severity for load in loads)),
    )


def sharing(before: Prepared, case: Case) -> Prepared:
    """Prepare a case, taking over from another what does not differ between the two."""
    old = before.case
    same_loads = all(
        getattr(case, name) == getattr(old, name)
        for name in ("points", "masses", "loads", "wheels", "tows", "supports", "leaning")
    )
    loads = before.loads if same_loads else balance(case)
    same_frame = case.points == old.points and case.supports == old.supports and _alike(case, old)
    layout = before.layout if same_frame else lay_out(case)
    found = Prepared(
        case=case,
        loads=loads,
        pushes=before.pushes if same_loads else into_structure(case, loads),
        bars=measure(case),
        layout=layout,
        plan=before.plan if same_frame else plan(case, layout),
        factors=factors_for(case.basis, tuple(load.severity for load in loads)),
    )
    if same_frame and same_loads and "buckling" in vars(before):
        vars(found)["buckling"] = before.buckling
    return found


def _alike(case: Case, old: Case) -> bool:
    """Whether the bars run and are held alike; their sizes and metals may differ."""
    if len(case.members) != len(old.members) or len(case.struts) != len(old.struts):
        return False
    mine: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    other: tuple[Member | Strut, ...] = (*old.members, *old.struts)
    return all(_runs_as(new, before) for new, before in zip(mine, other, strict=True) if new is not before)


def _runs_as(part: Member | Strut, other: Member | Strut) -> bool:
    """Whether two parts join the same points in the same way."""
    names = [f.name for f in fields(type(part)) if f.name not in ("shape", "material", "path")]
    same = all(getattr(part, name) == getattr(other, name) for name in names)
    return same and _bends(part) == _bends(other)


def _bends(part: Member | Strut) -> str:
    if part.shape is None:
        return "not said"
    return "not at all" if isinstance(part.shape, Rigid) else "by its section"
