"""Pins and their lugs by EN 1993-1-8:2005, 3.13: Tables 3.9 and 3.10, Figure 3.11.

The numeric row (pin 12 mm of fup 800, fyp 640 MPa, 10 kN, 8 mm between two 4 mm cheeks, 1 mm gaps) is
worked from the tables' formulas; no printed worked example was found. Figure 3.11 and Table 3.9 partly
from memory.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case.model import Basis
from strength.joints.bearing import bearing_pin, net_section, tear_out
from strength.joints.bolt_bending import bending_two_planes
from strength.joints.fastener import fastener
from tests.checks.jointed import across_flat, arm, bolt, plate, rows, size


def test_numeric_row():
    """Shear 43.43 kN a plane, M_Rd 162.86 N*m, bearing of 6 mm S235 25.38 kN, M_Ed 25.0 N*m, 0.0368."""
    own = fastener(size("pin 12 mm"), "8.8", thread_in_shear=False)
    assert own.shear / 1.25 == pytest.approx(43430.0, rel=1e-4)
    assert own.bending == pytest.approx(162860.0, rel=1e-4)
    assert bearing_pin(12.0, 6.0, 235.0) == pytest.approx(25380.0)
    bent = bending_two_planes(10000.0, 0.0, 8.0, 4.0, 1.0)
    assert bent == pytest.approx(25000.0)
    assert (bent / own.bending) ** 2 + (5000.0 / (own.shear / 1.25)) ** 2 == pytest.approx(0.0368, abs=5e-5)


def test_numeric_row_as_a_joint():
    """The same pin in a case: 10 kN across it before the load factor of 1.5; the root of 0.0368 x 1.5^2."""
    axes = across_flat()
    plates = (plate(8.0, edge=24.0, hole=12.2), plate(4.0, edge=24.0, hole=12.2))
    pin = bolt("pin 12 mm", plates=plates, shear_planes=2, gap=1.0, axis=tuple(axes[1]))
    context = arm([6000.0, 0.0, 8000.0, 0.0, 0.0, 0.0], bolts=(pin,), basis=Basis(method="limit-state"))
    found = rows(context)
    row = found["bolt-bending", 0]
    assert row.utilisation == pytest.approx(1.5 * np.sqrt(0.0368), rel=1e-3)
    assert found["bolt-shear", 0].demand == pytest.approx(7500.0)
    assert found["bolt-shear", 0].limit == pytest.approx(43430.0, rel=1e-4)
    # the carried plate of yield 240: 1.5 x 8 x 12 x 240
    assert found["bearing", 0].limit == pytest.approx(34560.0)
    assert found["bearing", 0].demand == pytest.approx(15000.0)


@given(
    thickness=st.floats(3.0, 20.0),
    fy=st.floats(200.0, 420.0),
    pin=st.floats(6.0, 20.0),
    used=st.floats(0.05, 1.0),
)
def test_lugs_drawn_by_table_3_9_hold(thickness, fy, pin, used):
    """Type A: a >= F/(2 t fy) + 2 d0/3 beyond the hole, c >= F/(2 t fy) + d0/3 beside it.

    Such a lug, its pin within bearing, passes tear-out and net section with gamma_M2 (fu >= 1.4 fy).
    """
    hole, fu = pin, 1.4 * fy
    force = used * bearing_pin(pin, thickness, fy)
    beyond = force / (2.0 * thickness * fy) + 2.0 * hole / 3.0
    beside = force / (2.0 * thickness * fy) + hole / 3.0
    assert tear_out(thickness, fu, beyond + hole / 2.0, hole) / 1.25 >= force
    assert net_section(thickness, fu, 2.0 * beside + hole, hole) / 1.25 >= force


def test_moment_of_figure_3_11_by_pressure():
    """Uniform pressure under all three plates: the moment at mid-pin, integrated."""
    force, a, b, c = 9000.0, 5.0, 11.0, 0.7
    x = np.linspace(0.0, a + c + b / 2.0, 2_000_001)
    load = np.where(x < a, force / 2.0 / a, 0.0) - np.where(x > a + c, force / b, 0.0)
    middle = x[-1]
    moment = np.trapezoid(load * (middle - x), x)
    assert bending_two_planes(force, 0.0, b, a, c) == pytest.approx(moment, rel=1e-5)
