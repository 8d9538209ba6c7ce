"""A table of a hand calculation: all in the record; for reading a piece of each stretch, and the sums."""

from typing import Any

from strength.report.document import Cell, Column, Grid, Items, plain
from strength.report.hand_units import HandUnits
from strength.studies.explain.formula import with_numbers
from strength.studies.explain.table import Table

BESIDE = 5  # columns that stand beside one another


def table_bodies(table: Table, shown: dict[str, str], units: HandUnits) -> tuple[Grid | Items, ...]:
    """What the columns are, one piece of each stretch, the sums of the stretches and of all.

    shown: numbers of the symbols before the table as they are printed; what is gathered is added.
    """
    for column in table.columns:
        if column.whole:
            shown[column.whole] = units.number(table.wholes[column.whole], column.dimension)
    starts = range(0, len(table.rows), table.per)
    middles = {start + (min(table.per, len(table.rows) - start) - 1) // 2 for start in starts}
    pieces = sorted(middles | {piece for _, piece in table.least()})
    grids = [
        _pieces(table, pieces, range(first, min(first + BESIDE, len(table.columns))), units)
        for first in range(0, len(table.columns), BESIDE)
    ]
    near = (
        f"Each of these sums is near to {table.per} times what the piece in the middle of that stretch has."
    )
    return (
        _columns(table, min(middles), shown, units),
        *grids,
        Items(items=(("", near),)),
        _sums(table, units),
    )


def _columns(table: Table, piece: int, shown: dict[str, str], units: HandUnits) -> Items:
    """Each column's formula, worked out for one piece."""
    lead = (
        f"{plain(table.what)} ({plain(table.origin)}). The formulas are the same for all; here piece "
        f"{piece + 1}, then one piece of each {table.per}. The record (--json) holds every piece."
    )
    items = [("", lead)]
    least = {column.symbol: (column.whole, number) for column, number in table.least()}
    own: dict[str, str] = {}
    for column, value in zip(table.columns, table.rows[piece], strict=True):
        text = [plain(column.what)]
        if column.formula:
            text += [f"= {column.formula}", f"= {with_numbers(column.formula, shown | own)}"]
        text.append(f"= {units.show(value, column.dimension)} for piece {piece + 1}")
        items.append((column.symbol, "\n".join(text)))
        own[column.symbol] = units.number(value, column.dimension)
        if column.symbol in least:
            whole, number = least[column.symbol]
            unit = units.unit(column.dimension)
            text = [
                f"the least {column.symbol} of all, of piece {number + 1}",
                f"= {shown[whole]} {unit}".rstrip(),
            ]
            items.append((whole, "\n".join(text)))
    return Items(items=tuple(items))


def _pieces(table: Table, pieces: list[int], numbers: range, units: HandUnits) -> Grid:
    """Some columns of the pieces that are shown."""
    columns = [table.columns[n] for n in numbers]
    heads = [Column("piece", figures=True)]
    heads += [Column(_titled(c.symbol, c.dimension, units), figures=True) for c in columns]
    rows = tuple(
        (
            Cell(f"{piece + 1}"),
            *(Cell(units.number(table.rows[piece][n], table.columns[n].dimension)) for n in numbers),
        )
        for piece in pieces
    )
    return Grid(columns=tuple(heads), rows=rows)


def _sums(table: Table, units: HandUnits) -> Grid:
    """Sums over the pieces of each stretch, and of all."""
    count = len(table.rows)
    spans = [(first, min(first + table.per, count)) for first in range(0, count, table.per)]
    heads = [Column("pieces", whole=True)]
    heads += [
        Column(f"sum of {_titled(column.symbol, column.dimension, units)}", figures=True)
        for column, _ in table.gathered(0, count)
    ]
    rows = [
        (
            Cell(name),
            *(Cell(units.number(value, column.dimension)) for column, value in table.gathered(first, last)),
        )
        for name, (first, last) in [
            *((f"{first + 1} to {last}", (first, last)) for first, last in spans),
            ("all: " + ", ".join(column.whole for column, _ in table.gathered(0, 0)), (0, count)),
        ]
    ]
    return Grid(columns=tuple(heads), rows=tuple(rows))


def _titled(symbol: str, dimension: str, units: HandUnits) -> str:
    unit = units.unit(dimension)
    return f"{symbol}, {unit}" if unit else symbol


def table_record(table: Table) -> dict[str, Any]:
    """Every piece unrounded."""
    return {
        "what": table.what,
        "origin": table.origin,
        "columns": [
            {
                "symbol": column.symbol,
                "formula": column.formula,
                "dimension": column.dimension,
                "what": column.what,
                "gathered": column.gathered,
                "whole": column.whole,
            }
            for column in table.columns
        ],
        "pieces": [list(row) for row in table.rows],
        "wholes": dict(table.wholes),
    }
