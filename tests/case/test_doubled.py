"""What is written twice at one place is refused: it would be counted twice."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case import case_from_text
from strength.case.checking.doubled import overlap
from strength.errors import CaseError

# A flat on the bench.
CASE = """
title = "bench"
[defaults]
material = "S235JR"
filler = "ER70S-6"
process = "mig"
class = "8.8"
[members]
arm = {from = "0 0 0 mm", to = "300 0 0 mm", section = "flat 60 x 8 mm"}
[supports]
arm-from = "all"
[loads]
push = {forces = [{at = "arm-to", force = "0 0 -300 N"}]}
"""


def faults(more: str) -> str:
    """What is said of the case with more lines; empty where it is read."""
    try:
        case_from_text(CASE + more)
    except CaseError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("places", "told"),
    [
        ('"0 0 20 mm", "0 0 -20 mm"', ""),
        ('"0 0 20 mm", "0 0 20 mm"', "bolts.b.group[1]: stands 0 mm from group[0]"),
        ('"0 0 20 mm", "0 0 -20 mm", "0 0 -11 mm"', "bolts.b.group[2]: stands 9 mm from group[1]"),
        ('"0 0 20 mm", "0 0 10 mm"', ""),
    ],
)
def test_two_bolts_in_one_hole(places: str, told: str) -> None:
    """Two M10 bolts whose middles are nearer than 10 mm cannot both be there."""
    found = faults(
        f'[bolts]\nb = {{member = "arm", end = "from", axis = "0 1 0", size = "M10", group = [{places}]}}'
    )
    assert (told in found) if told else not found


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ('"4 -30 4 30 mm", "-4 -30 -4 30 mm"', ""),
        ('"4 -30 4 30 mm", "4 -30 4 30 mm"', "welds.w.pattern.lines[1]: lies on lines[0]"),
        ('"4 -30 4 30 mm", "-4 30 4 30 mm", "4 40 4 20 mm"', "welds.w.pattern.lines[2]: lies on lines[0]"),
        ('"4 -30 4 0 mm", "4 0 4 30 mm"', ""),
    ],
)
def test_one_bead_written_twice(lines: str, told: str) -> None:
    """Lines that meet at an end are two beads; lines that lie on each other are one."""
    found = faults(f'[welds]\nw = {{member = "arm", end = "from", pattern = {{lines = [{lines}]}}}}')
    assert (told in found) if told else not found


NUMBER = st.floats(-80.0, 80.0)


@given(
    NUMBER, NUMBER, st.floats(0.0, 6.3), st.floats(1.0, 90.0), st.floats(-120.0, 120.0), st.floats(1.0, 90.0)
)
def test_overlap_on_one_line(
    y: float, z: float, turn: float, long: float, shift: float, other: float
) -> None:
    """On one skew line the overlap is that of two intervals, whichever comes first and however drawn."""
    dy, dz = math.cos(turn), math.sin(turn)
    one = (y, z, y + long * dy, z + long * dz)
    two = (y + (shift + other) * dy, z + (shift + other) * dz, y + shift * dy, z + shift * dz)
    want = max(0.0, min(long, shift + other) - max(0.0, shift))
    assert overlap(one, two) == pytest.approx(want, abs=1e-9)
    assert overlap(two, one) == pytest.approx(want, abs=1e-9)
    beside = (two[0] - 0.02 * dz, two[1] + 0.02 * dy, two[2] - 0.02 * dz, two[3] + 0.02 * dy)
    assert overlap(one, beside) == 0.0
