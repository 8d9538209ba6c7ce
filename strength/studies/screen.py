"""`screen`, `thickness`, `leg`: a part in every size that is sold, or that suits, the whole case checked."""

import itertools
from collections.abc import Sequence

from strength.case.model import Bolt, Member, Plate, Strut, Stud, Weld
from strength.case.shape import Flat
from strength.case.shape_text import parse
from strength.case.trade.axes import wall as wall_of
from strength.errors import CaseError
from strength.library import find_metal
from strength.studies.candidates import (
    Between,
    fastener_sizes,
    greatest_sensible_leg,
    legs,
    sections,
    thicknesses,
)
from strength.studies.locate import (
    Spot,
    fastener_spot,
    leg_spot,
    metal_spot,
    part_named,
    section_spot,
)
from strength.studies.screened import HERE, Option, Run, Screened, screened
from strength.studies.typed import Edit, TypedCase
from strength.units import quantity
from strength.values import frozen

ANY = Between()
MOST = 5000  # designs of one study


@frozen(kw_only=True)
class Wanted:
    """What to screen: sizes to keep, another metal, other members that take the same size."""

    od: Between = ANY
    wall: Between = ANY
    material: str = ""
    sharing: tuple[str, ...] = ()


@frozen(kw_only=True, eq=False)
class Found:
    """One part to vary: where its size is typed, its size now and the sizes to try."""

    part: Member | Strut | Bolt | Stud
    kind: str
    spot: Spot
    now: str
    sizes: tuple[str, ...]
    more: tuple[Edit, ...] = ()  # that go with every size
    others: tuple[Spot, ...] = ()  # where the same size is typed again

    def option(self, size: str) -> Option:
        """What to type for a size."""
        own = [*self.spot.edits(size), *(edit for spot in self.others for edit in spot.edits(size))]
        section = isinstance(self.part, Member | Strut) and not self.more
        return Option(size=size, edits=(*own, *self.more), shape=parse(size) if section else None)


def screen(file: TypedCase, names: Sequence[str], wanted: Wanted, *, run: Run = HERE) -> Screened:
    """Every stock size of one part, or all combinations of the sizes of several, lightest first.

    A part is a member, a strut, a bolt or a stud. Raises CaseError for a name that is none of these, for a
    section that is not sold and for too many combinations.
    """
    parts = [_found(file, name, wanted) for name in names]
    count = 1
    for part in parts:
        count *= len(part.sizes)
    if count == 0 or count > MOST:
        why = (
            "no stock size is left: widen --od and --wall"
            if count == 0
            else f"{count} combinations are too many: narrow them by --od and --wall to {MOST}"
        )
        raise CaseError([("", f"{', '.join(names)}: {why}")])
    options = []
    for sizes in itertools.product(*(part.sizes for part in parts)):
        each = [part.option(size) for part, size in zip(parts, sizes, strict=True)]
        options.append(
            Option(
                size="; ".join(one.size for one in each),
                edits=tuple(edit for one in each for edit in one.edits),
                shape=each[0].shape if len(each) == 1 else None,
            )
        )
    return screened(
        file,
        options,
        part=", ".join(names),
        kind=parts[0].kind,
        now="; ".join(part.now for part in parts),
        by_mass=parts[0].kind in ("member", "strut"),
        run=run,
    )


def thickness(file: TypedCase, name: str, wanted: Wanted, *, run: Run = HERE) -> Screened:
    """Every stock thickness of a flat, thinnest first; raises CaseError for what is not a flat."""
    part = part_named(file, name, "member", "strut")
    if isinstance(part, Member | Strut) and not isinstance(part.shape, Flat):
        raise CaseError([("", f"{name} is not a flat: use `strength screen` for it")])
    found = _found(file, name, wanted)
    return screened(
        file,
        [found.option(size) for size in found.sizes],
        part=name,
        kind=found.kind,
        now=found.now,
        run=run,
    )


