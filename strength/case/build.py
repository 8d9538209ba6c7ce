"""From checked entries to the values of the model."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, cast

from strength.case.dropout import Dropout
from strength.case.loads import load
from strength.case.model import (
    Basis,
    Bolt,
    Clamp,
    Hole,
    Mass,
    Member,
    Plate,
    Point,
    Shoulder,
    Sleeve,
    Strut,
    Stud,
    Support,
    Tow,
    Weld,
    Wheel,
)
from strength.case.road import Road, RoadBlock
from strength.case.trade.entry import Entry
from strength.values import evolve

# keys that the model calls by another name: `from` and `class` are words of Python
NAMES = {"from": "start", "to": "end", "section": "shape", "class": "grade"}


def _plain(made: type) -> Callable[[Entry], Any]:
    """Builds a model class from keys of the same meaning, in floats where it has floats."""

    def build(entry: Entry) -> Any:
        keys = {NAMES.get(key, key): value for key, value in entry.keys.items()}
        return made(name=entry.name, path=entry.path, **keys)

    return build


def _point(entry: Entry) -> Point:
    return Point(name=entry.name, at=entry.keys["at"], path=entry.path)


def _member(entry: Entry) -> Member:
    keys = {NAMES.get(key, key): value for key, value in entry.keys.items()}
    return Member(name=entry.name, path=entry.path, **keys)


def _joint(made: type) -> Callable[[Entry], Any]:
    """Builds a joint: its `end` is an end of the member, not a place."""

    def build(entry: Entry) -> Any:
        keys = {"grade" if key == "class" else key: value for key, value in entry.keys.items()}
        return made(name=entry.name, path=entry.path, **keys)

    return build


def _weld(entry: Entry) -> Weld:
    keys = dict(entry.keys)
    if isinstance(keys.get("pattern"), tuple):
        keys["lines"] = keys["pattern"]
        keys["pattern"] = "lines"
    if isinstance(keys.get("onto"), Mapping):
        keys["onto"] = Plate(**keys["onto"])
    return Weld(name=entry.name, path=entry.path, **keys)


def _bolt(entry: Entry) -> Bolt:
    keys = dict(entry.keys)
    keys.setdefault("thread_in_shear", keys["size"].kind == "thread")
    keys["plates"] = tuple(Plate(**plate) for plate in keys.get("plates", ()))
    return cast("Bolt", _joint(Bolt)(evolve(entry, keys=keys)))


def _stud(entry: Entry) -> Stud:
    keys = dict(entry.keys)
    rating = keys.pop("rating", {})
    keys["rating_radial"], keys["rating_axial"] = rating.get("radial"), rating.get("axial")
    return cast("Stud", _joint(Stud)(evolve(entry, keys=keys)))


def _sleeve(entry: Entry) -> Sleeve:
    keys = dict(entry.keys)
    bolt = keys.pop("bolt", None)
    if bolt:
        keys["bolt"], keys["class"] = bolt["size"], bolt["class"]
    return cast("Sleeve", _joint(Sleeve)(evolve(entry, keys=keys)))


def _clamp(entry: Entry) -> Clamp:
    keys = dict(entry.keys)
    keys["bolt_count"], keys["bolt"] = keys.pop("bolts")
    return cast("Clamp", _joint(Clamp)(evolve(entry, keys=keys)))


def _dropout(entry: Entry) -> Dropout:
    keys = dict(entry.keys)
    axle = keys.pop("axle")
    keys["flats"], keys["diameter"] = axle["flats"], axle["diameter"]
    if "material" in axle:
        keys["axle_material"] = axle["material"]
    return cast("Dropout", _joint(Dropout)(evolve(entry, keys=keys)))


# kind -> (field of Case, how it is built)
BUILDERS: dict[str, tuple[str, Callable[[Entry], Any]]] = {
    "point": ("points", _point),
    "member": ("members", _member),
    "strut": ("struts", _plain(Strut)),
    "support": ("supports", _plain(Support)),
    "wheel": ("wheels", _plain(Wheel)),
    "tow": ("tows", _plain(Tow)),
    "mass": ("masses", _plain(Mass)),
    "load": ("loads", load),
    "weld": ("welds", _weld),
    "bolt": ("bolts", _bolt),
    "stud": ("studs", _stud),
    "hole": ("holes", _joint(Hole)),
    "shoulder": ("shoulders", _joint(Shoulder)),
    "sleeve": ("sleeves", _sleeve),
    "clamp": ("clamps", _clamp),
    "dropout": ("dropouts", _dropout),
}


def built(entries: Iterable[Entry]) -> dict[str, tuple[Any, ...]]:
    """The parts of a case by the name of their field."""
    found: dict[str, list[Any]] = {field: [] for field, _ in BUILDERS.values()}
    for entry in entries:
        field, build = BUILDERS[entry.kind]
        found[field].append(build(entry))
    return {field: tuple(parts) for field, parts in found.items()}


def basis(table: Mapping[str, Any]) -> Basis:
    """The design basis from its keys."""
    plain = {key: table[key] for key in ("method", "shear_flexible", "wall") if key in table}
    return Basis(factors={key: value for key, value in table.items() if key not in plain}, **plain)


def road(table: Mapping[str, Any]) -> Road:
    """The road from its keys."""
    blocks = (
        RoadBlock(start=block["from"], end=block["to"], per_km=block["per_km"])
        for block in table.get("block", ())
    )
    return Road(distance=table["distance"], blocks=tuple(blocks))
