"""What the library holds, as a document: tables with their sources beneath."""

import textwrap
from collections.abc import Sequence
from typing import Any

from strength.library.listing import Column as Entry
from strength.library.listing import Table
from strength.report.document import Cell, Column, Document, Grid, Items, Section, plain
from strength.report.words import count

SHORT = 16  # characters of what still stands in a column of its own
NAME_ROOM = 26  # characters kept for the first column and what stands below it
NOTE = "note"
HEADING = 9  # characters in a line of a heading


def catalogue(title: str, tables: Sequence[Table], width: int) -> Document:
    """Tables, one a section; what has no room in a column stands below the name."""
    found = sum(len(table.rows) for table in tables)
    return Document(
        title=title,
        subtitle=f"{count(found, 'row')}; words behind the command narrow them, as in: tube 25. See below "
        "each table how sure its figures are",
        banners=(),
        sections=tuple(_section(table, width) for table in tables),
        brief=True,
    )


def _section(table: Table, width: int) -> Section:
    """One table: what all rows share above it; notes, sources and how sure they are beneath."""
    names, figures, words = _split(table, width)
    shared = [column for column in words if len({_text(row.get(column.key)) for row in table.rows}) == 1]
    lead = _told(table.rows[0], shared)
    words = [column for column in words if column not in shared]
    notes: dict[str, int] = {}
    for row in table.rows:
        if note := _note(row, words):
            notes.setdefault(note, len(notes) + 1)
    rows = tuple(
        (_name(row, names, words, notes), *(Cell(_text(row.get(c.key))) for c in figures))
        for row in table.rows
    )
    columns = (Column(names.heading), *(Column(_heading(c), figures=True) for c in figures))
    beneath = [(f"[{number}]", note) for note, number in notes.items()]
    beneath += [(plain(key), plain(text)) for key, text in (*table.sources.items(), *table.sure.items())]
    return Section(
        title=table.title,
        lead=(f"All rows: {lead}.",) if lead else (),
        body=(Grid(columns=columns, rows=rows), *((Items(items=tuple(beneath)),) if beneath else ())),
    )


def _name(row: dict[str, Any], names: Entry, words: Sequence[Entry], notes: dict[str, int]) -> Cell:
    """The first cell: the name, the number of its note, and what has no column of its own."""
    note = _note(row, words)
    name = _text(row.get(names.key)) + (f" [{notes[note]}]" if note else "")
    return Cell(name, _told(row, [column for column in words if column.key != NOTE]))


def _note(row: dict[str, Any], words: Sequence[Entry]) -> str:
    """A row's note, where notes differ between rows."""
    return _text(row.get(NOTE)) if any(column.key == NOTE for column in words) else ""


def _split(table: Table, width: int) -> tuple[Entry, list[Entry], list[Entry]]:
    """The first column, those with room for their own, and those told in words; empty ones dropped."""
    names, *others = table.columns
    room = width - NAME_ROOM
    figures: list[Entry] = []
    words: list[Entry] = []
    for column in others:
        texts = [_text(row.get(column.key)) for row in table.rows]
        longest = max(map(len, texts), default=0)
        if not longest:
            continue
        needed = max(longest, *(len(line) for line in _heading(column).splitlines())) + 1
        numeric = column.unit or any(isinstance(row.get(column.key), int | float) for row in table.rows)
        if numeric and longest <= SHORT and needed <= room:
            figures.append(column)
            room -= needed
        else:
            words.append(column)
    return names, figures, words


def _heading(column: Entry) -> str:
    """Heading and unit in short lines."""
    lines = textwrap.wrap(column.heading, HEADING, break_long_words=False)
    return "\n".join([*lines, column.unit] if column.unit else lines)


def _told(row: dict[str, Any], words: Sequence[Entry]) -> str:
    """What has no column of its own, in words."""
    told = []
    for column in words:
        if text := _text(row.get(column.key)):
            unit = f" {column.unit}" if column.unit else ""
            said = text.rstrip(".") if column.key in ("form", NOTE) else f"{column.heading} {text}{unit}"
            told.append(said)
    return ", ".join(told)


def _text(value: object) -> str:
    """A cell of the library."""
    if value is None:
        return ""
    return f"{value:g}" if isinstance(value, float) else plain(str(value))
