"""A wheel's force as it reaches the structure: what a turning wheel drops, what a brake passes on."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross
from strength.case.model import Case, Wheel
from strength.errors import CaseError
from strength.vehicle.ground import places
from strength.vehicle.sheet import Balanced

Array = NDArray[np.float64]


def add_wheels(case: Case, loads: tuple[Balanced, ...], numbers: dict[str, int], forces: Array) -> None:
    """Add each wheel's force and moment to forces (loads, points, 6), at its centre and its caliper.

    At the centre act F and M = (contact - centre) x F. A wheel that brakes or is driven in the load
    passes all of M (driven as a hub motor does); any other, and a struck one, turns freely and
    passes M - (M . a) a, a the axle. With a caliper at k the brake's part T = M . a goes there as
    a force across the axle: F_k = T (a x q)/q^2, q the part of k - c normal to a.
    """
    struck = {x.name: x.strike.wheel for x in case.loads if x.strike is not None}
    for wheel in case.wheels:
        force = np.array([_force(wheel.name, b) for b in loads]).reshape(-1, 3)
        held = np.array([struck.get(b.name) != wheel.name for b in loads])
        brakes = held & np.array([wheel.braked and b.braking > 0.0 for b in loads])
        driven = held & np.array([wheel.driven and b.driving > 0.0 for b in loads])
        moment = cross(np.array([0.0, 0.0, -wheel.radius]), force)
        axle = np.asarray(wheel.axle, dtype=float)
        axle = axle / np.linalg.norm(axle)
        torque = moment @ axle
        moment = moment - np.where(brakes | driven, 0.0, torque)[:, None] * axle
        if wheel.caliper is not None:
            torque = np.where(brakes, torque, 0.0)
            at_caliper, arm = _caliper(case, wheel, axle, torque)
            forces[:, numbers[wheel.caliper], :3] += at_caliper
            force = force - at_caliper
            moment = moment - cross(arm, at_caliper)
        forces[:, numbers[wheel.centre], :3] += force
        forces[:, numbers[wheel.centre], 3:] += moment


def _force(name: str, load: Balanced) -> tuple[float, float, float]:
    return next((w.force for w in load.wheels if w.name == name), (0.0, 0.0, 0.0))


def _caliper(case: Case, wheel: Wheel, axle: Array, torque: Array) -> tuple[Array, Array]:
    at = places(case)
    arm = np.array(at[wheel.caliper or ""]) - np.array(at[wheel.centre])
    across = arm - (arm @ axle) * axle
    square = float(across @ across)
    if square < 1e-6:
        raise CaseError(
            [
                (
                    wheel.path or f"wheels.{wheel.name}",
                    "its `caliper` lies on the axle's line: it can hold no torque",
                )
            ]
        )
    return torque[:, None] * cross(axle, across) / square, arm
