"""Each load brought into balance on the road: lean, tipping, wheel forces, what slides and lifts."""

import math

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Load, Wheel
from strength.errors import BalanceError
from strength.units import GRAVITY
from strength.values import evolve
from strength.vehicle.faults import check_load, pushers, stands_by_hand
from strength.vehicle.ground import Ground, Weights, ground, weights
from strength.vehicle.least import least_squares_loads
from strength.vehicle.motion import lean_angle, specific_force
from strength.vehicle.sheet import Balanced, TowForce, WheelForce
from strength.vehicle.strike import standing_load, struck_force
from strength.vehicle.tipping import Manoeuvre, bearable, side_ratio, wanted_at

Array = NDArray[np.float64]
Known = dict[tuple[str, ...], tuple[Ground, Weights]]

_AS_DRAWN = math.radians(10.0)  # own choice: beyond this lean the linkage has visibly moved
_AT_THE_LIMIT = 1e-9  # relative: forgiven where the load was scaled to the very edge


def balance(case: Case) -> tuple[Balanced, ...]:
    """Wheel and hitch forces of every load, in the case's order.

    Z is the set with Z >= 0 of least sum Z^2 that balances weight and inertia of all masses; Y in
    proportion to Z; X by the braked (driven) wheels in proportion to Z, or by the hitch where there
    is none. A manoeuvre that would tip the vehicle is scaled down to where it does. Loads put on
    by hand are not in this balance. Own choices, stated in the report.

    Raises BalanceError (a load that cannot be brought into balance) and CaseError (contacts).
    """
    known: Known = {}
    return tuple(_balanced(case, load, known) for load in case.loads)


def _balanced(case: Case, load: Load, known: Known) -> Balanced:
    """known: what stands on the road, and the masses above it, by wheels off the ground."""
    if stands_by_hand(case, load):
        return Balanced(
            name=load.name,
            severity=load.severity,
            lean=0.0,
            scaled_to=1.0,
            braking=0.0,
            driving=0.0,
            cornering=0.0,
            vertical=load.vertical,
            notes=(),
            wheels=(),
        )
    gone = tuple(load.off_ground)
    if gone not in known:
        stand = ground(case, gone)
        known[gone] = stand, weights(case.masses, stand.level)
    stand, masses = known[gone]
    check_load(case, load, stand, masses)
    takers = pushers(case, load)
    manoeuvre = Manoeuvre(
        forward=load.driving - load.braking,
        cornering=load.cornering,
        vertical=load.vertical,
        leaning=case.leaning,
        tow_takes=not takers,
    )
    share = bearable(stand, masses, manoeuvre)
    forward, cornering = share * manoeuvre.forward, share * load.cornering
    lean = lean_angle(case.leaning, cornering)
    f = specific_force(forward, cornering, load.vertical, lean)
    contact = contact_forces(stand, masses, f, takers)
    if contact is None:
        raise BalanceError(load.name, _cannot_stand(stand, masses, load))
    wheels = tuple(_wheel(w, stand, contact, lean) for w in case.wheels)
    if load.strike is not None:
        struck = struck_force(case, load, standing_load(case, load))
        wheels = tuple(
            evolve(w, force=struck, lifts=struck[2] == 0.0) if w.name == load.strike.wheel else w
            for w in wheels
        )
    notes = _notes(load, share, forward, cornering, lean, wheels, takers)
    return Balanced(
        name=load.name,
        severity=load.severity,
        lean=lean,
        scaled_to=share,
        braking=share * load.braking,
        driving=share * load.driving,
        cornering=cornering,
        vertical=load.vertical,
        notes=notes,
        wheels=wheels,
        tows=tuple(TowForce(name=t.name, force=_vector(contact[-1])) for t in case.tows),
    )


