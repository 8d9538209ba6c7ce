"""Wishbones, knuckles and brackets."""

from strength.case.faults import Faults, RefusedError
from strength.case.kinds.joints import CLASS, FILLER, LEG, MATERIAL, PROCESS, QUALITY
from strength.case.kinds.kind import Kind
from strength.case.model import Vector
from strength.case.readers import (
    Key,
    Reader,
    choice,
    direction,
    name,
    number,
    place,
    quantity,
    said,
    table_of,
)
from strength.case.shape import Bar, Flat
from strength.case.shape_text import in_words, only
from strength.case.sizes import counted, pivot, size, thread, thread_root
from strength.units import pattern

_SIZE = quantity("length", above=0.0)
_CLEAR = quantity("length", least=0.0)
_WORK = (LEG, FILLER, PROCESS, QUALITY, CLASS, MATERIAL)
_AXES: dict[str, Vector] = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}


def _wide(raw: object, path: str, faults: Faults) -> Vector:
    if isinstance(raw, str) and raw.strip() in _AXES:
        return _AXES[raw.strip()]
    if isinstance(raw, str) and raw.strip()[:1].isalpha():
        raise RefusedError(f"{said(raw)} is not a direction: write x, y, z or three numbers such as '0 1 1'")
    found: Vector = direction.read(raw, path, faults)
    return found


_WIDE = Reader(
    _wide,
    {
        "type": "string",
        "anyOf": [{"pattern": r"^\s*[xyz]\s*$"}, {"pattern": pattern(0)}],
        "description": "x, y, z or three numbers",
    },
)
WISHBONE = Kind(
    "wishbone",
    "wishbones",
    (
        Key("front", place, "where is its front pivot?"),
        Key("rear", place, "where is its rear pivot?"),
        Key("ball", place, "where is its outer ball?"),
        Key("tube", in_words, "what are its legs cut from, such as 'tube 25 x 2 mm'?"),
        Key("rear_tube", in_words),
        Key("pivot", pivot, "how is it held: 'rod end M10', 'bush M10' or 'fixed'?"),
        Key("spreader", number()),
        Key("spreader_tube", in_words),
        Key("cup", _CLEAR),
        Key("cup_wall", _SIZE),
        Key("cup_material", name),
        Key("pivot_reach", _CLEAR),
        Key("pivot_engaged", _SIZE),
        Key("cheek", _SIZE),
        *_WORK,
    ),
    names=("front", "rear", "ball"),
)
KNUCKLE = Kind(
    "knuckle",
    "knuckles",
    (
        Key("lower", place, "which wishbone is below, or where is its ball?"),
        Key("upper", place, "which wishbone is above, or where is its ball?"),
        Key("wheel", name, "which wheel does it carry?"),
        Key("plate", only(Flat), "what is it cut from, such as 'flat 70 x 16 mm'?"),
        Key("up", direction),
        Key("axle", only(Bar), "what is its stub axle, such as 'bar 20 mm'?"),
        Key("axle_material", name),
        Key("ball", thread, "which thread do its ball studs have, such as 'M12'?"),
        Key("ball_reach", _CLEAR),
        Key("ball_axis", choice("across", "along")),
        Key("ball_engaged", _SIZE),
        Key("set", quantity("length")),
        Key(
            "shoulder",
            table_of(
                Key("larger", _SIZE, "what is the diameter beyond the step?"),
                Key("fillet", _SIZE),
                Key("root", thread_root),
            ),
        ),
        *_WORK,
    ),
    names=("lower", "upper", "wheel"),
)
BRACKET = Kind(
    "bracket",
    "brackets",
    (
        Key("on", name, "which member does it stand on?"),
        Key("tip", place, "where does the force enter?"),
        Key("plate", only(Flat), "what is it cut from, such as 'flat 45 x 6 mm'?"),
        # told by whoever knows the plate: "which way does the 45 mm point, x, y or z?"
        Key("wide", _WIDE, "which way does the width of its plate point, x, y or z?", told_later=True),
        Key("at", number(least=0.0, most=1.0)),
        Key("bolts", counted),
        Key("apart", _SIZE),
        Key("edge", _SIZE),
        Key("eye", size),
        Key("ball", thread),
        Key("ball_reach", _CLEAR),
        Key("ball_engaged", _SIZE),
        *_WORK,
    ),
    names=("on", "tip"),
)
TRADE = (WISHBONE, KNUCKLE, BRACKET)
