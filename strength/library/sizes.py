"""Sizes that are sold: tubes, hollow sections, plate gauges, bars."""

from collections.abc import Sequence
from math import pi
from typing import TYPE_CHECKING, Any

from strength.library import data
from strength.values import frozen

if TYPE_CHECKING:
    from strength.library.metal import Metal

INCH = 25.4  # mm
SHAPES = ("tube", "square", "box", "flat", "bar")


@frozen(kw_only=True)
class StockSize:
    """One size that is sold.

    `dimensions` [mm] as they stand in the section's text: tube (outside diameter, wall), square
    (side, wall), box (depth, width, wall), flat (thickness,), bar (diameter,). `area` [mm^2]; of a
    flat per mm of its width.
    """

    shape: str
    dimensions: tuple[float, ...]
    text: str  # as a section is written in a case, in the unit it is sold in; of a flat: its thickness
    unit: str  # mm | in
    area: float
    stock: str  # name of the list
    standard: str = ""
    source: str = ""
    sure: str = ""
    note: str = ""

    def mass(self, density: float) -> float:
        """Mass [kg per m] at a density [kg/mm^3]; of a flat [kg per m^2]."""
        return self.area * density * (1e6 if self.shape == "flat" else 1e3)


def stock(
    shape: str, metal: "Metal | None" = None, *, name: str = "", unit: str = ""
) -> tuple[StockSize, ...]:
    """All sizes of a shape ("tube", "square", "box", "flat", "bar"; "" for all), lightest first.

    metal: only lists this metal is sold in; a metal whose family is in none of them (the user's own)
    takes the lists of its kind; a book's metal is sold in none. name: only that list. unit: only lists
    in "mm" or "in".
    Raises UnknownNameError for another shape or list.
    """
    if shape and shape not in SHAPES:
        raise data.unknown("stock shape", shape, SHAPES)
    if name and name not in stock_lists():
        raise data.unknown("stock list", name, stock_lists())
    asked = [f'\n{key} = "{word}"\n' for key, word in (("shape", shape), ("unit", unit)) if word]
    lists = [
        each
        for each in stock_lists()
        if name in ("", each) and all(data.says("stock", each, line) for line in asked)
    ]
    if metal is not None and metal.textbook:
        return ()
    tables = _sold(lists, metal) if metal is not None else [data.read("stock", each) for each in lists]
    found = [size for one, table in tables for size in _sizes(one, table)]
    return tuple(sorted(found, key=lambda size: (size.area, size.dimensions, size.stock)))


def _sold(lists: Sequence[str], metal: "Metal") -> list[tuple[str, dict[str, Any]]]:
    """Those lists a metal is sold in, or else those of its kind."""
    family = f'"{metal.family}"'
    likely = [each for each in lists if metal.family and data.says("stock", each, family)]
    sold = [
        pair for pair in (data.read("stock", each) for each in likely) if metal.family in pair[1]["families"]
    ]
    if sold:
        return sold
    return [pair for pair in (data.read("stock", each) for each in lists) if metal.kind in pair[1]["kinds"]]


def stock_lists() -> tuple[str, ...]:
    """Names of all lists."""
    return data.names("stock")


def _sizes(name: str, table: dict[str, Any]) -> list[StockSize]:
    shape, unit = table["shape"], table["unit"]
    given: list[tuple[float, ...]] = []
    for line in table["sizes"]:
        outer = {"tube": 1, "square": 1, "box": 2}.get(shape, 0)
        given += [(*line[:outer], wall) for wall in line[outer:]]
    factor = INCH if unit == "in" else 1.0
    sizes = []
    for typed in given:
        mm = tuple(float(x) * factor for x in typed)
        size = StockSize(
            shape=shape,
            dimensions=mm,
            text=_text(shape, typed, unit),
            unit=unit,
            area=area(shape, mm),
            stock=name,
            standard=table["standard"],
            source=table["source"],
            sure=table["sure"],
            note=table.get("note", ""),
        )
        sizes.append(size)
    return sizes


def _text(shape: str, typed: tuple[float, ...], unit: str) -> str:
    numbers = " x ".join(f"{x:g}" for x in typed)
    return f"{numbers} {unit}" if shape == "flat" else f"{shape} {numbers} {unit}"


def area(shape: str, dimensions: tuple[float, ...]) -> float:
    """Area [mm^2] of a stock shape of these dimensions [mm]; of a flat per mm of its width.

    Box corners as EN 10219-2 computes them: outer and inner radius 2.0 and 1.0 walls up to 6 mm of
    wall, 2.5 and 1.5 up to 10 mm, 3.0 and 2.0 above.
    """
    if shape == "flat":
        return dimensions[0]
    if shape == "bar":
        return pi / 4 * dimensions[0] ** 2
    if shape == "tube":
        outside, wall = dimensions
        return pi * wall * (outside - wall)
    depth, width, wall = dimensions if shape == "box" else (dimensions[0], *dimensions)
    outer = (2.0 if wall <= 6 else 2.5 if wall <= 10 else 3.0) * wall
    inner = outer - wall
    return 2 * wall * (depth + width - 2 * wall) - (4 - pi) * (outer**2 - inner**2)
