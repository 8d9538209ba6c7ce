"""Where in a case file a part's size, metal or leg is typed."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from strength.case.faults import nearest
from strength.case.model import Bolt, Member, Strut, Stud, Weld
from strength.case.shape import Bar
from strength.case.trade.entry import Entry
from strength.case.trade.names import suffixed
from strength.errors import CaseError
from strength.studies.typed import BLOCK, Edit, TypedCase, Way
from strength.values import frozen

Part = Member | Strut | Weld | Bolt | Stud
KINDS = {"member": "members", "strut": "struts", "weld": "welds", "bolt": "bolts", "stud": "studs"}
# trade kind -> suffix of a bar it makes -> keys of its section and its metal
BARS: dict[str, dict[str, tuple[str, str]]] = {
    "wishbone": {
        "-front": ("tube", "material"),
        "-rear": ("rear_tube", "material"),
        "-spreader": ("spreader_tube", "material"),
    },
    "knuckle": {"": ("plate", "material"), "-axle": ("axle", "axle_material")},
    "bracket": {"": ("plate", "material")},
}
# trade kind -> suffix of a bolt or stud it makes -> key of its size
FASTENERS: dict[str, dict[str, str]] = {
    "wishbone": dict.fromkeys(("-front-pivot", "-rear-pivot", "-front-rodend", "-rear-rodend"), "pivot"),
    "knuckle": {"-lower": "ball", "-upper": "ball"},
    "bracket": {"-fix": "bolts", "-eye": "eye", "-ball": "ball"},
}
JOINED: dict[
    str, Callable[[str], str]
] = {  # key that holds more than a size -> what stands before the size in it
    "pivot": lambda text: text.rsplit("M", 1)[0] if "M" in text else " ".join(text.split()[:-2]) + " ",
    "bolts": lambda text: text.partition("x")[0].strip() + " x ",
}


@frozen(kw_only=True, eq=False)
class Spot:
    """Where a value is typed: its way and how a new one is written there.

    now: the text that stands there, "" where none does. written: from a size, as the library writes it,
    to what is typed. also: further edits that go with a size.
    """

    way: Way
    now: str
    written: Callable[[str], Any] = str
    also: Callable[[str], tuple[Edit, ...]] = lambda _: ()

    def edits(self, size: str) -> tuple[Edit, ...]:
        """What to change for a new size."""
        return (Edit(self.way, self.written(size)), *self.also(size))


def part_named(file: TypedCase, name: str, *kinds: str) -> Part:
    """The part of a name, of the first of some kinds that has it; raises CaseError with the nearest."""
    known: list[str] = []
    for kind in kinds:
        parts = getattr(file.case, KINDS[kind])
        for part in parts:
            if part.name == name:
                found: Part = part
                return found
        known += [part.name for part in parts]
    words = " or ".join(kinds)
    raise CaseError([("", f"no {words} is named {name!r}{nearest(name, known)}")])


def section_spot(file: TypedCase, part: Member | Strut) -> Spot:
    """Where a member's or strut's section is typed."""
    kind = "member" if isinstance(part, Member) else "strut"
    way = _way(file, kind, part.name, "section", lambda trade, suffix: _bar_key(trade, suffix, 0))
    now = file.value(way)
    return Spot(way=way, now=now if isinstance(now, str) else "", also=_steps(file, part, way))


def _steps(file: TypedCase, part: Member | Strut, way: Way) -> Callable[[str], tuple[Edit, ...]]:
    """A step typed at a bar that grows past it keeps its height."""
    steps: list[tuple[Way, float]] = []
    for shoulder in file.case.shoulders:
        if shoulder.member != part.name or not isinstance(part.shape, Bar):
            continue
        typed = file.value((*way[:-1], "shoulder"))
        entries = [file.entry("shoulder", side) for side in file.sides(shoulder.name)]
        if way[-1] == "axle" and isinstance(typed, Mapping):
            steps.append(((*way[:-1], "shoulder", "larger"), shoulder.larger))
        else:
            steps += [((*file.way_to(e), "larger"), shoulder.larger) for e in entries if e is not None]

    def edits(size: str) -> tuple[Edit, ...]:
        from strength.case.shape_text import parse

        new, old = parse(size), part.shape
        if not isinstance(new, Bar) or not isinstance(old, Bar):
            return ()
        return tuple(
            Edit(place, f"{larger + new.diameter - old.diameter:.6g} mm")
            for place, larger in steps
            if new.diameter >= larger
        )

    return edits


def metal_spot(file: TypedCase, part: Member | Strut) -> Spot:
    """Where a member's or strut's metal is typed, or would be."""
    kind = "member" if isinstance(part, Member) else "strut"
    way = _way(file, kind, part.name, "material", lambda trade, suffix: _bar_key(trade, suffix, 1))
    return Spot(way=way, now=file.value(way) or part.material)


def leg_spot(file: TypedCase, weld: Weld) -> Spot:
    """Where a weld's leg is typed; in a [[change]] block of its own where the weld is generated."""
    for name in file.sides(weld.name):
        for number, block in file.changes(f"weld {name}"):
            if "leg" in block:
                return Spot(way=("change", number, "leg"), now=block["leg"])
        entry = file.entry("weld", name)
        if entry is not None:
            way = (*file.way_to(entry), "leg")
            return Spot(way=way, now=file.value(way) or f"{weld.leg:g} mm")
    name = file.sides(weld.name)[-1]
    return Spot(way=BLOCK, now=f"{weld.leg:g} mm", written=lambda leg: {"part": f"weld {name}", "leg": leg})


