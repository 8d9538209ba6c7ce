"""From the tables of a case file to its parts, whichever of the two ways they are written."""

from collections.abc import Iterator, Mapping
from typing import Any

from strength.case.faults import Faults, nearest
from strength.case.kinds import KINDS, PLURALS, Kind
from strength.case.kinds.tables import FREE, HEAD, OWN, TABLES
from strength.case.known import Known
from strength.case.readers import name as name_reader
from strength.case.readers import read_keys, said
from strength.case.trade.entry import Entry
from strength.values import frozen

_LIKE = 0.75  # from here a word counts as a misspelt key
_DEEPEST = 20  # dots in a name


@frozen(kw_only=True)
class Typed:
    """What a file says: its parts, its single tables, changes and metals as typed."""

    head: Mapping[str, Any]
    tables: Mapping[str, Mapping[str, Any]]
    entries: tuple[Entry, ...]
    changes: tuple[tuple[str, Mapping[str, Any]], ...]  # (path, keys as typed)
    own: Mapping[str, Mapping[str, Mapping[str, Any]]]  # material, filler -> name -> keys as typed
    free: Mapping[str, Any]


def gather(file: Mapping[str, Any], faults: Faults, known: Known | None = None) -> Typed:
    """Sort a file's tables and read their keys; every fault goes on the list.

    known: what was found out about the file before, to which is added.
    """
    known = known or Known()
    heads = {key.name for key in HEAD}
    entries: list[Entry] = []
    tables: dict[str, Mapping[str, Any]] = {}
    changes: list[tuple[str, Mapping[str, Any]]] = []
    own: dict[str, Mapping[str, Mapping[str, Any]]] = {}
    head = read_keys({key: value for key, value in file.items() if key in heads}, HEAD, "", faults)
    for word, value in file.items():
        if word in KINDS:
            entries += _blocks(KINDS[word], value, faults, known)
        elif word in PLURALS:
            entries += _lines(PLURALS[word], value, faults, known)
        elif word in TABLES:
            if isinstance(value, dict):
                tables[word] = read_keys(value, TABLES[word], word, faults)
            else:
                faults.add(word, f"is a table: write [{word}] on a line of its own, and its keys below")
        elif word in OWN:
            own[word] = _own(word, value, faults)
        elif word == "change":
            changes += _changes(value, faults)
        elif word not in heads and word not in FREE:
            words = {*KINDS, *PLURALS, *TABLES, *OWN, *FREE, *heads, "change"}
            faults.add(word, f"unknown key or table{nearest(word, words)}")
    return Typed(
        head=head,
        tables=tables,
        entries=tuple(entries),
        changes=tuple(changes),
        own=own,
        free={word: file[word] for word in FREE if word in file},
    )


def _blocks(kind: Kind, value: object, faults: Faults, known: Known) -> Iterator[Entry]:
    """Parts written as [[kind]] blocks."""
    if not isinstance(value, list) or not all(isinstance(block, dict) for block in value):
        faults.add(kind.word, f"is written as [[{kind.word}]] blocks, or a line per part in [{kind.plural}]")
        return
    for i, block in enumerate(value):
        path = f"{kind.word}[{i}]"
        keys = {key: given for key, given in block.items() if key != "name"}
        name = ""
        if "name" in block:
            with faults.at(f"{path}.name"):
                name = name_reader.read(block["name"], path, faults)
                faults.blocks[path] = name
        elif not kind.nameless:
            faults.add(path, "`name` is missing: what is it called?")
        elif "at" not in block:
            faults.add(path, "`at` is missing: the place, or a list of places, that it holds")
        own = known.read(block, keys, kind.keys, path, faults)
        yield Entry(kind=kind.word, name=name, keys=own, path=path)


def _lines(kind: Kind, value: object, faults: Faults, known: Known) -> Iterator[Entry]:
    """Parts written as lines of a plural table."""
    if not isinstance(value, dict):
        faults.add(
            kind.plural, f"is a table with a line per part; blocks are headed [[{kind.word}]], without an s"
        )
        return
    for words, given in _named(kind, value, ()):
        name = ".".join(words)
        path = f"{kind.plural}.{name}"
        with faults.at(path):
            name_reader.read(name, path, faults)
        typed = given
        if not isinstance(given, dict):
            if not kind.short or not isinstance(given, str):
                faults.add(path, f"{said(given)} is not a table of keys such as {{{_example(kind)}}}")
                continue
            given = {kind.short: given}
        if "name" in given:
            faults.add(f"{path}.name", "the name stands before the '=' already: leave this key out")
            given = {key: each for key, each in given.items() if key != "name"}
        own = known.read(typed, given, kind.keys, path, faults)
        yield Entry(kind=kind.word, name=name, keys=own, path=path)


def _example(kind: Kind) -> str:
    return ", ".join(f"{key.name} = ..." for key in kind.keys[:2])


def _named(
    kind: Kind, table: Mapping[str, Any], before: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Names and what stands behind them; TOML reads `hub.left = ...` as a table in a table."""
    for word, given in table.items():
        words = (*before, word)
        if isinstance(given, dict) and len(words) < _DEEPEST and _is_prefix(kind, given):
            yield from _named(kind, given, words)
        else:
            yield words, given


def _is_prefix(kind: Kind, table: Mapping[str, Any]) -> bool:
    """Whether a table is the first part of dotted names rather than a part with its keys.

    It is a part if one of its words is a key of the kind with a value that may be one.
    """
    if not table or "name" in table:
        return False
    for word, given in table.items():
        key = kind.key(word)
        if key is not None and not (isinstance(given, dict) and not _takes_table(key.reader.schema)):
            return False
    if all(isinstance(given, dict) for given in table.values()):
        return True
    if not kind.short or not all(isinstance(given, dict | str) for given in table.values()):
        return False
    keys = [key.name for key in kind.keys]
    if not all(any(_could_be(word, key) for key in keys) for word in table):
        return True
    import difflib  # takes a millisecond

    return not all(difflib.get_close_matches(word, keys, n=1, cutoff=_LIKE) for word in table)


def _could_be(word: str, key: str) -> bool:
    """Whether a word has letters enough of a key, in whatever order, to count as it misspelt."""
    common = sum(min(word.count(letter), key.count(letter)) for letter in set(word))
    return 2.0 * common >= _LIKE * (len(word) + len(key))


def _takes_table(schema: Mapping[str, Any]) -> bool:
    return schema.get("type") == "object" or any(_takes_table(each) for each in schema.get("anyOf", ()))


def _own(word: str, value: object, faults: Faults) -> Mapping[str, Mapping[str, Any]]:
    """Metals or fillers of the user's own, keys as typed."""
    if not isinstance(value, dict):
        faults.add(word, f"is written as [{word}.NAME], a table for each {word}")
        return {}
    found = {}
    for name, table in value.items():
        if not isinstance(table, dict):
            faults.add(f"{word}.{name}", f"is not a table: write [{word}.NAME] and its keys below")
        elif any(isinstance(each, dict) for each in table.values()) and not _has_plain(table):
            faults.add(f"{word}.{name}", f'a name with dots is quoted here: [{word}."{name}..."]')
        else:
            found[name] = table
    return found


def _has_plain(table: Mapping[str, Any]) -> bool:
    return any(not isinstance(each, dict) for each in table.values())


def _changes(value: object, faults: Faults) -> Iterator[tuple[str, Mapping[str, Any]]]:
    if not isinstance(value, list) or not all(isinstance(block, dict) for block in value):
        faults.add("change", "is written as [[change]] blocks")
        return
    for i, block in enumerate(value):
        yield f"change[{i}]", block
