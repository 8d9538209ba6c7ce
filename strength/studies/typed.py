"""A case file as typed, and changes to what is typed there."""

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from os.path import dirname
from typing import TYPE_CHECKING, Any

from strength.case import source
from strength.case.faults import Faults
from strength.case.gather import Typed, gather
from strength.case.known import Known
from strength.case.model import Case
from strength.case.places import other_side
from strength.case.read import case_from_tables
from strength.case.trade.entry import Entry
from strength.values import frozen

if TYPE_CHECKING:
    from pathlib import Path

Step = str | int
Way = tuple[Step, ...]  # from the top of the file down to a value
BLOCK: Way = ("change",)  # of an edit: its value is a [[change]] block of its own, put in at the end


@frozen
class Edit:
    """One value to set, at a way down the tables, as it would be typed."""

    way: Way
    value: Any

    @property
    def words(self) -> str:
        """Where it stands, in the words of messages."""
        text = ""
        for step in self.way:
            text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else step
        return text


@frozen(kw_only=True, eq=False)
class TypedCase:
    """A case file: its text, its tables as the TOML parser gives them, and the case they make."""

    path: str
    text: str
    tables: Mapping[str, Any]
    data: bytes  # the file as it lies on the disk
    folder: "str | Path | None" = None  # from which paths in it count

    @cached_property
    def case(self) -> Case:
        """The case; raises CaseError with all its faults."""
        return case_from_tables(self.tables, self.data, self.folder, self.known)

    @cached_property
    def known(self) -> Known:
        """What readings of the file, however changed, found out so far."""
        return Known()

    @cached_property
    def typed(self) -> Typed:
        """Parts and changes as typed."""
        return gather(self.tables, Faults(self.folder), self.known)

    @property
    def mirror(self) -> bool:
        """Whether `.left` parts are repeated on the other side."""
        return bool(self.tables.get("mirror", False))

    def entry(self, kind: str, name: str) -> Entry | None:
        """A typed part."""
        return next((each for each in self.typed.entries if (each.kind, each.name) == (kind, name)), None)

    def sides(self, name: str) -> tuple[str, ...]:
        """A part's name, and that of the part it is the image of."""
        if self.mirror and name.endswith(".right"):
            return name, other_side(name)
        return (name,)

    def way_to(self, entry: Entry) -> Way:
        """Where a typed part's keys stand."""
        kind, _, name = entry.path.partition(".")
        if not name:  # kind[3]
            word, _, number = kind.partition("[")
            return word, int(number.removesuffix("]"))
        return (kind, *_descend(self.tables[kind], name))

    def changes(self, part: str) -> Iterator[tuple[int, Mapping[str, Any]]]:
        """Change blocks of a part ("weld apex.left"), the last first."""
        blocks = list(enumerate(self.tables.get("change", ())))
        for number, block in reversed(blocks):
            if " ".join(str(block.get("part", "")).split()) == part:
                yield number, block

    def value(self, way: Way) -> Any:
        """What stands at a way; None where nothing does."""
        found: Any = self.tables
        for step in way:
            try:
                found = found[step]
            except (KeyError, IndexError, TypeError):
                return None
        return found

    def changed(self, edits: Iterable[Edit]) -> dict[str, Any]:
        """The tables with values set anew; the file's own stay as they are."""
        found: dict[str, Any] = dict(self.tables)
        for edit in edits:
            if edit.way == BLOCK:
                found["change"] = [*found.get("change", ()), edit.value]
            else:
                found = _set(found, edit.way, edit.value)
        return found

    def changed_case(self, edits: Iterable[Edit]) -> Case:
        """The case with values set anew; raises CaseError where that cannot be built."""
        return case_from_tables(self.changed(edits), self.data, self.folder, self.known)


def typed_case(path: "str | Path") -> TypedCase:
    """A case file, read; raises CaseError where it cannot be."""
    data = source.load(path)
    text = source.decode(data, str(path))
    return TypedCase(
        path=str(path),
        text=text,
        tables=source.parse(text, str(path)),
        data=data,
        folder=dirname(path),
    )


def case_typed(text: str) -> TypedCase:
    """The same of a text."""
    data = text.encode("utf-8", "surrogatepass")
    return TypedCase(path="case", text=text, tables=source.parse(text, "case"), data=data)


def _descend(table: Mapping[str, Any], name: str) -> tuple[str, ...]:
    """Keys down to a part whose name has dots, which TOML may read as tables in tables."""
    if name in table:
        return (name,)
    words = name.split(".")
    for count in range(len(words) - 1, 0, -1):
        head, rest = ".".join(words[:count]), ".".join(words[count:])
        if isinstance(table.get(head), Mapping):
            try:
                return (head, *_descend(table[head], rest))
            except KeyError:
                continue
    raise KeyError(name)


def _set(table: Any, way: Way, value: Any) -> Any:
    """A copy with the value set at the way."""
    step, rest = way[0], way[1:]
    copy: Any = list(table) if isinstance(step, int) else dict(table)
    inner = copy[step] if isinstance(step, int) else copy.get(step, {})
    copy[step] = _set(inner, rest, value) if rest else value
    return copy