def contact_forces(stand: Ground, masses: Weights, f: Array, takers: tuple[str, ...]) -> Array | None:
    """Forces of the road (contacts, 3) [N], body axes, against f (3,) [mm/s^2]; None: no such set.

    takers: the wheels that share X; none: the hitch takes it. Where all of them have lifted they
    share X alike: the force is then beyond any grip, and each of them slides.
    """
    ratio = side_ratio(f)
    wanted = wanted_at(stand, masses, f, tow_takes=not takers)
    columns, goal = stand.columns(ratio), wanted[None]
    z, held = least_squares_loads(columns, len(stand.wheels), goal)
    if not held[0]:
        z, held = least_squares_loads(columns, len(stand.wheels), goal, _AT_THE_LIMIT)
    if not held[0]:
        return None
    out = np.zeros((stand.x.size, 3))
    out[:, 2] = z[0]
    out[:, 1] = ratio * z[0]
    forward = -masses.total * f[0]
    if takers:
        taking = np.array([n in takers for n in stand.wheels] + [False] * stand.has_tow)
        carried = out[taking, 2]
        total = carried.sum()
        out[taking, 0] = forward * (carried / total if total > 0.0 else 1.0 / carried.size)
    elif stand.has_tow:
        out[-1, 0] = forward
    return out


def slides(force: Array, grip: float, lean: float) -> bool:
    """Whether hypot(X, S) > grip N, judged on the road: N = Z cos p - Y sin p, S = Y cos p + Z sin p."""
    x, y, z = force
    normal = z * math.cos(lean) - y * math.sin(lean)
    side = y * math.cos(lean) + z * math.sin(lean)
    return bool(math.hypot(x, side) > grip * normal * (1.0 + 1e-9))


def _wheel(wheel: Wheel, stand: Ground, contact: Array, lean: float) -> WheelForce:
    if wheel.name not in stand.wheels:
        return WheelForce(name=wheel.name, force=(0.0, 0.0, 0.0), lifts=True)
    force = contact[stand.wheels.index(wheel.name)]
    return WheelForce(
        name=wheel.name,
        force=_vector(force),
        slides=slides(force, wheel.grip, lean),
        lifts=bool(force[2] == 0.0),
    )


def _vector(force: Array) -> tuple[float, float, float]:
    x, y, z = (float(v) + 0.0 for v in force)  # + 0.0: no minus zero in the tables
    return x, y, z


def _cannot_stand(stand: Ground, masses: Weights, load: Load) -> str:
    if load.vertical < 0.0:
        return "`vertical` below zero would have to pull the wheels onto the road: give 0 or more"
    return (
        f"the vehicle does not stand: its mass centre, at x = {masses.x / masses.total:.1f}, "
        f"y = {masses.y / masses.total:.1f} mm, lies outside the wheels on the ground "
        f"({', '.join(stand.wheels)}); move the masses or the wheels"
    )


def _notes(
    load: Load,
    share: float,
    forward: float,
    cornering: float,
    lean: float,
    wheels: tuple[WheelForce, ...],
    takers: tuple[str, ...],
) -> tuple[str, ...]:
    notes = []
    if share < 1.0:
        notes.append(_tips(forward, cornering))
    if abs(lean) > _AS_DRAWN:
        notes.append("linkage as drawn")
    notes += [f"lifts {w.name}" for w in wheels if w.lifts and w.name not in load.off_ground]
    notes += [f"slides {w.name}" for w in wheels if w.slides]
    lifted = {w.name for w in wheels if w.lifts}
    if forward != 0.0 and takers and lifted.issuperset(takers):
        what = "braked" if forward < 0.0 else "driven"
        notes.append(f"no {what} wheel touches the road here: its force cannot be had, it is kept")
    return tuple(notes)


def _tips(forward: float, cornering: float) -> str:
    text = f"tips at {math.hypot(forward, cornering) / GRAVITY:.2f} g"
    if forward and cornering:
        along = "braking" if forward < 0.0 else "driving"
        return f"{text} ({along} {abs(forward) / GRAVITY:.2f} g, cornering {abs(cornering) / GRAVITY:.2f} g)"
    return text
