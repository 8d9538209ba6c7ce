"""Which designs are of one make-up: alike but for sizes of sections and for what loads them."""

from collections.abc import Sequence
from operator import attrgetter
from typing import Any

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Member, Strut, Weld
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


MAKE = {made: _without(made, "shape", "path") for made in (Member, Strut)}
WELD, WELD_AND_INSET = _without(Weld, "leg", "inset", "path"), _without(Weld, "leg", "path")


def grouped(cases: Sequence[Case]) -> list[NDArray[np.intp]]:
    """Numbers of the cases of each make-up, in the order of the first of each."""
    keys: list[list[Any]] = []
    found: list[list[int]] = []
    for n, case in enumerate(cases):
        key = _key(case)
        for known, own in zip(keys, found, strict=True):
            if known == key:
                own.append(n)
                break
        else:
            keys.append(key)
            found.append([n])
    return [np.array(own, dtype=np.intp) for own in found]


def _key(case: Case) -> list[Any]:
    """What designs of one batch have in common."""
    parts: tuple[Member | Strut, ...] = (*case.members, *case.struts)
    return [
        len(case.members),
        [_make(part) for part in parts],
        _equals(case),
        _flats(parts),
        _welds(case),
        [(load.name, load.severity) for load in case.loads],
        [wheel.name for wheel in case.wheels],
        *(getattr(case, name) for name in FIELDS),
    ]


def _make(part: Member | Strut) -> Any:
    """A part without its sizes."""
    kind: type | Shape | None = type(part.shape) if isinstance(part.shape, SIZED) else part.shape
    return kind, MAKE[type(part)](part)


def _welds(case: Case) -> list[Any]:
    """Welds without their legs and insets; those of flats with their insets, which bound a strip's length."""
    flats = {member.name for member in case.members if isinstance(member.shape, Flat)}
    return [
        (WELD_AND_INSET if weld.member in flats or weld.onto in flats else WELD)(weld) for weld in case.welds
    ]


def _flats(parts: Sequence[Member | Strut]) -> list[Flat]:
    return [part.shape for part in parts if isinstance(part.shape, Flat)]


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


def _equals(case: Case) -> list[tuple[int, int]]:
    """Pairs of members of one section that share an end: they may act as one buckling length."""
    at: dict[str, list[int]] = {}
    for n, member in enumerate(case.members):
        for name in (member.start, member.end):
            at.setdefault(name, []).append(n)
    return [
        (own[0], own[1])
        for own in at.values()
        if len(own) == 2 and case.members[own[0]].shape == case.members[own[1]].shape
    ]
