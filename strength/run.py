"""The whole flow on one page: case -> loads -> frame -> sections and joints -> checks -> outcome."""

import numpy as np

from strength.case.model import Case, NotChecked, Warned
from strength.case.read_as import ReadAs, read_as
from strength.checks.context import Context
from strength.checks.factors import Factors, factors_for
from strength.checks.frame_buckling import amplification
from strength.checks.guards import guarded
from strength.checks.register import every_verdict, not_checked, worst_first
from strength.checks.stations import place_stations
from strength.checks.stresses import StressRow, stress_rows
from strength.checks.verdict import Array, Row
from strength.errors import CaseError
from strength.frame.buckling import critical_multiplier, plan_buckling
from strength.frame.layout import lay_out
from strength.frame.loss import Loss, losses
from strength.frame.plan import plan
from strength.frame.response import Layout, Response
from strength.frame.solve import solve
from strength.frame.wheels import wheel_movement
from strength.joints.draw import weld_lines
from strength.joints.heat import heat_lengths
from strength.sections import Bars, measure
from strength.values import evolve, frozen
from strength.vehicle import Balanced, balance, into_structure, missing_kinds

LITTLE = 0.01  # of the greatest strut force: a strut below it in every load earns its place nowhere


@frozen(kw_only=True)
class Moved:
    """Movement of one wheel in one load [mm, rad], body axes."""

    name: str
    load: str
    moved: tuple[float, float, float]
    toe: float
    camber: float


@frozen(kw_only=True, eq=False)
class Outcome:
    """Everything a report tells about a case; `rows` are worst first."""

    case: Case
    loads: tuple[Balanced, ...]
    layout: Layout
    bars: Bars
    response: Response
    rows: tuple[Row, ...]
    stresses: tuple[StressRow, ...]
    not_checked: tuple[NotChecked, ...]
    warnings: tuple[Warned, ...]
    read_as: tuple[ReadAs, ...]
    movement: tuple[Moved, ...]
    missing_loads: tuple[str, ...]
    losses: tuple[Loss, ...] | None = ()  # parts that are the only path of a wheel; None: not looked at
    context: Context | None = None  # what the checks looked at; None where only figures are shown


def run(case: Case) -> Outcome:
    """Check a case against all its loads; raises StrengthError where it cannot be computed.

    A case without a load or without a part is refused: nothing checked must never read as all well.
    """
    _refuse_empty(case)
    loads = balance(case)
    pushes = into_structure(case, loads)
    loads = tuple(
        evolve(load, notes=load.notes + notes) for load, notes in zip(loads, pushes.notes, strict=True)
    )
    bars = measure(case)
    layout = lay_out(case)
    ready = plan(case, layout)
    response = solve(case, layout, bars, pushes, ready)
    factors = factors_for(case.basis, tuple(load.severity for load in loads))
    buckles = plan_buckling(case, layout, pushes, ready)
    alpha = critical_multiplier(case, layout, bars, pushes, response, buckles) / _buckling_divisor(factors)
    amplified = amplification(alpha)
    used = response.with_bending(amplified)
    lines = weld_lines(case, layout, bars)
    heat = heat_lengths(case, layout, bars, lines)
    stations = place_stations(case, layout, bars, used, heat)
    context = Context(
        case=case,
        loads=loads,
        layout=layout,
        bars=bars,
        response=used,
        stations=stations,
        factors=factors,
        alpha=alpha,
        amplified=amplified,
        heat=heat,
        lines=lines,
    )
    return Outcome(
        case=case,
        loads=loads,
        layout=layout,
        bars=bars,
        response=response,
        rows=worst_first(context, every_verdict(context)),
        stresses=stress_rows(context),
        not_checked=not_checked(context),
        warnings=(
            *case.warnings,
            *(Warned(part=p, text=t) for p, t in pushes.warnings),
            *_idle(case, layout, response),
            *guarded(context),
        ),
        read_as=read_as(case),
        movement=_movement(case, layout, response, loads),
        missing_loads=missing_kinds(case),
        losses=losses(case, layout, ready),
        context=context,
    )


def _refuse_empty(case: Case) -> None:
    faults = []
    if not case.loads:
        faults.append(
            ("loads", "no load is given, so nothing can be checked: add at least one, such as standing")
        )
    if not case.members and not case.struts:
        faults.append(("members", "no member or strut is given, so nothing can be checked: add the parts"))
    if faults:
        raise CaseError(faults)


def _buckling_divisor(factors: Factors) -> Array:
    """What an elastic critical multiplier is divided by: load factor, or the buckling factor."""
    return factors.buckling() if factors.method == "allowable" else factors.load()


def _idle(case: Case, layout: Layout, response: Response) -> list[Warned]:
    """Struts that carry next to nothing in every load."""
    first = layout.first[len(case.members) :]
    force = np.abs(response.forces[0][:, first, 0, 0]).max(axis=0, initial=0.0)
    greatest = force.max(initial=0.0)
    return [
        Warned(
            part=strut.name,
            text="carries under 1 % of the greatest strut force in every load: is it in the right place?",
        )
        for strut, own in zip(case.struts, force, strict=True)
        if own < LITTLE * greatest
    ]


def _movement(
    case: Case, layout: Layout, response: Response, loads: tuple[Balanced, ...]
) -> tuple[Moved, ...]:
    if not case.wheels:
        return ()
    found = wheel_movement(case, layout, response)
    return tuple(
        Moved(
            name=name,
            load=load.name,
            moved=(float(x), float(y), float(z)),
            toe=float(found.toe[0, n, w]),
            camber=float(found.camber[0, n, w]),
        )
        for n, load in enumerate(loads)
        for w, name in enumerate(found.names)
        for x, y, z in [found.moved[0, n, w]]
    )
