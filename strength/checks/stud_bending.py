"""`stud-bending`: the shank of a rod end or ball stud, bent and pulled."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.stud_columns import column, late, on_yield, stud_columns
from strength.checks.studs import StudEffect
from strength.checks.verdict import Verdict
from strength.joints.stud import shank_stress

KIND = "stud-bending"
SOURCE = "beam formula on the root diameter, pull on the stress area of ISO 898-1 (own choice)"


def stud_bending(context: Context) -> Iterator[Verdict]:
    """Stress of the shank at the face it screws into, against its yield; at least 1.67."""
    own = stud_columns(context)
    if own is None:
        return iter(())
    use = shank_stress(own.across, own.along, own.bending, own.reach, own.root, own.stress_area)
    use *= on_yield(context, [effect.kind for effect in own.effects])
    use /= column([effect.grade.yield_ for effect in own.effects])
    return late(context, KIND, own, use, _whole)


def _whole(context: Context, effect: StudEffect) -> Verdict:
    stud, own = effect.stud, effect.thread
    stress = shank_stress(effect.across, effect.along, effect.bending, stud.reach, own.root, own.stress_area)
    demand = stress * context.factors.load()
    limit = effect.grade.yield_ / context.factors.on_yield(effect.kind, brittle=True)
    note = f"{stud.reach:g} mm from ball to face, root {own.root:.4g} mm"
    return effect.verdict(context, KIND, "MPa", "bends", SOURCE, demand, limit, note=note)
