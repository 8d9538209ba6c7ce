"""Records as JSON text."""

from json import JSONEncoder
from typing import Any

from strength.errors import SolveError


def text_of(record: dict[str, Any]) -> str:
    """A record as JSON text, a line per entry; raises SolveError where a number is not finite."""
    encode = JSONEncoder(ensure_ascii=False, allow_nan=False).encode
    parts = []
    try:
        for key, value in record.items():
            if isinstance(value, list) and value:
                text = "[\n  " + ",\n  ".join(map(encode, value)) + "\n ]"
            else:
                text = encode(value)
            parts.append(f" {encode(key)}: {text}")
    except ValueError as error:
        raise SolveError("a figure of the record is not a finite number") from error
    return "{\n" + ",\n".join(parts) + "\n}\n"
