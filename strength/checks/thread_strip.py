"""`thread-strip`: the thread of a stud, or of what it screws into, stripped."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.stud_columns import late, stud_columns
from strength.checks.studs import StudEffect
from strength.checks.verdict import Verdict
from strength.joints.stud import strip_resistance

KIND = "thread-strip"
SOURCE = "FED-STD-H28/2 areas at the limits of ISO 965-1 6g/6H (from memory), 0.6 of the ultimate"


def thread_strip(context: Context) -> Iterator[Verdict]:
    """Force along the stud against the weaker thread; out of range if engaged by under a pitch."""
    own = stud_columns(context)
    if own is None:
        return iter(())
    strength = np.stack([_strength(effect).T for effect in own.effects])
    divisor = context.factors.load() * context.factors.on_ultimate()
    use = own.along * divisor[:, None] / strength
    held = np.array([effect.stud.engaged > effect.thread.pitch for effect in own.effects])
    return late(context, KIND, own, use, _whole, own.covered & held[:, None])


def _strength(effect: StudEffect) -> NDArray[np.float64]:
    """Characteristic, (designs, 1) [N]."""
    own, stud = effect.thread, effect.stud
    tapped, held = effect.into.ultimate, effect.grade.ultimate
    return strip_resistance(stud.engaged, own.pitch, own.strip_nut, own.strip_bolt, tapped, held)


def _whole(context: Context, effect: StudEffect) -> Verdict:
    stud, into, own = effect.stud, effect.into, effect.thread
    return effect.verdict(
        context,
        KIND,
        "N",
        "parts",
        SOURCE,
        effect.along * context.factors.load(),
        _strength(effect) / context.factors.on_ultimate(),
        covered=into.heat.covered & (stud.engaged > own.pitch),
        note=f"{stud.engaged:g} mm {effect.tapped_note()}, less one pitch of {own.pitch:g} mm",
    )