def leg(file: TypedCase, name: str, *, run: Run = HERE) -> Screened:
    """Legs of a weld from 1 mm in steps of 0.5 mm; raises CaseError for what is not a weld."""
    weld = part_named(file, name, "weld")
    if not isinstance(weld, Weld):
        raise TypeError(name)
    spot = leg_spot(file, weld)
    thinnest = thinnest_wall(file, weld)
    most = greatest_sensible_leg(thinnest)
    return screened(
        file,
        [
            Option(size=size, edits=spot.edits(size), sensible=quantity(size, "length") <= most + 1e-9)
            for size in legs(thinnest, weld.leg)
        ],
        part=name,
        kind="weld",
        now=spot.now,
        greatest_sensible=f"{most:g} mm",
        by_mass=False,
        run=run,
    )


def thinnest_wall(file: TypedCase, weld: Weld) -> float:
    """The thinnest wall that a weld joins [mm]; its leg where none is known."""
    bars = {member.name: member.shape for member in file.case.members}
    walls = [
        wall_of(shape) for name in (weld.member, weld.onto) if (shape := bars.get(str(name))) is not None
    ]
    if isinstance(weld.onto, Plate):
        walls.append(weld.onto.thickness)
    return min((wall for wall in walls if wall is not None), default=weld.leg)


def _found(file: TypedCase, name: str, wanted: Wanted) -> Found:
    part = part_named(file, name, "member", "strut", "bolt", "stud")
    if isinstance(part, Bolt | Stud):
        return _fastener(file, part, wanted)
    if not isinstance(part, Member | Strut):
        raise TypeError(name)
    if part.shape is None:
        raise CaseError([("", f"{name} has no section: it is given by its stiffness, or holds its length")])
    spot = section_spot(file, part)
    metal = file.case.metals.get(part.material)
    more: tuple[Edit, ...] = ()
    if wanted.material:
        metal = find_metal(wanted.material)
        more = metal_spot(file, part).edits(wanted.material)
    others: list[Spot] = []
    for other in wanted.sharing:
        twin = part_named(file, other, "member", "strut")
        if not isinstance(twin, Member | Strut) or type(twin.shape) is not type(part.shape):
            raise CaseError([("", f"{other} cannot share the size of {name}: it is of another kind")])
        place = section_spot(file, twin)
        if place.way != spot.way and all(place.way != each.way for each in others):
            others.append(place)
        if wanted.material and (edit := metal_spot(file, twin).edits(wanted.material)[0]) not in more:
            more = (*more, edit)
    if isinstance(part.shape, Flat):
        sizes = thicknesses(part.shape, spot.now, metal, wall=wanted.wall)
    else:
        sizes = sections(part.shape, spot.now, metal, od=wanted.od, wall=wanted.wall)
    kind = "member" if isinstance(part, Member) else "strut"
    return Found(
        part=part,
        kind=kind,
        spot=spot,
        now=spot.now or size_text(part),
        sizes=sizes,
        more=more,
        others=tuple(others),
    )


def size_text(part: Member | Strut) -> str:
    """A section that follows another's text."""
    from strength.case.writing import section

    return "" if part.shape is None else section(part.shape).strip('"')


def _fastener(file: TypedCase, part: Bolt | Stud, wanted: Wanted) -> Found:
    if wanted.material or wanted.sharing:
        raise CaseError([("", f"{part.name} is a bolt: --material and --with are for members")])
    sizes = tuple(size for size in fastener_sizes(part) if wanted.od.holds(_diameter(size)))
    spot = fastener_spot(file, part)
    return Found(
        part=part,
        kind="bolt" if isinstance(part, Bolt) else "stud",
        spot=spot,
        now=spot.now,
        sizes=sizes,
    )


def _diameter(size: str) -> float:
    from strength.case.sizes import bolt_size

    return bolt_size(size).diameter
