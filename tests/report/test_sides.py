"""Both sides of a vehicle told as one only where they agree; nothing is ever lost by it."""

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case.model import Member, Warned
from strength.case.shape import Tube
from strength.checks.verdict import Row
from strength.report.document import Items
from strength.report.lists import warnings
from strength.report.mirrored import mirrored
from strength.report.sides import fold
from strength.report.standing import Standing
from strength.report.view import look
from tests.report.outcomes import LOADS, case, outcome, rows

NAMES = [load.name for load in LOADS]


def test_alike_sides_are_one_line() -> None:
    """A mirrored part is told once, mirrored loads are one column, numbered in order."""
    folded = fold(case(), NAMES, rows())
    assert [column.number for column in folded.columns] == list(range(1, 11))
    assert folded.columns[2].name == "bend, either turn"
    assert folded.columns[5].loads == ("pothole, left wheel", "pothole, right wheel")
    parts = [line.part for line in folded.lines]
    assert "lower-front.left" in parts
    assert "lower-front.right" not in parts
    line = next(line for line in folded.lines if line.part == "lower-front.left")
    assert (line.name, line.short, line.both) == ("lower-front", "lower-front (both)", True)


@pytest.mark.parametrize(("factor", "both"), [(1.004, True), (1.006, False), (0.5, False)])
def test_sides_that_differ_are_shown(factor: float, *, both: bool) -> None:
    """Half a per cent is what two figures of a margin show."""
    told = tuple(
        row._replace(utilisation=row.utilisation * factor) if row.part == "knuckle.right" else row
        for row in rows()
    )
    folded = fold(case(), NAMES, told)
    shown = {line.part: line.both for line in folded.lines if line.part.startswith("knuckle.")}
    assert shown == ({"knuckle.left": True} if both else {"knuckle.left": False, "knuckle.right": False})


def test_turns_that_differ_are_two_columns() -> None:
    """A part in the middle that reads differently in the two turns keeps all loads apart."""
    told = tuple(
        row._replace(utilisation=0.1) if (row.part, row.load) == ("main-tube", "bend, right turn") else row
        for row in rows()
    )
    assert [column.name for column in fold(case(), NAMES, told).columns] == NAMES


def test_one_side_out_of_range_is_shown() -> None:
    """Sides agree only where both are in range."""
    told = tuple(row._replace(in_range=False) if row.part == "lower-rear.right" else row for row in rows())
    lines = {line.part: line.standing for line in fold(case(), NAMES, told).lines}
    assert lines["lower-rear.right"] is Standing.RANGE
    assert lines["lower-rear.left"] is Standing.WITHIN


PART = st.sampled_from(["arm.left", "arm.right", "beam", "arm-tip.left", "eye.right"])
KIND = st.sampled_from(["yielding", "stability", "weld-throat", "bolt-shear"])
ROW = st.builds(
    lambda part, kind, load, u, inside: rows()[0]._replace(
        part=part, kind=kind, load=load, utilisation=u, in_range=inside
    ),
    PART, KIND, st.sampled_from(NAMES), st.floats(0.0, 2.0), st.booleans(),
)  # fmt: skip
SOME = st.lists(ROW, min_size=1, max_size=40, unique_by=lambda row: row.id)


@given(SOME)
def test_nothing_is_lost(found: list[Row]) -> None:
    """The worst of a load stands in its column, and the worst of all stands first."""
    folded = fold(case(), NAMES, found)
    for column in folded.columns:
        asked = [row.utilisation for row in found if row.load in column.loads]
        cells = [line.cells[column.number - 1] for line in folded.lines]
        shown = [cell.row.utilisation for cell in cells if cell is not None]
        assert max(shown, default=None) == max(asked, default=None)
    assert folded.lines[0].worst.utilisation == max(row.utilisation for row in found)
    for row in found:
        assert folded.line(row).worst.utilisation >= row.utilisation * (1.0 - 0.005) - 1e-12


@given(SOME)
def test_no_standing_is_hidden(found: list[Row]) -> None:
    """A part with a row over its limit or out of range never stands as within."""
    folded = fold(case(), NAMES, found)
    for row in found:
        line = folded.line(row)
        if row.utilisation > 1.0 + 1e-9:
            assert line.standing is Standing.OVER
        elif not row.in_range:
            assert line.standing in (Standing.OVER, Standing.RANGE)


@given(st.text())
def test_mirroring_twice_is_nothing(name: str) -> None:
    """The other side of the other side is this side."""
    for ending in ("", ".left", ".right", ", left turn", ", right wheel"):
        assert mirrored(mirrored(name + ending)) == name + ending


def test_both_ends_of_a_part_across_the_middle() -> None:
    """Welds at the two ends of a hoop are each other's image: one line, and the turns fold."""
    given = case()
    hoop = Member(name="hoop", start="high.left", end="high.right", shape=Tube(od=22.0, wall=1.5))
    welds = [
        attrs.evolve(given.welds[0], name=f"hoop-{end}", member="hoop", end=end) for end in ("from", "to")
    ]
    given = attrs.evolve(given, members=(*given.members, hoop), welds=(*given.welds, *welds))
    asked = {"hoop-from": (0.6, 0.4), "hoop-to": (0.4, 0.6)}
    more = tuple(
        rows()[0]._replace(part=part, load=load, utilisation=u)
        for part, pair in asked.items()
        for load, u in zip(("pothole, left wheel", "pothole, right wheel"), pair, strict=True)
    )
    folded = fold(given, NAMES, rows() + more)
    line = next(line for line in folded.lines if line.part == "hoop-from")
    assert (line.label, line.worst.utilisation) == ("hoop-from, both ends", 0.6)
    assert folded.line(more[2]) is line
    assert len(folded.columns) == 10
    uneven = rows() + more[:-1] + (more[-1]._replace(utilisation=0.7),)
    apart = fold(given, NAMES, uneven)
    assert {"hoop-from", "hoop-to"} <= {line.part for line in apart.lines}
    assert len(apart.columns) == len(NAMES)


def test_out_of_range_is_told_by_its_own_row() -> None:
    """A part that only a lesser check puts out of range is told by that check, not by a better one."""
    far = rows()[0]._replace(part="beam", kind="chord-wall", utilisation=0.2, in_range=False)
    near = rows()[0]._replace(part="beam", kind="weld-throat", utilisation=0.7)
    (line,) = fold(case(), NAMES, (near, far)).lines
    assert (line.standing, line.worst, line.telling) == (Standing.RANGE, near, far)


def test_a_warning_of_both_sides_is_told_once() -> None:
    """Its text may name the load of its own side; with another figure it is another warning."""
    texts = {
        "stem.left": "900 N in 'pothole, left wheel'",
        "stem.right": "900 N in 'pothole, right wheel'",
        "horn.left": "700 N in 'bend, right turn'",
        "horn.right": "650 N in 'bend, left turn'",
    }
    told = tuple(Warned(part=part, text=text) for part, text in texts.items())
    section = warnings(look(attrs.evolve(outcome(), warnings=told)))
    assert section is not None
    (items,) = section.body
    assert isinstance(items, Items)
    assert items.items == (
        ("stem (both sides)", "900 N in 'pothole, left wheel'"),
        ("horn.left", "700 N in 'bend, right turn'"),
        ("horn.right", "650 N in 'bend, left turn'"),
    )
