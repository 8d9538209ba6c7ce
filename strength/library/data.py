"""Where the data stand and how one entry is read out of them without reading the rest.

The data are TOML files, each entry headed by one line such as `[material."E235+N"]`, followed by
`also = [...]` where it has other names. An index of the headings is made by looking for those lines;
only the entry asked for is then parsed.
"""

import os.path
import re
from collections.abc import Iterable
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from strength.errors import StrengthError, UnknownNameError

if TYPE_CHECKING:
    from pathlib import Path

# kind of entry -> the files that hold it
FILES = {
    "constants": ("constants", "textbook"),
    "material": (
        "steel-tube",
        "steel-structural",
        "steel-bar",
        "stainless",
        "aluminium-extruded",
        "aluminium-plate",
        "textbook",
    ),
    "filler": ("fillers",),
    "bolt": ("bolts",),
    "thread": ("threads",),
    "pitch": ("threads",),
    "shoulder": ("shoulder-screws",),
    "rod_end": ("rod-ends",),
    "stock": ("stock",),
    "wall": ("stock",),
    "detail": ("fatigue",),
    "curve": ("fatigue",),
    "source": ("sources",),
}
_HEADING = re.compile(r'^\[(\w+)\."([^"]+)"\]\n(?:also = \[(.*)\]\n)?', re.MULTILINE)
_QUOTED = re.compile(r'"([^"]+)"')
TEXTBOOK = "textbook"  # the file of books' metals, and the word their names begin with
_PACKAGE = os.path.dirname(os.path.dirname(os.path.realpath(__file__)))


class Entry(NamedTuple):
    """Where an entry stands: file and the part of its text [start, end)."""

    name: str
    also: tuple[str, ...]
    file: str
    start: int
    end: int


@cache
def _folder(name: str) -> str:
    """A data folder: inside the package (installed wheel), else beside it (checkout)."""
    for place in (os.path.join(_PACKAGE, "_data", name), os.path.join(os.path.dirname(_PACKAGE), name)):
        if os.path.isdir(place):
            return place
    raise StrengthError(f"the {name} folder is missing from this installation: install it again")


def materials_folder() -> "Path":
    """The folder of the library's tables."""
    from pathlib import Path

    return Path(_folder("materials"))


def cases_folder() -> "Path":
    """The folder of the example and verification cases."""
    from pathlib import Path

    return Path(_folder("cases"))


@cache
def _text(file: str) -> str:
    with open(os.path.join(_folder("materials"), f"{file}.toml"), encoding="utf-8") as text:
        return text.read()


@cache
def index(kind: str) -> dict[str, Entry]:
    """Every name of a kind, other names included, in the order of the files."""
    found: dict[str, Entry] = {}
    for file in FILES[kind]:
        heads = list(_HEADING.finditer(_text(file)))
        ends = [head.start() for head in heads[1:]] + [len(_text(file))]
        for head, end in zip(heads, ends, strict=True):
            if head[1] != kind:
                continue
            entry = Entry(head[2], tuple(_QUOTED.findall(head[3] or "")), file, head.start(), end)
            found[entry.name] = entry
            found.update((name, entry) for name in entry.also)
    return found


def names(kind: str) -> tuple[str, ...]:
    """The first names of all entries of a kind, in the order of the files."""
    return tuple(dict.fromkeys(entry.name for entry in index(kind).values()))


@cache
def _parsed(entry: Entry, kind: str) -> dict[str, Any]:
    import tomllib

    table: dict[str, Any] = tomllib.loads(_text(entry.file)[entry.start : entry.end])[kind][entry.name]
    return table


def sold(kind: str) -> tuple[str, ...]:
    """First names as `names`, without what only a book's example is made of."""
    return tuple(name for name in names(kind) if index(kind)[name].file != TEXTBOOK)


def likely(kind: str, wanted: str) -> tuple[str, ...]:
    """Every name that may be meant by a wrong one: a book's metal only where the word textbook is in it."""
    asked = TEXTBOOK in wanted.casefold()
    return tuple(name for name, entry in index(kind).items() if asked or entry.file != TEXTBOOK)


def read(kind: str, name: str, *, word: str = "") -> tuple[str, dict[str, Any]]:
    """First name and table of one entry.

    word: what to call the kind in the message. Raises UnknownNameError with the nearest names.
    """
    entry = index(kind).get(name)
    if entry is None:
        raise unknown(word or kind, name, index(kind))
    return entry.name, _parsed(entry, kind)


def says(kind: str, name: str, words: str) -> bool:
    """Whether some words stand in an entry's text: seen without parsing it."""
    entry = index(kind)[name]
    return words in _text(entry.file)[entry.start : entry.end]


def unknown(word: str, name: str, known: Iterable[str]) -> UnknownNameError:
    """The error for a name that is not among the known ones."""
    return UnknownNameError(word, name, nearest(name, known))


def nearest(name: str, known: Iterable[str], count: int = 4) -> tuple[str, ...]:
    """The known names most like a wrong one: first those that begin alike, then those spelt alike."""
    import difflib

    by_plain = {"".join(one.casefold().split()): one for one in known}
    plain = "".join(name.casefold().split())
    alike = [one for one in by_plain if plain and (one.startswith(plain) or plain.startswith(one))]
    alike.sort(key=lambda one: abs(len(one) - len(plain)))
    alike += difflib.get_close_matches(plain, by_plain, n=count, cutoff=0.5)
    return tuple(by_plain[one] for one in list(dict.fromkeys(alike))[:count])
