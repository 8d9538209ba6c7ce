"""The tables that stand once in a file, and the change block."""

from strength.case.faults import Faults, RefusedError
from strength.case.kinds.joints import CLASS, FILLER, LEG, PROCESS, QUALITY
from strength.case.readers import (
    Key,
    Reader,
    choice,
    either,
    is_table,
    list_of,
    name,
    number,
    quantity,
    table_of,
    text,
    truth,
)

SHAPES = ("tube", "box", "flat", "bar")
FACTORS = (
    "yield_factor",
    "ultimate_factor",
    "stability_factor",
    "load_factor",
    "gamma_m0",
    "gamma_m1",
    "gamma_m2",
    "gamma_m5",
)
SEVERITIES = ("routine", "hard", "abuse")
Factor = tuple[float | None, float | None, float | None]


def _factor_value(raw: object, path: str, faults: Faults) -> float:
    value: float = number().read(raw, path, faults)
    if value < 1.0:
        raise RefusedError(f"{value:g} is below 1: a factor may only be kept or raised above that")
    return value


_ONE_FACTOR = Reader(_factor_value, {"type": "number", "minimum": 1})
_FACTOR = either(
    Reader(lambda raw, path, faults: (_factor_value(raw, path, faults),) * 3, _ONE_FACTOR.schema),
    table_of(
        *(Key(severity, _ONE_FACTOR) for severity in SEVERITIES),
        made=lambda values: tuple(values.get(severity) for severity in SEVERITIES),
    ),
    by=is_table,
)

HEAD = (
    Key("title", text, "a line that says what the case is"),
    Key("notes", text),
    Key("mirror", truth),
)
TABLES: dict[str, tuple[Key, ...]] = {
    "display": (Key("units", choice("metric", "inch")),),
    "defaults": (
        Key(
            "material",
            either(name, table_of(*(Key(shape, name) for shape in SHAPES)), by=is_table),
        ),
        FILLER,
        PROCESS,
        QUALITY,
        CLASS,
        LEG,
    ),
    "basis": (
        Key("method", choice("allowable", "limit-state")),
        *(Key(factor, _FACTOR) for factor in FACTORS),
        Key("shear_flexible", truth),
        Key("wall", choice("nominal", "minimum")),
    ),
    "vehicle": (Key("leaning", quantity("angle", least=0.0, below=1.3962634015954636)),),  # 80 degrees
    "road": (
        Key("distance", quantity("distance", above=0.0), "how far it shall go, such as '20000 km'"),
        Key(
            "block",
            list_of(
                table_of(
                    Key("from", name, "one load, by its full name"),
                    Key("to", name, "the other load, by its full name"),
                    Key("per_km", number(above=0.0), "how many times in a kilometre"),
                )
            ),
        ),
    ),
}
FREE = ("spread",)  # read where it is used
OWN = ("material", "filler")  # tables of the user's own, one a name
CHANGE = (
    Key("part", name, "kind and name of the part that is changed, such as 'weld apex.left'"),
    Key("remove", truth),
)
