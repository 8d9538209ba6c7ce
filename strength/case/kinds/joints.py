"""Welds, bolts, studs, holes, shoulders, sleeves, clamps and dropouts."""

from strength.case.faults import Faults, RefusedError
from strength.case.kinds.kind import END, Kind, of_member
from strength.case.readers import (
    Key,
    Reader,
    choice,
    direction,
    either,
    is_table,
    list_of,
    name,
    number,
    quantity,
    said,
    table_of,
    truth,
    vector,
    worded,
)
from strength.case.shape_text import in_words, looks_like_section
from strength.case.sizes import counted, size, thread, thread_root
from strength.units import pattern, spread_quantity

_SIZE = quantity("length", above=0.0)
_CLEAR = quantity("length", least=0.0)
_ANY = quantity("length")
PROCESSES = ("mig", "tig", "stick", "braze")
QUALITIES = ("good", "ordinary", "poor")
LEG = Key("leg", _SIZE)
FILLER = Key("filler", name)
PROCESS = Key("process", choice(*PROCESSES))
QUALITY = Key("quality", choice(*QUALITIES))
CLASS = Key("class", name)
MATERIAL = Key("material", name)
ONLY_PATH = Key("only_path", truth)


def _line(text: str) -> tuple[float, float, float, float]:
    y1, z1, y2, z2 = spread_quantity(text, "length", 4)
    if (y1, z1) == (y2, z2):
        raise RefusedError(f"{text!r} is a line without length")
    return (y1, z1, y2, z2)


_LINES = table_of(
    Key(
        "lines",
        list_of(worded(_line, "0 20 0 -20 mm", pattern(4)), least=1),
        "the weld lines, such as ['0 20 0 -20 mm'], in member axes y1 z1 y2 z2",
    ),
    made=lambda values: values["lines"],
)
_PATTERN = either(choice("around", "sides"), _LINES, by=is_table)


# A plate is read as its keys: a material that is left out is a default's to give.
def _host(raw: object, path: str, faults: Faults) -> str:
    if isinstance(raw, str) and raw.strip()[:1].isdigit():
        raise RefusedError(
            f"{said(raw)} is no member: a plate is written onto = {{thickness = '6 mm', material = 'S235JR'}}"
        )
    found: str = name.read(raw, path, faults)
    return found


_ONTO = either(
    Reader(_host, name.schema),
    table_of(Key("thickness", _SIZE, "of the plate it is welded onto"), MATERIAL),
    by=is_table,
)
_PLATE = table_of(
    Key("thickness", _SIZE, "of the plate (each cheek)"),
    MATERIAL,
    Key("edge", _SIZE, "from the middle of the hole to the nearest edge of the plate"),
    Key("hole", _SIZE, "the diameter of the hole"),
)

_LUG = table_of(
    Key("end", _SIZE, "from the hole's middle to the end of the carried plate, along its member"),
    Key("side", _SIZE, "from the hole's middle to the side of the carried plate"),
    made=lambda values: (values["end"], values["side"]),
)
_INTO = table_of(Key("material", name, "what it screws into"), made=lambda values: values["material"])
_RATED = quantity("force", above=0.0)


def _outer(raw: object, path: str, faults: Faults) -> object:
    reader = in_words if looks_like_section(raw) else name
    return reader.read(raw, path, faults)


WELD = Kind(
    "weld",
    "welds",
    (
        of_member("the member whose end is welded"),
        END,
        Key("inset", _CLEAR),
        Key("pattern", _PATTERN),
        LEG,
        FILLER,
        PROCESS,
        QUALITY,
        Key("onto", _ONTO),
        Key("method", choice("line", "ultimate")),
        Key("directional", truth),
        ONLY_PATH,
    ),
    names=("member", "onto"),
)
BOLT = Kind(
    "bolt",
    "bolts",
    (
        of_member("the member or strut whose end it carries"),
        END,
        Key("axis", direction, "the direction of the bolt, such as '0 1 0'"),
        Key("size", size, "such as 'M10', 'shoulder 10 mm' or 'pin 12 mm'"),
        CLASS,
        Key("shear_planes", number(least=1, most=2, whole=True)),
        Key("thread_in_shear", truth),
        Key("gap", _CLEAR),
        Key("group", list_of(vector("length"), least=2)),
        Key("plates", list_of(_PLATE, least=1, most=2)),
        Key("lug", _LUG),
        ONLY_PATH,
    ),
    names=("member",),
)
STUD = Kind(
    "stud",
    "studs",
    (
        of_member("the member or strut whose end it carries"),
        END,
        Key("axis", direction),
        Key("size", thread, "its thread, such as 'M12'"),
        CLASS,
        Key("reach", _CLEAR, "from the middle of the ball to the face it screws into"),
        Key("engaged", _SIZE, "the length of thread that is screwed in"),
        Key("into", _INTO),
        Key("rating", table_of(Key("radial", _RATED), Key("axial", _RATED))),
        ONLY_PATH,
    ),
    names=("member",),
)
HOLE = Kind(
    "hole",
    "holes",
    (
        of_member("the flat that is drilled"),
        Key("along", number(least=0.0, most=1.0), "where it is, as a fraction of the length"),
        Key("diameter", _SIZE, "of the hole"),
        Key("across", choice("thickness", "width")),
        Key("off_centre", _ANY),
    ),
    names=("member",),
)
SHOULDER = Kind(
    "shoulder",
    "shoulders",
    (
        of_member("the round bar"),
        END,
        Key("inset", _CLEAR),
        Key("larger", _SIZE, "the diameter beyond the step"),
        Key("fillet", _SIZE),
        Key("root", thread_root),
    ),
    names=("member",),
)
SLEEVE = Kind(
    "sleeve",
    "sleeves",
    (
        of_member("the inner tube"),
        END,
        Key("outer", Reader(_outer, {"type": "string"}), "the outer tube: a section or a member"),
        Key("overlap", _SIZE, "how far one tube reaches into the other"),
        Key("bolt", table_of(Key("size", size, "such as 'M10'"), CLASS)),
        Key("slot", _SIZE),
        ONLY_PATH,
    ),
    names=("member", "outer"),
)
CLAMP = Kind(
    "clamp",
    "clamps",
    (
        of_member("the tube or bar that is clamped"),
        END,
        Key("diameter", _SIZE, "of the clamped tube or bar"),
        Key("bolts", counted, "how many of which size, such as '2 x M6'"),
        CLASS,
        Key("friction", number(above=0.0, most=1.0)),
        ONLY_PATH,
    ),
    names=("member",),
)
DROPOUT = Kind(
    "dropout",
    "dropouts",
    (
        of_member("the member whose end is slotted for the axle"),
        END,
        Key("thickness", _SIZE, "of the dropout"),
        Key("slot", _SIZE, "the width of the slot that the flats stand in"),
        Key(
            "axle",
            table_of(
                Key("flats", _SIZE, "the distance across the flats of the axle"),
                Key("diameter", _SIZE, "of the axle beside its flats"),
                MATERIAL,
            ),
            "the axle, such as {flats = '10 mm', diameter = '14 mm'}",
        ),
        Key("torque", quantity("moment", above=0.0), "the most that its motor puts on this dropout"),
        MATERIAL,
        ONLY_PATH,
    ),
    names=("member",),
)
JOINTS = (WELD, BOLT, STUD, HOLE, SHOULDER, SLEEVE, CLAMP, DROPOUT)
