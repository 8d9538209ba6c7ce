"""The structure as stiff bodies on joints: what can move without bending anything, to first order."""

import math
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross
from strength.case.model import Case, Member, Vector
from strength.values import frozen

Array = NDArray[np.float64]
Way = Sequence[float] | Array
AXES: tuple[Way, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
SCALE = 100.0  # mm: rotations count as the movement they make at this distance
NULL = 1e-9  # of the largest term; a condition with no more left than that says nothing new
MOVES = 1e-6  # what is more than rounding in a row of unit size


@frozen(kw_only=True)
class Bodies:
    """Stiff bodies and the conditions their joints set.

    of_point, of_member: which body a point or member belongs to. rows: (conditions, 6 * bodies), each
    body with its velocity at the origin [mm] and its rotation [SCALE mm]; `rows @ motion = 0`.
    """

    of_point: dict[str, int]
    of_member: dict[str, int]
    rows: Array
    count: int

    def turning(self, body: int, about: Array) -> Array:
        """Row that gives a body's rotation about a direction."""
        row = np.zeros(6 * self.count)
        row[6 * body + 3 : 6 * body + 6] = about
        return row

    def still(self, body: int) -> list[Array]:
        """Rows that hold a body altogether."""
        return list(np.eye(6 * self.count)[6 * body : 6 * body + 6])

    def held(self, more: Iterable[Array] = ()) -> "Held":
        """What the conditions hold, with further rows held as well."""
        return Held(np.vstack([self.rows, *more]))


class Held:
    """Motions that conditions leave no room for: rows in their row space.

    By elimination with full pivoting, for a matrix too small for a library call to pay.
    """

    def __init__(self, rows: Array) -> None:
        work = rows.copy()
        least = NULL * max(float(np.max(np.abs(work))), 1.0)
        self._pivots: list[int] = []
        for k in range(min(work.shape)):
            row, column = divmod(int(np.argmax(np.abs(work[k:]))), work.shape[1])
            if abs(work[k + row, column]) <= least:
                break
            work[[k, k + row]] = work[[k + row, k]]
            work[k] /= work[k, column]
            work[k + 1 :] -= work[k + 1 :, column, None] * work[k]
            self._pivots.append(column)
        self._rows = work

    def moves(self, row: Array) -> bool:
        """Whether some motion that meets every condition changes what a row gives."""
        left = row.copy()
        for k, column in enumerate(self._pivots):
            left -= left[column] * self._rows[k]
        return bool(np.max(np.abs(left)) > MOVES)


def bodies_of(case: Case) -> Bodies:
    """Members joined by fixed ends as one body; balls, hinges, struts and supports as conditions."""
    places = np.array([point.at for point in case.points]).reshape(-1, 3)
    middle = places.mean(axis=0) if len(places) else np.zeros(3)
    scaled: list[Way] = ((places - middle) / SCALE).tolist()
    at = {point.name: place for point, place in zip(case.points, scaled, strict=True)}
    group = _Groups()
    for member in case.members:
        for point in _fixed(member):
            group.join(f"member {member.name}", f"point {point}")
    names = [f"point {name}" for name in at] + [f"member {member.name}" for member in case.members]
    numbers: dict[str, int] = {}
    of = {name: numbers.setdefault(group.head(name), len(numbers)) for name in names}
    count = len(numbers)

    rows = [np.zeros(6 * count)]
    for member in case.members:
        body = of[f"member {member.name}"]
        for point, end in ((member.start, member.from_end), (member.end, member.to_end)):
            other = of[f"point {point}"]
            if end == "fixed" or other == body:
                continue
            rows += [_moving(body, at[point], w, count) - _moving(other, at[point], w, count) for w in AXES]
            if end == "hinge" and member.hinge_axis is not None:
                across = _across(member.hinge_axis)
                rows += [_turn(body, w, count) - _turn(other, w, count) for w in across]
    for strut in case.struts:
        length = max(math.dist(at[strut.end], at[strut.start]), 1e-12)
        way = [(b - a) / length for a, b in zip(at[strut.start], at[strut.end], strict=True)]
        pull = _moving(of[f"point {strut.end}"], at[strut.end], way, count)
        rows.append(pull - _moving(of[f"point {strut.start}"], at[strut.start], way, count))
    for support in case.supports:
        body, place = of[f"point {support.at}"], at[support.at]
        rows += [_moving(body, place, AXES[i], count) for i in range(3) if support.hold[i]]
        rows += [_turn(body, AXES[i], count) for i in range(3) if support.hold[3 + i]]
    joined = {of[f"member {member.name}"] for member in case.members}
    for lonely in {of[f"point {name}"] for name in at} - joined:
        rows += [_turn(lonely, way, count) for way in AXES]  # it has no rotation to speak of
    return Bodies(
        of_point={name: of[f"point {name}"] for name in at},
        of_member={member.name: of[f"member {member.name}"] for member in case.members},
        rows=np.array(rows),
        count=count,
    )


def _fixed(member: Member) -> list[str]:
    """Points that a member is stiffly joined to."""
    ends = [
        point
        for point, end in ((member.start, member.from_end), (member.end, member.to_end))
        if end == "fixed"
    ]
    return [*ends, *member.via]


def _moving(body: int, place: Way, way: Way, count: int) -> Array:
    """Row that gives the velocity of a body's place along a direction."""
    (px, py, pz), (x, y, z) = place, way
    row = np.zeros(6 * count)
    row[6 * body : 6 * body + 6] = (x, y, z, py * z - pz * y, pz * x - px * z, px * y - py * x)
    return row


def _turn(body: int, way: Way, count: int) -> Array:
    row = np.zeros(6 * count)
    row[6 * body + 3 : 6 * body + 6] = way
    return row


def _across(axis: Vector) -> tuple[Array, Array]:
    """Two unit directions across an axis."""
    along = np.array(axis) / np.linalg.norm(axis)
    first = cross(along, np.array(AXES[int(np.argmin(np.abs(along)))]))
    first = first / np.linalg.norm(first)
    return first, cross(along, first)


class _Groups:
    """Names joined into groups."""

    def __init__(self) -> None:
        self._above: dict[str, str] = {}

    def head(self, name: str) -> str:
        """The name that stands for a group."""
        while name in self._above:
            name = self._above[name]
        return name

    def join(self, one: str, other: str) -> None:
        """Put two groups together."""
        first, second = self.head(one), self.head(other)
        if first != second:
            self._above[first] = second
