"""Published examples, run as cases, and what they come to beside the book's figure."""

import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import attrs

from strength.errors import LibraryError, StrengthError
from strength.library.data import cases_folder
from strength.studies.explain.formula import FormulaError, value_of
from strength.units.table import FACTORS

BOOK = re.compile(r"\s*([-+]?\d[\d.]*(?:[eE][-+]?\d+)?)\s*(\S.*)?")
SURE = {
    "seen": "read in the publication or an extract",
    "memory": "recalled from the publication, not looked up",
    "recomputed": "recalled, and worked out again from first principles",
    "closed form": "exact formula of a handbook",
    "derived": "evaluated from a published formula; never printed as a number",
}
KEYS = {"what", "book", "value", "formula", "with", "tolerance", "why", "sure"}
# list of the record -> the keys that name one of its entries
TABLES = {
    "points": ("name", "load"),
    "members": ("name", "load", "end"),
    "struts": ("name", "load"),
    "stresses": ("member", "load"),
    "supports": ("at", "load"),
    "checks": ("part", "kind", "load"),
    "loads": ("name",),
    "wheels": ("load", "name"),
    "limits": ("what", "with_payload"),
}


@attrs.frozen(kw_only=True)
class Figure:
    """One figure of an example: the book's and this program's, both in `unit`.

    tolerance: relative. failure: why there is none of this program's.
    """

    what: str
    book: float
    unit: str
    here: float
    tolerance: float
    why: str
    sure: str
    failure: str = ""

    @property
    def off(self) -> float:
        """Difference relative to the book's figure."""
        return abs(self.here - self.book) / abs(self.book)

    @property
    def agrees(self) -> bool:
        """Whether it lies within the tolerance."""
        return not self.failure and self.off <= self.tolerance


@attrs.frozen(kw_only=True)
class Example:
    """A published example and its figures."""

    name: str
    title: str
    source: str
    note: str
    figures: tuple[Figure, ...]


def examples(place: Path | None = None) -> tuple[Example, ...]:
    """All examples, recomputed; place: their folder, the program's own where left out.

    Raises LibraryError for a file of expected figures that cannot be used.
    """
    place = place or cases_folder() / "verification"
    return tuple(_example(path) for path in sorted(place.glob("*/expected.toml")))


def _example(path: Path) -> Example:
    table = _read(path)
    for key in ("title", "source", "sure", "figure"):
        if key not in table:
            raise LibraryError(str(path), "", f"`{key}` is missing")
    try:
        record, failure = _record(path.with_name("case.toml")), ""
    except StrengthError as error:
        record, failure = {}, str(error)
    return Example(
        name=path.parent.name,
        title=table["title"],
        source=table["source"],
        note=table.get("note", ""),
        figures=tuple(
            _figure(str(path), n, entry, table["sure"], record, failure)
            for n, entry in enumerate(table["figure"])
        ),
    )


def _read(path: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise LibraryError(str(path), "", str(error)) from error


def _record(path: Path) -> dict[str, Any]:
    """The record of a case's summary, with its load sheet's limits and a flat list of wheel forces."""
    from strength.case import read_case
    from strength.report.loads_record import loads_record
    from strength.report.record import summary_record
    from strength.run import run
    from strength.vehicle import limits

    case = read_case(path)
    outcome = run(case)
    record = summary_record(outcome)
    record["wheels"] = [
        {**wheel, "load": load["name"]} for load in record["loads"] for wheel in load["wheels"]
    ]
    record["limits"] = []
    if case.wheels:
        sheet = loads_record(outcome.loads, limits(case))
        record["limits"] = [
            {**limit, "with_payload": "true" if limit["with_payload"] else "false"}
            for limit in sheet["limits"]
        ]
    return record


def _figure(
    file: str, number: int, entry: Mapping[str, Any], sure: str, record: Mapping[str, Any], failure: str
) -> Figure:
    where = f"figure[{number}]"
    unknown = set(entry) - KEYS
    if unknown or not {"what", "book", "tolerance", "why"} <= set(entry):
        told = f"unknown: {sorted(unknown)}" if unknown else "what, book, tolerance, why are needed"
        raise LibraryError(file, where, told)
    if ("value" in entry) == ("formula" in entry):
        raise LibraryError(file, where, "give either `value` or `formula`")
    if entry.get("sure", sure) not in SURE:
        raise LibraryError(file, where, f"`sure` is none of {', '.join(SURE)}")
    book, unit = book_figure(str(entry["book"]), file, where)
    here = float("nan")
    if not failure:
        try:
            symbols = {name: picked(record, text) for name, text in entry.get("with", {}).items()}
            here = (
                value_of(entry["formula"], symbols) if "formula" in entry else picked(record, entry["value"])
            )
        except (LookupError, FormulaError) as error:
            failure = str(error)
    return Figure(
        what=entry["what"],
        book=book,
        unit=unit,
        here=here / factor_of(unit, file, where),
        tolerance=float(entry["tolerance"]),
        why=entry["why"],
        sure=entry.get("sure", sure),
        failure=failure,
    )


def book_figure(text: str, file: str, where: str) -> tuple[float, str]:
    """A figure and its unit, "" where it has none."""
    found = BOOK.fullmatch(text)
    if found is None:
        raise LibraryError(file, where, f"{text!r} is no figure with a unit")
    return float(found[1]), (found[2] or "").strip()


def factor_of(unit: str, file: str, where: str) -> float:
    """What one of a unit is in the units of the record."""
    if not unit:
        return 1.0
    for units in FACTORS.values():
        if unit in units:
            return units[unit]
    raise LibraryError(file, where, f"{unit!r} is no unit")


def picked(record: Mapping[str, Any], text: str) -> float:
    """A number of a record: "points/NAME/LOAD/displacement/0", the table, its names, key and place.

    A plain number is itself. Raises LookupError where the record has no such entry.
    """
    table, *rest = text.split("/")
    if table not in TABLES:
        try:
            return float(text)
        except ValueError:
            raise LookupError(f"{text!r}: no table {table!r}") from None
    keys = TABLES[table]
    names, path = rest[: len(keys)], rest[len(keys) :]
    for entry in record[table]:
        if all(entry[key] == name for key, name in zip(keys, names, strict=True)):
            found = entry
            for step in path:
                found = found[int(step)] if isinstance(found, list) else found[step]
            return float(found)
    raise LookupError(f"{text!r}: the record has no such entry")
