"""Better places for bolts and studs: further apart, further from the edge, deeper in."""

from collections.abc import Iterator

from strength.case.model import Bolt, Stud
from strength.case.shape import Flat
from strength.case.trade.entry import Entry
from strength.case.trade.names import suffixed
from strength.studies.typed import BLOCK, Edit, TypedCase

Found = Iterator[tuple[str, tuple[Edit, ...]]]

WIDER = (1.25, 1.5, 2.0, 2.5)  # of the pitch of a row of bolts
DEEPER = (1.5, 2.0)  # diameters of thread engaged; more carries no more (common practice, no source)
FARTHER = (1.5, 2.0, 2.5, 3.0)  # edge distances in hole diameters


def further_apart(file: TypedCase, bolt: Bolt) -> Found:
    """A bracket's row of bolts with more between them, as far as its width and its edges allow."""
    maker = maker_of(file, "bracket", "-fix", bolt.name)
    if maker is None or not bolt.group:
        return
    apart, edge, plate = (maker.keys.get(key) for key in ("apart", "edge", "plate"))
    if apart is None or edge is None or not isinstance(plate, Flat):
        return
    room = (plate.width - 2.0 * edge) / (len(bolt.group) - 1)
    for wider in sorted({min(apart * factor, room) for factor in WIDER}):
        if wider > apart * 1.05:
            yield _apart(file, maker, wider, apart)


def _apart(file: TypedCase, maker: Entry, wider: float, apart: float) -> tuple[str, tuple[Edit, ...]]:
    text = f"{wider:.4g} mm"
    return f"{text} apart instead of {apart:.4g} mm", (Edit((*file.way_to(maker), "apart"), text),)


def more_edge(file: TypedCase, bolt: Bolt) -> Found:
    """More between hole and edge: of a bracket's bolts within its width, else of the plates typed."""
    maker = maker_of(file, "bracket", "-fix", bolt.name)
    hole = max((plate.hole for plate in bolt.plates), default=0.0)
    now = min((plate.edge for plate in bolt.plates), default=0.0)
    for edge in (factor * hole for factor in FARTHER):
        if edge <= now * 1.02:
            continue
        how = f"edge distance {edge:.4g} mm instead of {now:.4g} mm"
        if maker is not None:
            plate, apart = maker.keys.get("plate"), maker.keys.get("apart") or 0.0
            if isinstance(plate, Flat) and 2.0 * edge + apart * (len(bolt.group or (0,)) - 1) <= plate.width:
                yield how, (Edit((*file.way_to(maker), "edge"), f"{edge:.4g} mm"),)
        elif (edits := _plate_edges(file, bolt, edge)) is not None:
            yield how, edits


def _plate_edges(file: TypedCase, bolt: Bolt, edge: float) -> tuple[Edit, ...] | None:
    """Edge distances where they are typed in a bolt's own plates."""
    for name in file.sides(bolt.name):
        entry = file.entry("bolt", name)
        if entry is not None:
            way = file.way_to(entry)
            return tuple(
                Edit((*way, "plates", n, "edge"), f"{edge:.4g} mm")
                for n, plate in enumerate(bolt.plates)
                if plate.edge < edge
            )
    return None


def engagement(file: TypedCase, stud: Stud) -> Found:
    """More thread screwed in, up to two diameters; not deeper than a plate it goes through."""
    for depth in (factor * stud.size.diameter for factor in DEEPER):
        if depth <= stud.engaged * 1.02:
            continue
        how = f"{depth:.4g} mm of thread engaged instead of {stud.engaged:.4g} mm, if the metal is that deep"
        text = f"{depth:.4g} mm"
        for name in file.sides(stud.name):
            edit = _engaged(file, name, text)
            if edit is not None:
                yield how, (edit,)
                break


def _engaged(file: TypedCase, name: str, text: str) -> Edit | None:
    entry = file.entry("stud", name)
    if entry is not None:
        return Edit((*file.way_to(entry), "engaged"), text)
    for kind, suffix, key in (
        ("wishbone", "-front-rodend", "pivot_engaged"),
        ("wishbone", "-rear-rodend", "pivot_engaged"),
        ("bracket", "-ball", "ball_engaged"),
        ("knuckle", "-lower", "ball_engaged"),
        ("knuckle", "-upper", "ball_engaged"),
    ):
        maker = maker_of(file, kind, suffix, name)
        if maker is None:
            continue
        if kind == "knuckle" and maker.keys.get("ball_axis", "across") == "across":
            return None  # through the plate: no deeper than it is thick
        return Edit((*file.way_to(maker), key), text)
    return Edit(BLOCK, {"part": f"stud {name}", "engaged": text})


def maker_of(file: TypedCase, kind: str, suffix: str, name: str) -> Entry | None:
    """The trade part that makes a part of this name."""
    return next(
        (
            entry
            for side in file.sides(name)
            for entry in file.typed.entries
            if entry.kind == kind and suffixed(entry.name, suffix) == side
        ),
        None,
    )
