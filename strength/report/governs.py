"""What governs, and how it would fail: the few rows that decide."""

from collections.abc import Iterator

from strength.checks.factors import ONLY_PATH
from strength.checks.verdict import Row
from strength.report.document import Cell, Column, Grid, Section, plain
from strength.report.sides import PartLine
from strength.report.standing import Standing
from strength.report.view import View
from strength.report.words import (
    STANDING_WORDS,
    also,
    count,
    fails,
    governed,
    listed,
    suddenness,
    verdict,
)  # fmt: skip

FEWEST = 3  # parts told even where all are well within the limit
MOST = 8
SAME = 1e-6  # of a utilisation


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
        lead=(
            "What parts suddenly stands before what bends first: bending warns you, parting does not.",
            'A figure "of 1.00" adds several effects up, each as a share of its own limit.',
        ),
        body=(Grid(columns=columns, rows=tuple(_row(view, line) for line in chosen)),) if chosen else (),
        after=(*_after(lines[len(chosen) :], chosen), *_closest(view, chosen)),
    )


def _closest(view: View, chosen: list[PartLine]) -> Iterator[str]:
    """The row nearest its limit among those in range, where none of the rows told is one of them."""
    if any(line.telling.in_range for line in chosen):
        return
    row = next((row for row in view.outcome.rows if row.in_range), None)
    if row is not None:
        yield (
            f"Nearest its limit of what is in range: {plain(row.part)} ({governed(row.kind, '')}), "
            f"{verdict(row)}, load {view.folded.number(row.load)}."
        )


def _after(left_out: list[PartLine], chosen: list[PartLine]) -> list[str]:
    """What the table leaves out, and what its figures contain."""
    if not chosen:
        return ["No check applies to anything in this case."]
    told = []
    short = [line for line in left_out if line.standing is not Standing.WITHIN]
    if short:
        kinds = [
            f"{sum(line.standing is how for line in short)} {'with a ' * (how is Standing.THIN)}"
            f"{STANDING_WORDS[how]}"
            for how in Standing
            if any(line.standing is how for line in short)
        ]
        told.append(f"{count(len(short), 'more part')}: {listed(kinds)}; see the margins below.")
    if any(_raised(line.telling) for line in chosen):
        told.append(
            f"x {ONLY_PATH:g}: marked as the only path (only_path), so it counts that much more "
            "(a designer's choice)."
        )
    return told


def _raised(row: Row) -> bool:
    """Whether the utilisation contains more than demand over limit: the factor of an only path."""
    return row.utilisation * row.limit > row.demand * (1.0 + SAME)


def _row(view: View, line: PartLine) -> tuple[Cell, ...]:
    """One part: what it is, how it fails, how far from its limit and where."""
    row = line.telling
    how = fails(row)
    where = plain(row.where)
    number = view.folded.number(row.load)
    asked, limit = (view.display.quantity(value, row.unit) for value in (row.demand, row.limit))
    if _raised(row):
        asked += f" x {ONLY_PATH:g}"
    further = f"; {also(line.also)}" if line.also else ""
    return (
        Cell(line.short, governed(row.kind, line.noun)),
        Cell(how[:1].upper() + how[1:], f"{where + ', ' if where else ''}load {number}{further}"),
        Cell(verdict(row), f"{asked} of {limit}", line.standing),
    )
