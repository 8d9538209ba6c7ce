"""Fillet welds by AISC 360-10, J2.

Eq. J2-4, 0.60 FEXX on the throat, and Design Example J.1: read in AISC Design Examples V14, part J.
Strength per sixteenth of leg (1.856, 1.392, 0.928 kip/in) from memory, recomputed.
"""

import numpy as np
import pytest

from strength.case.model import Basis
from strength.case.shape import Flat
from strength.checks.weld_throat import weld_throat
from tests.joints.bench import bench, weld

KIP, INCH = 4448.2216, 25.4


def capacity(leg, length, quality="good"):
    """Allowable force along two fillets of `length` on a flat [N], from the check's own row."""
    context = bench(
        Flat(length, 12.0),
        [[0.0, 0.0, 1000.0, 0.0, 0.0, 0.0]],
        weld(pattern="sides", leg=leg, quality=quality, filler="E70"),
        basis=Basis(),
    )
    (row,) = next(weld_throat(context)).rows(context.load_names)
    assert row.source.startswith("AISC 360")
    return 1000.0 / row.utilisation


def test_strength_per_sixteenth_of_an_inch():
    """0.928 kip per inch and sixteenth of leg, allowable (E70, 2.00)."""
    assert capacity(INCH / 16.0, 5.0 * INCH) / KIP / 10.0 == pytest.approx(0.928, rel=1e-3)


def test_example_j1():
    """AJ1: 3/16 in fillet, nominal 5.57 kip/in; 133 kip allowable takes 47.8 in of weld."""
    per_inch = capacity(3.0 / 16.0 * INCH, 6.0 * INCH) / KIP / 12.0
    assert 2.0 * per_inch == pytest.approx(5.57, rel=3e-3)
    assert 133.0 / per_inch == pytest.approx(47.8, rel=3e-3)


@pytest.mark.parametrize(("quality", "factor"), [("good", 1.0), ("ordinary", 0.8), ("poor", 0.5)])
def test_quality_takes_its_share(quality, factor):
    """Own choice: 1.00, 0.80, 0.50."""
    assert capacity(5.0, 90.0, quality) == pytest.approx(
        0.3 * 482.633 * 5.0 / np.sqrt(2.0) * 180.0 * factor, rel=1e-9
    )
