"""The keys of wishbones, knuckles and brackets, and the parts that are made of them."""

import re
from typing import Any

from strength import units
from strength.case import readers, sizes
from strength.case.faults import Faults, RefusedError
from strength.case.model import Vector
from strength.case.readers import Key, Reader, quantity, said
from strength.case.shape import Bar, Flat
from strength.case.shape_text import in_words, only, section
from strength.case.trade.entry import Entry
from strength.case.trade.parts import BoltRow, Bracket, Knuckle, Part, StepInBar, Wishbone, Workmanship

_AXES: dict[str, Vector] = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}
_LENGTH = quantity("length", above=0.0)
_PROCESS = readers.choice("mig", "tig", "stick", "braze")
_QUALITY = readers.choice("good", "ordinary", "poor")


def _wide(raw: object, path: str, faults: Faults) -> Vector:
    if isinstance(raw, str) and raw.strip() in _AXES:
        return _AXES[raw.strip()]
    if isinstance(raw, str) and not re.search(r"[0-9]", raw):
        raise RefusedError(f"{said(raw)} is not a direction: write x, y, z or three numbers such as '0 1 1'")
    along: Vector = readers.direction.read(raw, path, faults)
    return along


WIDE = Reader(
    _wide,
    {
        "type": "string",
        "anyOf": [{"enum": list(_AXES)}, {"pattern": units.pattern(0)}],
        "description": "which way the plate's width points: x, y, z or three numbers",
    },
)
WORK = (
    Key("leg", _LENGTH),
    Key("filler", readers.text),
    Key("process", _PROCESS),
    Key("quality", _QUALITY),
    Key("class", readers.text),
    Key("material", readers.text),
)
WISHBONE = (
    Key("front", readers.place, "where is the centre of the front pivot?"),
    Key("rear", readers.place, "where is the centre of the rear pivot?"),
    Key("ball", readers.place, "where is the centre of the outer ball?"),
    Key("tube", section, "which section have the legs, such as 'tube 25 x 2 mm'?"),
    Key("rear_tube", section),
    Key("pivot", sizes.pivot, "how are the legs held: 'rod end M10', 'bush M10' or 'fixed'?"),
    Key("spreader", readers.number()),
    Key("spreader_tube", section),
    Key("cup", quantity("length", least=0.0)),
    Key("cup_wall", _LENGTH),
    Key("cup_material", readers.text),
    Key("pivot_reach", _LENGTH),
    Key("pivot_engaged", _LENGTH),
    Key("cheek", _LENGTH),
    *WORK,
)
KNUCKLE = (
    Key("lower", readers.place, "which wishbone or place is the lower ball?"),
    Key("upper", readers.place, "which wishbone or place is the upper ball?"),
    Key("wheel", readers.name, "which wheel does it carry?"),
    Key("plate", only(Flat), "which flat is it made of, such as 'flat 70 x 16 mm'?"),
    Key("up", WIDE),
    Key("axle", only(Bar), "which bar is the stub axle, such as 'bar 20 mm'?"),
    Key("axle_material", readers.text),
    Key("ball", sizes.thread, "which size have the studs of the ball joints, such as 'M12'?"),
    Key("ball_reach", quantity("length", least=0.0)),
    Key("ball_axis", readers.choice("across", "along")),
    Key("ball_engaged", _LENGTH),
    Key("set", quantity("length")),
    Key(
        "shoulder",
        readers.table_of(
            Key("larger", _LENGTH, "the diameter on the plate's side of the step"),
            Key("fillet", _LENGTH),
            Key("root", sizes.thread_root),
            made=lambda values: StepInBar(**values),
        ),
    ),
    *WORK,
)
BRACKET = (
    Key("on", readers.name, "which member does it stand on?"),
    Key("tip", readers.place, "where does the force enter?"),
    Key("plate", only(Flat), "which flat is it made of, such as 'flat 45 x 6 mm'?"),
    Key("wide", WIDE),  # whether it is missing is told with the plate's width
    Key("at", readers.number(least=0.0, most=1.0)),
    Key("bolts", sizes.counted),
    Key("apart", _LENGTH),
    Key("edge", _LENGTH),
    Key("eye", sizes.size),
    Key("ball", sizes.thread),
    Key("ball_reach", quantity("length", least=0.0)),
    Key("ball_engaged", _LENGTH),
    *WORK,
)
TRADE_KEYS = {"wishbone": WISHBONE, "knuckle": KNUCKLE, "bracket": BRACKET}
_WELD_KEYS = ("leg", "filler", "process", "quality")
__all__ = ["BRACKET", "KNUCKLE", "TRADE_KEYS", "WISHBONE", "in_words", "part_of"]


def part_of(entry: Entry, faults: Faults) -> Part | None:
    """The trade part of an entry; None where a key it needs is missing or unreadable.

    Keys missing without a default are on the list already, but for those that only the other keys
    make necessary.
    """
    if not all(key.name in entry.keys for key in TRADE_KEYS[entry.kind] if key.missing):
        return None
    own = {key: value for key, value in entry.keys.items() if key not in {word.name for word in WORK}}
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
    step = own.get("shoulder")
    if step is not None and (step.fillet is None) == (step.root is None):
        faults.add(f"{entry.path}.shoulder", "a step has a `fillet` or a thread `root`: give one of the two")
        return None
    offset = own.pop("set", None)
    return Knuckle(**own, **common, offset=offset)


def _bracket(entry: Entry, own: dict[str, Any], common: dict[str, Any], faults: Faults) -> Bracket | None:
    sound = True
    if "wide" not in own:
        faults.add(
            entry.path,
            f"`wide` is missing: which way does the {own['plate'].width:g} mm point, x, y or z?",
        )
        sound = False
    if "eye" in own and "ball" in own:
        faults.add(entry.path, "`eye` and `ball` are both given: a tip has one of them, leave the other out")
        sound = False
    apart, edge = own.pop("apart", None), own.pop("edge", None)
    counted = own.pop("bolts", None)
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
    if not sound or edge is None:
        return None
    return BoltRow(count=count, size=size, apart=0.0 if apart is None else apart, edge=edge)
