"""Knuckles that nothing keeps from turning, and wishbones that nothing keeps from swinging.

Looked at to first order on the whole case, every part stiff, struts at their length: so a tie rod that
joins both knuckles and nothing else holds neither of them. For knuckles whatever carries their balls is
held still, so that a missing shock does not count against the tie rod.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from operator import attrgetter

import numpy as np

from strength.case.model import Case, Vector
from strength.case.places import other_side
from strength.case.trade.bodies import Array, Bodies, bodies_of
from strength.case.trade.names import suffixed
from strength.case.trade.parts import Knuckle, Part, Wishbone
from strength.values import frozen


@frozen(kw_only=True)
class _Joint:
    """A trade part that could turn about an axis, the row that gives its turning, what it turns on."""

    part: Part
    name: str
    turning: Array
    carriers: tuple[int, ...]


# of each field of a case what is looked at here
_LOOKED_AT = (
    ("points", attrgetter("name", "at")),
    ("members", attrgetter("name", "start", "end", "via", "from_end", "to_end", "hinge_axis")),
    ("struts", attrgetter("path", "start", "end")),
    ("supports", attrgetter("at", "hold")),
)


def linkage(case: Case, parts: Iterable[Part], *, mirror: bool) -> object:
    """All that `loose` goes by: two cases with the same are told the same."""
    typed = [(type(part), part.name, part.path) for part in parts]
    return mirror, typed, [[seen(each) for each in getattr(case, name)] for name, seen in _LOOKED_AT]


def loose(case: Case, parts: Iterable[Part], *, mirror: bool) -> list[tuple[str, str]]:
    """Path and text for each knuckle or wishbone that can move freely, both sides looked at.

    case: finished, both sides. parts: as typed.
    """
    listed = list(parts)
    if not any(isinstance(part, Wishbone | Knuckle) for part in listed):
        return []
    hanging = list(_hanging(case, listed, mirror=mirror))
    if hanging:
        return hanging
    bodies = bodies_of(case)
    wishbones = list(_wishbones(case, listed, bodies, mirror=mirror))
    found = []
    held = bodies.held()
    for joint in wishbones:
        if held.moves(joint.turning):
            why = (
                f"no shock: nothing keeps {joint.name} from swinging about its pivots; add a strut from it, "
            )
            found.append((joint.part.path, why + "or from a bracket on it, to a part that is held"))
    knuckles = list(_knuckles(case, listed, bodies, mirror=mirror))
    carriers = {body for joint in knuckles for body in joint.carriers}
    held = bodies.held(row for body in sorted(carriers) for row in bodies.still(body))
    for joint in knuckles:
        if held.moves(joint.turning):
            why = f"no tie rod: nothing keeps {joint.name} from turning about the line of its balls; add "
            found.append((joint.part.path, why + "a strut from a steering arm on it to a part that is held"))
    return found


def _hanging(case: Case, parts: Iterable[Part], *, mirror: bool) -> Iterator[tuple[str, str]]:
    """Pivots and ends of struts that meet nothing: told alone, what they hold hangs too."""
    legs = {member.name: member for member in case.members}
    used: Counter[str] = Counter()
    for member in case.members:
        used.update({member.start, member.end, *member.via})
    used.update(name for strut in case.struts for name in {strut.start, strut.end})
    used.update(support.at for support in case.supports)
    for part in parts:
        for name in _sides(part.name, mirror=mirror) if isinstance(part, Wishbone) else ():
            for which in ("front", "rear"):
                leg = legs.get(suffixed(name, f"-{which}"))
                if leg is not None and used[leg.start] == 1:
                    yield part.path, _MEETS_NOTHING.format(end=f"its {which} pivot", at=leg.start)
    for strut in case.struts:
        for at in (strut.start, strut.end):
            if used[at] == 1:
                yield strut.path, _MEETS_NOTHING.format(end="its end", at=at)


_MEETS_NOTHING = (
    "{end} {at!r} meets no other part: let a member of the frame end there, or put {at!r} in the `via` "
    "of the one that passes"
)


def _sides(name: str, *, mirror: bool) -> tuple[str, ...]:
    return (name, other_side(name)) if mirror and name.endswith(".left") else (name,)


def _axis(places: dict[str, Vector], start: str, end: str) -> Array:
    """Unit direction from one point to another; nothing where they are the same place."""
    way = np.array(places[end], dtype=np.float64) - np.array(places[start], dtype=np.float64)
    size = float(np.linalg.norm(way))
    return np.asarray(way / size if size > 0.0 else way, dtype=np.float64)


def _wishbones(case: Case, parts: Iterable[Part], bodies: Bodies, *, mirror: bool) -> Iterator[_Joint]:
    """Wishbones whose legs are both there and free to turn at their pivots."""
    places = {point.name: point.at for point in case.points}
    members = {member.name: member for member in case.members}
    for part in parts:
        for name in _sides(part.name, mirror=mirror) if isinstance(part, Wishbone) else ():
            front, rear = (members.get(suffixed(name, suffix)) for suffix in ("-front", "-rear"))
            if front is None or rear is None or "fixed" in (front.from_end, rear.from_end):
                continue
            axis = _axis(places, rear.start, front.start)
            own, held = bodies.of_member[front.name], bodies.of_point[front.start]
            turning = bodies.turning(own, axis) - bodies.turning(held, axis)
            yield _Joint(part=part, name=name, turning=turning, carriers=(held,))


def _knuckles(case: Case, parts: Iterable[Part], bodies: Bodies, *, mirror: bool) -> Iterator[_Joint]:
    """Knuckles whose plate is there, turning against what carries the lower ball."""
    places = {point.name: point.at for point in case.points}
    members = {member.name: member for member in case.members}
    for part in parts:
        for name in _sides(part.name, mirror=mirror) if isinstance(part, Knuckle) else ():
            plate = members.get(name)
            if plate is None:
                continue
            steps = [members.get(suffixed(name, suffix)) for suffix in ("-low-step", "-high-step")]
            lower = plate.start if steps[0] is None else steps[0].start
            upper = plate.end if steps[1] is None else steps[1].start
            axis = _axis(places, lower, upper)
            own, carriers = bodies.of_member[name], (bodies.of_point[lower], bodies.of_point[upper])
            if own not in carriers:
                turning = bodies.turning(own, axis) - bodies.turning(carriers[0], axis)
                yield _Joint(part=part, name=name, turning=turning, carriers=carriers)
