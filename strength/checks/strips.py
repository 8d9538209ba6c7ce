"""Whether a flat is slender enough to be looked at as a strip, and its holes small enough.

The limits are own choices, set by comparing with plane-stress elements (tests/second_way/test_plates.py).
Beside a held edge the outer fibre of a strip 0.75 of its width long carries 4 % more than M/W at a fifth
of the width and 16 % at a tenth; in plates of twice that length 4 %. At holes to half the width, with at
least a quarter of a diameter of metal beside them, no peak is above the printed factor times the nominal
stress.
"""

from math import hypot
from typing import TYPE_CHECKING

from strength.case.model import Case, Hole, Member
from strength.case.shape import Flat

if TYPE_CHECKING:
    from strength.checks.context import Context

SHORTEST = 0.75  # of the width: shorter between its welds, a flat is no strip
LARGEST = 0.5  # of the side that a hole is in
BESIDE = 0.25  # of a hole's diameter: least metal beside it
BETWEEN = 0.5  # of the larger diameter: least metal between two
SLACK = 1e-9


def outside_strip(context: "Context", number: int, design: int = 0) -> str:
    """Why a flat's stresses are out of the range of strip theory, with the ratio; empty: in it."""
    case, bars = context.case, context.bars
    if number >= len(case.members) or not isinstance(bars.shapes[number], Flat):
        return ""
    member = case.members[number]
    width, thickness = float(bars.depth[design, number]), float(bars.width[design, number])
    free = free_length(case, member, float(context.layout.bar_length[number]))
    side = max(width, thickness)
    reasons = []
    if free < SHORTEST * side * (1.0 - SLACK):
        reasons.append(f"its free length is {free / side:.2f} of its width, where a strip needs {SHORTEST:g}")
    reasons += _holes(case, member, context.layout.bar_length[number], width, thickness)
    return "; ".join(reasons)


def free_length(case: Case, member: Member, length: float) -> float:
    """Length of a member between the welds at its ends [mm]."""
    taken = {"from": 0.0, "to": 0.0}
    for weld in case.welds:
        if weld.member == member.name:
            taken[weld.end] = max(taken[weld.end], weld.inset)
    return max(0.0, length - taken["from"] - taken["to"])


def _holes(case: Case, member: Member, length: float, width: float, thickness: float) -> list[str]:
    own = [hole for hole in case.holes if hole.member == member.name]
    found = []
    for n, hole in enumerate(own):
        side, word = (width, "width") if hole.across == "thickness" else (thickness, "thickness")
        if hole.diameter > LARGEST * side * (1.0 + SLACK):
            found.append(f"{hole.name} takes {hole.diameter / side:.2f} of the {word}, over {LARGEST:g}")
        left = (side / 2.0 - abs(hole.off_centre)) / hole.diameter - 0.5
        if left < BESIDE * (1.0 - SLACK):
            found.append(f"beside {hole.name} stand {left:.2f} diameters of metal, under {BESIDE:g}")
        found += [text for other in own[:n] if (text := _between(other, hole, length))]
    return found


def _between(one: Hole, other: Hole, length: float) -> str:
    if one.across != other.across:
        return ""
    apart = hypot((other.along - one.along) * length, other.off_centre - one.off_centre)
    left = (apart - (one.diameter + other.diameter) / 2.0) / max(one.diameter, other.diameter)
    if left >= BETWEEN * (1.0 - SLACK):
        return ""
    return f"between {one.name} and {other.name} stand {left:.2f} diameters of metal, under {BETWEEN:g}"
