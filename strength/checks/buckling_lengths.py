"""Buckling lengths: single parts, and collinear members that act as one."""

from collections import defaultdict

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut
from strength.frame.response import Layout
from strength.sections.bars import Bars
from strength.sections.matrices import STRESSED
from strength.values import frozen

COS_COLLINEAR = float(np.cos(np.radians(1.0)))  # members within 1 degree are one line (own choice)
Array = NDArray[np.float64]
End = tuple[int, bool]  # bar, True at its `to`


@frozen(kw_only=True)
class Link:
    """One part of a buckling length: its `from` at `offset` [mm] along it, `turned` if it runs backward."""

    bar: int
    offset: float
    turned: bool


@frozen(kw_only=True)
class BucklingLength:
    """Parts that buckle together; `length` L from end to end [mm] and the factor K."""

    links: tuple[Link, ...]
    length: float
    factor: float
    start: str
    end: str

    def place(self, bar: int, at: Array) -> Array:
        """Place along the whole of a place `at` [mm from `from`] of one of its bars, length `bar_length`."""
        link = next(link for link in self.links if link.bar == bar)
        return link.offset - at if link.turned else link.offset + at


@frozen(kw_only=True, eq=False)
class _Ends:
    """What meets at every point."""

    every: tuple[Member | Strut, ...]  # members, then struts
    members: dict[str, list[End]]
    parts: dict[str, set[int]]  # members, by their via points too, and struts
    supported: frozenset[str]


def buckling_lengths(case: Case, layout: Layout, bars: Bars) -> dict[int, BucklingLength]:
    """The buckling length of every bar with a section, by bar number.

    From `from` to `to`; longer where collinear members of one section, material and `up` meet,
    both fixed, at points to which otherwise only struts or loads attach. K = 1; 2 where one end carries no
    other part and no support; the greatest `buckling_factor` where given (own choice).
    """
    ends = _ends(case)
    found: dict[int, BucklingLength] = {}
    for number, shape in enumerate(bars.shapes):
        if isinstance(shape, STRESSED) and number not in found:
            whole = _whole(case, layout, ends, number)
            found.update(dict.fromkeys((link.bar for link in whole.links), whole))
    return found


def _ends(case: Case) -> _Ends:
    members: dict[str, list[End]] = defaultdict(list)
    parts: dict[str, set[int]] = defaultdict(set)
    every: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    for number, part in enumerate(every):
        via = part.via if isinstance(part, Member) else ()
        for name in (part.start, *via, part.end):
            parts[name].add(number)
        if isinstance(part, Member):
            members[part.start].append((number, False))
            members[part.end].append((number, True))
    supported = frozenset(support.at for support in case.supports)
    return _Ends(every=every, members=members, parts=parts, supported=supported)


def _whole(case: Case, layout: Layout, ends: _Ends, number: int) -> BucklingLength:
    before = _beyond(case, layout, ends, (number, False))
    after = _beyond(case, layout, ends, (number, True))
    # before: walking away from this bar's `from`; turned about, so that all run one way
    run = [(bar, not leaves_by_to) for bar, leaves_by_to in reversed(before)]
    run += [(number, True), *after]
    links, length = [], 0.0
    for bar, forward in run:
        own = float(layout.bar_length[bar])
        links.append(Link(bar=bar, offset=length if forward else length + own, turned=not forward))
        length += own
    first, last = _end_name(ends, run[0], far=False), _end_name(ends, run[-1], far=True)
    return BucklingLength(
        links=tuple(links),
        length=length,
        factor=_factor(ends, {bar for bar, _ in run}, (first, last)),
        start=first,
        end=last,
    )


def _end_name(ends: _Ends, step: tuple[int, bool], *, far: bool) -> str:
    part = ends.every[step[0]]
    return part.end if step[1] == far else part.start


def _factor(ends: _Ends, own: set[int], names: tuple[str, str]) -> float:
    carried = all(ends.parts[name] - own or name in ends.supported for name in names)
    default = 1.0 if carried else 2.0
    given = [ends.every[bar].buckling_factor for bar in own]
    return max(default if factor is None else factor for factor in given)


def _beyond(case: Case, layout: Layout, ends: _Ends, leaving: End) -> list[tuple[int, bool]]:
    """Members joined beyond one end of a bar: (bar, True where walked from `from` to `to`)."""
    found: list[tuple[int, bool]] = []
    while (following := _following(case, layout, ends, leaving)) is not None:
        bar, entered_by_to = following
        found.append((bar, not entered_by_to))
        leaving = (bar, not entered_by_to)
    return found


def _following(case: Case, layout: Layout, ends: _Ends, leaving: End) -> End | None:
    number, by_to = leaving
    part = ends.every[number]
    name = part.end if by_to else part.start
    meeting = ends.members.get(name, [])
    if not isinstance(part, Member) or len(meeting) != 2 or name in ends.supported:
        return None
    other = meeting[1] if meeting[0] == leaving else meeting[0]
    mate = case.members[other[0]]
    crossing = any(bar < len(case.members) and bar not in (number, other[0]) for bar in ends.parts[name])
    if crossing or other[0] == number or (part.shape, part.material) != (mate.shape, mate.material):
        return None
    if not (_is_fixed(part, by_to) and _is_fixed(mate, other[1])):
        return None
    one, two = _axes(layout, leaving), _axes(layout, other)
    along = float(one[0] @ two[0]) * (1.0 if by_to != other[1] else -1.0)
    return other if along >= COS_COLLINEAR and float(one[2] @ two[2]) >= COS_COLLINEAR else None


def _is_fixed(member: Member, by_to: bool) -> bool:
    return (member.to_end if by_to else member.from_end) == "fixed"


def _axes(layout: Layout, end: End) -> Array:
    found: Array = layout.axes[layout.last[end[0]] if end[1] else layout.first[end[0]]]
    return found
