"""A check worked out by hand, as a document and as a record."""

import shlex
from collections.abc import Sequence
from typing import Any

from strength.checks.verdict import Row
from strength.report.cautions import CAUTIONS
from strength.report.display import Display, margin
from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section, plain
from strength.report.explained_table import table_bodies, table_record
from strength.report.hand_units import HandUnits
from strength.report.standing import exit_code as code_of
from strength.report.standing import standing
from strength.report.words import fails, helps, kind_name, verdict
from strength.studies.explain.formula import with_numbers
from strength.studies.explain.sheet import Explained, Given, Line, Said, Step
from strength.studies.explain.table import Table

DISAGREES = 1


def explained_exit(found: Explained) -> int:
    """As a summary's, of this row; 1 where the sheet does not come to the row's figures."""
    return code_of([found.row]) if found.agrees else DISAGREES


def explained_document(found: Explained) -> Document:
    """What is asked, what goes in, every step, the comparison, the source, what would help."""
    row, units = found.row, HandUnits(found.units)
    display = Display(found.units)
    sections = (
        Section(title="What is asked", lead=(found.asks, f"If it fails: {fails(row)}.")),
        input_section(found.lines, units),
        step_section(found.lines, units),
        _compared(found, display),
        _standing(found),
    )
    return Document(
        title=plain(f"{row.part}: {kind_name(row.kind)}, in {row.load!r}"),
        subtitle=plain(f"{row.id}, {row.where}" if row.where else row.id),
        banners=_banners(found),
        sections=sections,
        closing=(f"{kind_name(row.kind)}: {verdict(row)} (utilisation {row.utilisation:.4g})",),
    )


def _banners(found: Explained) -> tuple[Banner, ...]:
    if found.agrees:
        return ()
    text = (
        f"Worked out by hand this check comes to a utilisation of {found.utilisation:.6g}, the program's row "
        f"says {found.row.utilisation:.6g}. One of the two is wrong: do not rely on either, and report it."
    )
    return (
        Banner(kind="over", heading="INTERNAL ERROR: THE HAND CALCULATION DOES NOT AGREE", lines=(text,)),
    )


def input_section(lines: Sequence[Line], units: HandUnits) -> Section:
    """Numbers that go in, those of one origin together below it."""
    items: list[tuple[str, str]] = []
    last = ""
    for line in lines:
        if not isinstance(line, Given):
            continue
        if line.origin != last:
            items.append(("", f"{plain(line.origin)}:"))
            last = line.origin
        items.append((line.symbol, f"{units.show(line.value, line.dimension)}, {plain(line.what)}"))
    lead = f"Units that go together without factors: {units.words}. Angles in degrees."
    return Section(title="What goes in", lead=(lead,), body=(Items(items=tuple(items)),))


def step_section(lines: Sequence[Line], units: HandUnits) -> Section:
    """Each step in symbols, in numbers, and what it comes to."""
    shown: dict[str, str] = {}
    body: list[Grid | Items] = []
    items: list[tuple[str, str]] = []
    for line in lines:
        if isinstance(line, Table):
            body += [Items(items=tuple(items)), *table_bodies(line, shown, units)]
            items = []
            continue
        if isinstance(line, Said):
            items.append(("", plain(line.text)))
            continue
        if isinstance(line, Step):
            numbers = with_numbers(line.formula, shown)
            text = [plain(line.what), f"= {line.formula}"]
            if numbers != line.formula and numbers.strip("()") != units.number(line.value, line.dimension):
                text.append(f"= {numbers}")
            text.append(f"= {units.show(line.value, line.dimension)}")
            items.append((line.symbol, "\n".join(text)))
        shown[line.symbol] = units.number(line.value, line.dimension)
    return Section(title="Worked out", body=(*body, Items(items=tuple(items))))


