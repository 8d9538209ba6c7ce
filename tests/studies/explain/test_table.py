"""Tables of a hand calculation: cells, what is gathered of them, and what is refused."""

import pytest

from strength.studies.explain.formula import FormulaError
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.table import Column

ARMS = {"arm": [2.0, 5.0, 3.0]}


def arm() -> Column:
    """What is given."""
    return Column(symbol="arm", dimension="length", what="arm of the piece")


def test_cells_take_what_stands_before_them() -> None:
    """Symbols of the sheet, of the row, and what is gathered of columns before: 7/5 a unit of arm."""
    sheet = Sheet()
    sheet.given("q", 7.0, "force", "greatest of a piece", "case")
    columns = (
        arm(),
        Column(
            symbol="share", dimension="force/length", what="", formula="q/arm", gathered="least", whole="k"
        ),
        Column(symbol="F", dimension="force", what="", formula="k*arm", gathered="sum", whole="sum_F"),
        Column(symbol="M", dimension="moment", what="", formula="F*arm", gathered="sum", whole="sum_M"),
    )
    sheet.table("pieces", "case", columns, ARMS, per=2)
    sheet.step("mean", "sum_M/sum_F", "length", "arm of them all")
    (table,) = (line for line in sheet.lines if hasattr(line, "rows"))
    assert table.rows[1] == pytest.approx((5.0, 1.4, 7.0, 35.0))
    assert table.rows[2] == pytest.approx((3.0, 7.0 / 3.0, 4.2, 12.6))
    assert (sheet["k"], sheet["sum_F"], sheet["sum_M"]) == pytest.approx((1.4, 14.0, 53.2))
    assert sheet["mean"] == pytest.approx(3.8)
    assert [(column.symbol, value) for column, value in table.gathered(0, 2)] == [
        ("F", pytest.approx(9.8)),
        ("M", pytest.approx(40.6)),
    ]
    assert [(column.symbol, piece) for column, piece in table.least()] == [("share", 1)]


@pytest.mark.parametrize(
    ("columns", "error"),
    [
        ((arm(), Column(symbol="q", dimension="1", what="", formula="arm")), KeyError),
        ((arm(), Column(symbol="arm", dimension="1", what="", formula="2*arm")), KeyError),
        ((arm(), Column(symbol="x", dimension="1", what="", formula="missing*arm")), FormulaError),
        ((arm(), Column(symbol="x", dimension="1", what="", formula="1/(arm - 5)")), FormulaError),
    ],
)
def test_refused(columns: tuple[Column, ...], error: type[Exception]) -> None:
    """A symbol written down twice, one that is not there, a cell that has no value."""
    sheet = Sheet()
    sheet.given("q", 7.0, "force", "", "case")
    with pytest.raises(error):
        sheet.table("pieces", "case", columns, ARMS, per=2)


def test_gathered_twice_is_refused() -> None:
    """A sum cannot take the name of a number on the sheet."""
    sheet = Sheet()
    sheet.given("q", 7.0, "force", "", "case")
    with pytest.raises(KeyError, match="q is written down twice"):
        sheet.table(
            "pieces",
            "case",
            (Column(symbol="arm", dimension="length", what="", gathered="sum", whole="q"),),
            ARMS,
            per=2,
        )
