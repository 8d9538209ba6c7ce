"""What can be changed on a part so that a check of it comes under its limit, the simplest first."""

import math
from collections.abc import Iterator
from typing import Any

from strength.case.model import Bolt, Case, Member, Strut, Stud, Weld
from strength.case.shape import Bar, Box, Flat, Tube
from strength.case.trade.names import suffixed
from strength.errors import CaseError, StrengthError
from strength.studies.candidates import (
    ANY,
    LEAST_LEG,
    LEG_STEP,
    fastener_sizes,
    greatest_sensible_leg,
    sections,
)
from strength.studies.locate import Spot, fastener_spot, leg_spot, metal_spot, part_named, section_spot
from strength.studies.places import engagement, further_apart, maker_of, more_edge
from strength.studies.screen import size_text, thinnest_wall
from strength.studies.typed import BLOCK, Edit, TypedCase
from strength.values import frozen

MEMBER_KINDS = ("yielding", "rupture", "stability", "wall")
WELD_KINDS = ("weld-throat", "weld-toe")
HOST_KINDS = ("chord-wall", "chord-punching", "tab-wall", "plate-bending")
BOLT_KINDS = ("bolt-shear", "bolt-tension", "bolt-combined", "bolt-bending")
PLATE_KINDS = ("bearing", "tear-out", "net-section", "pull-through")
STUD_KINDS = ("stud-bending", "stud-rocking", "thread-strip", "rod-end")
ALONG, THICKER, BOTH = 6, 5, 10  # sizes tried: larger of the same wall, more wall, both
WIDER = (1.25, 1.5, 2.0)  # of a plate's width
RATED = (1.25, 1.5, 2.0, 2.5, 3.0, 4.0)  # of a rod end's rating
METAL = 4  # rank of another metal: only where no size helps
CLASSES = ("8.8", "10.9")  # bolts a shed can buy; 12.9 is out of EN 1993-1-8
# stronger metals that can be bought in the same form and welded; bars that are not welded last
STRONGER: dict[type, tuple[str, ...]] = {
    Tube: ("E355+N", "25CrMo4+N"),
    Box: ("S355J2H",),
    Flat: ("S355J2",),
    Bar: ("C45+QT", "42CrMo4+QT"),
}


@frozen(kw_only=True)
class Change:
    """One thing to change: what and how in words, what to type, and how readily it is done (0 first)."""

    what: str
    how: str
    edits: tuple[Edit, ...]
    rank: int

    @property
    def spot(self) -> str:
        """What it changes: two changes of one spot exclude each other."""
        first = self.edits[0]
        return str(first.value.get("part")) if first.way == BLOCK else first.words


def levers(file: TypedCase, part: str, kind: str) -> Iterator[Change]:
    """Changes that may bring a check of a part down; some cannot be built, some do not help."""
    part = file.sides(part)[-1]  # the side that is typed: its image follows
    if kind in MEMBER_KINDS:
        yield from _bar(file, part_named(file, part, "member", "strut"))
    elif kind in (*WELD_KINDS, *HOST_KINDS):
        if all(weld.name != part for weld in file.case.welds):  # a lug's own bending
            yield from _bar(file, part_named(file, part, "member"))
            return
        yield from _weld(file, part_named(file, part, "weld"), kind)
    elif kind in (*BOLT_KINDS, *PLATE_KINDS):
        yield from _bolt(file, part_named(file, part, "bolt"), kind)
    elif kind in STUD_KINDS:
        yield from _stud(file, part_named(file, part, "stud"), kind)
    elif kind == "frame-buckling":
        yield from _frame(file)


def _bar(file: TypedCase, part: object, *, most: int = ALONG) -> Iterator[Change]:
    """Larger outside first, then more wall, then both, then a stronger metal."""
    if not isinstance(part, Member | Strut) or not isinstance(part.shape, Tube | Box | Bar | Flat):
        return
    spot = section_spot(file, part)
    now = spot.now or size_text(part)
    metal = file.case.metals.get(part.material)
    counts = {0: most, 1: THICKER, 2: BOTH}
    name = file.sides(part.name)[-1]
    if isinstance(part.shape, Flat):
        yield from _wider(name, part.shape, now, spot)
    for size in sections(part.shape, now, metal, od=ANY, wall=ANY):
        rank = _rank(part.shape, size)
        if rank is not None and counts[rank] > 0:
            counts[rank] -= 1
            yield Change(what=name, how=f"{size} instead of {now}", edits=spot.edits(size), rank=rank)
    yield from _metals(file, part)


