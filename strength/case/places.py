"""Where things are: from names and vectors to points of the structure."""

import math
from collections.abc import Iterable
from itertools import product

from strength.case.faults import RefusedError, nearest
from strength.case.model import Vector
from strength.case.trade.entry import Entry, Place
from strength.case.trade.names import suffixed

SAME = 0.01  # mm: a vector that near to a point is that point
_CELL = 4 * SAME  # mm: side of the cells in which points are looked up


def mirrored(at: Vector) -> Vector:
    """A place or direction on the other side of the middle plane y = 0."""
    return (at[0], 0.0 - at[1], at[2])  # never -0.0


def other_side(name: str) -> str:
    """The name of the mirror image: `.left` for `.right` and the other way round, else the name itself."""
    if name.endswith(".left"):
        return name.removesuffix(".left") + ".right"
    if name.endswith(".right"):
        return name.removesuffix(".right") + ".left"
    return name


class Places:
    """Points, and what else can be named as a place: a bracket (its tip), a wishbone (its ball).

    Built of typed and generated entries; `add` takes in what is generated later. A place is a name
    or a vector [mm]; every method raises RefusedError, with a text for the user, where it cannot be found
    (with an empty text where the cause is reported elsewhere). With `mirror`, the `.right` image of
    each `.left` entry can be named before it is made.
    """

    def __init__(self, entries: Iterable[Entry], *, mirror: bool) -> None:
        self._mirror = mirror
        self._points: dict[str, Entry] = {}
        self._members: dict[str, tuple[Place | None, Place | None]] = {}
        self._aliases: dict[str, tuple[Place | None, str]] = {}
        self._found: dict[str, Vector] = {}
        self._open: list[str] = []
        self._waiting: dict[str, None] = {}
        self._cells: dict[tuple[int, int, int], list[str]] = {}
        self.made: list[Entry] = []
        for entry in entries:
            self.add(entry)

    def add(self, entry: Entry) -> None:
        """Take in a typed or generated point, member, wishbone or bracket; other kinds are ignored.

        Of two entries of one kind and name the first stays.
        """
        keys = entry.keys
        if entry.kind == "point" and entry.name not in self._points:
            self._points[entry.name] = entry
            self._waiting[entry.name] = None
        elif entry.kind == "member":
            self._members.setdefault(entry.name, (keys.get("from"), keys.get("to")))
        elif entry.kind == "wishbone":
            ball = keys.get("ball")
            self._aliases.setdefault(entry.name, (ball, suffixed(entry.name, "-ball")))
            for leg in ("front", "rear"):
                self._members.setdefault(suffixed(entry.name, f"-{leg}"), (keys.get(leg), ball))
        elif entry.kind == "bracket":
            self._aliases.setdefault(entry.name, (keys.get("tip"), entry.name))

    def where(self, place: Place | None) -> Vector:
        """The place [mm], body axes."""
        if place is None:  # left out or unreadable: reported where it was read
            raise RefusedError
        if not isinstance(place, str):
            return place
        if place in self._found:
            return self._found[place]
        if place in self._points or place in self._aliases:
            if place in self._open:
                round_trip = [*self._open[self._open.index(place) :], place]
                raise RefusedError("is defined in a circle: " + " -> ".join(round_trip))
            self._open.append(place)
            try:
                at = self._defined(place)
            finally:
                self._open.pop()
            self._found[place] = at
            return at
        if self._is_image(place):
            return mirrored(self.where(other_side(place)))
        hint = nearest(place, self.names())
        if not self._mirror and place.endswith(".right") and other_side(place) in self.names():
            hint = "; with `mirror = true` on top of the file what ends in .left is made on the right too"
        if place in self._members:
            raise RefusedError(
                f"{place!r} is a member, not a place: name the point at one of its ends, or put a point on "
                f'it with {{on = "{place}", at = 0.5}}'
            )
        raise RefusedError(f"no point, bracket or wishbone is named {place!r}{hint}")

    def settle(self, place: Place | None, wanted: str, *, path: str, maker: str) -> str:
        """The name of the point at a place.

        A vector within 0.01 mm of a point is that point; any other makes a point named `wanted`, which
        joins `made`. path, maker: of the part that asks (`members.strut.left`, "member strut.left").
        """
        if place is None:
            raise RefusedError
        if not isinstance(place, str):
            known = self._at(place)
            return known or self._make(wanted, place, path, maker)
        if place in self._points:
            return place
        if place in self._aliases:
            target, own = self._aliases[place]
            if place in self._open:
                raise RefusedError("is defined in a circle: " + " -> ".join([*self._open, place]))
            self._open.append(place)
            try:
                return self.settle(target, own, path=path, maker=place)
            finally:
                self._open.pop()
        if self._is_image(place):
            return other_side(self.settle(other_side(place), other_side(wanted), path=path, maker=maker))
        self.where(place)
        raise RefusedError

    def line(self, member: str) -> tuple[Vector, Vector]:
        """Both end points of a member [mm]."""
        if member in self._members:
            start, end = self._members[member]
            return self.where(start), self.where(end)
        if self._mirror and member.endswith(".right") and other_side(member) in self._members:
            start_at, end_at = self.line(other_side(member))
            return mirrored(start_at), mirrored(end_at)
        raise RefusedError(f"no member is named {member!r}{nearest(member, self._members)}")

    def names(self) -> set[str]:
        """Every name that is a place."""
        names = {*self._points, *self._aliases}
        if self._mirror:
            names |= {other_side(name) for name in names if name.endswith(".left")}
        return names

    def _is_image(self, name: str) -> bool:
        twin = other_side(name)
        return self._mirror and name.endswith(".right") and (twin in self._points or twin in self._aliases)

    def _defined(self, name: str) -> Vector:
        """A point by its own definition."""
        if name not in self._points:
            return self.where(self._aliases[name][0])
        keys = self._points[name].keys
        if "from" in keys and "by" in keys:
            x, y, z = self.where(keys["from"])
            dx, dy, dz = keys["by"]
            return (x + dx, y + dy, z + dz)
        if "between" in keys and "at" in keys:
            start, end = (self.where(place) for place in keys["between"])
            return _along(start, end, _fraction(keys["at"]))
        if "on" in keys and "at" in keys:
            return _along(*self.line(keys["on"]), _fraction(keys["at"]))
        if isinstance(keys.get("at"), tuple):
            x, y, z = keys["at"]
            return (x, y, z)
        raise RefusedError

    def _make(self, name: str, at: Vector, path: str, maker: str) -> str:
        if name in self._points:
            other = self._points[name]
            typed = other.maker or f"point {other.path}"
            raise RefusedError(f"makes a point {name!r} here, but {typed} makes one of that name elsewhere")
        entry = Entry(kind="point", name=name, keys={"at": at}, path=path, maker=maker)
        self.add(entry)
        self.made.append(entry)
        return name

    def _at(self, at: Vector) -> str | None:
        """The point within 0.01 mm of a vector, a mirror image included."""
        for name in list(self._waiting):
            try:
                found = self.where(name)
            except RefusedError:  # not known yet, or reported when its own turn comes
                continue
            del self._waiting[name]
            self._cells.setdefault(_cell(found), []).append(name)
            twin = other_side(name)
            if self._is_image(twin) and twin not in self._points:
                self._cells.setdefault(_cell(mirrored(found)), []).append(twin)
        for cell in product(_cells_near(at[0]), _cells_near(at[1]), _cells_near(at[2])):
            for name in self._cells.get(cell, ()):
                if math.dist(self.where(name), at) <= SAME:
                    return name
        return None


def _fraction(at: object) -> float:
    if not isinstance(at, float):  # a vector where a fraction is due: reported where it was read
        raise RefusedError
    return at


def _along(start: Vector, end: Vector, fraction: float) -> Vector:
    a, b, c = (s + fraction * (e - s) for s, e in zip(start, end, strict=True))
    return (a, b, c)


def _cells_near(value: float) -> range:
    """Numbers of the cells along one axis in which a point within 0.01 mm may be, and a little beyond."""
    return range(math.floor((value - 1.5 * SAME) / _CELL), math.floor((value + 1.5 * SAME) / _CELL) + 1)


def _cell(at: Vector) -> tuple[int, int, int]:
    return (math.floor(at[0] / _CELL), math.floor(at[1] / _CELL), math.floor(at[2] / _CELL))
