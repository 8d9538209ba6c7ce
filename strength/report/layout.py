"""A document as lines of a fixed width, each line a row of styled pieces of text."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from strength.report.banners import CAUTION
from strength.report.cautions import ONE_LINE
from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section
from strength.report.wrapping import padded, width, wrap

Piece = tuple[str, str]  # text, style
Line = tuple[Piece, ...]

INDENT = "  "  # before the smaller line of a cell
MANY = 6  # columns of figures that may stand closer together
LEAST = 10  # characters of a column of words
# kind -> corners and edges of its frame, what stands before the heading: told apart without colour
FRAMES: dict[str, tuple[tuple[str, str, str, str, str, str], str]] = {
    "caution": (("╔", "═", "╗", "║", "╚", "╝"), ""),
    "over": (("┏", "━", "┓", "┃", "┗", "┛"), "!!! "),
    "range": (("┌", "┄", "┐", "┆", "└", "┘"), "??? "),
    "thin": (("╭", "─", "╮", "│", "╰", "╯"), "~~~ "),
    "unchecked": (("+", "-", "+", "|", "+", "+"), "--- "),
}


def lay_out(document: Document, room: int) -> Iterator[Line]:
    """All lines: title, caution, verdicts, sections, caution."""
    for line in wrap(document.title, room):
        yield ((line, "bold"),)
    yield from _words((document.subtitle,), room, "dim")
    if document.brief:
        yield from _words((ONE_LINE,), room)
    for banner in document.banners if document.brief else (CAUTION, *document.banners):
        yield ()
        yield from _banner(banner, room)
    for section in document.sections:
        yield from _section(section, room)
    yield ()
    yield from _words(document.closing, room, "bold")
    yield from _words((ONE_LINE,), room) if document.brief else _banner(CAUTION, room)


def _words(texts: Sequence[str], room: int, style: str = "") -> Iterator[Line]:
    """Running text."""
    for text in texts:
        for line in wrap(text, room):
            yield ((line, style),)


def _banner(banner: Banner, room: int) -> Iterator[Line]:
    """A frame across the whole width."""
    (left, across, right, side, low_left, low_right), before = FRAMES[banner.kind]
    style = banner.kind
    yield ((left + across * (room - 2) + right, style),)
    told = [(before + banner.heading, style), *((line, "") for line in banner.lines)]
    for text, own in told:
        for line in wrap(text, room - 4):
            yield ((side, style), (f" {padded(line, room - 4)} ", own), (side, style))
    yield ((low_left + across * (room - 2) + low_right, style),)


def _section(section: Section, room: int) -> Iterator[Line]:
    """A heading, its lead, its tables and lists."""
    yield ()
    *first, last = wrap(section.title, room)
    for line in first:
        yield ((line, "bold"),)
    yield ((last, "bold"), (" " + "─" * max(room - width(last) - 1, 0), "dim"))
    yield from _words(section.lead, room, "dim")
    for body in section.body:
        yield ()
        yield from _grid(body, room) if isinstance(body, Grid) else _items(body, room)
    if section.after and section.body:
        yield ()
    yield from _words(section.after, room)


def _items(items: Items, room: int) -> Iterator[Line]:
    """Names to the left, what is told of them to the right."""
    column = min(max(width(name) for name, _ in items.items), room * 2 // 5)
    for name, text in items.items:
        names = wrap(name, column)
        texts = [line for part in text.splitlines() for line in wrap(part, room - column - 2)]
        for left, right in zip_longest(names, texts, fillvalue=""):
            yield ((padded(left, column) + "  ", ""), (right, ""))


def _grid(grid: Grid, room: int) -> Iterator[Line]:
    """A table with a rule under its heading; figures to the right and never broken."""
    needed = _needed(grid)
    gaps = _gaps(grid.columns, tight=False)
    if sum(needed) + sum(gaps) > room and sum(column.figures for column in grid.columns) >= MANY:
        gaps = _gaps(grid.columns, tight=True)
    rooms = _rooms(grid.columns, needed, room - sum(gaps))
    heads = tuple(Cell(column.title) for column in grid.columns)
    yield from _row(heads, grid.columns, rooms, gaps)
    yield (("─" * (sum(rooms) + sum(gaps)), "dim"),)
    for row in grid.rows:
        yield from _row(row, grid.columns, rooms, gaps)


def _gaps(columns: Sequence[Column], *, tight: bool) -> list[int]:
    """Spaces after each column; none after the last."""
    return [1 if tight and column.figures else 2 for column in columns[:-1]] + [0]


def _needed(grid: Grid) -> list[int]:
    """Width of each column whose lines are not broken."""
    return [
        max(_natural(Cell(column.title)), *(_natural(row[n]) for row in grid.rows), 1)
        for n, column in enumerate(grid.columns)
    ]


def _natural(cell: Cell) -> int:
    """Width of a cell whose lines are not broken."""
    texts = max(map(width, cell.text.split("\n")))
    return max(texts, len(INDENT) + width(cell.below)) if cell.below else texts


def _rooms(columns: Sequence[Column], needed: Sequence[int], left: int) -> list[int]:
    """Widths of the columns: what they need, or the words' share of what the figures leave."""
    rooms = list(needed)
    wordy = [n for n, column in enumerate(columns) if not (column.figures or column.whole)]
    left -= sum(rooms[n] for n in range(len(columns)) if n not in wordy)
    while wordy:
        shares = sum(columns[n].share for n in wordy)
        content = [n for n in wordy if rooms[n] <= left * columns[n].share // shares]
        if not content:
            for n in wordy:
                rooms[n] = max(left * columns[n].share // shares, LEAST)
            break
        left -= sum(rooms[n] for n in content)
        wordy = [n for n in wordy if n not in content]
    return rooms


def _row(
    cells: Sequence[Cell], columns: Sequence[Column], rooms: Sequence[int], gaps: Sequence[int]
) -> Iterator[Line]:
    """One row, as many lines as its tallest cell."""
    blocks = [_block(cell, room) for cell, room in zip(cells, rooms, strict=True)]
    for pieces in zip_longest(*blocks, fillvalue=("", "")):
        line: list[Piece] = []
        for (text, style), column, room, gap in zip(pieces, columns, rooms, gaps, strict=True):
            line += [(padded(text, room, right=column.figures), style), (" " * gap, "")]
        yield tuple(line)


def _block(cell: Cell, room: int) -> list[Piece]:
    """The lines of one cell: its text, and the smaller line below it, indented."""
    style = cell.standing.name.lower()
    lines = [(line, style) for part in cell.text.split("\n") for line in wrap(part, room)]
    if cell.below:
        lines += [(INDENT + line, "dim") for line in wrap(cell.below, room - len(INDENT))]
    return lines
