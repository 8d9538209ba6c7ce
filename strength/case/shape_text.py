"""Section texts, such as "tube 25 x 2 mm", and their values."""

import re
from typing import Any

from strength import units
from strength.case.faults import Faults, RefusedError, nearest
from strength.case.outline import check_outline
from strength.case.readers import (
    Key,
    Reader,
    choice,
    either,
    is_table,
    list_of,
    quantity,
    said,
    table_of,
    text,
    worded,
)
from strength.case.shape import Bar, Bare, Box, Flat, Outline, Rigid, Shape, Tube
from strength.errors import QuantityError

FORMS = {
    "tube": ("OD x WALL", "tube 25 x 2 mm"),
    "bar": ("D", "bar 20 mm"),
    "square": ("B x WALL", "square 40 x 3 mm"),
    "box": ("DEPTH x WIDTH x WALL", "box 60 x 40 x 3 mm"),
    "flat": ("WIDTH x THICKNESS", "flat 70 x 16 mm"),
    "rigid": ("", "rigid"),
}
THIN, THICK = 1e-3, 1e5  # mm: nothing is rolled thinner than the one or thicker than the other
_SIZE = re.compile(r"\s*([-+.0-9eE]+)\s*(.*?)\s*")
_LOOKS = re.compile(r"\s*(?:(?:tube|bar|square|box|flat)\s+[-+.]?[0-9].*|rigid\s*)", re.DOTALL)
_SIDE = r"\s*[0-9.]+(?:[eE][-+]?[0-9]+)?(?:\s*[^\W\d_]+)?\s*"
PATTERN = (
    rf"^\s*(?:rigid|bar\s+{_SIDE}|(?:tube|square|flat)\s+{_SIDE}x{_SIDE}|box\s+{_SIDE}x{_SIDE}x{_SIDE})\s*$"
)


def outer_radius(wall: float) -> float:
    """Outer corner radius of a box [mm]: 2, 2.5 and 3 x wall to 6, to 10 and over 10 mm (EN 10219-2)."""
    return (2.0 if wall <= 6.0 else 2.5 if wall <= 10.0 else 3.0) * wall


def parse(text: str) -> Shape:
    """The shape a section text means; raises RefusedError or QuantityError.

    >>> parse("tube 1 x 0.065 in")
    Tube(od=25.4, wall=1.651)
    """
    word, _, rest = text.strip().partition(" ")
    if word not in FORMS:
        raise RefusedError(
            f"{text!r} is not a section{nearest(word, FORMS)}; write for instance 'tube 25 x 2 mm', "
            "'bar 20 mm', 'square 40 x 3 mm', 'box 60 x 40 x 3 mm', 'flat 70 x 16 mm' or 'rigid'"
        )
    form, example = FORMS[word]
    if word == "rigid":
        if rest.strip():
            raise RefusedError(f"{text!r}: rigid has no sizes, write just 'rigid'")
        return Rigid()
    sizes = _sizes(text, rest, form.count("x") + 1, f"{word} {form}", example)
    if any(size <= 0.0 for size in sizes):
        raise RefusedError(f"{text!r} has a size that is not more than 0")
    if not all(THIN <= size <= THICK for size in sizes):
        raise RefusedError(
            f"{text!r} has a size outside {THIN:g} to {THICK:g} mm: look for a slip of the pen"
        )
    match word:
        case "tube":
            return _tube(text, *sizes)
        case "bar":
            return Bar(*sizes)
        case "square":
            return _box(text, sizes[0], sizes[0], sizes[1])
        case "box":
            return _box(text, *sizes)
        case _:
            return Flat(*sizes)


def _sizes(text: str, rest: str, count: int, form: str, example: str) -> list[float]:
    """The sizes [mm]; one without its own unit takes the unit of the next one that has it."""
    if "," in rest:
        raise RefusedError(f"{text!r} has a comma: write a point for decimals, as in {example!r}")
    sides = rest.split("x")
    found = [_SIZE.fullmatch(side) for side in sides]
    if len(sides) != count or not all(found):
        raise RefusedError(f"{text!r} is not of the form '{form}' with a unit, such as {example!r}")
    unit = ""
    sizes = []
    for match in reversed(found):
        if match is None:
            break
        unit = match[2] or unit
        try:
            sizes.append(units.quantity(f"{match[1]} {unit}", "length"))
        except QuantityError as error:
            raise RefusedError(f"{text!r}: {error}") from None
    return sizes[::-1]


