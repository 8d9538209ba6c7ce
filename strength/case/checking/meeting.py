"""Points and how parts meet at them: not joined, not used, joined by nothing that is checked."""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping

from strength.case.checking.survey import Survey, is_rigid, nodes
from strength.case.model import Vector, Warned
from strength.case.trade.entry import Entry
from strength.case.trade.vector import distance, fraction_of, off_line

APART = 5.0  # mm: points that near to each other were probably meant to be one
ON_LINE = 0.5  # mm
SAME = 0.01  # mm
_NOT_JOINED = "not joined"
FASTENED = ("weld", "bolt", "stud", "sleeve", "clamp")


def used_points(survey: Survey) -> set[str]:
    """Points that parts, masses, wheels, supports, tows or hand forces stand at."""
    found: set[str | None] = set()
    for entry in survey.entries:
        keys = entry.keys
        match entry.kind:
            case "member" | "strut":
                found.update(nodes(entry))
            case "wheel":
                found.update({keys.get("centre"), keys.get("caliper")})
            case "support" | "tow":
                found.add(keys.get("at"))
            case "mass":
                found.update(keys.get("carried_by", ()))
            case "load":
                found.update(force["at"] for force in keys.get("forces", ()))
    return {name for name in found if name}


def unjoined(warnings: Iterable[Warned]) -> Iterator[Warned]:
    """Those warnings that tell of points which nearly meet: where something hangs loose, the likely cause."""
    return (each for each in warnings if _NOT_JOINED in each.text)


def check_meeting(survey: Survey, used: set[str]) -> None:
    """Warn of points that nearly meet, and list joints that nothing checks."""
    _warn_near(survey, used)
    _warn_beside(survey, used)
    places = _clusters(survey)
    _warn_elsewhere(survey, places)
    _list_unjoined(survey, places)


def _warn_near(survey: Survey, used: set[str]) -> None:
    if not _some_near(survey.points[name] for name in survey.points if name in used):
        return
    joined = {frozenset((a, b)) for part in _parts(survey) for a in nodes(part) for b in nodes(part)}
    cells: dict[tuple[int, ...], list[str]] = {}
    for name in survey.points:
        if name not in used:
            continue
        at = survey.points[name]
        here = tuple(math.floor(value / APART) for value in at)
        near = [
            other
            for i in (-1, 0, 1)
            for j in (-1, 0, 1)
            for k in (-1, 0, 1)
            for other in cells.get((here[0] + i, here[1] + j, here[2] + k), ())
        ]
        for other in near:
            gap = distance(at, survey.points[other])
            if gap <= APART and frozenset((name, other)) not in joined:
                survey.warn(
                    name,
                    f"{_NOT_JOINED}: it is {gap:.2g} mm from {other!r}, and no part runs between the two",
                )
        cells.setdefault(here, []).append(name)


def _some_near(places: Iterable[Vector]) -> bool:
    """Whether any two places are near each other."""
    ranked = sorted(places)
    for n, (x, y, z) in enumerate(ranked, start=1):
        for other in ranked[n:]:
            if other[0] - x > APART:
                break
            if abs(other[1] - y) <= APART and abs(other[2] - z) <= APART:
                return True
    return False


def _warn_beside(survey: Survey, used: set[str]) -> None:
    """A point that stands on a member's line without being one of its points holds nothing."""
    points = {name: at for name, at in survey.points.items() if name in used}
    if not points:
        return
    longest = max(range(3), key=lambda i: _spread(at[i] for at in points.values()))
    ranked = sorted((at[longest], name) for name, at in points.items())
    for member in survey.of("member").values():
        ends = survey.ends(member)
        if ends is None or distance(*ends) < SAME:
            continue
        own = set(nodes(member))
        box = [(min(pair) - ON_LINE, max(pair) + ON_LINE) for pair in zip(*ends, strict=True)]
        (x_low, x_high), (y_low, y_high), (z_low, z_high) = box
        first = bisect_left(ranked, (box[longest][0], ""))
        for along, name in ranked[first:]:
            if along > box[longest][1]:
                break
            x, y, z = points[name]
            near = x_low <= x <= x_high and y_low <= y <= y_high and z_low <= z <= z_high
            if near and name not in own and _lies_within(points[name], *ends):
                text = f"lies on the line of {member.name!r} but is {_NOT_JOINED} to it"
                survey.warn(name, f"{text}: add it to that part's `via`")