def fastener_spot(file: TypedCase, part: Bolt | Stud) -> Spot:
    """Where a bolt's or stud's size is typed."""
    kind = "bolt" if isinstance(part, Bolt) else "stud"
    way = _way(file, kind, part.name, "size", lambda trade, suffix: FASTENERS[trade].get(suffix))
    now = str(file.value(way) or part.size.text)
    key = str(way[-1])
    before = JOINED[key](now) if key in JOINED else ""
    if isinstance(part, Bolt) and key == "size":
        return Spot(way=way, now=now, also=_holes(file, part, way))
    return Spot(way=way, now=now.removeprefix(before), written=lambda size: before + size)


def _holes(file: TypedCase, bolt: Bolt, way: Way) -> Callable[[str], tuple[Edit, ...]]:
    """Holes typed in a bolt's plates keep their clearance."""
    plates = file.value((*way[:-1], "plates"))
    if not isinstance(plates, list):
        return lambda _: ()

    def edits(size: str) -> tuple[Edit, ...]:
        from strength.case.sizes import bolt_size

        wider = bolt_size(size).diameter - bolt.size.diameter
        return tuple(
            Edit((*way[:-1], "plates", n, "hole"), f"{bolt.plates[n].hole + wider:.6g} mm")
            for n in range(len(plates))
        )

    return edits


def _bar_key(trade: str, suffix: str, number: int) -> str | None:
    keys = BARS[trade].get(suffix)
    return None if keys is None else keys[number]


def _way(file: TypedCase, kind: str, name: str, key: str, trade_key: Callable[[str, str], str | None]) -> Way:
    """The way to a key: in the last change of the part, at the part itself, or at what makes it."""
    for side in file.sides(name):
        for number, block in file.changes(f"{kind} {side}"):
            if key in block:
                return ("change", number, key)
        entry = file.entry(kind, side)
        if entry is not None:
            return (*file.way_to(entry), key)
        for maker, own in _makers(file, side, trade_key):
            for number, block in file.changes(f"{maker.kind} {maker.name}"):
                if own in block:
                    return ("change", number, own)
            return (*file.way_to(maker), own)
    raise CaseError([("", f"the {kind} {name!r} is made by nothing that is typed in the file")])


def _makers(
    file: TypedCase, name: str, trade_key: Callable[[str, str], str | None]
) -> Iterator[tuple[Entry, str]]:
    """Trade parts that make a part of this name, with the key that holds its size."""
    for entry in file.typed.entries:
        tables: Mapping[str, Any] = {**BARS.get(entry.kind, {}), **FASTENERS.get(entry.kind, {})}
        for suffix in tables:
            key = trade_key(entry.kind, suffix)
            if key is not None and suffixed(entry.name, suffix) == name:
                yield entry, key
