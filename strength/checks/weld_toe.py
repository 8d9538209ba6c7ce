"""`weld-toe`: the metal beside a fillet weld, at both faces and through both walls."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.verdict import Verdict
from strength.checks.welds import weld_effects

KIND = "weld-toe"


def weld_toe(context: Context) -> Iterator[Verdict]:
    """One verdict per weld: worst von Mises stress over leg or wall against the welded ultimate.

    Out of range where the faces meet outside 60 to 120 degrees, or where no rule covers what the
    heat takes away (stick on aluminium, TIG over 6 mm).
    """
    for effect in weld_effects(context):
        in_range = effect.square & effect.heat_known
        why = "the faces meet outside 60 to 120 degrees"
        if not effect.heat_known.all():
            why = "no rule covers what this process takes from aluminium of this thickness"
        yield effect.late(context, KIND, 1.0, in_range, why)
