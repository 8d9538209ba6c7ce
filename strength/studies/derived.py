"""Designs that differ in one section, made without reading the case anew for each.

Reading a case takes as long as evaluating some designs, and a section moves little in it: the shapes of
the parts cut from it, insets of welds on their faces, legs that go by their walls. These follow rules that
the reader has too. A few designs are read in full, so that the least and the greatest of each size are among
them; only where the rules give the very same cases, and the case as it stands, are the others made by them.

What the reader refuses for one size of a section, it refuses up to some size or from it on: those read show
it. What it refuses for two sizes together (no strength of a wall at a diameter, a bore too narrow for
the tube in it) is asked for each design, and one that is refused is left to the reader.
"""

import math
from collections.abc import Sequence

from strength.case.checking.joints import fits_in
from strength.case.defaults import LEG_STEP
from strength.case.model import Case, Member, Plate, Sleeve, Weld
from strength.case.shape import Shape, Tube
from strength.case.trade.axes import face_distance, member_axes, wall
from strength.case.trade.vector import distance, minus, unit
from strength.case.trade.wishbone import across
from strength.errors import RangeError, StrengthError
from strength.studies.makeup import FIELDS
from strength.studies.typed import Edit, TypedCase
from strength.values import evolve

PROBES = 3  # designs that are read anyway; one more pays for rules
Made = list[Case | StrengthError]
Known = dict[int, Case | StrengthError]  # by the number of the design
REST = ("struts", "loads", "masses", "wheels", "tows", "leaning")


