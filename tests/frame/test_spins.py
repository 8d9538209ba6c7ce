"""Turning that nothing resists: held where no load asks for it, refused by name where one does."""

import numpy as np
import pytest

from strength.case.model import Strut
from tests.frame.building import ALL, bars_of, case_of, member, named, pushes_of, solved
from tests.frame.test_mechanisms import PLACES, message

SPIN = {"a": (0, 0, 0), "m": (100, 50, 20), "n": (200, 100, 40), "b": (300, 150, 60)}


@pytest.mark.parametrize("ends", [("ball", "ball"), ("hinge", "ball"), ("ball", "hinge"), ("hinge", "hinge")])
def test_spin_of_a_member_free_of_torsion(ends):
    """Ball ends, or hinges about its own line: the member may spin, carries T = 0, and bends as usual."""
    axis = (300, 150, 60) if "hinge" in ends else None
    tube = member("tie", "a", "b", via=("m", "n"), from_end=ends[0], to_end=ends[1], hinge_axis=axis)
    case = case_of(SPIN, [tube], {"a": ALL, "b": ALL})
    across = np.cross((300, 150, 60), (0, 0, 1))
    push = {"m": tuple(across / 100)}
    response = solved(case, bars_of(case), pushes_of(case, push))
    assert response.forces[..., 3] == pytest.approx(np.zeros((1, 1, 3, 2)), abs=1e-9)
    assert np.abs(response.forces[..., 4:]).max() > 100.0
    line = np.array([300, 150, 60]) / np.linalg.norm([300, 150, 60])
    torque = {"n": (0, 0, 0, *(700 * line))}
    text = message(case, push, torque)
    assert text.startswith("tie: load 'number 2' puts a moment of 0.7 N*m on it about its own line")
    pair = {"n": (0, 0, 0, *(700 * line)), "m": (0, 0, 0, *(-700 * line))}
    between = solved(case, bars_of(case), pushes_of(case, pair)).forces[0, 0, :, 0, 3]
    assert between == pytest.approx([0, 700, 0], abs=1e-8)


def test_moment_on_a_point_of_struts():
    """Nothing at a point of struts resists turning: harmless, until a load turns it."""
    struts = [Strut(name=p, start=p, end="b", stiffness=k) for p, k in (("a", 90), ("c", 50), ("d", 70))]
    case = case_of(PLACES, [], {"a": ALL, "c": ALL, "d": ALL}, struts)
    case = named(case, "ride", "kerb")
    still = solved(case, bars_of(case), pushes_of(case, {"b": (10, 3, 1)}, {"b": (1, 0, 5)}))
    assert still.displacements[0, 0, 1, 3:] == pytest.approx(np.zeros(3))
    text = message(case, {"b": (10, 3, 1)}, {"b": (1, 0, 5, 0, 5000, 0)})
    assert text == (
        "b: load 'kerb' puts a moment of 5 N*m on it about the crosswise (y) axis, "
        "and no part there resists turning"
    )


def test_free_turning_about_a_skew_line():
    """A ball-ended tube fixed to a point of struts: the point may spin about the tube's skew line only."""
    points = {"a": (0, 0, 0), "b": (120, 160, 150), "c": (500, 0, 0), "d": (0, 500, 40), "e": (50, 30, 600)}
    struts = [Strut(name=s, start=s, end="b", stiffness=200) for s in ("c", "d", "e")]
    case = case_of(points, [member("tube", "a", "b", from_end="ball")], dict.fromkeys("acde", ALL), struts)
    line = np.array([120, 160, 150]) / 250
    across = np.cross(line, (1, 0, 0))
    assert np.isfinite(
        solved(case, bars_of(case), pushes_of(case, {"b": (1, 2, 3, *(900 * across))})).forces
    ).all()
    assert "moment of 0.9 N*m on it about the axis (0.75, 1, 0.93" in message(
        case, {"b": (1, 2, 3, *(900 * line))}
    )


def test_loose_points_do_no_harm():
    """A point that no part touches is left alone, unless a load acts there."""
    case = case_of(PLACES, [member("ab", "a", "b")], {"a": ALL})
    assert solved(case, bars_of(case), pushes_of(case, {"b": (0, 0, 1)})).displacements[
        0, 0, 2
    ] == pytest.approx(np.zeros(6))
    assert message(case, {"c": (0, 0, 1)}) == "c: load 'number 1' acts here, but no part is joined to 'c'"
