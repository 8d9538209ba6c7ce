"""What a report says, apart from how a console or a page shows it."""

import unicodedata

from strength.report.standing import Standing
from strength.values import frozen


def plain(text: str) -> str:
    """Text of the user's own on one line, without characters that would steer a terminal.

    >>> plain("hub" + chr(27) + "[2Jleft")
    'hub·[2Jleft'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join("·" if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp") else c for c in text)


@frozen(eq=False)
class Cell:
    """One cell: its text, a smaller line below it, and how what it tells stands."""

    text: str
    below: str = ""
    standing: Standing = Standing.WITHIN


@frozen(eq=False)
class Column:
    """A column's heading; `figures` are set to the right and never broken."""

    title: str
    figures: bool = False
    share: int = 1  # of the width that is left for words
    whole: bool = False  # never broken over lines


@frozen(kw_only=True, eq=False)
class Grid:
    """A table."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


@frozen(kw_only=True, eq=False)
class Items:
    """A list of short texts, each with an optional name in front."""

    items: tuple[tuple[str, str], ...]


@frozen(kw_only=True, eq=False)
class Banner:
    """A message that must be seen: heading, sentences, and a shape of its own."""

    kind: str  # caution | over | range | thin | unchecked
    heading: str
    lines: tuple[str, ...]


@frozen(kw_only=True, eq=False)
class Section:
    """A heading, what to know before reading, and tables or lists."""

    title: str
    lead: tuple[str, ...] = ()
    body: tuple[Grid | Items, ...] = ()
    after: tuple[str, ...] = ()


@frozen(kw_only=True, eq=False)
class Document:
    """A whole report. The caution stands first and last whatever the sections are.

    brief: it tells nothing of a vehicle, so one line of caution does.
    """

    title: str
    subtitle: str
    banners: tuple[Banner, ...]
    sections: tuple[Section, ...]
    closing: tuple[str, ...] = ()
    brief: bool = False
