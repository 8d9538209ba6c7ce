"""The reading of a case, from the file to checked plain values, in the order in which it is done."""

from collections.abc import Iterable, Mapping
from os.path import dirname
from typing import TYPE_CHECKING, Any

from strength.case import source
from strength.case.build import basis, built, road
from strength.case.checking import check
from strength.case.checking.meeting import unjoined
from strength.case.checking.naming import check_points, check_sides
from strength.case.defaults import Defaults, with_defaults
from strength.case.faults import Faults
from strength.case.gather import gather
from strength.case.known import Known
from strength.case.loads import spread_loads
from strength.case.metals import Stores
from strength.case.mirror import with_images
from strength.case.model import Case
from strength.case.settle import join_images, settled_loads
from strength.case.supports import spread_supports
from strength.case.trade.changes import changed
from strength.case.trade.entry import Entry
from strength.case.trade.expansion import Expansion, expand
from strength.case.trade.layout import Layout
from strength.case.trade.mobility import linkage, loose
from strength.case.trade.settling import placed, settled

if TYPE_CHECKING:
    from pathlib import Path


def read_case(path: "str | Path") -> Case:
    """The case in a file; raises CaseError with all its faults."""
    data = source.load(path)
    return _read(source.decode(data, str(path)), str(path), data, dirname(path))


def case_from_text(text: str, name: str = "case") -> Case:
    """The case in a text; name: what to call it in messages. Raises CaseError with all its faults."""
    return _read(text, name, text.encode("utf-8", "surrogatepass"))


def _read(text: str, name: str, data: bytes, folder: "str | Path" = "") -> Case:
    return case_from_tables(source.parse(text, name), data, folder)


def case_from_tables(
    tables: Mapping[str, Any],
    data: bytes = b"",
    folder: "str | Path | None" = None,
    known: Known | None = None,
) -> Case:
    """The case in tables as a TOML parser gives them, which stay as they are; raises CaseError.

    data: the file. folder: that of the case file, from which paths in it count; left out, where the program
    runs. known: what other readings of the file found out, which is not looked at again.
    """
    faults = Faults(folder)
    typed = gather(tables, faults, known)
    mirror = typed.head.get("mirror", faults.under("mirror"))  # most who get it wrong mean yes
    named = _once((entry for entry in spread_supports(typed.entries) if entry.name), faults)
    check_points(named, faults)
    one_side = expand(named, typed.changes, mirror=mirror, faults=faults)
    if mirror:
        check_sides(named, one_side.entries, faults)
    defaults = Defaults(typed.tables.get("defaults", {}), faults)
    stores = Stores(typed.own, faults)
    entries = with_defaults(_both_sides(one_side, mirror=mirror, faults=faults), defaults)
    found = check(entries, typed.tables, defaults, stores, faults, one_side.layout.broken)
    faults.end()
    case = Case(
        title=typed.head["title"],
        notes=typed.head.get("notes", ""),
        units=typed.tables.get("display", {}).get("units", "metric"),
        leaning=typed.tables.get("vehicle", {}).get("leaning", 0.0),
        basis=basis(typed.tables.get("basis", {})),
        road=road(typed.tables["road"]) if "road" in typed.tables else None,
        metals=stores.metals,
        fillers=stores.fillers,
        assumed=(*one_side.assumed, *defaults.assumed),
        warnings=found.warnings,
        not_checked=found.not_checked,
        spread=typed.free.get("spread", {}),
        data=data,
        **built(found.entries),
    )
    held = linkage(case, one_side.parts, mirror=mirror) if known else None
    if known is None or known.linkage != held:
        for path, why in loose(case, one_side.parts, mirror=mirror):
            faults.add(path, why)
    if known is not None and not faults:
        known.linkage = held
    if faults:
        paths = {point.name: point.path for point in case.points}
        for warned in unjoined(case.warnings):
            faults.add(paths[warned.part], f"{warned.part!r}: {warned.text}")
    faults.end()
    return case


def _both_sides(one_side: Expansion, *, mirror: bool, faults: Faults) -> list[Entry]:
    """Entries of both sides, changes for the right-hand one applied, loads as computed."""
    entries = settled_loads(one_side.entries, one_side.layout, faults)
    if mirror:
        entries = join_images(with_images(entries), faults)
    if one_side.later:
        entries = changed(entries, one_side.later, faults)
        layout = Layout(entries, mirror=False)
        entries = settled(entries, layout, faults, again=True)
        entries = [placed(entry, layout, faults) for entry in (*layout.made, *entries)]
    return _once(spread_loads(entries, mirror=mirror), faults)


def _once(entries: Iterable[Entry], faults: Faults) -> list[Entry]:
    """Entries, each name once per kind; what makes a name twice is told."""
    first: dict[tuple[str, str], Entry] = {}
    for entry in entries:
        other = first.setdefault((entry.kind, entry.name), entry)
        if other is not entry:
            makers = [each.maker or each.path for each in (other, entry)]
            faults.add(
                entry.path,
                f"the {entry.kind} {entry.name!r} is there twice: {makers[0]} and {makers[1]}; "
                "rename one of them",
            )
    return list(first.values())
