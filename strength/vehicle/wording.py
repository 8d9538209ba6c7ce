"""Loads and limits in words a builder understands, for the printed load sheet."""

import math

from strength.case.model import Load
from strength.units import GRAVITY
from strength.vehicle.sheet import Balanced, Limit


def load_words(load: Load, balanced: Balanced) -> str:
    """One line: the load's name and what it does, as it was computed (after scaling).

    "hard stop in a bend, left turn: braking 0.5 g, cornering 0.3 g, leaning 16.7 deg"
    """
    parts = [
        f"{word} {abs(value) / GRAVITY:.3g} g"
        for word, value in (
            ("braking", balanced.braking),
            ("driving", balanced.driving),
            ("cornering", balanced.cornering),
        )
        if value
    ]
    if balanced.lean:
        parts.append(f"leaning {math.degrees(abs(balanced.lean)):.1f} deg")
    if balanced.vertical != 1.0:
        parts.append(f"{balanced.vertical:.3g} x the weight")
    parts += _knock(load)
    if load.off_ground:
        parts.append(f"off the ground: {', '.join(load.off_ground)}")
    if load.forces:
        parts.append(f"by hand at {', '.join(dict.fromkeys(f.at for f in load.forces))}")
    if balanced.scaled_to < 1.0:
        parts.append(f"held at {100.0 * balanced.scaled_to:.3g} % of what was asked, where it tips")
    return f"{load.name}: {', '.join(parts) if parts else 'standing still'}"


def limit_words(limit: Limit) -> str:
    """One line: "corner left, without payload: tips at 0.48 g, slides at 0.80 g; tips first; ..."."""
    name = limit.what if limit.with_payload else f"{limit.what}, without payload"
    if limit.what.startswith("side slope"):
        low = limit.what.removeprefix("side slope ")
        if limit.angle is None:
            return f"{name} ({low} side low): stands on any slope"
        return (
            f"{name} ({low} side low): stands up to {math.degrees(limit.angle):.1f} deg, then {limit.governs}"
        )
    if not limit.governs:
        return f"{name}: neither tips nor slides within 6 g"
    tips = "does not tip" if limit.tips_at is None else f"tips at {limit.tips_at:.2f} g"
    slides = "does not slide" if limit.slides_at is None else f"slides at {limit.slides_at:.2f} g"
    speeds = ", ".join(f"{v * 3.6:.0f} km/h on {radius}" for radius, v in limit.speed if v is not None)
    return f"{name}: {tips}, {slides}, so it {limit.governs} first{f'; {speeds}' if speeds else ''}"


def _knock(load: Load) -> list[str]:
    strike = load.strike
    if strike is None:
        return []
    ways = [
        f"{value:.3g} {way}"
        for value, way in ((strike.up, "up"), (strike.back, "back"), (strike.inward, "inward"))
        if value
    ]
    return [f"{strike.wheel} struck {', '.join(ways)} x its standing load"]
