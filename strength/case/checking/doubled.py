"""Bolts and weld lines that stand twice at one place: each would be counted as often as it is written."""

import math
from itertools import combinations
from typing import TYPE_CHECKING

from strength.case.checking.survey import Survey

if TYPE_CHECKING:
    from strength.case.model import BoltSize

SAME = 0.01  # mm
Line = tuple[float, float, float, float]


def check_doubled(survey: Survey) -> None:
    """Tell bolts of a group nearer than their own diameter, and weld lines that lie on each other."""
    for bolt in survey.of("bolt").values():
        size: BoltSize | None = bolt.keys.get("size")
        least = max(SAME, size.diameter - SAME) if size is not None else SAME
        for (i, one), (k, two) in combinations(enumerate(bolt.keys.get("group", ())), 2):
            apart = math.dist(one, two)
            if apart < least:
                why = (
                    f"stands {apart:.3g} mm from group[{i}], within the same bolt: leave one out, or move it"
                )
                survey.fault(bolt, f"group[{k}]", why)
    for weld in survey.of("weld").values():
        pattern = weld.keys.get("pattern", "around")
        if isinstance(pattern, str):
            continue
        for (i, one), (k, two) in combinations(enumerate(pattern), 2):
            if overlap(one, two) > SAME:
                why = f"lies on lines[{i}]: one bead does not count twice; leave it out, or move it"
                survey.fault(weld, f"pattern.lines[{k}]", why)


def overlap(one: Line, two: Line) -> float:
    """Length [mm] over which two straight lines lie on each other, to 0.01 mm; 0 where they do not."""
    if length(one) < length(two):
        one, two = two, one
    long = length(one)
    if long == 0.0:
        return 0.0
    y, z = (one[2] - one[0]) / long, (one[3] - one[1]) / long
    ends = []
    for n in (0, 2):
        dy, dz = two[n] - one[0], two[n + 1] - one[1]
        if abs(dz * y - dy * z) > SAME:
            return 0.0
        ends.append(dy * y + dz * z)
    return max(0.0, min(long, max(ends)) - max(0.0, min(ends)))


def length(line: Line) -> float:
    """Length of a line."""
    return math.hypot(line[2] - line[0], line[3] - line[1])
