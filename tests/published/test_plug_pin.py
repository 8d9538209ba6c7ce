"""A pin pressed in a bore and bent: Roloff/Matek, plug pin in bending (from memory).

p_max = F (6 l + 4 s)/(d s^2) = (F/(d s)) (1 + 6 e/s), e = l + s/2; 1000 N, 100 mm out, 40 mm deep, 25 mm
thick: 19.0 MPa both ways.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.joints.sleeve import bearing, wall_load
from strength.joints.stud import rocking


def test_printed_form():
    """19.0 MPa."""
    assert rocking(1000.0, 0.0, 100.0, 40.0, 25.0) == pytest.approx(19.0)
    assert bearing(1000.0, 1000.0 * 120.0, 25.0, 40.0) == pytest.approx(19.0)


@given(
    force=st.floats(1.0, 1e4),
    moment=st.floats(0.0, 1e6),
    reach=st.floats(0.0, 200.0),
    deep=st.floats(5.0, 200.0),
    d=st.floats(4.0, 60.0),
)
def test_pressure_balances_force_and_moment(force, moment, reach, deep, d):
    """Pressure linear along the bore whose sum and moment are the load's: its greatest value."""
    # p(x) = p0 + p1 x from the mouth: d (p0 s + p1 s^2/2) = F, d (p0 s^2/2 + p1 s^3/3) = -(F l + M)
    matrix = d * np.array([[deep, deep**2 / 2.0], [deep**2 / 2.0, deep**3 / 3.0]])
    mouth, slope = np.linalg.solve(matrix, [force, -(force * reach + moment)])
    most = max(abs(mouth), abs(mouth + slope * deep))
    assert rocking(force, moment, reach, deep, d) == pytest.approx(most, rel=1e-6)
    middle = force * (reach + deep / 2.0) + moment
    assert bearing(force, middle, d, deep) == pytest.approx(most, rel=1e-6)


def test_couple_of_the_walls():
    """A pure moment: two resultants two thirds of the overlap apart; a pure shear: half each."""
    assert wall_load(0.0, 84e3, 60.0) == pytest.approx(84e3 / 40.0)
    assert wall_load(900.0, 0.0, 60.0) == pytest.approx(450.0)
