"""Plastic modulus of boxes with round corners against the printed tables of EN 10219-2."""

import numpy as np
import pytest

from strength.joints.box_joint import _plastic


@pytest.mark.parametrize(
    ("depth", "width", "wall", "printed"),
    [
        (40.0, 40.0, 3.0, 5.72),
        (25.0, 25.0, 2.5, 1.71),
        (60.0, 60.0, 3.0, 14.0),
        (50.0, 30.0, 3.0, 6.57),
        (30.0, 50.0, 3.0, 4.58),
        (60.0, 40.0, 2.0, 7.47),
    ],
)
def test_printed_plastic_moduli(depth, width, wall, printed):
    """Wpl [cm3] as printed for square and rectangular hollow sections, to the last digit."""
    found = float(_plastic(np.array(depth), np.array(width), np.array(wall))) / 1e3
    assert found == pytest.approx(printed, abs=0.5 * 10.0 ** (-1 if printed == 14.0 else -2) + 1e-9)