def _rank(shape: Tube | Box | Bar | Flat, size: str) -> int | None:
    """0: larger of the same wall; 1: more wall; 2: both; None: smaller in some way."""
    from strength.case.shape_text import parse

    match shape, parse(size):
        case Tube(od=od, wall=wall), Tube(od=new_od, wall=new_wall):
            return _ranked(new_od - od, new_wall - wall)
        case Box(depth=depth, width=width, wall=wall), Box(depth=new_depth, width=new_width, wall=new_wall):
            return _ranked(min(new_depth - depth, new_width - width), new_wall - wall)
        case Bar(diameter=diameter), Bar(diameter=new):
            return 0 if new > diameter else None
        case Flat(thickness=thickness), Flat(thickness=new):
            return 1 if new > thickness else None
    return None


def _ranked(larger: float, thicker: float) -> int | None:
    if min(larger, thicker) < -1e-6 or max(larger, thicker) < 1e-6:
        return None
    if thicker < 1e-6:
        return 0
    return 1 if larger < 1e-6 else 2


def _wider(name: str, shape: Flat, now: str, spot: Spot) -> Iterator[Change]:
    """A wider plate of the same thickness, to whole 5 mm: it is cut to size."""
    for wider in WIDER:
        width = math.ceil(shape.width * wider / 5.0 - 1e-9) * 5.0
        size = f"flat {width:g} x {shape.thickness:.6g} mm"
        yield Change(what=name, how=f"{size} instead of {now}", edits=spot.edits(size), rank=0)


def _rated(file: TypedCase, stud: Stud) -> Iterator[Change]:
    """A rod end of a higher rating, that of its fellow at the same arm with it."""
    if stud.rating_radial is None or stud.rating_axial is None:
        return
    own = file.sides(stud.name)[-1]
    fellows = [own]
    for here, there in (("-front-rodend", "-rear-rodend"), ("-rear-rodend", "-front-rodend")):
        maker = maker_of(file, "wishbone", here, own)
        if maker is not None:
            fellows.append(suffixed(maker.name, there))
    known = {each.name: each for each in file.case.studs}
    for factor in RATED:
        radial, axial = (
            math.ceil(rating * factor / 500.0 - 1e-9) / 2.0
            for rating in (stud.rating_radial, stud.rating_axial)
        )
        value = {"radial": f"{radial:g} kN", "axial": f"{axial:g} kN"}
        edits = tuple(
            key_edit(file, "stud", name, "rating", value)
            for name in fellows
            if known[name].rating_radial is not None
        )
        how = f"a rod end rated {radial:g} kN radial and {axial:g} kN axial by its maker"
        yield Change(what=own, how=how, edits=edits, rank=2)


def _metals(file: TypedCase, part: Member | Strut) -> Iterator[Change]:
    from strength.library import find_metal

    now = file.case.metals[part.material]
    if now.kind != "steel" or part.shape is None:
        return
    spot = metal_spot(file, part)
    for name in STRONGER.get(type(part.shape), ()):
        if find_metal(name).rows[0].yield_ > now.rows[0].yield_:
            how = f"of {name} instead of {part.material}"
            own = file.sides(part.name)[-1]
            yield Change(what=own, how=how, edits=spot.edits(name), rank=METAL)


def _weld(file: TypedCase, weld: object, kind: str) -> Iterator[Change]:
    """A larger leg; a larger part, whose line is longer; more wall under it."""
    if not isinstance(weld, Weld):
        return
    if kind in WELD_KINDS:
        spot = leg_spot(file, weld)
        most = greatest_sensible_leg(thinnest_wall(file, weld))
        steps = int((most - LEAST_LEG) / LEG_STEP + 1e-9) + 1
        for leg in (LEAST_LEG + n * LEG_STEP for n in range(steps)):
            if leg > weld.leg + 1e-6:
                how = f"leg {leg:g} mm instead of {weld.leg:g} mm"
                yield Change(what=file.sides(weld.name)[-1], how=how, edits=spot.edits(f"{leg:g} mm"), rank=0)
    bars = {member.name: member for member in file.case.members}
    if isinstance(weld.onto, str) and kind in HOST_KINDS:
        yield from _bar(file, bars[weld.onto])
    yield from _bar(file, bars[weld.member])


def _bolt(file: TypedCase, bolt: object, kind: str) -> Iterator[Change]:
    """Bolts further apart, a larger one, a higher class; more edge distance, thicker plates."""
    if not isinstance(bolt, Bolt):
        return
    name = file.sides(bolt.name)[-1]
    if kind in BOLT_KINDS:
        yield from (_placed(name, how, edits) for how, edits in further_apart(file, bolt))
    else:
        yield from (_placed(name, how, edits) for how, edits in more_edge(file, bolt))
    yield from _larger(file, bolt)
    yield from _classes(file, "bolt", bolt.name, bolt.grade)
    if kind in PLATE_KINDS:
        flats = [
            member
            for member in file.case.members
            if isinstance(member.shape, Flat)
            and any(abs(member.shape.thickness - plate.thickness) < 1e-6 for plate in bolt.plates)
            and member.name.split(".")[-1] == bolt.member.split(".")[-1]
        ]
        own = [member for member in flats if member.name == bolt.member] or flats
        for member in own[:2]:
            yield from _bar(file, member)


