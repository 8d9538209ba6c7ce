"""The loads: a line each, with what it is in words and its worst part."""

from typing import TYPE_CHECKING

from strength.report.document import Cell, Column, Grid, Items, Section, plain
from strength.report.load_words import load_words, note_words
from strength.report.sides import LoadColumn
from strength.report.standing import Standing, standing
from strength.report.view import View
from strength.report.words import count, governed, verdict

if TYPE_CHECKING:
    from strength.checks.verdict import Row


def load_lines(view: View) -> Section:
    """One row per load, and below it what was noted while the wheels were balanced."""
    columns = (
        Column("", figures=True),
        Column("load", share=5),
        Column("worst part", share=4),
        Column("verdict", whole=True),
    )
    rows = tuple(_row(view, column) for column in view.folded.columns)
    notes = tuple(
        (f"load {column.number}", plain(note))
        for column in view.folded.columns
        for note in _notes(view, column)
    )
    return Section(
        title="Loads",
        lead=("Forces are shares of the vehicle's weight: 1 g is its own weight.",)
        if view.outcome.case.wheels
        else (),
        body=(Grid(columns=columns, rows=rows), *((Items(items=notes),) if notes else ())),
    )


def _row(view: View, column: LoadColumn) -> tuple[Cell, ...]:
    """One load, or a mirrored pair of them told by its first."""
    balanced = next(load for load in view.outcome.loads if load.name == column.loads[0])
    given = next((load for load in view.outcome.case.loads if load.name == column.loads[0]), None)
    words = f"{balanced.severity}: {load_words(balanced, given, view.display)}"
    if len(column.loads) > 1:
        words += " (or mirrored)"
    found = [line.cells[column.number - 1] for line in view.folded.lines]
    lines = [(line, cell) for line, cell in zip(view.folded.lines, found, strict=True) if cell is not None]
    if not lines:
        return (Cell(str(column.number)), Cell(column.name, words), Cell("nothing checked"), Cell(""))
    line, cell = max(lines, key=lambda pair: pair[1].row.utilisation)
    row: Row = cell.row
    return (
        Cell(str(column.number)),
        Cell(column.name, words),
        Cell(line.short, governed(row.kind, line.noun)),
        Cell(verdict(row), _besides(standing(row), [cell.standing for _, cell in lines]), standing(row)),
    )


def _besides(own: Standing, every: list[Standing]) -> str:
    """What a good or thin verdict on a load must not hide: that other parts are out of range."""
    outside = sum(how is Standing.RANGE for how in every)
    told = outside and own in (Standing.THIN, Standing.WITHIN)
    return f"{count(outside, 'part')} out of range" if told else ""


def _wheel_note(note: str) -> str:
    """A note of the wheel balance in words.

    >>> _wheel_note("slides rear"), _wheel_note("tips at 0.61 g")
    ('rear slides: more is asked of its tyre than it grips', 'tips at 0.61 g')
    """
    word, _, wheel = note.partition(" ")
    if word == "slides":
        return f"{wheel} slides: more is asked of its tyre than it grips"
    return f"{wheel} lifts off the road" if word == "lifts" else note_words(note)


def _notes(view: View, column: LoadColumn) -> list[str]:
    """Notes of a load; what slides or lifts is told wheel by wheel on the load sheet."""
    balanced = next(load for load in view.outcome.loads if load.name == column.loads[0])
    return [_wheel_note(note) for note in dict.fromkeys(balanced.notes)]
