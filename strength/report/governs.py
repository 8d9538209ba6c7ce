"""What governs, and how it would fail: the few rows that decide."""

from strength.report.document import Cell, Column, Grid, Section, plain
from strength.report.sides import PartLine
from strength.report.standing import Standing
from strength.report.view import View
from strength.report.words import fails, governed, suddenness, verdict

FEWEST = 3  # parts told even where all are well within the limit
MOST = 8


def governs(view: View) -> Section:
    """The parts that are over, out of range or thin; what would part suddenly stands first."""
    order = list(Standing)
    lines = sorted(view.folded.lines, key=lambda line: order.index(line.standing))
    short = sum(line.standing is not Standing.WITHIN for line in lines)
    chosen = lines[: min(max(short, FEWEST), MOST)]
    chosen.sort(key=lambda line: (line.standing is not Standing.OVER, suddenness(line.telling)))
    columns = (Column("part"), Column("how it would fail"), Column("verdict", whole=True))
    return Section(
        title="What governs, and how it would fail",
        lead=("What parts suddenly stands before what bends first: bending warns you, parting does not.",),
        body=(Grid(columns=columns, rows=tuple(_row(view, line) for line in chosen)),) if chosen else (),
        after=() if chosen else ("No check applies to anything in this case.",),
    )


def _row(view: View, line: PartLine) -> tuple[Cell, ...]:
    """One part: what it is, how it fails, how far from its limit and where."""
    row = line.telling
    how = fails(row)
    where = plain(row.where)
    number = view.folded.number(row.load)
    asked, limit = (view.display.quantity(value, row.unit) for value in (row.demand, row.limit))
    return (
        Cell(line.short, governed(row.kind, line.noun)),
        Cell(how[:1].upper() + how[1:], f"{where + ', ' if where else ''}load {number}"),
        Cell(verdict(row), f"{asked} of {limit}", line.standing),
    )
