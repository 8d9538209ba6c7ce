"""The library as tables to print and pin to the wall.

A table has columns and rows; a row is a plain dict of texts, numbers and None (not known), ready for
JSON. Sources are keys in the rows, with their texts beneath the table.
"""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from strength.library import data, listing_rows
from strength.library.metals import find_metal
from strength.library.sizes import SHAPES, stock, stock_lists
from strength.library.sources import SURE, cite
from strength.values import asdict, frozen

Row = dict[str, Any]


@frozen
class Column:
    """A column: key in the rows, heading, unit ("" where it has none)."""

    key: str
    heading: str
    unit: str = ""


@frozen(kw_only=True)
class Table:
    """A table; `sources` are the texts of the keys in its rows, `sure` what those words mean."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    sources: dict[str, str]
    sure: dict[str, str]

    def record(self) -> dict[str, Any]:
        """The table as a plain dict for JSON."""
        return asdict(self)


_FROM = (Column("source", "source"), Column("sure", "how sure"))
_METAL = (
    Column("name", "name"),
    Column("form", "form"),
    Column("thickness", "thickness", "mm"),
    Column("yield", "yield", "MPa"),
    Column("ultimate", "ultimate", "MPa"),
    Column("elongation", "elongation", "%"),
    Column("yield_welded", "yield at weld", "MPa"),
    Column("ultimate_welded", "ultimate at weld", "MPa"),
    Column("weldable", "weldable"),
    Column("curve", "buckling curve"),
    *_FROM,
    Column("note", "note"),
)
_FILLER = (
    Column("name", "name"),
    Column("also", "also"),
    Column("kind", "kind"),
    Column("strength", "tensile strength", "MPa"),
    Column("by_parent", "weld strength fw by parent", "MPa"),
    Column("suits", "for"),
    *_FROM,
    Column("note", "note"),
)
_BOLT = (
    Column("name", "class"),
    Column("diameter", "diameter", "mm"),
    Column("ultimate", "ultimate, design", "MPa"),
    Column("yield", "yield, design", "MPa"),
    Column("ultimate_min", "ultimate, least", "MPa"),
    Column("yield_min", "yield, least", "MPa"),
    Column("proof", "proof stress", "MPa"),
    Column("elongation", "elongation", "%"),
    *_FROM,
    Column("note", "note"),
)
_THREAD = (
    Column("name", "thread"),
    Column("pitch", "pitch", "mm"),
    Column("root", "root diameter", "mm"),
    Column("stress_area", "stress area", "mm^2"),
    Column("drill", "tapping drill", "mm"),
    Column("hole_fine", "hole, fine", "mm"),
    Column("hole_medium", "hole, medium", "mm"),
    Column("flats", "spanner", "mm"),
    Column("strip_nut", "strips in the nut", "mm^2/mm"),
    Column("strip_bolt", "strips on the bolt", "mm^2/mm"),
    Column("torque", "torque 8.8, oiled", "N*m"),
    *_FROM,
)
_SCREW = (
    Column("name", "screw"),
    Column("thread", "thread"),
    Column("f9", "shoulder f9", "mm"),
    Column("h8", "shoulder h8", "mm"),
    Column("neck", "neck", "mm"),
    Column("thread_length", "thread length", "mm"),
    Column("head", "head diameter x height", "mm"),
    Column("key", "key", "mm"),
    Column("torque", "torque", "N*m"),
    *_FROM,
)
_ROD_END = (
    Column("name", "size"),
    Column("radial", "radial", "N"),
    Column("axial", "axial", "N"),
    *_FROM,
    Column("note", "note"),
)
_DETAIL = (
    Column("name", "detail"),
    Column("steel", "steel, IIW", "MPa"),
    Column("aluminium", "aluminium, IIW", "MPa"),
    Column("en1993", "steel, EN 1993-1-9", "MPa"),
    Column("slope", "slope"),
    *_FROM,
    Column("note", "note"),
)
_WALL = (
    Column("name", "tube standard"),
    Column("wall", "wall", "mm"),
    Column("minus", "may be thinner by"),
    *_FROM,
    Column("note", "note"),
)
_CONSTANTS = (
    Column("name", "metal"),
    Column("modulus", "Young's modulus", "MPa"),
    Column("shear_modulus", "shear modulus", "MPa"),
    Column("poisson", "Poisson's ratio"),
    Column("density", "density", "kg/m^3"),
    *_FROM,
    Column("note", "note"),
)
_GAUGE = (
    Column("size", "thickness"),
    Column("mass", "mass", "kg/m^2"),
    Column("list", "list"),
    Column("standard", "standard"),
    *_FROM,
    Column("note", "note"),
)
_SIZE = (
    Column("size", "size"),
    Column("mass", "mass", "kg/m"),
    Column("area", "area", "mm^2"),
    Column("list", "list"),
    Column("standard", "standard"),
    *_FROM,
    Column("note", "note"),
)


def material_tables(words: Sequence[str] = (), *, personal: Path | None = None) -> tuple[Table, ...]:
    """Everything `materials/` holds but the stock sizes, one table a kind.

    words: only rows that have all of them, in any case; words that are together the name of an entry
    give that entry. Books' metals only where `textbook` is among the words. personal: a library file of
    the user's own. Empty tables are left out.
    Raises UnknownNameError where nothing is left.
    """
    asked = data.TEXTBOOK in " ".join(words).casefold()
    found = (
        _table("Metals", _METAL, listing_rows.metals(personal, textbook=asked), words),
        _table("Fillers", _FILLER, listing_rows.fillers(personal), words),
        _table("Bolt classes", _BOLT, listing_rows.bolts(), words),
        _table("Threads", _THREAD, listing_rows.threads(), words),
        _table("Shoulder screws, class 12.9", _SCREW, listing_rows.screws(), words),
        _table("Rod ends, ratings until the maker's are known", _ROD_END, listing_rows.rod_ends(), words),
        _table("Fatigue classes at 2 million cycles", _DETAIL, listing_rows.details(), words),
        _table("Wall tolerances", _WALL, listing_rows.walls(), words),
        _table("Elastic constants", _CONSTANTS, listing_rows.constants(textbook=asked), words),
    )
    return _not_empty(found, words, "material", data.likely("material", " ".join(words)))


def stock_tables(
    words: Sequence[str] = (), *, shape: str = "", metal: str = "", personal: Path | None = None
) -> tuple[Table, ...]:
    """The sizes that are sold, one table a list, lightest first.

    words as for `material_tables`; a shape or list named as one of them counts as such. metal: the
    name of a metal, to have only the lists it is sold in and its mass.
    Raises UnknownNameError for an unknown metal or shape, or where nothing is left.
    """
    left = [word for word in words if word not in SHAPES]
    shapes = [word for word in words if word in SHAPES] or [shape]
    of = find_metal(metal, personal=personal) if metal else None
    sizes = [size for each in shapes for size in stock(each, of)]
    found = tuple(
        _table(
            name[:1].upper() + name[1:],
            _GAUGE if any(size.shape == "flat" for size in sizes if size.stock == name) else _SIZE,
            listing_rows.sizes(name, sizes, of),
            left,
        )
        for name in stock_lists()
    )
    return _not_empty(found, words, "stock size", (*SHAPES, *stock_lists()))


def _table(title: str, columns: tuple[Column, ...], rows: Sequence[Row], words: Sequence[str]) -> Table:
    kept = tuple(_filtered(rows, words, title))
    keys = dict.fromkeys(key for row in kept for key in _split(row["source"]))
    said = dict.fromkeys(word for row in kept for word in SURE if word in row["sure"].split())
    return Table(
        title=title,
        columns=columns,
        rows=kept,
        sources={key: cite(key) for key in keys if key},
        sure={word: SURE[word] for word in said},
    )


def _split(keys: str) -> list[str]:
    return keys.split(", ") if all(key in data.index("source") for key in keys.split(", ")) else [keys]


def _filtered(rows: Sequence[Row], words: Sequence[str], title: str) -> Sequence[Row]:
    if not words:
        return rows
    whole = " ".join(words).casefold()
    named = [
        row for row in rows if whole in (row["name"].casefold(), *row.get("also", "").casefold().split(", "))
    ]
    if named:
        return named
    wanted = [word.casefold() for word in words]
    return [row for row in rows if all(word in _all_text(row, title) for word in wanted)]


def _all_text(row: Row, title: str) -> str:
    return " ".join((title, *(str(value) for value in row.values()))).casefold()


def _not_empty(
    tables: Sequence[Table], words: Sequence[str], kind: str, known: Iterable[str]
) -> tuple[Table, ...]:
    kept = tuple(table for table in tables if table.rows)
    if not kept:
        raise data.unknown(kind, " ".join(words), known)
    return kept
