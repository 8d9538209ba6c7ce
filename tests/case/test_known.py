"""A case read with what earlier readings of its file found out is the case read by itself, fault by fault."""

from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from strength.case.model import Case
from strength.case.read import case_from_tables
from strength.errors import CaseError
from strength.library.data import cases_folder
from strength.studies.typed import Edit, TypedCase, typed_case
from strength.values import fields

NAMES = sorted(path.parent.name for path in cases_folder().glob("*/case.toml"))
VALUES: tuple[object, ...] = (
    "tube 19 x 1.5 mm",
    "7 mm",
    "-31 44 163 mm",
    "3.1 kN",
    "nothing of the kind",
    0.37,
    True,
    [],
)
# kinds whose lines are left out one after the other: what they held hangs loose, what named them is at a loss
LEFT_OUT = ("struts", "members", "supports", "brackets", "knuckles", "wishbones")


def told(tables: Mapping[str, Any], file: TypedCase, *, afresh: bool) -> Case | list[tuple[str, str]]:
    """The case in tables, or all its faults."""
    known = None if afresh else file.known
    try:
        return case_from_tables(tables, file.data, file.folder, known)
    except CaseError as error:
        return list(error.faults)


def agree(file: TypedCase, tables: Mapping[str, Any]) -> bool:
    """Whether a case could be built, however it is read, and read again."""
    one, again, other = (told(tables, file, afresh=afresh) for afresh in (False, False, True))
    assert one == again
    if isinstance(one, Case) and isinstance(other, Case):
        for field in fields(Case):
            assert getattr(one, field.name) == getattr(other, field.name), field.name
    else:
        assert one == other
    return isinstance(one, Case)


def lines(file: TypedCase) -> Iterator[tuple[str, ...]]:
    """The way to every line of the tables of parts."""
    for kind, table in file.tables.items():
        if isinstance(table, dict):
            yield from ((kind, name) for name in table)


@pytest.mark.parametrize("name", NAMES)
def test_one_value_changed(name: str) -> None:
    """Every few keys another value that suits it or does not; in between the file as it stands."""
    file = typed_case(cases_folder() / name / "case.toml")
    built = agree(file, file.tables)
    count = 0
    for way in lines(file):
        given = file.value(way)
        for key in given if isinstance(given, dict) else ():
            count += 1
            if count % 7 == 0:
                agree(file, file.changed([Edit((*way, key), VALUES[count // 7 % len(VALUES)])]))
        if not isinstance(given, dict):
            agree(file, file.changed([Edit(way, VALUES[len(way[-1]) % len(VALUES)])]))
    assert agree(file, file.tables) == built


@pytest.mark.parametrize("name", ["bracken-revised", "one-arm", "quad"])
def test_a_line_left_out(name: str) -> None:
    """Without a tie rod or a shock: told as when the file is read first."""
    file = typed_case(cases_folder() / name / "case.toml")
    assert agree(file, file.tables)
    some = []
    for kind in LEFT_OUT:
        table = file.tables.get(kind, {})
        for left in table:
            rest = {key: value for key, value in table.items() if key != left}
            some.append(agree(file, {**file.tables, kind: rest}))
    assert not all(some)
    assert agree(file, file.tables)
