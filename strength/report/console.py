"""A document on a console: plain in a pipe, in colour on a terminal, the same words in both."""

import os
import sys
from typing import TextIO

from strength.report.document import Document
from strength.report.layout import lay_out

NARROW, WIDE = 80, 120  # never set wider, and never cut for less
ROOM_BESIDE = 110  # from here on a table has room for a column of words more
STYLES = {
    "bold": "bold",
    "dim": "dim",
    "caution": "bold",
    "over": "bold red",
    "range": "bold magenta",
    "thin": "yellow",
    "unchecked": "cyan",
    "within": "",
    "": "",
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


def load_columns(room: int) -> int:
    """Load columns that stand side by side in the table of margins."""
    return (room - (52 if room >= ROOM_BESIDE else 24)) // 7


def show(document: Document, stream: TextIO, room: int) -> None:
    """Print a document; in colour only where the stream is a terminal that has colours."""
    if not stream.isatty():
        stream.write(as_text(document, room))
        return
    from rich.console import Console
    from rich.text import Text

    text = Text()
    for line in lay_out(document, room):
        for piece, style in line:
            text.append(piece, style=STYLES[style])
        text.append("\n")
    console = Console(file=stream, width=room, highlight=False, markup=False, emoji=False)
    console.print(text, end="", no_wrap=True, overflow="ignore", crop=False)


def as_text(document: Document, room: int) -> str:
    """A document as plain text of a fixed width, without spaces at line ends."""
    lines = ("".join(piece for piece, _ in line).rstrip() for line in lay_out(document, room))
    return "\n".join(lines) + "\n"
