"""A knock on one wheel, in multiples of what it carries standing."""

import math

import numpy as np

from strength.case.model import Case, Load
from strength.errors import BalanceError
from strength.vehicle.ground import ground, places, weights
from strength.vehicle.least import least_squares_loads
from strength.vehicle.motion import specific_force

Force = tuple[float, float, float]


def standing_load(case: Case, load: Load) -> float:
    """N0 [N]: Z of the struck wheel, standing still at 1 g on all wheels, upright."""
    stand = ground(case)
    wanted = weights(case.masses, stand.level).wanted(specific_force(0.0, 0.0, 1.0, 0.0))
    z, held = least_squares_loads(stand.columns(0.0), len(stand.wheels), np.array([wanted]))
    if not held[0]:
        raise BalanceError(
            load.name,
            "the vehicle does not stand on all its wheels, so a strike has no measure: move the masses",
        )
    struck = load.strike.wheel if load.strike is not None else ""
    return float(z[0, stand.wheels.index(struck)])


def struck_force(case: Case, load: Load, standing: float) -> Force:
    """N0 (-back, -sign(y) inward, up) [N]: from ahead, from outside, from below. Own choice."""
    strike = load.strike
    if strike is None:
        raise ValueError(load.name)
    wheel = next(w for w in case.wheels if w.name == strike.wheel)
    y = places(case)[wheel.centre][1]
    side = -math.copysign(strike.inward, y) if strike.inward else 0.0
    return -standing * strike.back + 0.0, standing * side, standing * strike.up
