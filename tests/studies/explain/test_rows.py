"""Every kind of check on every shipped case, worked out by hand.

The sheet of a row is no evidence of its own that the mechanics are right: that is looked at in
tests/published and tests/second_way. Here: that what is printed really gives what is told, with a pocket
calculator, in either system of units.
"""

import math
from pathlib import Path

import pytest

from strength.report.hand_units import HandUnits, figures
from strength.studies.explain.register import KINDS, explain_row
from strength.studies.explain.sheet import Explained, Given, Step
from tests.studies.explain.worked import PATHS, named, outcome_of, worst_rows

CALCULATOR = {name: getattr(math, name) for name in ("sqrt", "hypot", "exp", "sin", "cos", "tan", "pi")}
CALCULATOR |= {"abs": abs, "min": min, "max": max}
DIGITS = 1e-3  # what six printed digits must give back
NOTHING = 1e-4  # utilisations below it are what rounding leaves of nothing


def rounded(value: float) -> float:
    """A number as it is printed."""
    return float(figures(value))


def recalculated(found: Explained, units: HandUnits) -> dict[str, float]:
    """All numbers, each worked out by Python's own arithmetic from the printed ones before it."""
    known: dict[str, float] = {}
    for line in found.lines:
        if isinstance(line, Given):
            shown = units.number(line.value, line.dimension)
            known[line.symbol] = math.radians(float(shown[:-4])) if shown.endswith(" deg") else float(shown)
        elif isinstance(line, Step):
            scope = {**CALCULATOR, **known}
            known[line.symbol] = rounded(eval(line.formula.replace("^", "**"), {}, scope))  # noqa: S307
    return known


@pytest.mark.parametrize("path", PATHS, ids=named)
def test_every_row_is_worked_out(path: Path) -> None:
    """The worst row of each part and kind: the sheet comes to the row's figures."""
    outcome = outcome_of(path)
    assert outcome.context is not None
    rows = worst_rows(outcome)
    assert rows
    off = [(row.id, found.off) for row in rows if not (found := explain_row(outcome.context, row)).agrees]
    assert not off


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("path", PATHS, ids=named)
def test_printed_numbers_give_it_back(path: Path, system: str) -> None:
    """With the printed digits alone, in mm, N, MPa or in, lbf, psi, the utilisation comes out again.

    In inches this also holds every formula and every dimension that is printed to be of one kind.
    """
    outcome = outcome_of(path)
    assert outcome.context is not None
    for row in worst_rows(outcome):
        found = explain_row(outcome.context, row)
        again = recalculated(found, HandUnits(system))
        assert abs(again["u"] - found.utilisation) <= DIGITS * max(found.utilisation, NOTHING), row.id


def test_every_kind_has_a_sheet_and_meets_a_case() -> None:
    """No kind of the cases' rows is without a sheet, and no sheet is without a row that tries it."""
    kinds = {row.kind for path in PATHS for row in outcome_of(path).rows}
    assert kinds == set(KINDS)
