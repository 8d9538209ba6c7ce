"""How a row stands, and the exit code."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.checks.verdict import Row
from strength.report.standing import Standing, exit_code, standing

ROW = Row(
    part="bar", kind="yielding", load="bump", where="end", demand=1.0, limit=2.0, unit="MPa",
    utilisation=0.5, in_range=True, fails="bends", source="own choice", note="",
)  # fmt: skip


def row(utilisation: float, *, in_range: bool = True) -> Row:
    """A row of this utilisation."""
    return ROW._replace(utilisation=utilisation, in_range=in_range)


@pytest.mark.parametrize(
    ("utilisation", "in_range", "expected"),
    [
        (0.0, True, Standing.WITHIN),
        (0.8, True, Standing.WITHIN),  # margin 0.25 exactly
        (0.8001, True, Standing.THIN),
        (1.0, True, Standing.THIN),  # at the limit is not over it
        (1.0001, True, Standing.OVER),
        (0.3, False, Standing.RANGE),
        (0.9, False, Standing.RANGE),
        (1.2, False, Standing.OVER),
        (float("nan"), True, Standing.OVER),  # what is not a number is never a pass
        (float("inf"), True, Standing.OVER),
    ],
)
def test_standing(utilisation: float, expected: Standing, *, in_range: bool) -> None:
    """Margin 1/u - 1: below 0 over, below 0.25 thin; out of range is never within."""
    assert standing(row(utilisation, in_range=in_range)) is expected


ROWS = st.lists(st.builds(lambda u, r: row(u, in_range=r), st.floats(0.0, 3.0), st.booleans()))


@given(ROWS)
def test_exit_code(rows: list[Row]) -> None:
    """1 where any row is over its limit, else 3 where any is out of range, else 0."""
    over = any(one.utilisation > 1.0 + 1e-9 for one in rows)
    outside = any(not one.in_range for one in rows)
    assert exit_code(rows) == (1 if over else 3 if outside or not rows else 0)


@given(ROWS, st.randoms())
def test_exit_code_heeds_no_order(rows: list[Row], random: Random) -> None:
    """The same rows in another order leave with the same code."""
    shuffled = list(rows)
    random.shuffle(shuffled)
    assert exit_code(shuffled) == exit_code(rows)
