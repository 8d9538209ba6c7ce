"""Which designs are of one make-up: alike but for sizes of sections and for what loads them."""

from collections.abc import Callable, Sequence
from operator import attrgetter
from typing import Any

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Load, Member, Strut, Weld
from strength.case.shape import Flat, Shape
from strength.sections.sizes import SIZED, Sizes
from strength.values import fields

FIELDS = (
    "points", "supports", "bolts", "studs", "holes", "shoulders", "sleeves", "clamps", "dropouts", "basis",
    "road", "metals", "fillers",
)  # fmt: skip


def _without(made: type, *names: str) -> "attrgetter[tuple[Any, ...]]":
    """Everything of a value but some fields."""
    return attrgetter(*(field.name for field in fields(made) if field.name not in names))


HELD = attrgetter(*FIELDS)
MAKE = {made: _without(made, "shape", "path") for made in (Member, Strut)}
WELD, WELD_AND_INSET = _without(Weld, "leg", "inset", "path"), _without(Weld, "leg", "path")


def grouped(cases: Sequence[Case]) -> list[NDArray[np.intp]]:
    """Numbers of the cases of each make-up, in the order of the first of each."""
    found: list[tuple[_MakeUp, list[int]]] = []
    for n, case in enumerate(cases):
        for known, own in found:
            if known.has(case):
                own.append(n)
                break
        else:
            found.append((_MakeUp(case), [n]))
    return [np.array(own, dtype=np.intp) for _, own in found]


class _MakeUp:
    """What designs of one batch have in common with the first of them.

    Most designs share most of their parts, and a part is alike with itself without a closer look.
    """

    def __init__(self, case: Case) -> None:
        self.case = case
        self.fields = HELD(case)
        self.flats = {member.name for member in case.members if isinstance(member.shape, Flat)}
        self.pairs = _pairs(case)
        self.equal = [_equal(case, pair) for pair in self.pairs]

    def has(self, case: Case) -> bool:
        """Whether a case is of it."""
        own = self.case
        return (
            all(mine is its or mine == its for mine, its in zip(self.fields, HELD(case), strict=True))
            and _all(_alike, own.members, case.members)
            and _all(_alike, own.struts, case.struts)
            and self._pairs_alike(case)
            and _all(self._welded_alike, own.welds, case.welds)
            and _all(_loading_alike, own.loads, case.loads)
            and _all(lambda one, other: one.name == other.name, own.wheels, case.wheels)
        )

    def _pairs_alike(self, case: Case) -> bool:
        """Whether those pairs of members that are of one section here are so in a case."""
        changed = {
            n
            for n, (own, its) in enumerate(zip(self.case.members, case.members, strict=True))
            if own is not its
        }
        return all(
            _equal(case, pair) == equal
            for pair, equal in zip(self.pairs, self.equal, strict=True)
            if not changed.isdisjoint(pair)
        )

    def _welded_alike(self, one: Weld, other: Weld) -> bool:
        """But for legs and insets; those of flats with their insets, which bound a strip's length."""
        made = WELD_AND_INSET if one.member in self.flats or one.onto in self.flats else WELD
        return made(one) == made(other)


def _all(alike: Callable[[Any, Any], bool], ours: Sequence[Any], theirs: Sequence[Any]) -> bool:
    """Whether there are as many, and each is alike."""
    if ours is theirs:
        return True
    pairs = zip(ours, theirs, strict=False)
    return len(ours) == len(theirs) and all(one is other or alike(one, other) for one, other in pairs)


def _alike(one: Member | Strut, other: Member | Strut) -> bool:
    """Whether two parts differ in nothing but the sizes of a section, a flat not even in these."""
    sized = isinstance(one.shape, SIZED) and not isinstance(one.shape, Flat)
    same = type(one.shape) is type(other.shape) if sized else one.shape == other.shape
    return same and MAKE[type(one)](one) == MAKE[type(other)](other)


def _loading_alike(one: Load, other: Load) -> bool:
    return (one.name, one.severity) == (other.name, other.severity)


def _pairs(case: Case) -> list[tuple[int, int]]:
    """Pairs of members that share an end with each other alone: of one section they may buckle as one."""
    at: dict[str, list[int]] = {}
    for n, member in enumerate(case.members):
        for name in (member.start, member.end):
            at.setdefault(name, []).append(n)
    return [(own[0], own[1]) for own in at.values() if len(own) == 2]


def _equal(case: Case, pair: tuple[int, int]) -> bool:
    """Whether two members are of one section."""
    one, other = pair
    return case.members[one].shape == case.members[other].shape


def by_flats(shapes: Sequence[Shape | None], sizes: Sizes) -> list[NDArray[np.intp]]:
    """Numbers of the designs with the same flats, in the order of the first of each.

    Flats of several proportions side by side share one torsion field, which is a little less exact; and
    whether a flat is a strip is judged once for all.
    """
    flats = [n for n, shape in enumerate(shapes) if isinstance(shape, Flat)]
    sides = np.concatenate([sizes.depth[:, flats], sizes.width[:, flats]], axis=1)
    if not flats or np.all(sides == sides[:1]):
        return [np.arange(sizes.wall.shape[0])]
    _, inverse = np.unique(sides, axis=0, return_inverse=True)
    inverse = inverse.reshape(-1)
    sets = [np.flatnonzero(inverse == n) for n in range(int(inverse.max()) + 1)]
    return sorted(sets, key=lambda own: int(own[0]))
