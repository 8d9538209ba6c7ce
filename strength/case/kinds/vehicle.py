"""Wheels, tows, masses and loads."""

from strength.case.kinds.kind import Kind, several
from strength.case.readers import (
    Key,
    choice,
    direction,
    list_of,
    name,
    number,
    place,
    quantity,
    table_of,
    truth,
    vector,
)

WHEEL = Kind(
    "wheel",
    "wheels",
    (
        Key("centre", place, "the place of its middle"),
        Key("radius", quantity("length", above=0.0), "from its middle to the ground"),
        Key("axle", direction),
        Key("braked", truth),
        Key("driven", truth),
        Key("caliper", place),
        Key("grip", number(above=0.0)),
    ),
    names=("centre", "caliper"),
)
TOW = Kind("tow", "tows", (Key("at", place, "the place of the hitch or eye"),), names=("at",))
MASS = Kind(
    "mass",
    "masses",
    (
        Key("mass", quantity("mass", above=0.0), "how heavy it is, such as '80 kg'"),
        Key("at", place, "the place of its centre of mass"),
        Key("carried_by", several(place)),
        Key("payload", truth),
        Key("gyration", quantity("length", least=0.0)),
    ),
    names=("at", "carried_by"),
)
_STRIKE = table_of(
    Key("wheel", name, "the wheel that is struck"),
    Key("up", number(least=0.0), "how many times its standing load pushes it up"),
    Key("back", number()),
    Key("inward", number()),
)
_FORCE = table_of(
    Key("at", place, "the place where the force is put on"),
    Key("force", vector("force")),
    Key("moment", vector("moment")),
)
_EASE = quantity("acceleration", least=0.0)
LOAD = Kind(
    "load",
    "loads",
    (
        Key("severity", choice("routine", "hard", "abuse")),
        Key("vertical", number()),
        Key("braking", _EASE),
        Key("driving", _EASE),
        Key("cornering", _EASE),
        Key("turn", choice("left", "right", "both")),
        Key("strike", _STRIKE),
        Key("off_ground", list_of(name, or_one=True)),
        Key("forces", list_of(_FORCE)),
    ),
)
VEHICLE = (WHEEL, TOW, MASS, LOAD)
