"""Margins, part by load: what holds where, at a glance."""

from strength.report.display import margin
from strength.report.document import Cell, Column, Grid, Section
from strength.report.sides import LoadColumn, PartLine, Reading
from strength.report.view import View
from strength.report.words import count, governed

SHOWN = 12  # parts shown unless all are asked for
LEAD = (
    (
        "A margin of 0.34: 34 % more load brings the part to its limit; 0 is at the limit, below 0 over it. "
        "After a figure: ! over the limit, ~ thin margin, ? a check of the part is out of range; "
        "a dot: nothing asked. (both): the left and the right part read the same."
    ),
)


def margins(view: View) -> Section:
    """Parts in rows, worst first; loads, by number, in columns."""
    lines = view.folded.lines if view.everything else view.folded.lines[:SHOWN]
    blocks = _blocks(view)
    grids = tuple(
        Grid(
            columns=_heads(block, beside=view.wide),
            rows=_rows(lines, block, beside=view.wide),
        )
        for block in blocks
    )
    after = []
    left_out = len(view.folded.lines) - len(lines)
    if left_out:
        least = margin(view.folded.lines[len(lines)].worst.margin)
        after.append(f"{count(left_out, 'more part')} with margins of {least} and up: --all shows them.")
    hidden = len(view.folded.columns) - sum(len(block) for block in blocks)
    if hidden:
        after.append(f"{count(hidden, 'load')} with larger worst margins left out here: --all shows all.")
    return Section(title="Margins by part and load", lead=LEAD, body=grids, after=tuple(after))


def _blocks(view: View) -> list[list[LoadColumn]]:
    """The load columns to show, as many side by side as fit: the gravest, or all in blocks."""
    columns, room = list(view.folded.columns), view.load_columns
    if view.everything:
        return [columns[n : n + room] for n in range(0, len(columns), room)]
    gravest = sorted(columns, key=lambda column: -_worst(view.folded.lines, column))[:room]
    return [sorted(gravest, key=lambda column: column.number)]


def _worst(lines: tuple[PartLine, ...], column: LoadColumn) -> float:
    """Greatest utilisation of a column."""
    readings = (line.cells[column.number - 1] for line in lines)
    return max((reading.row.utilisation for reading in readings if reading is not None), default=0.0)


def _heads(block: list[LoadColumn], *, beside: bool) -> tuple[Column, ...]:
    """Headings: the part, its governing check where there is room, then the loads by number."""
    words = (Column("part"), Column("governed by")) if beside else (Column("part, governed by"),)
    return words + tuple(Column(str(column.number), figures=True) for column in block)


def _rows(
    lines: tuple[PartLine, ...], block: list[LoadColumn], *, beside: bool
) -> tuple[tuple[Cell, ...], ...]:
    """A row per part."""
    rows = []
    for line in lines:
        check = governed(line.worst.kind, line.noun)
        words = (Cell(line.short), Cell(check)) if beside else (Cell(line.short, check),)
        rows.append((*words, *(_cell(line.cells[column.number - 1]) for column in block)))
    return tuple(rows)


def _cell(reading: Reading | None) -> Cell:
    """A margin with its mark; empty where no check applies."""
    if reading is None:
        return Cell("  ")
    return Cell(margin(reading.row.margin) + reading.standing.value, standing=reading.standing)
