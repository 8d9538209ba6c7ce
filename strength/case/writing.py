"""Values as they stand in a case file: texts with units that read back to the very same floats."""

import re
from collections.abc import Iterable, Mapping

from strength.case.shape import Bar, Bare, Box, Flat, Outline, Rigid, Shape, Tube

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r", "\b": "\\b", "\f": "\\f"}


def figure(value: float) -> str:
    """The shortest figure that reads back to the same float.

    >>> figure(25.0), figure(0.1 + 0.2)
    ('25', '0.30000000000000004')
    """
    return repr(float(value)).removesuffix(".0")


def amount(values: float | Iterable[float], unit: str) -> str:
    """One or several numbers and their unit, as a text; no unit for a direction.

    >>> amount((1.0, -2.5, 0.0), "mm")
    '"1 -2.5 0 mm"'
    """
    numbers = (values,) if isinstance(values, float | int) else values
    return quoted(" ".join([*(figure(number) for number in numbers), *([unit] if unit else [])]))


def quoted(text: str) -> str:
    r"""A text in quotes.

    >>> quoted('3" pipe')
    '"3\\" pipe"'
    """
    return '"' + "".join(_escaped(sign) for sign in text) + '"'


def _escaped(sign: str) -> str:
    if sign in _ESCAPES:
        return _ESCAPES[sign]
    return f"\\u{ord(sign):04X}" if ord(sign) < 0x20 or ord(sign) == 0x7F else sign


def key(name: str) -> str:
    """A name before an equals sign; quoted where it is more than one plain word.

    >>> key("tail"), key("hub.left")
    ('tail', '"hub.left"')
    """
    return name if _BARE.fullmatch(name) else quoted(name)


def table(values: Mapping[str, str | None]) -> str:
    """An inline table of values already written; None: left out.

    >>> table({"leg": '"3 mm"', "onto": None})
    '{leg = "3 mm"}'
    """
    return "{" + ", ".join(f"{key(word)} = {text}" for word, text in values.items() if text is not None) + "}"


def array(values: Iterable[str]) -> str:
    """A list of values already written."""
    return "[" + ", ".join(values) + "]"


def truth(value: bool) -> str:
    """True or false."""
    return "true" if value else "false"


def section(shape: Shape) -> str:
    """A section as a text or a table."""
    match shape:
        case Tube():
            return quoted(f"tube {figure(shape.od)} x {figure(shape.wall)} mm")
        case Bar():
            return quoted(f"bar {figure(shape.diameter)} mm")
        case Box():
            sides = " x ".join(figure(side) for side in (shape.depth, shape.width, shape.wall))
            return quoted(f"box {sides} mm")
        case Flat():
            return quoted(f"flat {figure(shape.width)} x {figure(shape.thickness)} mm")
        case Rigid():
            return quoted("rigid")
        case Outline():
            holes = array(array(amount(corner, "mm") for corner in hole) for hole in shape.holes)
            corners = array(amount(corner, "mm") for corner in shape.corners)
            return table({"outline": corners, "holes": holes if shape.holes else None})
        case Bare():
            return table(
                {
                    "A": amount(shape.area, "mm^2"),
                    "Iy": amount(shape.iy, "mm^4"),
                    "Iz": amount(shape.iz, "mm^4"),
                    "J": amount(shape.torsion, "mm^4"),
                }
            )


def anything(value: object) -> str:
    """A value as TOML read it."""
    if isinstance(value, bool):
        return truth(value)
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, Mapping):
        return table({str(word): anything(each) for word, each in value.items()})
    if isinstance(value, list | tuple):
        return array(anything(each) for each in value)
    return repr(value) if isinstance(value, int | float) else str(value)