def _spread(values: Iterable[float]) -> float:
    ordered = sorted(values)
    return ordered[-1] - ordered[0]


def _lies_within(at: Vector, start: Vector, end: Vector) -> bool:
    """Whether a place lies on the line between two ends, and not just beside one of them."""
    from_start = fraction_of(at, start, end) * distance(start, end)
    return APART < from_start < distance(start, end) - APART and off_line(at, start, end) <= ON_LINE


def _parts(survey: Survey) -> Iterator[Entry]:
    yield from survey.of("member").values()
    yield from survey.of("strut").values()


def _warn_elsewhere(survey: Survey, places: Mapping[str, str]) -> None:
    """A weld or sleeve onto a part that does not come there."""
    for kind, key in (("weld", "onto"), ("sleeve", "outer")):
        for joint in survey.of(kind).values():
            part, host = survey.member_of(joint), survey.of("member").get(str(joint.keys.get(key)))
            name = None if part is None else part.keys.get(joint.keys["end"])
            if host is None or name is None:
                continue
            if places.get(name, name) not in {places.get(each, each) for each in nodes(host)}:
                text = f"joins its member to {host.name!r}, but {name!r} is no point of that part: "
                survey.warn(joint.name, f"{text}add it to the `via` of {host.name!r}, or check `{key}`")


def _list_unjoined(survey: Survey, places: Mapping[str, str]) -> None:
    """A fixed end that meets another part with no weld, bolt, stud, clamp or sleeve."""
    parts: dict[str, list[Entry]] = {}
    for part in _parts(survey):
        if not is_rigid(part):
            for place in {places.get(name, name) for name in nodes(part)}:
                parts.setdefault(place, []).append(part)
    joints = _joints(survey, places)
    for member in survey.of("member").values():
        if is_rigid(member):
            continue
        for end in ("from", "to"):
            name = member.keys.get(end)
            if name is None or member.keys.get(f"{end}_end", "fixed") != "fixed":
                continue
            place = places.get(name, name)
            others = [part for part in parts[place] if part is not member]
            if others and not any(_fastens(joint, member) for joint in joints.get(place, ())):
                met = ", ".join(repr(part.name) for part in others[:3])
                why = f"its fixed end at {name!r} meets {met} with no weld, bolt, stud, clamp or sleeve"
                survey.warn(member.name, f"{why}: how it is joined is not checked")
                survey.skip(member.name, "joint", why)


def _clusters(survey: Survey) -> dict[str, str]:
    """Points joined by rigid members count as one: point -> the point that stands for all."""
    stands: dict[str, str] = {}

    def top(name: str) -> str:
        while stands.get(name, name) != name:
            name = stands[name]
        return name

    for member in survey.of("member").values():
        if is_rigid(member):
            first, *others = [top(name) for name in nodes(member)] or [""]
            for other in others:
                stands[other] = first
    return {name: top(name) for name in list(stands)}


def _joints(survey: Survey, places: Mapping[str, str]) -> dict[str, list[Entry]]:
    """Joints by the place of the end they are at."""
    found: dict[str, list[Entry]] = {}
    for kind in FASTENED:
        for joint in survey.of(kind).values():
            part = survey.member_of(joint)
            name = None if part is None else part.keys.get(joint.keys.get("end", ""))
            if name is not None:
                found.setdefault(places.get(name, name), []).append(joint)
    return found


def _fastens(joint: Entry, member: Entry) -> bool:
    """Whether a joint at this place is one of the member's, or one of another part onto it.

    A joint at this place that does not say onto what it joins counts as well.
    """
    host = joint.keys.get("onto", joint.keys.get("outer"))
    if joint.keys["member"] == member.name or host == member.name:
        return True
    return not isinstance(host, str)
