"""`weld-throat`: stress on the throat of a fillet weld, by the line method."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.verdict import Verdict
from strength.checks.welds import WeldEffect, weld_effects
from strength.joints.fillet import QUALITY

KIND = "weld-throat"


def weld_throat(context: Context) -> Iterator[Verdict]:
    """One verdict per weld; the limit counts the quality of the weld in.

    Out of range where the faces meet outside 60 to 120 degrees (EN 1993-1-8 4.3.2.1), or where the
    filler's table does not hold the parent.
    """
    limit_state = context.factors.method == "limit-state"
    for effect in weld_effects(context):
        found = special(context, effect)
        if found is not None:
            yield found
            continue
        in_range = effect.square & (effect.known or not limit_state)
        why = "the faces meet outside 60 to 120 degrees, where a fillet has no such throat"
        if not effect.known:
            why = f"no strength is tabled for {effect.weld.filler} on this alloy: the table's least is taken"
        yield effect.late(context, KIND, QUALITY[effect.weld.quality], in_range, why)


def special(context: Context, effect: WeldEffect) -> Verdict | None:
    """The verdict of a weld that is judged by its direction or as a whole group; None of any other."""
    if not effect.weld.directional and effect.weld.method == "line":
        return None
    from strength.checks.weld_by_direction import by_direction

    return by_direction(context, effect)
