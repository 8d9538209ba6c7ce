"""A document on a console: plain and calm, readable at 80 characters, in a pipe and without colour."""

import io
import os
import sys
from typing import TYPE_CHECKING, TextIO

from rich import box
from rich.console import Console, Group
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from strength.report.banners import CAUTION
from strength.report.cautions import ONE_LINE
from strength.report.document import Banner, Cell, Document, Grid, Items, Section
from strength.report.standing import Standing

if TYPE_CHECKING:
    from rich.console import RenderableType

NARROW, WIDE = 80, 120  # never set wider, and never cut for less
ROOM_BESIDE = 110  # from here on a table has room for a column of words more
STYLES = {
    Standing.OVER: "bold red",
    Standing.RANGE: "bold magenta",
    Standing.THIN: "yellow",
    Standing.WITHIN: "",
}
DASHED = box.Box("┌┄┄┐\n┆  ┆\n├┄┄┤\n┆  ┆\n├┄┄┤\n├┄┄┤\n┆  ┆\n└┄┄┘\n")
OPEN = box.Box("+--+\n|  |\n+--+\n|  |\n+--+\n+--+\n|  |\n+--+\n", ascii=True)
RULED = box.Box("    \n    \n ── \n    \n    \n    \n    \n    \n")
# kind -> frame, colour, what stands before the heading: each can be told apart without colour
BANNERS: dict[str, tuple[box.Box, str, str]] = {
    "caution": (box.DOUBLE, "bold", ""),
    "over": (box.HEAVY, "bold red", "!!! "),
    "range": (DASHED, "bold magenta", "??? "),
    "thin": (box.ROUNDED, "yellow", "~~~ "),
    "unchecked": (OPEN, "cyan", "--- "),
}


def width_of(stream: TextIO) -> int:
    """Characters in a line: the terminal's, or that of COLUMNS, between 80 and 120; 80 in a pipe."""
    told = os.environ.get("COLUMNS", "")
    if told.isdigit():
        return min(max(int(told), NARROW), WIDE)
    for candidate in (stream, sys.stderr):
        try:
            return min(max(os.get_terminal_size(candidate.fileno()).columns, NARROW), WIDE)
        except (OSError, ValueError):
            continue
    return NARROW


def load_columns(width: int) -> int:
    """Load columns that stand side by side in the table of margins."""
    return (width - (52 if width >= ROOM_BESIDE else 24)) // 7


def show(document: Document, stream: TextIO, width: int) -> None:
    """Print a document; in colour only where the stream is a terminal that has colours."""
    if stream.isatty():
        _print(document, Console(file=stream, width=width, highlight=False, markup=False, emoji=False))
    else:
        stream.write(as_text(document, width))


def as_text(document: Document, width: int) -> str:
    """A document as plain text of a fixed width, without spaces at line ends."""
    page = io.StringIO()
    _print(
        document,
        Console(
            file=page, width=width, color_system=None, force_terminal=False, legacy_windows=False,
            highlight=False, markup=False, emoji=False, _environ={},
        ),
    )  # fmt: skip
    return "\n".join(line.rstrip() for line in page.getvalue().splitlines()) + "\n"


def _print(document: Document, console: Console) -> None:
    """Caution, verdicts, sections, caution."""
    console.print(Text(document.title, style="bold"))
    console.print(Text(document.subtitle, style="dim"))
    if document.brief:
        console.print(Text(ONE_LINE))
    for banner in document.banners if document.brief else (CAUTION, *document.banners):
        console.print()
        console.print(_banner(banner))
    for section in document.sections:
        _section(section, console)
    console.print()
    for line in document.closing:
        console.print(Text(line, style="bold"))
    console.print(Text(ONE_LINE) if document.brief else _banner(CAUTION))


def _banner(banner: Banner) -> Table:
    """A frame across the whole width."""
    frame, style, before = BANNERS[banner.kind]
    table = Table(box=frame, expand=True, show_header=False, border_style=style, padding=(0, 1))
    table.add_column()
    table.add_row(Text(before + banner.heading, style=style))
    for line in banner.lines:
        table.add_row(Text(line))
    return table


def _section(section: Section, console: Console) -> None:
    """A heading, its lead, its tables and lists."""
    console.print()
    rule = "─" * max(console.width - len(section.title) - 1, 0)
    console.print(Text.assemble((section.title, "bold"), " ", (rule, "dim")), no_wrap=True, overflow="crop")
    for line in section.lead:
        console.print(Text(line, style="dim"))
    for body in section.body:
        console.print()
        console.print(_grid(body) if isinstance(body, Grid) else _items(body, console.width))
    if section.after and section.body:
        console.print()
    for line in section.after:
        console.print(Text(line))


def _grid(grid: Grid) -> Table:
    """A table with a line under its heading; figures to the right and never broken."""
    table = Table(box=RULED, show_edge=False, pad_edge=False, padding=(0, 1, 0, 0), expand=True)
    for column in grid.columns:
        if column.figures:
            table.add_column(Text(column.title), justify="right", no_wrap=True)
        elif column.whole:
            table.add_column(Text(column.title), no_wrap=True)
        else:
            table.add_column(Text(column.title), ratio=column.share, overflow="fold")
    for row in grid.rows:
        table.add_row(*map(_cell, row))
    return table


def _cell(cell: Cell) -> "RenderableType":
    """The text, and the smaller line below it."""
    text = Text(cell.text, style=STYLES[cell.standing])
    if not cell.below:
        return text
    return Group(text, Padding(Text(cell.below, style="dim", overflow="fold"), (0, 0, 0, 2)))


def _items(items: Items, width: int) -> Table:
    """Names to the left, what is told of them to the right."""
    table = Table.grid(padding=(0, 2, 0, 0), expand=True)
    longest = max(len(name) for name, _ in items.items)
    table.add_column(width=min(longest, width * 2 // 5), overflow="fold")
    table.add_column(ratio=1, overflow="fold")
    for name, text in items.items:
        table.add_row(Text(name), Text(text))
    return table
