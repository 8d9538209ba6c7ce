"""Mirroring at the middle plane: `.left` entries repeated as `.right`.

y changes sign in places, directions, groups and forces, x and z in moments. z_m keeps its meaning and
y_m reverses, so that y of weld lines and outlines changes sign, and with it the offset of a hole
drilled through the width.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from strength.case.places import mirrored, other_side
from strength.case.shape import Outline, Shape
from strength.case.trade.entry import Entry
from strength.case.trade.material_of import MaterialOf

Flip = Callable[[Any], Any]


def _name(value: Any) -> Any:
    return other_side(value) if isinstance(value, str) else value


def _names(values: Any) -> Any:
    return _name(values) if isinstance(values, str) else tuple(_name(value) for value in values)


def _place(value: Any) -> Any:
    return other_side(value) if isinstance(value, str) else mirrored(value)


def _vectors(values: Any) -> Any:
    return tuple(mirrored(value) for value in values)


def _lines(value: Any) -> Any:
    if isinstance(value, str):
        return value
    return tuple((0.0 - y1, z1, 0.0 - y2, z2) for y1, z1, y2, z2 in value)


def _shape(shape: Shape) -> Shape:
    if not isinstance(shape, Outline):
        return shape
    return Outline(
        tuple((0.0 - y, z) for y, z in reversed(shape.corners)),
        tuple(tuple((0.0 - y, z) for y, z in reversed(hole)) for hole in shape.holes),
        shape.drawn,
    )


def _outer(value: Any) -> Any:
    return other_side(value) if isinstance(value, str) else _shape(value)


def _metal(value: Any) -> Any:
    return MaterialOf(other_side(value)) if isinstance(value, MaterialOf) else value


def _plates(values: Any) -> Any:
    return tuple({key: _metal(each) for key, each in plate.items()} for plate in values)


def _onto(value: Any) -> Any:
    return other_side(value) if isinstance(value, str) else value


def _forces(values: Any) -> Any:
    return tuple(mirrored_force(value) for value in values)


def _strike(value: Any) -> Any:
    return {**value, "wheel": other_side(value["wheel"])}


def _turn(value: Any) -> Any:
    return {"left": "right", "right": "left"}.get(value, value)


def mirrored_force(force: Mapping[str, Any]) -> dict[str, Any]:
    """A force put on by hand, on the other side."""
    found = {**force, "at": _place(force["at"])}
    if "force" in force:
        found["force"] = mirrored(force["force"])
    if "moment" in force:
        x, y, z = force["moment"]
        found["moment"] = (0.0 - x, y, 0.0 - z)
    return found


_STRAIGHT: dict[str, Flip] = {
    "from": _place,
    "to": _place,
    "via": _names,
    "up": mirrored,
    "hinge_axis": mirrored,
    "section": _shape,
    "weld_from": _name,
    "weld_to": _name,
}
_JOINT: dict[str, Flip] = {"member": _name, "axis": mirrored, "group": _vectors, "plates": _plates}
FLIPS: dict[str, dict[str, Flip]] = {
    "point": {"at": mirrored, "on": _name},
    "member": _STRAIGHT,
    "strut": _STRAIGHT,
    "support": {"at": _place},
    "wheel": {"centre": _place, "caliper": _place, "axle": mirrored},
    "tow": {"at": _place},
    "mass": {"at": mirrored, "carried_by": _names},
    "load": {"strike": _strike, "off_ground": _names, "forces": _forces, "turn": _turn},
    "weld": {"member": _name, "onto": _onto, "pattern": _lines},
    "bolt": _JOINT,
    "stud": {**_JOINT, "into": _metal},
    "hole": {"member": _name},
    "shoulder": {"member": _name},
    "sleeve": {"member": _name, "outer": _outer},
    "clamp": {"member": _name},
    "dropout": {"member": _name},
}


def image(entry: Entry) -> Entry:
    """An entry on the other side of the middle plane; its points stand at vectors."""
    flips = FLIPS[entry.kind]
    keys = {key: flips[key](value) if key in flips else value for key, value in entry.keys.items()}
    if entry.kind == "hole" and keys.get("across") == "width" and "off_centre" in keys:
        keys["off_centre"] = 0.0 - keys["off_centre"]
    return Entry(kind=entry.kind, name=other_side(entry.name), keys=keys, path=entry.path, maker=entry.maker)


def with_images(entries: Iterable[Entry]) -> list[Entry]:
    """Entries, each `.left` one followed by its image.

    A strike on a `.left` wheel already makes a load for each side. A support that already holds the
    image's point in the same way is not made twice.
    """
    entries = list(entries)
    held = {(entry.keys.get("at"), entry.keys.get("hold")) for entry in entries if entry.kind == "support"}
    found = []
    for entry in entries:
        found.append(entry)
        if not entry.name.endswith(".left"):
            continue
        if entry.kind == "load" and entry.keys.get("strike", {}).get("wheel", "").endswith(".left"):
            continue
        twin = image(entry)
        if twin.kind == "support" and (twin.keys.get("at"), twin.keys.get("hold")) in held:
            continue
        found.append(twin)
    return found
