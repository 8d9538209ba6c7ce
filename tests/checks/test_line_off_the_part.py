"""A typed weld line that is not on its part is told: a slip of a digit makes a weld look stronger."""

import pytest

from strength.case.shape import Box, Tube
from strength.checks.guards_welds import line_off_the_part
from tests.joints.bench import bench, weld

FORCE = [1500.0, 0.0, 2000.0, 0.0, 0.0, 0.0]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ((-14.0, -24.0, -14.0, 24.0), False),
        ((-18.9, -28.9, 18.9, -28.9), False),  # within a leg of 4 mm: the far side of the bead
        ((-14.0, -240.0, -14.0, 24.0), True),
        ((-19.1, -24.0, -15.0, 24.0), True),
    ],
)
def test_box_of_thirty_by_fifty(line, told):
    """Depth 50 along z, width 30 along y, leg 4: to 29 and 19 mm from the middle."""
    seam = weld(pattern="lines", lines=(line, (14.0, -24.0, 14.0, 24.0)))
    found = list(line_off_the_part(bench(Box(50.0, 30.0, 3.0), [FORCE], seam)))
    assert bool(found) is told
    assert all("outside leg" in warning.text for warning in found)


def test_a_weld_all_round_is_on_its_part():
    """A weld without typed lines is never told."""
    assert not list(line_off_the_part(bench(Tube(30.0, 2.0), [FORCE], weld())))
