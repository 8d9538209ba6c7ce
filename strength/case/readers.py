"""Readers: each turns one value of a case file into a plain value, or says what is wrong with it.

A reader also knows what it accepts, as a fragment of JSON Schema, so that the schema of the case
file is made from the very things that read it.
"""

import math
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from strength import units
from strength.case.faults import Faults, RefusedError, closest, nearest
from strength.case.model import Vector

Schema = dict[str, Any]


class Reader(NamedTuple):
    """read: (value as typed, its path, the list of faults) to a plain value.

    Raises RefusedError or QuantityError; faults of parts of the value go on the list with their own
    paths, and an empty RefusedError is raised then.
    """

    read: Callable[[object, str, Faults], Any]
    schema: Schema


class Key(NamedTuple):
    """A key of a part or table.

    missing: what to tell where it is required and left out. told_later: whoever makes the part tells
    it, who has more to say.
    """

    name: str
    reader: Reader
    missing: str = ""
    told_later: bool = False


def said(raw: object) -> str:
    """A value as typed, for a message, cut where it is long."""
    if isinstance(raw, bool):
        return str(raw).lower()
    words = repr(raw)
    return words if len(words) <= 60 else words[:57] + "..."


def quantity(
    dimension: str, *, least: float | None = None, above: float | None = None, below: float | None = None
) -> Reader:
    """A number and a unit; bounds in the unit used inside."""
    kind, example = units.KINDS[dimension]

    def read(raw: object, _path: str, _faults: Faults) -> float:
        value = units.quantity(raw, dimension)
        if above is not None and value <= above:
            raise RefusedError(f"{said(raw)} must be more than {units.show(above, dimension)}")
        if least is not None and value < least:
            raise RefusedError(f"{said(raw)} must not be less than {units.show(least, dimension)}")
        if below is not None and value >= below:
            raise RefusedError(f"{said(raw)} must be less than {units.show(below, dimension)}")
        return value

    return Reader(read, {"type": "string", "pattern": units.pattern(1), "description": f"{kind}: {example}"})


def vector(dimension: str) -> Reader:
    """Three numbers and one unit."""
    kind = units.KINDS[dimension][0]

    def read(raw: object, _path: str, _faults: Faults) -> Vector:
        return units.vector(raw, dimension)

    return Reader(
        read,
        {"type": "string", "pattern": units.pattern(3), "description": f"{kind} along x, y and z, one unit"},
    )


def _direction(raw: object, _path: str, _faults: Faults) -> Vector:
    x, y, z = units.vector(raw, "")
    size = math.hypot(x, y, z)
    if size < 1e-9:
        raise RefusedError(f"{said(raw)} has no direction: write three numbers that are not all 0")
    if abs(size - 1.0) < 1e-12:  # a unit vector written out to the last digit stays as it is
        return (x, y, z)
    return (x / size, y / size, z / size)


direction = Reader(
    _direction, {"type": "string", "pattern": units.pattern(0), "description": "three numbers, no unit"}
)


def number(
    *, least: float | None = None, above: float | None = None, most: float | None = None, whole: bool = False
) -> Reader:
    """A bare number."""

    def read(raw: object, _path: str, _faults: Faults) -> float:
        if isinstance(raw, bool) or not isinstance(raw, int | float):
            quoted = ": write it without quotes or unit" if isinstance(raw, str) else ""
            raise RefusedError(f"{said(raw)} is not a bare number{quoted}, such as {2 if whole else 0.5}")
        if not abs(raw) < 1e300:
            raise RefusedError(f"{raw} is not a finite number")
        if whole and raw != int(raw):
            raise RefusedError(f"{raw} is not a whole number")
        if above is not None and raw <= above:
            raise RefusedError(f"{raw:g} must be more than {above:g}")
        if least is not None and raw < least:
            raise RefusedError(f"{raw:g} must not be less than {least:g}")
        if most is not None and raw > most:
            raise RefusedError(f"{raw:g} must not be more than {most:g}")
        return int(raw) if whole else float(raw)

    bounds = {"minimum": least, "exclusiveMinimum": above, "maximum": most}
    schema: Schema = {"type": "integer" if whole else "number"}
    return Reader(read, schema | {key: bound for key, bound in bounds.items() if bound is not None})


def _truth(raw: object, _path: str, _faults: Faults) -> bool:
    if not isinstance(raw, bool):
        raise RefusedError(f"{said(raw)} is neither true nor false (without quotes)")
    return raw


truth = Reader(_truth, {"type": "boolean"})


def worded(parse: Callable[[str], Any], example: str, pattern: str) -> Reader:
    """A text that `parse` understands; pattern: how it is written, as a regular expression."""

    def read(raw: object, _path: str, _faults: Faults) -> Any:
        if not isinstance(raw, str):
            raise RefusedError(f"{said(raw)} is not a text: write for instance {example!r}")
        return parse(raw)

    return Reader(read, {"type": "string", "pattern": pattern})


def choice(*words: str) -> Reader:
    """One of a few words."""

    def read(raw: object, _path: str, _faults: Faults) -> str:
        if not isinstance(raw, str) or raw not in words:
            hint = nearest(raw, words) if isinstance(raw, str) else ""
            if not hint or "known" in hint:
                hint = ": write one of " + ", ".join(words)
            raise RefusedError(f"{said(raw)} is not known here{hint}")
        return raw

    return Reader(read, {"enum": list(words)})


