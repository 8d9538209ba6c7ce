"""The structure as lines in space: parts, joints and wheels with how each stands."""

import math
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut, Wheel
from strength.case.shape import Rigid
from strength.report.parts import joints_of
from strength.report.sides import Folded, PartLine
from strength.report.standing import Standing
from strength.values import frozen

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

Array = NDArray[np.float64]
ROUND = 48  # corners of a drawn wheel
MEMBERS = ("tube", "bar", "box", "plate", "part")


@frozen(kw_only=True, eq=False)
class Stroke:
    """One line or mark: a part between two places, a joint at one, a wheel's rim.

    kind: part | strut | joint | wheel | rigid. standing None: nothing of it is checked.
    tag: its number in the list of the worst, 0 for none.
    """

    kind: str
    name: str
    places: Array  # (places, 3) mm, body axes
    standing: Standing | None
    utilisation: float | None
    tag: int = 0


def outline(case: Case, folded: Folded, tagged: "Sequence[PartLine]") -> tuple[Stroke, ...]:
    """All strokes; those that stand worst come last, so that they lie on top."""
    tags = {id(line): number for number, line in enumerate(tagged, start=1)}
    found = []
    for kind, name, nouns, places in _places(case):
        line = next((folded.by_part[name, noun] for noun in nouns if (name, noun) in folded.by_part), None)
        found.append(
            Stroke(
                kind=kind,
                name=name,
                places=places,
                standing=None if line is None else line.standing,
                utilisation=None if line is None else line.worst.utilisation,
                tag=tags.get(id(line), 0) if line is not None and line.part == name else 0,
            )
        )
    order = [None, *reversed(Standing)]
    return tuple(sorted(found, key=lambda one: (one.kind == "joint", order.index(one.standing))))


def _places(case: Case) -> "Iterator[tuple[str, str, tuple[str, ...], Array]]":
    """Kind, name, what it may be called, and places of everything that is drawn."""
    at = {point.name: np.array(point.at) for point in case.points}
    for wheel in case.wheels:
        yield "wheel", wheel.name, (), _rim(wheel, at)
    for member in case.members:
        kind = "rigid" if isinstance(member.shape, Rigid) else "part"
        yield kind, member.name, MEMBERS, np.array([at[member.start], at[member.end]])
    for strut in case.struts:
        yield "strut", strut.name, ("strut",), np.array([at[strut.start], at[strut.end]])
    parts: list[Member | Strut] = [*case.members, *case.struts]
    ends = {part.name: (at[part.start], at[part.end]) for part in parts}
    for noun, joints in joints_of(case):
        for joint in joints:
            start, end = ends[joint.member]
            place, far = (start, end) if joint.end == "from" else (end, start)
            yield "joint", joint.name, (noun,), _along(place, far, getattr(joint, "inset", 0.0))[None]


def _along(place: Array, far: Array, distance: float) -> Array:
    """A place some way along a part."""
    length = float(np.linalg.norm(far - place))
    return place if length == 0.0 else place + (far - place) * (distance / length)


def _rim(wheel: Wheel, at: dict[str, Array]) -> Array:
    """The rim of a wheel as a closed line around its axle."""
    axle = np.array(wheel.axle) / np.linalg.norm(wheel.axle)
    helper = np.array((0.0, 0.0, 1.0)) if abs(axle[2]) < 0.9 else np.array((1.0, 0.0, 0.0))
    one = np.cross(axle, helper)
    one /= np.linalg.norm(one)
    two = np.cross(axle, one)
    turns = np.linspace(0.0, 2.0 * math.pi, ROUND + 1)[:, None]
    rim: Array = at[wheel.centre] + wheel.radius * (np.cos(turns) * one + np.sin(turns) * two)
    return rim
