"""A row out of range says why, and is not answered with what helps a row that is over."""

import pytest

from strength.report.next_steps import next_steps
from strength.report.ranges import reasons
from strength.report.view import look
from tests.report.outcomes import outcome, rows


def outside(note: str):
    """A row out of range with this note."""
    return rows()[0]._replace(kind="weld-throat", in_range=False, utilisation=0.4, note=note)


@pytest.mark.parametrize(
    ("note", "why"),
    [
        (
            "throat; over the throat, MPa: 13.7 along stay, 0.7 along the weld; the faces meet badly",
            "the faces meet badly",
        ),
        ("the wall of spine; over the leg, MPa: 1 along a, 2 along the weld, 3 across; no rule", "no rule"),
        (
            "round on spine, 14 degrees; angle under 30 degrees; the weld runs past the end of spine; more",
            ("angle under 30 degrees; the weld runs past the end of spine"),
        ),
        ("plate along beam, 90 degrees, its wall bends; too thin", "too thin"),
        (
            "Y joint, 47 degrees; brace meets the wall at the same place",
            ("brace meets the wall at the same place"),
        ),
        ("buckling length 2 x 300 mm, chi 0.4", ""),
        ("", ""),
    ],
)
def test_reasons(note: str, why: str) -> None:
    """What was looked at is left out, why its figure proves nothing stays."""
    assert reasons(outside(note)) == why


def test_the_step_tells_the_reason_and_no_size() -> None:
    """A larger leg does not bring a weld into range."""
    row = outside("throat; the faces meet outside 60 to 120 degrees")
    (_, first), *_ = next_steps(look(outcome(rows=(row,)), commands=frozenset({"leg"}))).body[0].items
    assert "(weld throat, out of range): the faces meet outside 60 to 120 degrees. Change it" in first
    assert "larger leg" not in first
    assert "strength leg" not in first