def _text(raw: object, _path: str, _faults: Faults) -> str:
    if not isinstance(raw, str):
        raise RefusedError(f"{said(raw)} is not a text in quotes")
    return raw


text = Reader(_text, {"type": "string"})


def _name(raw: object, _path: str, _faults: Faults) -> str:
    if not isinstance(raw, str):
        number_typed = isinstance(raw, int | float) and not isinstance(raw, bool)
        raise RefusedError(
            f"{said(raw)} is not a name in quotes" + (f": write '{raw}'" if number_typed else "")
        )
    if not raw.strip():
        raise RefusedError("the name is empty")
    if "/" in raw:
        raise RefusedError(
            f"{said(raw)} has a '/' in it: checks are named part/kind/load, so names go without"
        )
    if not raw.isprintable():
        raise RefusedError(f"{said(raw)} has a line break or another sign that cannot be printed")
    return raw


name = Reader(_name, {"type": "string", "pattern": r"^[^/\r\n\t]*[^/\s][^/\r\n\t]*$"})


def _place(raw: object, path: str, faults: Faults) -> str | Vector:
    if isinstance(raw, str) and raw.strip()[:1].isalpha():
        return str(_name(raw, path, faults))
    if not isinstance(raw, str):
        raise RefusedError(
            f"{said(raw)} is not a place: write a point's name or a vector such as '-120 350 260 mm'"
        )
    return units.vector(raw, "length")


place = Reader(
    _place,
    {
        "type": "string",
        "anyOf": [{"pattern": r"^\s*[^\W\d_][^/\r\n\t]*$"}, {"pattern": units.pattern(3)}],
        "description": "a point, a bracket or a wishbone by name, or a vector with its unit",
    },
)


def list_of(item: Reader, *, least: int = 0, most: int | None = None, or_one: bool = False) -> Reader:
    """A list; with `or_one`, a single value stands for a list of one. Gives a tuple."""

    def read(raw: object, path: str, faults: Faults) -> tuple[Any, ...]:
        if or_one and not isinstance(raw, list):
            return (item.read(raw, path, faults),)
        if not isinstance(raw, list):
            raise RefusedError(f"{said(raw)} is not a list in square brackets")
        if len(raw) < least or (most is not None and len(raw) > most):
            wanted = f"at least {least}" if most is None else f"{least} to {most}"
            raise RefusedError(f"has {len(raw)} values where {wanted} are wanted")
        found = []
        for i, one in enumerate(raw):
            with faults.at(f"{path}[{i}]"):
                found.append(item.read(one, f"{path}[{i}]", faults))
        if len(found) < len(raw):
            raise RefusedError
        return tuple(found)

    schema: Schema = {"type": "array", "items": item.schema, "minItems": least}
    if most is not None:
        schema["maxItems"] = most
    return Reader(read, {"anyOf": [item.schema, schema]} if or_one else schema)


def read_keys(raw: Mapping[str, object], keys: tuple[Key, ...], path: str, faults: Faults) -> dict[str, Any]:
    """The readable keys of a table; every fault goes on the list."""
    known = {key.name: key for key in keys}
    values = {}
    meant = set()
    for word, value in raw.items():
        if word not in known:
            meant.add(closest(word, known))
            faults.add(f"{path}.{word}" if path else word, f"unknown key{nearest(word, known)}")
            continue
        spot = f"{path}.{word}" if path else word
        with faults.at(spot):
            values[word] = known[word].reader.read(value, spot, faults)
    for key in keys:
        if key.missing and not key.told_later and key.name not in raw and key.name not in meant:
            faults.add(path, f"`{key.name}` is missing: {key.missing}")
    return values


def table_of(*keys: Key, made: Callable[[dict[str, Any]], Any] | None = None) -> Reader:
    """A table with these keys, as a dict or as what `made` makes of it."""

    def read(raw: object, path: str, faults: Faults) -> Any:
        if not isinstance(raw, dict):
            example = ", ".join(f"{key.name} = ..." for key in keys[:3])
            raise RefusedError(f"{said(raw)} is not a table such as {{{example}}}")
        values = read_keys(raw, keys, path, faults)
        if any(key.name in raw and key.name not in values for key in keys) or any(
            key.missing and key.name not in raw for key in keys
        ):
            raise RefusedError
        return made(values) if made else values

    return Reader(read, table_schema(keys))


def table_schema(keys: tuple[Key, ...]) -> Schema:
    """The schema of a table with these keys and no other."""
    return {
        "type": "object",
        "properties": {key.name: key.reader.schema for key in keys},
        "required": [key.name for key in keys if key.missing],
        "additionalProperties": False,
    }


def either(*readers: Reader, by: Callable[[object], int]) -> Reader:
    """One of several forms; `by` tells which from the value as typed."""

    def read(raw: object, path: str, faults: Faults) -> Any:
        return readers[by(raw)].read(raw, path, faults)

    return Reader(read, {"anyOf": [reader.schema for reader in readers]})


def is_table(raw: object) -> int:
    """For `either`: the second form is a table."""
    return int(isinstance(raw, dict))