def cases_of(file: TypedCase, every: Sequence[tuple[Edit, ...]], shapes: Sequence[Shape | None]) -> Made:
    """The case with each set of edits, or why it cannot be built.

    shapes: the section that each set of edits is about; None where it is about something else.
    """
    count = len(every)
    if count <= PROBES or any(shape is None for shape in shapes):
        return [_read(file, edits) for edits in every]
    known = {n: _read(file, every[n]) for n in sorted(_extremes(shapes))}
    if not _known_between(file.case, known, shapes):
        known[count // 2] = _read(file, every[count // 2])
    rules = _rules(file.case, known, shapes)
    if rules is None:
        return [known[n] if n in known else _read(file, edits) for n, edits in enumerate(every)]
    found: Made = []
    for n, shape in enumerate(shapes):
        made = None if shape is None else rules.case(shape)
        found.append(known[n] if n in known else _read(file, every[n]) if made is None else made)
    return found


def _read(file: TypedCase, edits: tuple[Edit, ...]) -> Case | StrengthError:
    try:
        return file.changed_case(edits)
    except StrengthError as error:
        return error


def _extremes(shapes: Sequence[Shape | None]) -> set[int]:
    """The first and the last design, and others until the greatest and the least of each size are there."""
    found = {0, len(shapes) - 1}
    sizes = [[float(value) for value in vars(shape).values()] for shape in shapes if shape is not None]
    if len({len(row) for row in sizes}) == 1:
        for column in zip(*sizes, strict=True):
            for size in (min(column), max(column)):
                if all(column[n] != size for n in found):
                    found.add(column.index(size))
    return found


def _known_between(
    base: Case, known: dict[int, Case | StrengthError], shapes: Sequence[Shape | None]
) -> bool:
    """Whether the case as it stands has one section where designs differ, and none of those already read."""
    read = [case for case in known.values() if isinstance(case, Case)]
    now = _now(base, _changed(base, read, "members"), _changed(base, read, "struts"))
    return len(now) == 1 and now.isdisjoint(shapes[n] for n in known)


def _changed(base: Case, read: Sequence[Case], name: str) -> frozenset[int]:
    """Numbers of the members, or struts, in which some case differs."""
    pairs = (zip(getattr(base, name), getattr(case, name), strict=False) for case in read)
    return frozenset(n for each in pairs for n, (old, new) in enumerate(each) if old != new)


def _now(base: Case, members: frozenset[int], struts: frozenset[int]) -> set[Shape | None]:
    """Sections of some parts as they stand."""
    return {base.members[n].shape for n in members} | {base.struts[n].shape for n in struts}


class _Rules:
    """What follows the section in a case, and how."""

    def __init__(self, base: Case, members: frozenset[int], struts: frozenset[int]) -> None:
        self.base, self.members, self.struts = base, members, struts
        self.at = {point.name: point.at for point in base.points}
        self.number = {member.name: n for n, member in enumerate(base.members)}
        self.follows: dict[int, tuple[bool, str]] = {}  # weld -> (its leg goes by walls, its inset by what)
        parts = [base.members[n] for n in members] + [base.struts[n] for n in struts]
        self.metals = [base.metals[name] for name in {part.material for part in parts}]
        own = {base.members[n].name for n in members}
        self.sleeves = [each for each in base.sleeves if own.intersection((each.member, each.outer))]

    def case(self, shape: Shape) -> Case | None:
        """The case with the section; None where it must be read."""
        if not self._strong(shape):
            return None
        members = tuple(
            evolve(member, shape=shape) if n in self.members else member
            for n, member in enumerate(self.base.members)
        )
        struts = tuple(
            evolve(strut, shape=shape) if n in self.struts else strut
            for n, strut in enumerate(self.base.struts)
        )
        if not all(self._fits(members, sleeve) for sleeve in self.sleeves):
            return None
        welds = list(self.base.welds)
        for n, (by_walls, inset) in self.follows.items():
            made = self._weld(members, welds[n], inset, by_walls=by_walls)
            if made is None:
                return None
            welds[n] = made
        return evolve(self.base, members=members, struts=struts, welds=tuple(welds))

    def _strong(self, shape: Shape) -> bool:
        """Whether the strength of each metal at this section is known."""
        thickness, diameter = wall(shape), shape.od if isinstance(shape, Tube) else None
        if thickness is None:
            return True
        try:
            for metal in self.metals:
                metal.strength(thickness, diameter)
        except RangeError:
            return False
        return True

    def _fits(self, members: tuple[Member, ...], sleeve: Sleeve) -> bool:
        """Whether the inner tube of a sleeve goes into the outer one."""
        inner, outer = (
            each if isinstance(each, Tube) else members[self.number[str(each)]].shape
            for each in (sleeve.member, sleeve.outer)
        )
        return isinstance(inner, Tube) and isinstance(outer, Tube) and fits_in(inner, outer)

    def _weld(self, members: tuple[Member, ...], weld: Weld, inset: str, *, by_walls: bool) -> Weld | None:
        own = members[self.number[weld.member]]
        host = members[self.number[weld.onto]] if isinstance(weld.onto, str) else None
        start, end = self.at[own.start], self.at[own.end]
        length: float | None = weld.inset
        if inset == "face" and host is not None:
            axes = member_axes(self.at[host.start], self.at[host.end], host.up)
            length = None if axes is None else face_distance(host.shape, axes, unit(minus(end, start)))
        elif inset == "width":
            length = across(own.shape)
        if length is None or length >= distance(start, end):
            return None
        leg = weld.leg
        if by_walls:
            walls = [wall(each.shape) for each in (own, host) if each is not None]
            if isinstance(weld.onto, Plate):
                walls.append(weld.onto.thickness)
            known = [each for each in walls if each is not None]
            if not known:
                return None
            leg = math.ceil(min(known) / LEG_STEP - 1e-9) * LEG_STEP
        return evolve(weld, inset=length, leg=leg)


def _rules(base: Case, known: Known, shapes: Sequence[Shape | None]) -> _Rules | None:
    """Rules that give the known cases to the last bit; None where there are none."""
    read = {n: case for n, case in known.items() if isinstance(case, Case)}
    if len(read) < len(known):
        return None  # some cannot be built: where that begins is for the reader to say
    changed, struts = (_changed(base, list(read.values()), name) for name in ("members", "struts"))
    rules = _Rules(base, changed, struts)
    named = {base.members[n].name for n in changed}
    for n, weld in enumerate(base.welds):
        if weld.member in named or weld.onto in named:
            legs = {case.welds[n].leg for case in read.values() if len(case.welds) > n} | {weld.leg}
            insets = {case.welds[n].inset for case in read.values() if len(case.welds) > n} | {weld.inset}
            by = "" if len(insets) == 1 else "face" if weld.onto in named else "width"
            if len(legs) > 1 or by:
                rules.follows[n] = (len(legs) > 1, by)
    now = _now(base, changed, struts)
    probes = [(shapes[n], case) for n, case in read.items()]
    probes += [(shape, base) for shape in now if len(now) == 1]
    for shape, case in probes:
        made = None if shape is None else rules.case(shape)
        if made is None or not same(made, case):
            return None
    return rules


def same(made: Case, case: Case) -> bool:
    """Whether two cases give the same figures."""
    names = ("members", "welds", *FIELDS, *REST)
    return all(getattr(made, name) == getattr(case, name) for name in names)
