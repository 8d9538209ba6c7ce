"""Flats of an axle in the slot of a dropout: what keeps the axle of a hub motor from turning."""

import math


def flat_length(diameter: float, flats: float) -> float:
    """Length of each flat across the axle [mm]: the chord of the circle, sqrt(D^2 - flats^2).

    diameter of the axle's round part, flats: distance across its two flats [mm], less than it.

    >>> flat_length(13.0, 12.0)
    5.0
    """
    return math.sqrt(diameter * diameter - flats * flats)


def flank_pressure(torque: float, thickness: float, length: float) -> float:
    """Greatest pressure of the flats on the flanks of the slot, p = 6 T/(t l^2) [MPa].

    Each of both flats presses with one half of its length, the pressure rising linearly from its
    middle to its end: two forces p t l/4 at l/3 from the axle's middle make T = p t l^2/6.
    torque [N*mm], thickness of the dropout, length of a flat [mm]. Closed form of that distribution.

    >>> flank_pressure(10_000.0, 6.0, 10.0)
    100.0
    """
    return 6.0 * torque / (thickness * length * length)
