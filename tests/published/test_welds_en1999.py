"""Welded aluminium by EN 1999-1-1:2007, from memory: Table 8.8, 8.6.3.3, 8.6.3.4, 6.1.6.2, 6.1.6.3.

AX1 is evaluated from these rules: 6082-T6, filler 5356, plate 6 mm, double fillet a = 4, L = 100,
gamma_Mw = 1.25.
"""

import attrs
import numpy as np
import pytest

from strength.case.model import Plate
from strength.case.shape import Flat
from strength.checks.weld_throat import weld_throat
from strength.checks.weld_toe import weld_toe
from strength.joints.draw import THROAT
from strength.joints.heat import heat_width, welded_factor
from tests.joints.bench import ALUMINIUM, LIMIT_STATE, bench, weld

LEG = 4.0 / THROAT


def uses(check, force, process="mig"):
    """Row of 100 mm of double fillet on a 6 mm plate that stands on a thick one."""
    # a throat comes off each free end on this basis: 108 mm leave the 100 of the problem
    lines = ((3.0, -54.0, 3.0, 54.0), (-3.0, 54.0, -3.0, -54.0))
    context = bench(
        Flat(120.0, 6.0),
        [np.array(force) / 1.5],
        weld(
            pattern="lines", lines=lines, leg=LEG, process=process, filler="5356", quality="good",
            onto=Plate(thickness=12.0, material="6082-T6"),
        ),
        material="6082-T6",
        basis=LIMIT_STATE,
    )  # fmt: skip
    (row,) = next(check(context)).rows(context.load_names)
    return row


def test_transverse_weld_and_plate():
    """AX1: the weld carries 95.0 kN across; beside it the plate 88.8 kN (MIG), 71.0 kN (TIG)."""
    weld_row = uses(weld_throat, [95.0e3, 0, 0, 0, 0, 0])
    assert weld_row.utilisation == pytest.approx(1.0, rel=2e-3)
    assert weld_row.limit == pytest.approx(210.0 / 1.25)
    assert uses(weld_toe, [88.8e3, 0, 0, 0, 0, 0]).utilisation == pytest.approx(1.0, rel=2e-3)
    assert uses(weld_toe, [71.0e3, 0, 0, 0, 0, 0], "tig").utilisation == pytest.approx(1.0, rel=2e-3)


def test_longitudinal_weld_and_plate():
    """AX1: along the weld 77.6 kN; shear through the plate 51.3 kN."""
    assert uses(weld_throat, [0, 0, 77.6e3, 0, 0, 0]).utilisation == pytest.approx(1.0, rel=2e-3)
    assert uses(weld_toe, [0, 0, 51.3e3, 0, 0, 0]).utilisation == pytest.approx(1.0, rel=2e-3)


@pytest.mark.parametrize(
    ("process", "wall", "width", "covered"),
    [
        ("mig", 6.0, 20.0, True),
        ("mig", 6.1, 30.0, True),
        ("mig", 12.0, 30.0, True),
        ("mig", 25.0, 35.0, True),
        ("mig", 25.5, 40.0, True),
        ("tig", 6.0, 30.0, True),
        ("tig", 6.5, 40.0, False),
        ("stick", 4.0, 40.0, False),
    ],
)
def test_width_of_the_heat_affected_zone(process, wall, width, covered):
    """6.1.6.3; TIG over 6 mm and stick are covered by no rule: 40 mm (own choice), out of range."""
    found, known = heat_width(ALUMINIUM, process, np.array([wall]), np.array([True]))
    assert found[0] == width
    assert known[0] == covered


def test_tig_factor():
    """6.1.6.2: 0.8 for 6xxx and 7xxx welded by TIG; not for 5xxx, MIG, or the user's own metals."""
    assert welded_factor(ALUMINIUM, "tig") == 0.8
    assert welded_factor(ALUMINIUM, "mig") == 1.0
    assert welded_factor(attrs.evolve(ALUMINIUM, series="7xxx"), "tig") == 0.8
    assert welded_factor(attrs.evolve(ALUMINIUM, series="5xxx"), "tig") == 1.0
    assert welded_factor(attrs.evolve(ALUMINIUM, own=True), "tig") == 1.0
