"""`stud-rocking`: a stud pressing sideways on the thread it is screwed into."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.studs import stud_effects
from strength.checks.verdict import Verdict
from strength.joints.stud import rocking

SOURCE = "Roloff/Matek, plug pin in bending (from memory)"


def stud_rocking(context: Context) -> Iterator[Verdict]:
    """Greatest pressure at the mouth of the thread against the tapped metal's yield; at least 1.67."""
    for effect in stud_effects(context):
        stud, into = effect.stud, effect.into
        pressure = rocking(effect.across, effect.bending, stud.reach, stud.engaged, effect.thread.diameter)
        demand = pressure * context.factors.load()
        limit = into.yield_ / context.factors.on_yield(into.metal.kind, brittle=True)
        yield effect.verdict(
            context,
            "stud-rocking",
            "MPa",
            "bends",
            SOURCE,
            demand,
            limit,
            covered=into.heat.covered,
            note=f"{stud.engaged:g} mm {effect.tapped_note()}",
        )
