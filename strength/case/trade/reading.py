"""From the keys of wishbones, knuckles and brackets to the parts they mean."""

from typing import Any

from strength.case.faults import Faults
from strength.case.kinds.trade import TRADE
from strength.case.trade.entry import Entry
from strength.case.trade.parts import BoltRow, Bracket, Knuckle, Part, StepInBar, Wishbone, Workmanship
from strength.case.trade.wishbone import CLEARANCE

_NEEDED = {kind.word: [key.name for key in kind.keys if key.missing and not key.told_later] for kind in TRADE}
_WELD_KEYS = ("leg", "filler", "process", "quality")
_WORK = {*_WELD_KEYS, "class", "material"}


def part_of(entry: Entry, faults: Faults) -> Part | None:
    """The trade part of an entry; None where a key it needs is missing or unreadable.

    Keys missing without a default are on the list already, but for those that only the other keys
    make necessary.
    """
    if not all(key in entry.keys for key in _NEEDED[entry.kind]):
        return None
    own = {key: value for key, value in entry.keys.items() if key not in _WORK}
    common: dict[str, Any] = {"name": entry.name, "path": entry.path, "work": _workmanship(entry)}
    match entry.kind:
        case "wishbone":
            return Wishbone(**own, **common)
        case "knuckle":
            return _knuckle(entry, own, common, faults)
        case _:
            return _bracket(entry, own, common, faults)


def _workmanship(entry: Entry) -> Workmanship:
    keys = entry.keys
    return Workmanship(
        weld={key: keys[key] for key in _WELD_KEYS if key in keys},
        bolt={"class": keys["class"]} if "class" in keys else {},
        member={"material": keys["material"]} if "material" in keys else {},
    )


def _knuckle(entry: Entry, own: dict[str, Any], common: dict[str, Any], faults: Faults) -> Knuckle | None:
    step = own.pop("shoulder", None)
    if step is not None and ("fillet" in step) == ("root" in step):
        faults.add(f"{entry.path}.shoulder", "a step has a `fillet` or a thread `root`: give one of the two")
        return None
    offset = own.pop("set", None)
    return Knuckle(**own, **common, offset=offset, shoulder=StepInBar(**step) if step else None)


def _bracket(entry: Entry, own: dict[str, Any], common: dict[str, Any], faults: Faults) -> Bracket | None:
    sound = True
    if "wide" not in own:
        if not faults.under(f"{entry.path}.wide"):
            why = f"`wide` is missing: which way does the {own['plate'].width:g} mm point, x, y or z?"
            faults.add(entry.path, why)
        sound = False
    if "eye" in own and "ball" in own:
        faults.add(entry.path, "`eye` and `ball` are both given: a tip has one of them, leave the other out")
        sound = False
    apart, edge = own.pop("apart", None), own.pop("edge", None)
    counted = own.pop("bolts", None)
    if counted is None and faults.under(f"{entry.path}.bolts"):
        return None
    if counted is None:
        for key, value in (("apart", apart), ("edge", edge)):
            if value is not None:
                faults.add(f"{entry.path}.{key}", "is given without `bolts`: give both, or neither")
                sound = False
        return Bracket(**own, **common) if sound else None
    row = _bolt_row(entry, counted, apart, edge, faults)
    return Bracket(**own, **common, bolts=row) if sound and row is not None else None


def _bolt_row(
    entry: Entry, counted: tuple[int, Any], apart: float | None, edge: float | None, faults: Faults
) -> BoltRow | None:
    count, size = counted
    d = size.diameter
    sound = True
    if "leg" in entry.keys:
        faults.add(
            f"{entry.path}.leg",
            "a bolted bracket has no weld: leave out `leg`, or `bolts` to weld it",
        )
        sound = False
    if edge is None:
        faults.add(entry.path, "`edge` is missing: how far are the bolts' centres from the plate's end?")
        sound = False
    if count > 1 and apart is None:
        faults.add(entry.path, "`apart` is missing: how far apart are the bolts, centre to centre?")
        sound = False
    if count > 1 and apart is not None and apart < 2.5 * d:
        faults.add(
            f"{entry.path}.apart",
            f"{apart:.4g} mm is under 2.5 diameters ({2.5 * d:g} mm for {size.text}): move them apart",
        )
        sound = False
    across = (count - 1) * (apart or 0.0) + d + CLEARANCE
    if sound and across >= entry.keys["plate"].width:
        faults.add(
            entry.path,
            f"{count} x {size.text} in a row take {across:.4g} mm, but the plate is only "
            f"{entry.keys['plate'].width:g} mm wide: move them together, or widen the plate",
        )
        sound = False
    if not sound or edge is None:
        return None
    return BoltRow(count=count, size=size, apart=0.0 if apart is None else apart, edge=edge)
