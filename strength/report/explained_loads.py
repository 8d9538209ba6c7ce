"""The wheel forces of a load worked out by hand, as a document and as a record."""

import shlex
from collections.abc import Sequence
from typing import Any

from strength.report.cautions import CAUTIONS
from strength.report.document import Banner, Cell, Column, Document, Grid, Items, Section, plain
from strength.report.explained import input_section, line_records, step_section
from strength.report.hand_units import HandUnits
from strength.studies.explain.loads import ExplainedLoad


def load_document(found: ExplainedLoad) -> Document:
    """Masses, what goes in, every step, the comparison."""
    units = HandUnits(found.units)
    sections = [Section(title="What is asked", lead=(found.asks,))]
    if not found.by_hand:
        sections += [
            _masses(found, units),
            input_section(found.lines, units),
            step_section(found.lines, units),
            _compared(found, units),
        ]
    if found.load.notes:
        notes = tuple(("", plain(note)) for note in found.load.notes)
        sections.append(Section(title="Notes", body=(Items(items=notes),)))
    return Document(
        title=plain(f"Wheel forces in {found.load.name!r}"),
        subtitle=plain(f"{found.load.severity} load, body axes: x forward, y left, z up"),
        banners=_banners(found),
        sections=tuple(sections),
        closing=("Signs: the force of the road on the wheel.",),
    )


def _banners(found: ExplainedLoad) -> tuple[Banner, ...]:
    if found.agrees:
        return ()
    text = f"The forces below lie {found.off:.2g} of the greatest apart from the load sheet. Report it."
    return (
        Banner(kind="over", heading="INTERNAL ERROR: THE HAND CALCULATION DOES NOT AGREE", lines=(text,)),
    )


def _masses(found: ExplainedLoad, units: HandUnits) -> Section:
    rows = tuple(
        (
            Cell(plain(mass.name)),
            Cell(units.number(mass.weight, "force")),
            *(Cell(units.number(value, "length")) for value in (mass.x, mass.y, mass.height)),
        )
        for mass in found.masses
    )
    force, length = units.unit("force"), units.unit("length")
    columns = (
        Column("mass"),
        Column(f"weight, {force}", figures=True),
        Column(f"x, {length}", figures=True),
        Column(f"y, {length}", figures=True),
        Column(f"height, {length}", figures=True),
    )
    lead = "Weight at 1 g; height above the contacts; x and y of the case's own axes."
    return Section(title="Masses", lead=(lead,), body=(Grid(columns=columns, rows=rows),))


def _compared(found: ExplainedLoad, units: HandUnits) -> Section:
    rows = tuple(
        (
            Cell(plain(wheel.name)),
            *(Cell(units.number(value, "force")) for value in (*wheel.found, *wheel.told)),
        )
        for wheel in found.wheels
    )
    columns = (
        Column("wheel"),
        *(Column(f"{axis} by hand", figures=True) for axis in "XYZ"),
        *(Column(f"{axis} told", figures=True) for axis in "XYZ"),
    )
    said = "The two agree to a millionth." if found.agrees else "THE TWO DO NOT AGREE."
    return Section(
        title=f"Compared, {units.unit('force')}", body=(Grid(columns=columns, rows=rows),), after=(said,)
    )


def load_record(found: ExplainedLoad) -> dict[str, Any]:
    """Every number unrounded, in mm, N, N*mm, rad; accelerations in g."""
    return {
        "format": 1,
        "cautions": list(CAUTIONS),
        "load": found.load.name,
        "masses": [
            {"name": m.name, "weight": m.weight, "x": m.x, "y": m.y, "height": m.height} for m in found.masses
        ],
        **line_records(found.lines),
        "wheels": [
            {"name": wheel.name, "by_hand": list(wheel.found), "told": list(wheel.told)}
            for wheel in found.wheels
        ],
        "agrees": found.agrees,
    }


def loads_document(names: Sequence[str], case_path: str) -> Document:
    """The loads of a case, and how to ask for one."""
    items = tuple(
        ("", plain(shlex.join(["strength", "explain", case_path, f"loads/{name}"]))) for name in names
    )
    return Document(
        title="Loads",
        subtitle="to see the wheel forces of one worked out:",
        banners=(),
        sections=(Section(title="To type", body=(Items(items=items),)),),
    )


def loads_record(names: Sequence[str]) -> dict[str, Any]:
    """Names of the loads."""
    return {"format": 1, "cautions": list(CAUTIONS), "loads": [f"loads/{name}" for name in names]}
