"""Bolts by EN 1993-1-8:2005, Table 3.4 and 3.6.1.

- Resistances of single bolts: printed design tables for EN 1993-1-8 (SCI P363, S275, kN), from memory,
  with the stress areas of ISO 898-1 as printed (157, 245, 353 mm2).
- Bearing: Table 3.4 worked by hand beside each row.
- ISO 898-1:2013 Table 4: minimum ultimate tensile loads As,nom Rm, from memory.
"""

import numpy as np
import pytest

from strength.joints.bearing import bearing_allowable, bearing_limit_state, bearing_single_lap, pull_through
from strength.joints.fastener import fastener
from tests.checks.jointed import size

GAMMA_M2 = 1.25


@pytest.mark.parametrize(
    ("text", "grade", "shear", "tension"),
    [
        ("M16", "4.6", 30.1, 45.2),
        ("M16", "8.8", 60.3, 90.4),
        ("M20", "8.8", 94.1, 141.0),
        ("M20", "4.6", 47.0, 70.6),
        ("M16", "10.9", 62.8, 113.0),
        ("M20", "10.9", 98.0, 176.0),
    ],
)
def test_single_bolts(text, grade, shear, tension):
    """SCI P363 (from memory): shear with the thread in the plane, and tension [kN]."""
    own = fastener(size(text), grade, thread_in_shear=True)
    assert own.shear / GAMMA_M2 / 1e3 == pytest.approx(shear, rel=4e-3)
    assert own.tension / GAMMA_M2 / 1e3 == pytest.approx(tension, rel=4e-3)


@pytest.mark.parametrize(
    ("text", "grade", "load"),
    [
        ("M6", "8.8", 16.1),
        ("M8", "8.8", 29.2),
        ("M10", "8.8", 46.4),
        ("M12", "8.8", 67.4),
        ("M10", "4.6", 23.2),
        ("M12", "4.6", 33.7),
        ("M10x1.25", "8.8", 49.0),
        ("M16", "10.9", 157.0),
    ],
)
def test_ultimate_loads(text, grade, load):
    """ISO 898-1 loads [kN]: 0.9 of them is the bolt's tension (10.9: nominal 1000, not 1040 MPa)."""
    own = fastener(size(text), grade, thread_in_shear=True)
    assert own.tension / 0.9 / 1e3 == pytest.approx(load, rel=5e-3)


@pytest.mark.parametrize(
    ("d", "t", "fu", "fub", "edge", "hole", "expected"),
    [
        # k1 2.5, e/(3 d0) 0.75758: 2.5 x 0.75758 x 410 x 20 x 10
        (20.0, 10.0, 410.0, 800.0, 50.0, 22.0, 155303.0),
        # k1 2.8 x 18/13 - 1.7 = 2.17692, e/(3 d0) 0.46154: x 360 x 12 x 6
        (12.0, 6.0, 360.0, 800.0, 18.0, 13.0, 26042.7),
        # soft bolt: fub/fu 0.81633 is less than e/(3 d0) 0.90909
        (10.0, 5.0, 490.0, 400.0, 30.0, 11.0, 50000.0),
    ],
)
def test_bearing(d, t, fu, fub, edge, hole, expected):
    """Table 3.4, one edge distance both ways [N]."""
    assert bearing_limit_state(d, t, fu, fub, edge, hole) == pytest.approx(expected, rel=1e-5)


def test_bearing_never_over_the_allowable_form():
    """Table 3.4 is at most 2.5 d t fu; AISC 2.4 d t fu; a single lap 1.5 d t fu."""
    edge = np.linspace(12.0, 60.0, 25)
    most = bearing_limit_state(10.0, 6.0, 360.0, 800.0, edge, 11.0)
    assert most.max() == pytest.approx(2.5 * 10.0 * 6.0 * 360.0)
    assert np.all(np.diff(most) >= 0.0)
    assert bearing_allowable(10.0, 6.0, 360.0, 800.0) == pytest.approx(2.4 * 21600.0)
    assert bearing_single_lap(10.0, 6.0, 360.0) == pytest.approx(1.5 * 21600.0)


def test_edges_too_near_carry_next_to_nothing():
    """k1 would fall below zero at 0.607 d0."""
    assert 0.0 < bearing_limit_state(10.0, 6.0, 360.0, 800.0, 6.0, 11.0) < 100.0


def test_punching():
    """M12, dm (18 + 20.03)/2 = 19.015 (ISO 4014), 5 mm of fu 360: 0.6 pi 19.015 x 5 x 360."""
    own = fastener(size("M12"), "8.8", thread_in_shear=True)
    assert pull_through(own.bearing_mean, 5.0, 360.0) == pytest.approx(
        0.6 * np.pi * 19.015 * 1800.0, rel=1e-6
    )


@pytest.mark.parametrize(
    ("grade", "thread", "shank"),
    [
        ("4.6", 0.6, 0.6), ("4.8", 0.5, 0.6), ("5.6", 0.6, 0.6), ("5.8", 0.5, 0.6), ("6.8", 0.5, 0.6),
        ("8.8", 0.6, 0.6), ("10.9", 0.5, 0.6), ("12.9", 0.5, 0.6), ("A2-70", 0.5, 0.6), ("A4-80", 0.5, 0.6),
    ],
)  # fmt: skip
def test_shear_factors(grade, thread, shank):
    """Table 3.4: 0.6 for 4.6, 5.6, 8.8; 0.5 for 4.8, 5.8, 6.8, 10.9; stainless as EN 1999-1-1 Table 8.5."""
    for in_thread, factor in ((True, thread), (False, shank)):
        own = fastener(size("M10"), grade, thread_in_shear=in_thread)
        area = 57.99 if in_thread else 78.54
        assert own.shear == pytest.approx(factor * own.ultimate * area, rel=1e-4)
    assert bool(own.outside) is (grade == "12.9")


def test_two_numbers_by_hand():
    """M10 8.8: 0.6 x 800 x 57.99 = 27.84 kN in the thread, 0.6 x 800 x 78.54 = 37.70 kN in the shank."""
    assert fastener(size("M10"), "8.8", thread_in_shear=True).shear == pytest.approx(27835.0, rel=1e-4)
    assert fastener(size("M10"), "8.8", thread_in_shear=False).shear == pytest.approx(37699.0, rel=1e-4)
