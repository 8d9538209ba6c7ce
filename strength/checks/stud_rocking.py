"""`stud-rocking`: a stud pressing sideways on the thread it is screwed into."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.stud_columns import late, on_yield, stud_columns
from strength.checks.studs import StudEffect
from strength.checks.verdict import Verdict
from strength.joints.stud import rocking

KIND = "stud-rocking"
SOURCE = "Roloff/Matek, plug pin in bending (from memory)"


def stud_rocking(context: Context) -> Iterator[Verdict]:
    """Greatest pressure at the mouth of the thread against the tapped metal's yield; at least 1.67."""
    own = stud_columns(context)
    if own is None:
        return iter(())
    use = rocking(own.across, own.bending, own.reach, own.engaged, own.diameter)
    use *= on_yield(context, [effect.into.metal.kind for effect in own.effects])
    use /= own.yield_
    return late(context, KIND, own, use, _whole, own.covered)


def _whole(context: Context, effect: StudEffect) -> Verdict:
    stud, into = effect.stud, effect.into
    pressure = rocking(effect.across, effect.bending, stud.reach, stud.engaged, effect.thread.diameter)
    demand = pressure * context.factors.load()
    limit = into.yield_ / context.factors.on_yield(into.metal.kind, brittle=True)
    return effect.verdict(
        context,
        KIND,
        "MPa",
        "bends",
        SOURCE,
        demand,
        limit,
        covered=into.heat.covered,
        note=f"{stud.engaged:g} mm {effect.tapped_note()}",
    )