def _compared(found: Explained, display: Display) -> Section:
    row = found.row
    rows = []
    for word, own, told, unit in (
        ("demand", found.demand, row.demand, row.unit),
        ("limit", found.limit, row.limit, row.unit),
        ("utilisation", found.utilisation, row.utilisation, "1"),
    ):
        here, there = (_figure(display, value, unit) for value in (own, told))
        rows.append((Cell(word), Cell(here), Cell(there)))
    columns = (
        Column("", whole=True),
        Column("by hand", figures=True),
        Column("the program's row", figures=True),
    )
    about = "to 0.2 %, since the worst place was searched for" if found.close > 1e-4 else "to a millionth"
    said = f"The two agree {about}." if found.agrees else f"THE TWO DO NOT AGREE: {found.off:.2g} apart."
    return Section(title="Compared", body=(Grid(columns=columns, rows=tuple(rows)),), after=(said,))


def _figure(display: Display, value: float, unit: str) -> str:
    """A figure to four digits in the units of the summary."""
    if unit == "1":
        return f"{value:.4g}"
    shown, name = display.exact(value, unit)
    return f"{shown} {name}"


def _standing(found: Explained) -> Section:
    row = found.row
    items = [("source", row.source)]
    inside = (
        "inside what its source covers" if row.in_range else "OUTSIDE what its source covers: judge by hand"
    )
    items.append(("range", inside))
    if row.note:
        items.append(("note", row.note))
    items.append(("what helps", helps(row.kind, found.noun)))
    return Section(
        title="Where it stands", body=(Items(items=tuple((name, plain(text)) for name, text in items)),)
    )


def explained_record(found: Explained) -> dict[str, Any]:
    """Every number unrounded, in mm, N, N*mm, MPa, rad, with its formula or origin."""
    row = found.row
    return {
        "format": 1,
        "cautions": list(CAUTIONS),
        "id": row.id,
        "asks": found.asks,
        **line_records(found.lines),
        "by_hand": {"demand": found.demand, "limit": found.limit, "utilisation": found.utilisation},
        "row": {
            "demand": row.demand,
            "limit": row.limit,
            "unit": row.unit,
            "utilisation": row.utilisation,
            "margin": row.margin,
            "in_range": row.in_range,
            "where": row.where,
            "source": row.source,
            "note": row.note,
        },
        "agrees": found.agrees,
    }


def line_records(lines: Sequence[Line]) -> dict[str, Any]:
    """Inputs, steps and tables as records."""
    return {
        "inputs": [
            {
                "symbol": line.symbol,
                "value": line.value,
                "dimension": line.dimension,
                "what": line.what,
                "origin": line.origin,
            }
            for line in lines
            if isinstance(line, Given)
        ],
        "steps": [
            {
                "symbol": line.symbol,
                "formula": line.formula,
                "value": line.value,
                "dimension": line.dimension,
                "what": line.what,
            }
            for line in lines
            if isinstance(line, Step)
        ],
        "tables": [table_record(line) for line in lines if isinstance(line, Table)],
    }


def list_document(part: str, rows: Sequence[Row], case_path: str) -> Document:
    """The checks of a part, worst first, and how to ask for one."""
    table = tuple(
        (
            Cell(f"{row.kind}/{row.load}", standing=standing(row)),
            Cell(f"{row.utilisation:.3g}"),
            Cell(verdict(row)),
        )
        for row in rows
    )
    columns = (Column("check", share=3), Column("utilisation", figures=True), Column("verdict", share=2))
    worst = rows[0]
    typed = shlex.join(["strength", "explain", case_path, worst.id])
    return Document(
        title=plain(f"Checks of {part}"),
        subtitle=f"{len(rows)} rows, worst first",
        banners=(),
        sections=(
            Section(title="Checks", body=(Grid(columns=columns, rows=table),)),
            Section(title="To see one worked out", body=(Items(items=(("", plain(typed)),)),)),
        ),
        closing=(f"worst: {kind_name(worst.kind)}, {verdict(worst)} (margin {margin(worst.margin)})",),
    )


def list_record(part: str, rows: Sequence[Row]) -> dict[str, Any]:
    """Ids of the checks of a part, worst first."""
    return {
        "format": 1,
        "cautions": list(CAUTIONS),
        "part": part,
        "checks": [
            {"id": row.id, "utilisation": row.utilisation, "margin": row.margin, "in_range": row.in_range}
            for row in rows
        ],
    }
