"""Lays trade parts out: their places found, their geometry checked, faults told under their keys."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from strength.case.faults import Faults, RefusedError, nearest
from strength.case.model import Vector
from strength.case.places import other_side
from strength.case.trade.bracket import LaidBracket, lay_bracket
from strength.case.trade.bracket_geometry import foot_fraction
from strength.case.trade.knuckle import knuckle_faults, lay
from strength.case.trade.knuckle_geometry import KnuckleGeometry
from strength.case.trade.layout import Layout
from strength.case.trade.lending import offer_bracket, offer_knuckle, offer_wishbone
from strength.case.trade.names import suffixed
from strength.case.trade.parts import Bracket, Knuckle, Part, Wishbone
from strength.case.trade.placed import Host, PlacedKnuckle, PlacedWishbone
from strength.case.trade.vector import along, distance, length, unit
from strength.case.trade.wishbone import wishbone_faults

NEAR = 1.0  # mm: a bracket that near to an end or via point of its host stands on that point
Found = TypeVar("Found")


def on_image(member: str) -> str:
    """What to tell of a part that stands on a member made by mirroring."""
    return (
        f"{member!r} is made by mirroring {other_side(member)!r}: put this on the '.left' one and end its "
        "own name in '.left', so that it is mirrored too; parts that differ by side are typed for both"
    )


class Laying:
    """Trade parts on a layout; each is laid out once, when it or what it makes is asked for.

    What is wrong with a part goes to `faults` under that part's path, once; whoever asks for the
    part then gets a RefusedError without text.
    """

    def __init__(self, layout: Layout, parts: Iterable[Part], faults: Faults) -> None:
        self.layout = layout
        self.faults = faults
        self._standing: dict[str, list[Bracket]] = {}
        for part in parts:
            self._lend(part)

    def wishbone(self, part: Wishbone) -> PlacedWishbone:
        """Places of a wishbone without faults."""
        return self.layout.once(f"wishbone {part.name}", lambda: self._wishbone(part))

    def knuckle(self, part: Knuckle) -> tuple[PlacedKnuckle, KnuckleGeometry]:
        """Places and geometry of a knuckle without faults."""
        return self.layout.once(f"knuckle {part.name}", lambda: self._knuckle(part))

    def bracket(self, part: Bracket) -> tuple[Host, LaidBracket]:
        """Host and geometry of a bracket without faults."""
        return self.layout.once(f"bracket {part.name}", lambda: self._bracket(part))

    def _lend(self, part: Part) -> None:
        match part:
            case Wishbone():
                self.layout.lend(
                    offer_wishbone(part, lambda: self.wishbone(part)), (part.path, f"wishbone {part.name}")
                )
            case Knuckle():
                wheel = self.layout.wheels.get(part.wheel)
                hub = None if wheel is None else wheel.keys.get("centre")
                if isinstance(hub, tuple):
                    hub = suffixed(part.wheel, "-hub")
                self.layout.lend(
                    offer_knuckle(part, hub, lambda: self.knuckle(part)), (part.path, f"knuckle {part.name}")
                )
            case Bracket():
                self._standing.setdefault(part.on, []).append(part)
                self.layout.lend(
                    offer_bracket(part, lambda: self.bracket(part)), (part.path, f"bracket {part.name}")
                )
                self.layout.stand_on(suffixed(part.name, "-root"), part.on)

    def _asked(self, part: Part, key: str, find: Callable[[], Found]) -> Found:
        """What a key of a part leads to; what is wrong is told under that key."""
        with self.faults.at(f"{part.path}.{key}"):
            return find()
        raise RefusedError

    def _refuse(self, part: Part, whys: Iterable[str]) -> None:
        found = list(whys)
        for why in found:
            self.faults.add(part.path, why)
        if found:
            raise RefusedError

    def _wishbone(self, part: Wishbone) -> PlacedWishbone:
        front = self._asked(part, "front", lambda: self.layout.where(part.front))
        rear = self._asked(part, "rear", lambda: self.layout.where(part.rear))
        ball = self._asked(part, "ball", lambda: self.layout.where(part.ball))
        self._refuse(part, wishbone_faults(part, front, rear, ball))
        return PlacedWishbone(front=front, rear=rear, ball=ball)

    def _knuckle(self, part: Knuckle) -> tuple[PlacedKnuckle, KnuckleGeometry]:
        wheel = self.layout.wheels.get(part.wheel)
        if wheel is None:
            why = f"no wheel is named {part.wheel!r}{nearest(part.wheel, self.layout.wheels)}"
            self.faults.add(f"{part.path}.wheel", why)
            raise RefusedError
        axle: Vector = wheel.keys.get("axle", (0.0, 1.0, 0.0))
        if length(axle) == 0.0:
            self.faults.add(f"{wheel.path}.axle", "has no length: it is the direction of the axle")
            raise RefusedError
        placed = PlacedKnuckle(
            lower=self._asked(part, "lower", lambda: self.layout.where(part.lower)),
            upper=self._asked(part, "upper", lambda: self.layout.where(part.upper)),
            hub=self.layout.where(wheel.keys.get("centre")),
            axle=unit(axle),
        )
        laid = lay(part, placed)
        if isinstance(laid, str):
            self.faults.add(part.path, laid)
            raise RefusedError
        self._refuse(part, knuckle_faults(part, placed, laid))
        return placed, laid

    def _bracket(self, part: Bracket) -> tuple[Host, LaidBracket]:
        host = self._asked(part, "on", lambda: self.layout.host(part.on))
        if self.layout.is_image(part.on):
            self.faults.add(f"{part.path}.on", on_image(part.on))
            raise RefusedError
        tip = self._asked(part, "tip", lambda: self.layout.where(part.tip))
        if distance(host.start, host.end) == 0.0:
            self.faults.add(f"{part.path}.on", f"{host.name} has no length")
            raise RefusedError
        root = along(host.start, host.end, foot_fraction(tip, host.start, host.end, part.at))
        near = min(self._stands(part, host), key=lambda at: distance(at, root))
        root = near if distance(near, root) <= NEAR else root
        for end, free in zip((host.start, host.end), host.free, strict=True):
            if free and distance(end, root) == 0.0:
                why = (
                    f"stands on the end of {host.name} that turns freely, so not on {host.name}: change `at`"
                )
                self.faults.add(part.path, why)
                raise RefusedError
        laid = lay_bracket(part, host, root, tip)
        if isinstance(laid, str):
            self.faults.add(part.path, laid)
            raise RefusedError
        return host, laid

    def _stands(self, part: Bracket, host: Host) -> list[Vector]:
        """Ends and via points of a bracket's host, roots of brackets typed before it included."""
        found = [host.start, host.end]
        standing = (*host.stands[2:], *self.layout.on_points.get(host.name, ()))
        found += [self.layout.where(place) for place in standing if not self.layout.is_open(str(place))]
        for other in self._standing[part.on]:
            if other is part:
                break
            found.append(self.bracket(other)[1].root)
        return found
