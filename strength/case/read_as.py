"""How flats, boxes, outlines, walls and hand forces were read, in words."""

from collections.abc import Iterator

from strength import units
from strength.case.model import Case, HandForce, Member, Strut, Vector
from strength.case.places import other_side
from strength.case.shape import Box, Flat, Outline, Tube
from strength.case.trade.axes import member_axes
from strength.library import Metal
from strength.values import frozen

CLEAR = 0.94  # cosine of 20 degrees: nearer to a body axis than that, the axis alone is named
_WAYS = ("fore-and-aft", "across", "up and down")
_PUSHES = (("forward", "backward"), ("to the left", "to the right"), ("up", "down"))
# a moment about +x lifts the left side, about +y pushes the nose down, about +z turns it to the left
_TURNS = (
    ("rolling it to the right", "rolling it to the left"),
    ("pressing its nose down", "lifting its nose"),
    ("turning it to the left", "turning it to the right"),
)


@frozen
class ReadAs:
    """A sentence about a part."""

    part: str
    text: str


def read_as(case: Case) -> tuple[ReadAs, ...]:
    """A sentence for each part whose sides point somewhere, each thinner wall and each hand force.

    Of two images that read alike, the first.
    """
    found: dict[tuple[str, str], ReadAs] = {}
    for sentence in (*_members(case), *_walls(case), *_forces(case), *_own(case)):
        if (other_side(sentence.part), sentence.text) not in found or not sentence.part.endswith(".right"):
            found.setdefault((sentence.part, sentence.text), sentence)
    return tuple(found.values())


def _own(case: Case) -> Iterator[ReadAs]:
    """Metals and fillers that are the user's own: in the case or in a library of the user's."""
    for kind, store in (("metal", case.metals), ("filler", case.fillers)):
        for name, found in store.items():
            if found.own:
                source = found.rows[0].source if isinstance(found, Metal) else found.source
                told = f", source {source!r}" if source else ", no source given"
                yield ReadAs(part=name, text=f"a {kind} of your own, its figures not the library's{told}")


def _members(case: Case) -> Iterator[ReadAs]:
    places = {point.name: point.at for point in case.points}
    for member in case.members:
        text = member_words(member, places[member.start], places[member.end], case.units)
        if text:
            yield ReadAs(member.name, text)


def member_words(member: Member, start: Vector, end: Vector, system: str = "metric") -> str:
    """Which way the two sides of a flat, box or outline point; empty for other sections."""
    axes = member_axes(start, end, member.up)
    source = ""
    match member.shape:
        case Outline(corners, drawn=drawn):
            across, along = zip(*corners, strict=True)
            sides = (max(along) - min(along), max(across) - min(across))
            source = f", the outline in {drawn}" if drawn else ", by its outline"
        case Flat(width, thickness):
            sides = (width, thickness)
        case Box(depth, width, _):
            sides = (depth, width)
        case _:
            return ""
    if axes is None:
        return ""
    ways = (_way(axes.z), _way(axes.y))
    shown = (f"{units.show(side, 'length', system)} {way}" for side, way in zip(sides, ways, strict=True))
    return ", ".join(shown) + source


def _way(direction: Vector) -> str:
    """A line in space in a builder's words."""
    ranked = sorted(range(3), key=lambda i: -abs(direction[i]))
    if abs(direction[ranked[0]]) >= CLEAR:
        return _WAYS[ranked[0]]
    return f"between {_WAYS[ranked[0]]} and {_WAYS[ranked[1]]}"


def _walls(case: Case) -> Iterator[ReadAs]:
    """What the tube standard's tolerance takes off each wall, where the case asks for walls as bought."""
    if case.basis.wall != "minimum":
        return
    from strength.library import wall_tolerance

    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    for part in parts:
        if isinstance(part.shape, Tube | Box):
            wall = part.shape.wall
            found = wall_tolerance(case.metals[part.material], wall)
            rule = "no standard known, 10 % (own choice)" if found.rule == "unknown" else found.rule
            sure = ", from memory" if found.sure == "memory" else ""
            least, full, less = (
                units.show(value, "length", case.units) for value in (wall - found.minus, wall, found.minus)
            )
            yield ReadAs(part.name, f"wall {least}: {full} less {less} by {rule}{sure}")


def _forces(case: Case) -> Iterator[ReadAs]:
    """Loads are named only where they differ in what they put on a point."""
    put: dict[str, dict[str, list[str]]] = {}
    for load in case.loads:
        for force in load.forces:
            words = force_words(force, case.units)
            put.setdefault(force.at, {}).setdefault(words, []).append(load.name)
    for point, texts in put.items():
        for words, loads in texts.items():
            yield ReadAs(point, words if len(texts) == 1 else f"{words} in {', '.join(loads)}")


def force_words(force: HandForce, system: str = "metric") -> str:
    """A force and moment put on by hand, by direction."""
    words = _parts(force.force, _PUSHES, "force", system) + _parts(force.moment, _TURNS, "moment", system)
    return ", ".join(words) or "nothing"


def _parts(values: Vector, names: tuple[tuple[str, str], ...], dimension: str, system: str) -> list[str]:
    return [
        f"{units.show(abs(value), dimension, system)} {ways[value < 0]}"
        for value, ways in zip(values, names, strict=True)
        if value
    ]
