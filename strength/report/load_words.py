"""What a load is, in a builder's words."""

import math
from collections.abc import Callable, Sequence

from strength.case.model import Case, HandForce, Load, Strike
from strength.report.display import Display, gees
from strength.report.document import plain
from strength.report.words import listed
from strength.vehicle.sheet import Balanced

# positive and negative sense of each body axis
TOWARD = (("forward", "back"), ("to the left", "to the right"), ("up", "down"))
MIDDLE = 1.0  # mm
SMALL = 0.02  # parts of a vector below this share of its greatest are not told


def directed(vector: Sequence[float], write: Callable[[float], str], unit: str) -> str:
    """A vector as amounts and directions, small parts left out.

    >>> directed((0.0, -900.0, 1200.0), lambda v: f"{v:.0f}", " N")
    '900 N to the right, 1200 N up'
    """
    least = SMALL * max(abs(v) for v in vector)
    told = [
        f"{write(abs(value))}{unit} {words[0] if value > 0.0 else words[1]}"
        for value, words in zip(vector, TOWARD, strict=True)
        if abs(value) > least
    ]
    return ", ".join(told) if told else "nothing"


def load_words(balanced: Balanced, load: Load | None, display: Display) -> str:
    """What happens in a load: "brakes 0.50 g, turns left 0.30 g, leans 17° left"."""
    told = []
    if balanced.braking:
        told.append(f"brakes {gees(balanced.braking)}")
    if balanced.driving:
        told.append(f"drives {gees(balanced.driving)}")
    if balanced.cornering:
        side = "left" if balanced.cornering > 0.0 else "right"
        told.append(f"turns {side} {gees(abs(balanced.cornering))}")
    if abs(balanced.lean) > 1e-6:
        side = "left" if balanced.lean > 0.0 else "right"
        told.append(f"leans {math.degrees(abs(balanced.lean)):.0f}° {side}")
    if load is not None and load.strike is not None:
        told.append(_strike(load.strike))
    if balanced.wheels and balanced.vertical != 1.0:
        told.append(f"bears down with {balanced.vertical:g} times its weight")
    if load is not None:
        told.extend(_by_hand(force, display) for force in load.forces)
        if load.off_ground:
            told.append(f"off the ground: {listed([plain(name) for name in load.off_ground])}")
    if not told:
        told.append("stands still" if balanced.wheels else "no load")
    if balanced.scaled_to < 1.0:
        told.append(f"eased to {100.0 * balanced.scaled_to:.0f} %, where it tips")
    return ", ".join(told)


def _strike(strike: Strike) -> str:
    """A knock on one wheel."""
    parts = [f"{strike.up:g} x its standing load up"]
    if strike.back:
        parts.append(f"{strike.back:g} x back")
    if strike.inward:
        parts.append(f"{strike.inward:g} x inward")
    return f"{plain(strike.wheel)} is knocked {listed(parts)}"


def _by_hand(force: HandForce, display: Display) -> str:
    """A force and moment put on by hand."""
    told = []
    if any(force.force):
        told.append(directed(force.force, display.force, f" {display.force_unit}"))
    for value, axis in zip(force.moment, ("x", "y", "z"), strict=True):
        if value:
            told.append(f"{display.quantity(value, 'N*mm')} about {axis}")
    return f"by hand on {plain(force.at)}: {', '.join(told) or 'nothing'}"


def wheel_words(case: Case, name: str, force: Sequence[float], display: Display) -> str:
    """What the road does to a wheel, the greatest first: "1240 N up, 480 N back, 210 N inward".

    Inward is toward the vehicle's middle plane; a wheel within 1 mm of it goes left or right.
    """
    side = side_of_wheel(case, name)
    parts = []
    for axis, value in enumerate(force):
        forward, backward = TOWARD[axis]
        if axis == 1 and abs(side) > MIDDLE:
            outward = value * side > 0.0
            word = "outward" if outward else "toward the middle"
        else:
            word = forward if value > 0.0 else backward
        if round(abs(value), 1) > 0.0:
            parts.append((abs(value), f"{display.force(abs(value))} {display.force_unit} {word}"))
    parts.sort(key=lambda part: -part[0])
    return ", ".join(text for _, text in parts) or "nothing"


def side_of_wheel(case: Case, name: str) -> float:
    """Sideways place of a wheel's centre or a hitch [mm]; 0 where it is not known."""
    places = {wheel.name: wheel.centre for wheel in case.wheels} | {tow.name: tow.at for tow in case.tows}
    return next((point.at[1] for point in case.points if point.name == places.get(name)), 0.0)


def note_words(note: str) -> str:
    """A note of a load in the words of the shed; what speaks for itself stays.

    >>> note_words("linkage as drawn")
    'linkage as drawn: the body leans, but its wheel arms are kept where the case puts them'
    """
    if note == "linkage as drawn":
        return f"{note}: the body leans, but its wheel arms are kept where the case puts them"
    return note
