"""Points, members, struts and supports."""

from strength.case.faults import RefusedError
from strength.case.kinds.joints import FILLER, LEG, PROCESS, QUALITY
from strength.case.kinds.kind import Kind, several
from strength.case.readers import (
    Key,
    choice,
    direction,
    either,
    list_of,
    name,
    number,
    place,
    quantity,
    truth,
    vector,
    worded,
)
from strength.case.shape_text import section

HELD = ("x", "y", "z", "rx", "ry", "rz")
Hold = tuple[bool, bool, bool, bool, bool, bool]


def _hold(text: str) -> Hold:
    words = HELD if text.strip() == "all" else tuple(text.split())
    unknown = [word for word in words if word not in HELD]
    if unknown or not words:
        raise RefusedError(f"{text!r} is not a hold: write 'all' or any of x y z rx ry rz, such as 'x y z'")
    x, y, z, rx, ry, rz = (word in words for word in HELD)
    return (x, y, z, rx, ry, rz)


hold = worded(_hold, "x y z", r"^\s*(?:all|r?[xyz](?:\s+r?[xyz])*)\s*$")
ENDS = choice("fixed", "ball", "hinge")
_FRACTION = number(least=0.0, most=1.0)

POINT = Kind(
    "point",
    "points",
    (
        Key("at", either(_FRACTION, vector("length"), by=lambda raw: int(isinstance(raw, str)))),
        Key("from", place),
        Key("by", vector("length")),
        Key("between", list_of(place, least=2, most=2)),
        Key("on", name),
    ),
    short="at",
    names=("from", "between", "on"),
)
MEMBER = Kind(
    "member",
    "members",
    (
        Key("from", place, "the place where it begins"),
        Key("to", place, "the place where it ends"),
        Key("via", list_of(place, or_one=True)),
        Key("section", section, "what it is cut from, such as 'tube 25 x 2 mm'"),
        Key("material", name),
        Key("from_end", ENDS),
        Key("to_end", ENDS),
        Key("hinge_axis", direction),
        Key("up", direction),
        Key("buckling_factor", number(above=0.0)),
        Key("only_path", truth),
        Key("weld_from", name),
        Key("weld_to", name),
        LEG,  # this and the next three: of the welds that `weld_from` and `weld_to` make
        FILLER,
        PROCESS,
        QUALITY,
    ),
    names=("from", "to", "via"),
)
STRUT = Kind(
    "strut",
    "struts",
    (
        Key("from", place, "the place where it begins"),
        Key("to", place, "the place where it ends"),
        Key("stiffness", quantity("stiffness", above=0.0)),
        Key("section", section),
        Key("material", name),
        Key("up", direction),
        Key("buckling_factor", number(above=0.0)),
        Key("only_path", truth),
    ),
    names=("from", "to"),
)
SUPPORT = Kind(
    "support",
    "supports",
    (
        Key("at", several(place)),
        Key("hold", hold, "what it holds: 'all', or any of x y z rx ry rz"),
    ),
    short="hold",
    names=("at",),
    nameless=True,
)
STRUCTURE = (POINT, MEMBER, STRUT, SUPPORT)
