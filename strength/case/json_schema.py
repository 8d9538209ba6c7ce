"""The JSON Schema of a case file, made of the same descriptions that read it (draft 2020-12)."""

from typing import Any

from strength.case.kinds import KINDS, Kind
from strength.case.kinds.tables import CHANGE, FREE, HEAD, OWN, TABLES
from strength.case.readers import Schema, table_schema
from strength.case.readers import name as name_reader

DRAFT = "https://json-schema.org/draft/2020-12/schema"
_POINT_WAYS = [{"at"}, {"from", "by"}, {"between", "at"}, {"on", "at"}]


def case_schema() -> dict[str, Any]:
    """The schema, as plain dicts and lists.

    It tells keys, forms of quantities and the words that may stand; whether names are there and sizes
    fit together only the reading tells.
    """
    properties: dict[str, Schema] = {key.name: key.reader.schema for key in HEAD}
    definitions: dict[str, Schema] = {}
    for kind in KINDS.values():
        definitions |= _definitions(kind)
        properties[kind.word] = {"type": "array", "items": {"$ref": f"#/$defs/{kind.word}"}}
        properties[kind.plural] = {"$ref": f"#/$defs/{kind.plural}"}
    for word, keys in TABLES.items():
        properties[word] = table_schema(keys)
    for word in OWN:
        properties[word] = {"type": "object", "additionalProperties": {"type": "object"}}
    for word in FREE:
        properties[word] = {"type": "object"}
    properties["change"] = {
        "type": "array",
        "items": {
            "type": "object",
            "properties": {key.name: key.reader.schema for key in CHANGE},
            "required": ["part"],
        },
    }
    return {
        "$schema": DRAFT,
        "title": "A case: a light vehicle or a part of one, its loads and its joints",
        "type": "object",
        "properties": properties,
        "required": [key.name for key in HEAD if key.missing],
        "additionalProperties": False,
        "$defs": definitions,
    }


def _definitions(kind: Kind) -> dict[str, Schema]:
    """A block, a line and a table of lines of a kind; in a table a dotted name is a table of its own."""
    line = table_schema(kind.keys)
    block = {
        **line,
        "properties": {"name": name_reader.schema, **line["properties"]},
        "required": [*([] if kind.nameless else ["name"]), *line["required"]],
    }
    if kind.word == "point":
        ways = [{"required": sorted(way)} for way in _POINT_WAYS]
        line, block = {**line, "anyOf": ways}, {**block, "anyOf": ways}
    if kind.nameless:
        block["anyOf"] = [{"required": ["name"]}, {"required": ["at"]}]
    short = kind.key(kind.short)
    forms: list[Schema] = [line] if short is None else [line, short.reader.schema]
    names = {"$ref": f"#/$defs/{kind.plural}-names"}
    return {
        kind.word: block,
        f"{kind.word}-line": {"anyOf": forms} if short else line,
        kind.plural: {
            "type": "object",
            "additionalProperties": {"anyOf": [{"$ref": f"#/$defs/{kind.word}-line"}, names]},
        },
        f"{kind.plural}-names": {
            "type": "object",
            "minProperties": 1,
            "additionalProperties": {"anyOf": [{"$ref": f"#/$defs/{kind.word}-line"}, names]},
        },
    }
