"""The places of one bar that stresses are looked at, and what a builder would call them."""

from functools import cached_property
from operator import attrgetter
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut, Weld
from strength.values import evolve, frozen

if TYPE_CHECKING:
    from strength.frame.response import Layout
    from strength.joints.heat import HeatLength

Array = NDArray[np.float64]
NEAR = 1e-6  # mm: closer places are one
Gaps = tuple[tuple[int, float], ...]


@frozen(kw_only=True, eq=False)
class Place:
    """One station of a bar, `at` [mm from `from`] (designs,)."""

    bar: int
    at: Array
    later: int
    label: str
    gaps: Gaps = ()  # (hole, breadth in the plane across the bar [mm])
    shoulder: int = -1

    @cached_property
    def first(self) -> float:
        """Where it is in the first design."""
        return float(self.at[0])


def every_place(
    case: Case, layout: "Layout", heat: "tuple[HeatLength, ...]", insets: "Array | None" = None
) -> list[Place]:
    """Places of all bars, those of one bar in order; a via point has two, one on either side.

    insets: of all welds (designs, welds) [mm] where designs differ in them.
    """
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    heats: dict[int, list[HeatLength]] = {}
    for each in heat:
        heats.setdefault(each.bar, []).append(each)
    welds: dict[str, list[tuple[int, Weld]]] = {}
    for n, weld in enumerate(case.welds):
        welds.setdefault(weld.member, []).append((n, weld))
    weaker = {*(hole.member for hole in case.holes), *(shoulder.member for shoulder in case.shoulders)}
    out: list[Place] = []
    for number, (part, length) in enumerate(zip(parts, layout.bar_length.tolist(), strict=True)):
        first, last = int(layout.first[number]), int(layout.last[number])
        cuts = layout.along[first:last, 1]  # via points
        found = [_plain(number, 0.0, 0, f"at {part.start}"), _plain(number, length, 0, f"at {part.end}")]
        for at, segment in zip(cuts.tolist(), range(first, last), strict=True):
            label = f"at {layout.names[layout.end[segment]]}"
            found += [_plain(number, at, later, label) for later in (0, 1)]
        if part.name in weaker and isinstance(part, Member):
            own = _holes(case, part, number, length, cuts) + _shoulders(case, part, number, length, cuts)
            # the whole section at the same place can be no worse
            found = [place for place in found if not _is_known(place.at, own)] + own
        if isinstance(part, Member):
            found += _insets(welds.get(part.name, []), part, number, length, found, insets)
        found += _heat_ends(part.start, part.end, number, length, heats.get(number, []), found)
        out += sorted(found, key=attrgetter("first", "later"))
    return out


def _plain(bar: int, at: float, later: int, label: str) -> Place:
    return Place(bar=bar, at=np.array([at]), later=later, label=label)


def _sides(at: float, cuts: Array) -> tuple[int, ...]:
    """Both sides where a place falls on a via point, since the forces jump there."""
    return (0, 1) if np.any(np.abs(cuts - at) < NEAR) else (0,)


def _holes(case: Case, member: Member, bar: int, length: float, cuts: Array) -> list[Place]:
    own = [(n, hole) for n, hole in enumerate(case.holes) if hole.member == member.name]
    found = []
    for _, hole in own:
        # the plane across the bar through this hole also cuts its neighbours, along a chord
        gaps = []
        for m, other in own:
            chord = other.diameter**2 - 4.0 * ((other.along - hole.along) * length) ** 2
            if chord > 0.0:
                gaps.append((m, float(np.sqrt(chord))))
        at = hole.along * length
        found += [evolve(_plain(bar, at, later, hole.name), gaps=tuple(gaps)) for later in _sides(at, cuts)]
    return found


def _shoulders(case: Case, member: Member, bar: int, length: float, cuts: Array) -> list[Place]:
    found = []
    for n, shoulder in enumerate(case.shoulders):
        if shoulder.member == member.name:
            at = shoulder.inset if shoulder.end == "from" else length - shoulder.inset
            found += [evolve(_plain(bar, at, later, shoulder.name), shoulder=n) for later in _sides(at, cuts)]
    return found


def _insets(
    welds: list[tuple[int, Weld]],
    member: Member,
    bar: int,
    length: float,
    known: list[Place],
    insets: "Array | None",
) -> list[Place]:
    found: list[Place] = []
    for n, weld in welds:
        inset = np.array([weld.inset]) if insets is None else insets[:, n]
        at = inset if weld.end == "from" else length - inset
        if not _is_known(at, [*known, *found]):
            away = _away(float(at[0]), length, member.start, member.end)
            found.append(Place(bar=bar, at=at, later=0, label=f"{away}, {weld.name}"))
    return found


def _heat_ends(
    start: str, end: str, bar: int, length: float, heat: "list[HeatLength]", known: list[Place]
) -> list[Place]:
    found: list[Place] = []
    for part in heat:
        for at in (part.start, part.end):
            if np.any(part.end > part.start) and not _is_known(at, [*known, *found]):
                away = _away(float(at[0]), length, start, end)
                label = f"{away}, edge of the heat from {part.weld}"
                found.append(Place(bar=bar, at=at, later=0, label=label))
    return found


def _is_known(at: Array, known: list[Place]) -> bool:
    first = float(at[0])  # of the first design: mostly that settles it
    return any(
        abs(place.first - first) < NEAR and bool((np.abs(place.at - at) < NEAR).all()) for place in known
    )


def _away(at: float, length: float, start: str, end: str) -> str:
    """How a builder finds a place: from the nearer end.

    >>> _away(12.0, 100.0, "pivot", "ball"), _away(91.5, 100.0, "pivot", "ball")
    ('12 mm from pivot', '8.5 mm from ball')
    """
    near, name = (at, start) if at <= length / 2.0 else (length - at, end)
    return f"{round(near, 1):g} mm from {name}"
