"""`sleeve-bearing` and `sleeve-wall`: bending through tube in tube."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.verdict import Verdict

PLUG = "Roloff/Matek, plug pin in bending (from memory)"
SADDLE = "couple two thirds of the overlap apart; wall as EN 1993-1-8:2005 Table 7.3, beta = 1"


def sleeve_bearing(context: Context) -> Iterator[Verdict]:
    """Pressure at the mouth of the sleeve against the lesser yield of both tubes."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects
    from strength.joints.sleeve import bearing

    for effect in sleeve_effects(context):
        outside = effect.tubes[0].outside[:, None]
        pressure = bearing(effect.shear, effect.moment, outside, effect.sleeve.overlap)
        strengths = [tube.yield_ for tube in effect.tubes]
        demand = pressure * context.factors.load()
        yield effect.verdict(context, "sleeve-bearing", "MPa", PLUG, demand, strengths)


def sleeve_wall(context: Context) -> Iterator[Verdict]:
    """Force of the couple against the weaker of both walls."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects
    from strength.joints.sleeve import wall_load, wall_resistance

    for effect in sleeve_effects(context):
        force = wall_load(effect.shear, effect.moment, effect.sleeve.overlap)
        strengths = [wall_resistance(tube.yield_, tube.wall) for tube in effect.tubes]
        demand = force * context.factors.load()
        yield effect.verdict(context, "sleeve-wall", "N", SADDLE, demand, strengths)
