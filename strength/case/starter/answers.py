"""Readers of answers: a text as typed to a plain value, or what is wrong with it.

Each reader raises RefusedError or QuantityError with what to write instead.
"""

from collections.abc import Callable
from typing import Any, Generic, TypeVar

import attrs

from strength import units
from strength.case.faults import RefusedError, nearest
from strength.case.shape import Bar, Box, Flat, Tube
from strength.case.shape_text import parse
from strength.errors import UnknownNameError
from strength.library import find_metal

Value = TypeVar("Value")


@attrs.frozen(eq=False)
class Answer(Generic[Value]):
    """An answer: as it is written into the file, and its value [mm, kg, deg, or a shape, metal, word]."""

    text: str
    value: Value


Reader = Callable[[str], Answer[Any]]


def choice(*words: str) -> Reader:
    """One of a few words, capitals aside."""

    def read(text: str) -> Answer[str]:
        word = text.strip().lower()
        if word not in words:
            raise RefusedError(f"{text!r} is none of {', '.join(words)}{_meant(word, words)}")
        return Answer(word, word)

    return read


def _meant(word: str, words: tuple[str, ...]) -> str:
    hint = nearest(word, words)
    return hint if "did you mean" in hint else ""


def quantity(dimension: str, least: float, most: float) -> Reader:
    """A number and a unit from `least` to `most` [mm, kg; angles in deg]."""
    unit = units.unit_of(dimension)
    show = {"length": "mm", "mass": "kg", "angle": "deg"}[dimension]
    per = units.quantity(f"1 {show}", dimension)

    def read(text: str) -> Answer[float]:
        value = units.quantity(text, dimension) / per
        if not least - 1e-9 <= value <= most + 1e-9:
            raise RefusedError(f"{text!r} is out of the sensible range: {least:g} to {most:g} {unit}")
        return Answer(f"{value:.6g} {unit}", value)

    return read


def tube(least: float, most: float, *, least_wall: float) -> Reader:
    """A round tube, square or box whose sides are from `least` to `most` [mm]."""

    def read(text: str) -> Answer[Tube | Box]:
        shape = parse(text)
        if not isinstance(shape, Tube | Box):
            raise RefusedError(f"{text!r} is no tube: write 'tube 25 x 2 mm' or 'square 30 x 2 mm'")
        sides = (shape.od,) if isinstance(shape, Tube) else (shape.depth, shape.width)
        if min(sides) < least or max(sides) > most:
            raise RefusedError(f"{text!r} is out of the sensible range: {least:g} to {most:g} mm across")
        if shape.wall < least_wall:
            raise RefusedError(f"{text!r} is out of the sensible range: a wall of {least_wall:g} mm and up")
        return Answer(" ".join(text.split()), shape)

    return read


def bar(least: float, most: float) -> Reader:
    """A round bar [mm]."""

    def read(text: str) -> Answer[Bar]:
        shape = parse(text)
        if not isinstance(shape, Bar):
            raise RefusedError(f"{text!r} is no bar: write for instance 'bar 20 mm'")
        if not least <= shape.diameter <= most:
            raise RefusedError(f"{text!r} is out of the sensible range: {least:g} to {most:g} mm")
        return Answer(" ".join(text.split()), shape)

    return read


def plate(width: tuple[float, float], thickness: tuple[float, float]) -> Reader:
    """A flat [mm]."""

    def read(text: str) -> Answer[Flat]:
        shape = parse(text)
        if not isinstance(shape, Flat):
            raise RefusedError(f"{text!r} is no flat: write width x thickness, such as 'flat 70 x 12 mm'")
        if not (width[0] <= shape.width <= width[1] and thickness[0] <= shape.thickness <= thickness[1]):
            raise RefusedError(
                f"{text!r} is out of the sensible range: {width[0]:g} to {width[1]:g} mm wide, "
                f"{thickness[0]:g} to {thickness[1]:g} mm thick"
            )
        return Answer(" ".join(text.split()), shape)

    return read


def metal(text: str) -> Answer[Any]:
    """A metal of the library."""
    name = text.strip()
    try:
        return Answer(name, find_metal(name))
    except UnknownNameError as error:
        raise RefusedError(f"{error}; `strength materials` lists them") from None
