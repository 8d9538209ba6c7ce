"""Places that also know what trade parts are going to make, whatever the order of the file."""

from collections.abc import Callable, Iterable
from typing import TypeVar, cast

from strength.case.faults import RefusedError
from strength.case.model import Vector
from strength.case.places import Places, mirrored, other_side
from strength.case.trade.entry import Entry, Place
from strength.case.trade.lending import Offer
from strength.case.trade.names import suffixed, unknown_member
from strength.case.trade.placed import Host
from strength.values import evolve

Found = TypeVar("Found")
Owner = tuple[str, str]  # path and maker of the part that makes a point


class Layout(Places):
    """Places of typed entries and of parts that offer points and members by name."""

    def __init__(self, entries: Iterable[Entry], *, mirror: bool) -> None:
        self._lent: dict[str, Callable[[], Vector]] = {}
        self._owners: dict[str, Owner] = {}
        self._hosts: dict[str, Callable[[], Host]] = {}
        self._answers: dict[str, object] = {}
        self._own: dict[tuple[Owner, str], Place | Callable[[], Vector]] = {}
        self._roots: dict[str, str] = {}
        self.broken: set[str] = set()  # what parts at fault would have made
        self.wheels: dict[str, Entry] = {}
        self.on_points: dict[str, list[str]] = {}  # typed points that stand on a member, by member
        super().__init__(entries, mirror=mirror)

    def add(self, entry: Entry) -> None:
        """Take in an entry; the points that its vectors will make can be named from now on."""
        super().add(entry)
        if entry.kind == "wheel" and entry.name not in self.wheels:
            self.wheels[entry.name] = entry
            self._name_vector(entry, "centre", "-hub")
        elif entry.kind in {"member", "strut"}:
            self._name_vector(entry, "from", "-from")
            self._name_vector(entry, "to", "-to")
        elif entry.kind == "point" and isinstance(entry.keys.get("on"), str):
            self.on_points.setdefault(entry.keys["on"], []).append(entry.name)
        if entry.kind == "member" and entry.keys.get("section") is not None:
            self._hosts.setdefault(entry.name, lambda: self._typed_host(entry))

    def lend(self, offer: Offer, owner: Owner) -> None:
        """Take in what a trade part offers; its own name may be a place already."""
        self._owners.setdefault(offer.part, owner)
        for name, place in offer.aliases.items():
            self._own[owner, name] = place
            self._alias(name, place, owner)
        for name, find in offer.points.items():
            self._own[owner, name] = find
            if name not in self._points:
                self._lent.setdefault(name, find)
                self._owners.setdefault(name, owner)
        for name, host in offer.hosts.items():
            self._hosts.setdefault(name, host)

    def stand_on(self, root: str, member: str) -> None:
        """Say that a lent point stands on a member, whose own points are made before it."""
        self._roots[root] = member

    def where(self, place: Place | None) -> Vector:
        """The place [mm], a point that is still to be made included."""
        if not isinstance(place, str) or place in self._points or place in self._aliases:
            return super().where(place)
        if place in self._lent:
            return self.once(f"point {place}", self._lent[place])
        if place in self.broken:
            raise RefusedError
        if self._is_lent_image(place):
            return mirrored(self.where(other_side(place)))
        return super().where(place)

    def settle(self, place: Place | None, wanted: str, *, path: str, maker: str) -> str:
        """The name of the point at a place; a point of a trade part is made by that part."""
        if not isinstance(place, str) or place in self._points:
            return super().settle(place, wanted, path=path, maker=maker)
        path, maker = self._owners.get(place, (path, maker))
        if place in self._aliases:
            target, own = self._aliases[place]
            return self._following(place, lambda: self.settle(target, own, path=path, maker=maker))
        if not (place in self._lent or self._is_lent_image(place)):
            return super().settle(place, wanted, path=path, maker=maker)
        if place not in self._lent:
            return other_side(self.settle(other_side(place), wanted, path=path, maker=maker))
        self._settle_stands(place, (path, maker))
        return super().settle(self.where(place), place, path=path, maker=maker)

    def make(self, name: str, owner: Owner) -> str:
        """The name of the point that stands where a trade part has one of its own; made where there is none.

        Raises RefusedError where another part has that name for a point elsewhere.
        """
        own = self._own[owner, name]
        path, maker = owner
        if not callable(own):
            return self.settle(own, name, path=path, maker=maker)
        self._settle_stands(name, owner)
        return super().settle(self.once(f"{maker}: {name}", own), name, path=path, maker=maker)

    def fresh(self, name: str) -> str:
        """A name that no point has yet, made of this one."""
        number, found = 2, name
        while found in self._points:
            number, found = number + 1, suffixed(name, f"-{number}")
        return found

    def _settle_stands(self, root: str, owner: Owner) -> None:
        """Make the points of the member that a bracket's root stands on before the root."""
        if root in self._roots:
            host = self.host(self._roots[root])
            ending = "-via" if len(host.stands) == 3 else "-via-{}"  # as the member itself would name it
            for number, stand in enumerate(host.stands, start=-1):
                wanted = stand if isinstance(stand, str) else suffixed(host.name, ending.format(number))
                self.settle(stand, wanted, path=owner[0], maker=owner[1])

    def line(self, member: str) -> tuple[Vector, Vector]:
        """Both end points of a member [mm], one that is still to be made included."""
        if member not in self._members and member in self._hosts:
            host = self.host(member)
            return host.start, host.end
        twin = other_side(member)
        if self._mirror and member.endswith(".right") and member not in self._members and twin in self._hosts:
            start, end = self.line(twin)
            return mirrored(start), mirrored(end)
        return super().line(member)

    def names(self) -> set[str]:
        """Every name that is a place."""
        return super().names() | set(self._lent)

    def define(self, point: Entry) -> Vector:
        """Where a point is by its own keys [mm]; they take the place of what was known of it."""
        if self._points.get(point.name) != point:
            self._points[point.name] = point
            self._found.pop(point.name, None)
        return self.where(point.name)

    def join(self, point: str, member: str) -> None:
        """Say of a point made here that it stands on a member, as a typed one says with `on`."""
        for i, entry in enumerate(self.made):
            if entry.name == point and "on" not in entry.keys:
                self.made[i] = entry.with_keys(on=member)

    def host(self, member: str) -> Host:
        """A member's line, shape and `up`, typed or still to be made."""
        if member in self._hosts:
            return self.once(f"member {member}", self._hosts[member])
        if member in self._members or member in self.broken:  # at fault, and reported there
            raise RefusedError
        if self.is_image(member):
            return _image(self.host(other_side(member)))
        raise RefusedError(unknown_member(member, self._hosts))

    def is_image(self, member: str) -> bool:
        """Whether a member is there only as the image of another."""
        own = member in self._hosts or not self._mirror
        return not own and member.endswith(".right") and other_side(member) in self._hosts

    def once(self, key: str, find: Callable[[], Found]) -> Found:
        """Find something once; refuse without text ever after, and refuse what leads back to itself."""
        if key in self._answers:
            if isinstance(self._answers[key], RefusedError):
                raise RefusedError
            return cast("Found", self._answers[key])
        try:
            found = self._following(key, find)
        except RefusedError as refused:
            self._answers[key] = refused
            raise
        self._answers[key] = found
        return found

    def _following(self, key: str, find: Callable[[], Found]) -> Found:
        """Find something; refuse what leads back to itself."""
        if key in self._open:
            trip = [*self._open[self._open.index(key) :], key]
            raise RefusedError("is defined in a circle: " + " -> ".join(trip))
        self._open.append(key)
        try:
            return find()
        finally:
            self._open.pop()

    def is_open(self, name: str) -> bool:
        """Whether a place is just being looked for."""
        return name in self._open

    def _typed_host(self, entry: Entry) -> Host:
        keys = entry.keys
        start, end = self.line(entry.name)
        stands = [
            suffixed(entry.name, f"-{key}") if isinstance(keys[key], tuple) else keys[key]
            for key in ("from", "to")
        ]
        return Host(
            name=entry.name,
            start=start,
            end=end,
            shape=keys["section"],
            up=keys.get("up"),
            stands=(*stands, *keys.get("via", ())),
            free=(keys.get("from_end", "fixed") != "fixed", keys.get("to_end", "fixed") != "fixed"),
        )

    def _is_lent_image(self, name: str) -> bool:
        return self._mirror and name.endswith(".right") and other_side(name) in self._lent

    def _name_vector(self, entry: Entry, key: str, suffix: str) -> None:
        value = entry.keys.get(key)
        if isinstance(value, tuple):
            owner = (entry.path, f"{entry.kind} {entry.name}")
            self._alias(suffixed(entry.name, suffix), value, owner)

    def _alias(self, name: str, target: Place, owner: Owner) -> None:
        if name not in self._aliases:
            self._aliases[name] = (target, name)
            self._owners[name] = owner


def _image(host: Host) -> Host:
    """The host on the other side of the middle plane."""
    stands = (other_side(place) if isinstance(place, str) else mirrored(place) for place in host.stands)
    return evolve(
        host,
        name=other_side(host.name),
        start=mirrored(host.start),
        end=mirrored(host.end),
        up=None if host.up is None else mirrored(host.up),
        stands=tuple(stands),
    )