def _tube(text: str, od: float, wall: float) -> Tube:
    if wall >= od / 2:
        raise RefusedError(
            f"{text!r}: a wall of {wall:.4g} mm is not under half the diameter ({od / 2:.4g} mm); "
            "the order is 'tube OD x WALL', and a solid one is a 'bar'"
        )
    return Tube(od, wall)


def _box(text: str, depth: float, width: float, wall: float) -> Box:
    least = min(depth, width)
    if wall >= least / 2:
        raise RefusedError(
            f"{text!r}: a wall of {wall:.4g} mm is not under half the side ({least / 2:.4g} mm)"
        )
    radius = outer_radius(wall)
    if 2 * radius > least * (1 + 1e-9):
        raise RefusedError(
            f"{text!r}: two corners of radius {radius:.4g} mm (EN 10219-2, from the wall) do not fit "
            f"into a side of {least:.4g} mm: give the section as an outline"
        )
    return Box(depth, width, wall)


def _corner(raw: object, _path: str, _faults: Faults) -> tuple[float, float]:
    y, z = units.spread_quantity(raw, "length", 2)
    return y, z


_RING = list_of(Reader(_corner, {"type": "string", "pattern": units.pattern(2)}), least=3)


def _outline_or_bare(raw: object, path: str, faults: Faults) -> Shape:
    if isinstance(raw, dict) and "dxf" in raw:
        drawn: Outline = _drawing(_DRAWING.read(raw, path, faults), faults)
        return drawn
    if isinstance(raw, dict) and "outline" not in raw:
        shape: Shape = _BARE.read(raw, path, faults)
        return shape
    outline: Outline = _OUTLINE.read(raw, path, faults)
    return outline


def _outlined(values: dict[str, Any]) -> Outline:
    outline = Outline(values["outline"], values.get("holes", ()))
    check_outline(outline)
    return outline


def _drawing(values: dict[str, Any], faults: Faults) -> Outline:
    from strength.case.drawing import read_drawing

    file, unit, layer = (values.get(key, "") for key in ("dxf", "unit", "layer"))
    return read_drawing(faults.folder, file, unit=unit, layer=layer)


_DRAWING = table_of(
    Key("dxf", text, "the drawing, such as 'knuckle.dxf', beside the case file"),
    Key("unit", choice("mm", "cm", "m", "in", "ft")),
    Key("layer", text),
)
_OUTLINE = table_of(
    Key("outline", _RING, "the corners in order, such as ['0 0 mm', '40 0 mm', '40 5 mm']"),
    Key("holes", list_of(_RING)),
    made=_outlined,
)
_BARE = table_of(
    Key("A", quantity("area", above=0.0), "the area of the section"),
    Key("Iy", quantity("inertia", above=0.0), "the second moment of area for bending along `up`"),
    Key("Iz", quantity("inertia", above=0.0), "the second moment of area for bending across `up`"),
    Key("J", quantity("inertia", above=0.0), "the torsion constant"),
    made=lambda values: Bare(values["A"], values["Iy"], values["Iz"], values["J"]),
)
in_words = worded(parse, "tube 25 x 2 mm", PATTERN)
section = either(
    in_words,
    Reader(_outline_or_bare, {"anyOf": [_OUTLINE.schema, _DRAWING.schema, _BARE.schema]}),
    by=is_table,
)


def only(*kinds: type) -> Reader:
    """A section text of some kinds only."""
    words = [word for word, kind in (("tube", Tube), ("bar", Bar), ("flat", Flat)) if kind in kinds]

    def read(raw: object, path: str, faults: Faults) -> Shape:
        shape: Shape = in_words.read(raw, path, faults)
        if not isinstance(shape, kinds):
            raise RefusedError(
                f"{said(raw)} is not a {' or '.join(words)}: write for instance {FORMS[words[0]][1]!r}"
            )
        return shape

    return Reader(read, {"type": "string", "pattern": PATTERN})


def looks_like_section(raw: object) -> bool:
    """Whether a text is a section rather than a part's name."""
    return isinstance(raw, str) and _LOOKS.fullmatch(raw) is not None
