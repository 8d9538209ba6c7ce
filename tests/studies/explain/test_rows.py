"""Every kind of check on every shipped case, worked out by hand.

The sheet of a row is no evidence of its own that the mechanics are right: that is looked at in
tests/published and tests/second_way. Here: that what is printed really gives what is told, with a pocket
calculator, in either system of units.
"""

from pathlib import Path

import pytest

from strength.errors import NotByHandError
from strength.report.hand_units import HandUnits
from strength.studies.explain.register import KINDS, explain_row
from tests.studies.explain.worked import OWN, PATHS, named, outcome_of, recalculated, worst_rows

DIGITS = 1e-3  # what six printed digits must give back
NOTHING = 1e-4  # utilisations below it are what rounding leaves of nothing


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


@pytest.mark.parametrize("path", OWN, ids=named)
def test_every_load_is_worked_out(path: Path) -> None:
    """Not the worst load alone: a force in the plane and out of it, a moment alone, nothing at all."""
    outcome = outcome_of(path)
    assert outcome.context is not None
    for row in outcome.rows:
        found = explain_row(outcome.context, row)
        assert found.agrees, (row.id, found.off)
        for system in ("metric", "inch"):
            again = recalculated(found, HandUnits(system))
            assert abs(again["u"] - found.utilisation) <= DIGITS * max(found.utilisation, NOTHING), row.id


def test_kind_without_a_sheet_is_refused() -> None:
    """A message that names the row, not a wrong sheet."""
    outcome = outcome_of(PATHS[0])
    assert outcome.context is not None
    row = outcome.rows[0]._replace(kind="creep")
    with pytest.raises(NotByHandError, match=f"{row.part}/creep/.*not worked out by hand"):
        explain_row(outcome.context, row)
