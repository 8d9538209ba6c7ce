"""A second, plain way to wheel loads: full moments of forces at their places, and scipy's optimisers."""

import math

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog, minimize

from strength.case.model import Case, Load
from strength.vehicle.sheet import Balanced
from tests.vehicle.build import G

Array = NDArray[np.float64]


def body_force(load: Balanced) -> Array:
    """Weight and inertia per unit mass: road axes turned by the lean (left is negative about x)."""
    ax = load.driving - load.braking
    c, s = math.cos(load.lean), math.sin(load.lean)
    to_body = np.array([[1.0, 0.0, 0.0], [0.0, c, -s], [0.0, s, c]])
    return to_body @ np.array([-ax, -load.cornering, -load.vertical * G]) / 1000.0


def residual(case: Case, load: Balanced) -> tuple[Array, Array]:
    """Resultant (3,) and moment about (0, 0, contacts' height) of all wheel, hitch and mass forces."""
    at = {p.name: np.array(p.at) for p in case.points}
    level = np.mean([at[w.centre][2] - w.radius for w in case.wheels])
    where = [np.array([*at[w.centre][:2], level]) for w in case.wheels]
    where += [at[t.at] for t in case.tows] + [np.array(m.at) for m in case.masses]
    f = body_force(load)
    forces = [np.array(w.force) for w in load.wheels] + [np.array(t.force) for t in load.tows]
    forces += [m.mass * f for m in case.masses]
    origin = np.array([0.0, 0.0, level])
    moment = sum(np.cross(r - origin, p) for r, p in zip(where, forces, strict=True))
    return np.sum(forces, axis=0), np.asarray(moment)


def equations(case: Case, load: Balanced) -> tuple[Array, Array]:
    """The three equations in Z: rows and right side, about the contacts' level, per newton of weight."""
    at = {p.name: np.array(p.at) for p in case.points}
    level = np.mean([at[w.centre][2] - w.radius for w in case.wheels])
    f = body_force(load)
    origin = np.array([0.0, 0.0, level])
    ratio = f[1] / f[2]
    columns = []
    for spot in [np.array([*at[w.centre][:2], level]) for w in case.wheels] + [at[t.at] for t in case.tows]:
        turn = np.cross(spot - origin, [0.0, ratio, 1.0])
        columns.append([1.0, turn[0], turn[1]])
    weight = np.array([m.mass * f for m in case.masses])
    turns = np.array([np.cross(np.array(m.at) - origin, w) for m, w in zip(case.masses, weight, strict=True)])
    right = -np.array([weight[:, 2].sum(), turns[:, 0].sum(), turns[:, 1].sum()])
    if case.tows and not any(w.braked or w.driven for w in case.wheels):
        arm = at[case.tows[0].at] - origin
        right[2] -= np.cross(arm, [-weight[:, 0].sum(), 0.0, 0.0])[1]
    size = sum(m.mass for m in case.masses) * 9.80665
    return np.array(columns).T, right / size


def least_norm(columns: Array, right: Array, wheels: int) -> Array:
    """Least sum Z^2 by sequential quadratic programming (scipy SLSQP), Z >= 0 at the wheels."""
    scale = np.array([1.0, 1e-3, 1e-3])
    rows, want = columns * scale[:, None], right * scale
    count = columns.shape[1]
    found = minimize(
        lambda z: 0.5 * z @ z,
        np.full(count, 1.0 / count),
        jac=lambda z: z,
        method="SLSQP",
        bounds=[(0.0, None)] * wheels + [(None, None)] * (count - wheels),
        constraints={"type": "eq", "fun": lambda z: rows @ z - want, "jac": lambda _: rows},
        options={"ftol": 1e-15, "maxiter": 500},
    )
    return np.asarray(found.x)


def spare(columns: Array, right: Array, wheels: int) -> float:
    """Largest share of the weight that every wheel can have at once (scipy linprog); under 0: it falls."""
    scale = np.array([1.0, 1e-3, 1e-3])
    count = columns.shape[1]
    rows = np.column_stack([columns * scale[:, None], np.zeros(3)])
    at_least = np.column_stack([-np.eye(count)[:wheels], np.ones(wheels)])
    found = linprog(
        np.append(np.zeros(count), -1.0),
        A_ub=at_least,
        b_ub=np.zeros(wheels),
        A_eq=rows,
        b_eq=right * scale,
        bounds=[(None, None)] * count + [(None, 1.0)],
        method="highs",
    )
    if found.status != 0:
        raise ArithmeticError(found.message)
    return float(found.x[-1])


def spare_both(case: Case, load: Load, share: float) -> float:
    """The lesser spare of the banked and the flat road at a share of the load's accelerations."""
    cornering = share * load.cornering
    lean = math.copysign(min(case.leaning, math.atan(abs(cornering) / G)), cornering)
    moved = Balanced(
        name=load.name,
        severity=load.severity,
        lean=lean,
        scaled_to=1.0,
        braking=share * load.braking,
        driving=share * load.driving,
        cornering=cornering,
        vertical=load.vertical,
        notes=(),
        wheels=(),
    )
    banked = spare(*equations(case, moved), len(case.wheels))
    return min(banked, _flat_spare(case, moved))


def _flat_spare(case: Case, load: Balanced) -> float:
    """Upright road: contacts y/cos p, masses turned by the lean about y = 0 in the contacts' plane."""
    at = {p.name: np.array(p.at) for p in case.points}
    c, s = math.cos(load.lean), math.sin(load.lean)
    level = np.mean([at[w.centre][2] - w.radius for w in case.wheels])
    wheels = tuple(w.centre for w in case.wheels)
    points = tuple(
        p.__class__(name=p.name, at=(p.at[0], p.at[1] / c, p.at[2])) if p.name in wheels else p
        for p in case.points
    )
    masses = []
    for m in case.masses:
        x, y, h = m.at[0], m.at[1], m.at[2] - level
        masses.append(m.__class__(name=m.name, mass=m.mass, at=(x, y * c + h * s, h * c - y * s + level)))
    turned = Case(title="flat", wheels=case.wheels, points=points, masses=tuple(masses), tows=case.tows)
    upright = Balanced(
        name=load.name,
        severity=load.severity,
        lean=0.0,
        scaled_to=1.0,
        braking=load.braking,
        driving=load.driving,
        cornering=load.cornering,
        vertical=load.vertical,
        notes=(),
        wheels=(),
    )
    return spare(*equations(turned, upright), len(case.wheels))