def _stud(file: TypedCase, stud: object, kind: str) -> Iterator[Change]:
    """Deeper engagement, a larger thread, a higher class; a higher rating where that is what is short."""
    if isinstance(stud, Stud) and kind == "rod-end":
        yield from _rated(file, stud)
    elif isinstance(stud, Stud):
        own = file.sides(stud.name)[-1]
        yield from (_placed(own, how, edits) for how, edits in engagement(file, stud))
        yield from _larger(file, stud)
        yield from _classes(file, "stud", stud.name, stud.grade)
        yield from _plate(file, stud.name)


def _plate(file: TypedCase, stud: str) -> Iterator[Change]:
    """A thicker knuckle for a ball stud that screws through it: its thread is as long as that is thick."""
    for suffix in ("-lower", "-upper"):
        maker = maker_of(file, "knuckle", suffix, stud)
        if maker is not None:
            yield from _bar(file, part_named(file, maker.name, "member"))


def _placed(name: str, how: str, edits: tuple[Edit, ...]) -> Change:
    return Change(what=name, how=how, edits=edits, rank=0)


def _larger(file: TypedCase, part: Bolt | Stud) -> Iterator[Change]:
    spot: Spot = fastener_spot(file, part)
    from strength.case.sizes import bolt_size

    sizes = [size for size in fastener_sizes(part) if bolt_size(size).diameter > part.size.diameter]
    for size in sizes[:5]:
        name = file.sides(part.name)[-1]
        how, edits = f"{size} instead of {spot.now}", spot.edits(size)
        if isinstance(part, Stud) and part.into:
            stock = _cut_on(file, part, bolt_size(size).diameter)
            if stock is None:
                continue
            how, edits = how + stock[0], edits + stock[1]
        yield Change(what=name, how=how, edits=edits, rank=1)


def _cut_on(file: TypedCase, stud: Stud, diameter: float) -> tuple[str, tuple[Edit, ...]] | None:
    """The bar that a thread of a diameter [mm] is cut on, where the bar as it is is thinner.

    None where no stock bar is as thick.
    """
    from strength.case.shape_text import parse

    bar = part_named(file, stud.member, "member")
    if not isinstance(bar, Member) or not isinstance(bar.shape, Bar) or bar.shape.diameter >= diameter - 1e-6:
        return "", ()
    spot = section_spot(file, bar)
    for size in sections(bar.shape, spot.now, file.case.metals.get(bar.material), od=ANY, wall=ANY):
        shape = parse(size)
        if isinstance(shape, Bar) and shape.diameter >= diameter - 1e-6:
            return f", cut on {size}", spot.edits(size)
    return None


def _classes(file: TypedCase, kind: str, name: str, now: str) -> Iterator[Change]:
    """Higher property classes, for this part alone."""
    if now not in CLASSES:
        return
    own = file.sides(name)[-1]
    for grade in CLASSES[CLASSES.index(now) + 1 :]:
        edits = (class_edit(file, kind, own, grade),)
        yield Change(what=own, how=f"class {grade} instead of {now}", edits=edits, rank=3)


def class_edit(file: TypedCase, kind: str, name: str, grade: str) -> Edit:
    """Where a bolt's class is typed, or a change block of its own."""
    return key_edit(file, kind, name, "class", grade)


def key_edit(file: TypedCase, kind: str, name: str, key: str, value: Any) -> Edit:
    """A key of a typed part, or of a change block for a generated one."""
    for number, block in file.changes(f"{kind} {name}"):
        if key in block:
            return Edit(("change", number, key), value)
    entry = file.entry(kind, name)
    if entry is not None:
        return Edit((*file.way_to(entry), key), value)
    return Edit(BLOCK, {"part": f"{kind} {name}", key: value})


def _frame(file: TypedCase) -> Iterator[Change]:
    """One size larger of every tube and box of the frame."""
    seen: set[tuple[str, str]] = set()
    for member in file.case.members:
        if not isinstance(member.shape, Tube | Box):
            continue
        try:
            found = list(_bar(file, member, most=2))
        except CaseError:
            continue
        for change in found:
            if change.rank == 0 and (change.spot, change.how) not in seen:
                seen.add((change.spot, change.how))
                yield change


def buildable(file: TypedCase, change: Change) -> Case | None:
    """The case with a change made; None where it cannot be built."""
    try:
        return file.changed_case(change.edits)
    except StrengthError:
        return None
