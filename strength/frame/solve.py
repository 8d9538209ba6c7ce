"""Displacements, internal forces and reactions of a frame under its loads."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from strength.case.model import Case
from strength.errors import MechanismError, SolveError
from strength.frame.assembly import LARGE
from strength.frame.balance import check_balance
from strength.frame.changed import changed
from strength.frame.elimination import Fronted
from strength.frame.flying import gauged
from strength.frame.holds import refuse_loaded
from strength.frame.links import Links
from strength.frame.mechanism import DOUBTFUL, refuse_mechanisms
from strength.frame.modes import TENSION, coefficients
from strength.frame.plan import Plan, plan
from strength.frame.recovery import Recovered, Solver, recover, respond
from strength.frame.response import Array, Index, Layout, Response, joined
from strength.sections.principal import principal_turns, turned
from strength.values import evolve

if TYPE_CHECKING:
    from strength.sections.bars import Bars
    from strength.vehicle.sheet import Pushes

BLOCK = 64  # designs whose fronts stand in memory together: more only wait for memory


def solve(
    case: Case,
    layout: Layout,
    bars: "Bars",
    pushes: "Pushes",
    prepared: Plan | None = None,
    *,
    fine: bool = True,
) -> Response:
    """Solve the frame for all designs and loads at once.

    bars: sizes with a leading axis of designs. pushes.forces: (loads, points, 6), or with a leading
    axis of designs. prepared: `plan(case, layout)`, to save its cost over many calls. fine: False leaves
    forces that 1e-10 of the greatest is out of balance with as they are.
    Raises MechanismError where something can move freely or a load turns what nothing holds, and
    SolveError where the answer does not balance the loads to 1e-9.
    """
    ready = prepared or plan(case, layout)
    links = ready.links
    forces = scaled_forces(links, pushes)
    refuse_unheld(case, ready, forces)
    coefficient = stiffness(layout, links, bars)
    if not np.all(np.isfinite(coefficient)) or not np.all(np.isfinite(forces)):
        raise SolveError("a stiffness or a load is not a finite number")

    gauge = None if ready.rigid_motions is None else gauged(links, ready.rigid_motions, pushes.gauge)
    change = changed(ready, coefficient, forces)
    if change is not None:
        base = _recovered(case, layout, ready, change.softest, change.loads, fine=True)
        return change.respond(case, layout, ready, base, gauge)
    designs = max(coefficient.shape[0], forces.shape[1])
    step = designs if ready.reduction.unknowns > LARGE else BLOCK
    parts = []
    for at in range(0, designs, step):
        own, push = (_some(coefficient, at, step, 0), _some(forces, at, step, 1))
        found = _recovered(case, layout, ready, own, push, fine=fine)
        check_balance(layout, ready, push, found)
        parts.append(respond(case, layout, ready, found, gauge))
    return joined(parts)


def _recovered(
    case: Case, layout: Layout, ready: Plan, coefficient: Array, forces: Array, *, fine: bool
) -> Recovered:
    if ready.reduction.unknowns > LARGE:
        return recover(ready, coefficient, forces, _enveloped(case, layout, ready, coefficient))
    fronted = Fronted(ready.fronts, coefficient)
    return recover(ready, coefficient, forces, fronted.solve, fronted.again if fine else None)


def _some(values: Array, at: int, step: int, axis: int) -> Array:
    """Values of some designs, or the one of all."""
    if values.shape[axis] == 1:
        return values
    return values[(slice(None),) * axis + (slice(at, at + step),)]


def scaled_forces(links: Links, pushes: "Pushes") -> Array:
    """Loads on all freedoms: (freedoms, designs or 1, loads) N."""
    given = pushes.forces if pushes.forces.ndim == 4 else pushes.forces[None]
    out = np.zeros((links.freedoms, *given.shape[:2]))
    out[: 6 * links.points] = given.reshape(*given.shape[:2], 6 * links.points).transpose(2, 0, 1)
    out /= links.unit[:, None, None]
    return out


def refuse_unheld(case: Case, ready: Plan, forces: Array) -> None:
    """Raise MechanismError for loads on what nothing holds."""
    names = load_names(case, forces.shape[-1])
    at = forces[: 6 * ready.links.points].reshape(-1, 6, *forces.shape[1:])
    for p in ready.loose:
        hit = np.flatnonzero(np.any(at[p] != 0.0, axis=(0, 1)))
        if hit.size:
            name = case.points[p].name
            raise MechanismError(name, f"load {names[hit[0]]!r} acts here, but no part is joined to {name!r}")
    refuse_loaded(ready.holds, forces, names)


def load_names(case: Case, count: int) -> Sequence[str]:
    """Names of the loads, or their numbers where they are not those of the case."""
    if len(case.loads) == count:
        return [load.name for load in case.loads]
    return [f"number {n + 1}" for n in range(count)]


def stiffness(layout: Layout, links: Links, bars: "Bars") -> Array:
    """Stiffness of the natural deformations: (designs, segments, 6); 0 where exact."""
    ball = links.ball
    one_ball, no_ball = ball[:, 0] ^ ball[:, 1], ~np.any(ball, axis=1)
    out = coefficients(layout.length, one_ball, no_ball, rigidities(layout, bars))
    given = ~np.isnan(links.stiffness)
    out[:, given, TENSION] = links.stiffness[given]
    out[:, links.exact] = 0.0
    return out


def rigidities(layout: Layout, bars: "Bars") -> tuple[Array, Array, Array, Array, Array, Array]:
    """EA, GJ, EIy, EIz [N, N*mm^2] and GA in shear for Vy, Vz [N] of the segments: (designs, segments).

    Of outlines about their principal axes; what couples shear along these two is left out.
    """
    at = layout.bar
    youngs, shear = bars.youngs[:, at], bars.shear[:, at]
    turn = principal_turns(bars.shapes)
    if np.any(turn):
        bars = _principal(bars, turn)
    return (
        youngs * bars.area[:, at],
        shear * bars.torsion[:, at],
        youngs * bars.iy[:, at],
        youngs * bars.iz[:, at],
        shear * bars.shear_y[:, at],
        shear * bars.shear_z[:, at],
    )


def _principal(bars: "Bars", turn: Array) -> "Bars":
    iy, iz = turned(bars.iy, bars.iz, bars.iyz, turn)
    # A force along y_m belongs to bending about z_m, so the two change places.
    give_z, give_y = turned(1.0 / bars.shear_z, 1.0 / bars.shear_y, bars.shear_mix, turn)
    with np.errstate(divide="ignore"):
        return evolve(bars, iy=iy, iz=iz, shear_y=1.0 / give_y, shear_z=1.0 / give_z)


def _enveloped(case: Case, layout: Layout, ready: Plan, coefficient: Array) -> Solver:
    from strength.frame.sparse import Enveloped

    enveloped = Enveloped(ready.envelope, coefficient)

    def solver(loads: Array, some: Index) -> Array:
        out = enveloped.solve(loads, some)
        if enveloped.pivot < DOUBTFUL:
            refuse_mechanisms(case, layout, ready.links, ready.reduction, ready.assembly)
        if enveloped.pivot == 0.0:
            raise SolveError("the stiffness matrix is singular")
        return out

    return solver
