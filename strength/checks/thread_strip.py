"""`thread-strip`: the thread of a stud, or of what it screws into, stripped."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.studs import stud_effects
from strength.checks.verdict import Verdict
from strength.joints.stud import strip_resistance

SOURCE = "FED-STD-H28/2 areas at the limits of ISO 965-1 6g/6H (from memory), 0.6 of the ultimate"


def thread_strip(context: Context) -> Iterator[Verdict]:
    """Force along the stud against the weaker thread; out of range if engaged by under a pitch."""
    for effect in stud_effects(context):
        stud, into, own = effect.stud, effect.into, effect.thread
        strength = strip_resistance(
            stud.engaged, own.pitch, own.strip_nut, own.strip_bolt, into.ultimate, effect.grade.ultimate
        )
        covered = into.heat.covered & (stud.engaged > own.pitch)
        note = f"{stud.engaged:g} mm {effect.tapped_note()}, less one pitch of {own.pitch:g} mm"
        yield effect.verdict(
            context,
            "thread-strip",
            "N",
            "parts",
            SOURCE,
            effect.along * context.factors.load(),
            strength / context.factors.on_ultimate(),
            covered=covered,
            note=note,
        )
