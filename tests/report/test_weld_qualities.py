"""Welds at three qualities: margins by hand from the rows of the throat and of the metal beside it."""

import attrs

from strength.checks.verdict import Row
from strength.report.document import Grid
from strength.report.sides import fold
from strength.report.view import look
from strength.report.weld_qualities import qualities
from tests.report.outcomes import LOADS, case, outcome


def told(weld_quality: str, *uses: tuple[str, float]) -> list[str]:
    """The three cells of the first weld, with such rows, by what the file says of its quality."""
    weld = attrs.evolve(case().welds[0], quality=weld_quality)
    made = tuple(
        Row(
            part=weld.name, kind=kind, load=LOADS[n].name, where="", demand=use, limit=1.0, unit="MPa",
            utilisation=use, in_range=True, fails="parts", source="", note="",
        )
        for n, (kind, use) in enumerate(uses)
    )  # fmt: skip
    given = outcome(case=attrs.evolve(case(), welds=(weld,)), rows=made)
    view = look(given)
    assert [load.name for load in given.loads] == [load.name for load in LOADS]
    lines = list(fold(given.case, [load.name for load in LOADS], made).lines)
    grid = qualities(view, lines)
    assert isinstance(grid, Grid)
    return [cell.text for cell in grid.rows[0][1:]]


def test_throat_alone() -> None:
    """Utilisation 0.8 as ordinary (0.80): 0.64 good, 1.28 poor (0.50); margins 1/u - 1."""
    assert told("ordinary", ("weld-throat", 0.8)) == ["0.56 ", "* 0.25 ", "-0.22!"]
    assert told("good", ("weld-throat", 0.8)) == ["* 0.25 ", "0.00~", "-0.38!"]
    assert told("poor", ("weld-throat", 0.8)) == ["1.50 ", "1.00 ", "* 0.25 "]


def test_metal_beside_it_does_not_gain() -> None:
    """0.7 beside it in another load governs a good weld, not a poor one."""
    assert told("ordinary", ("weld-throat", 0.8), ("weld-toe", 0.7)) == ["0.43 ", "* 0.25 ", "-0.22!"]


def test_none_without_a_weld() -> None:
    """Nothing to show."""
    assert qualities(look(outcome()), []) is None
