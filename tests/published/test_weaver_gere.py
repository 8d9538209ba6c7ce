"""Weaver, W.; Gere, J. M.: Matrix Analysis of Framed Structures, the book's plane frame with two members.

From memory, recomputed; the input was also seen quoted. Kip and inch. Loads between joints enter by
their fixed-end actions, formed here by hand as in the book.
"""

import numpy as np
import pytest

from strength.frame.layout import lay_out
from strength.frame.solve import solve
from tests.frame.building import ALL, Size, at, bars_of, case_of, member, pushes_of

# Fixed-end actions in member axes: along, across, moment, at both ends.
FIXED_1 = np.array([[0.0, 12.0, 200.0], [0.0, 12.0, -200.0]])  # 0.24 kip/in over 100 in
FIXED_2 = np.array([[-6.0, 8.0, 250.0], [-6.0, 8.0, -250.0]])  # 20 kip down at the middle of 125 in
ALONG_2 = np.array([0.8, -0.6])
ACROSS_2 = np.array([0.6, 0.8])


@pytest.fixture
def response():
    """Joint 1 loaded by F_y = -10, M = -1000 and the reversed fixed-end actions."""
    case = case_of(
        {"1": (100, 75, 0), "2": (0, 75, 0), "3": (200, 0, 0)},
        [member("m1", "2", "1"), member("m2", "1", "3")],
        {"2": ALL, "3": ALL},
    )
    size = Size(youngs=1e4, shear=3.8e3, area=10.0, iy=700.0, iz=1000.0, torsion=300.0)
    across = FIXED_2[0, 0] * ALONG_2 + FIXED_2[0, 1] * ACROSS_2
    force = np.array([0.0, -10.0]) - FIXED_1[1, :2] - across
    moment = -1000.0 - FIXED_1[1, 2] - FIXED_2[0, 2]
    push = pushes_of(case, {"1": (*force, 0.0, 0.0, 0.0, moment)})
    return case, solve(case, lay_out(case), bars_of(case, size), push)


def test_joint_displacements(response):
    """D1 = -0.02026, -0.09936 in, -0.001797 rad."""
    case, solution = response
    assert at(case, solution, "1")[[0, 1, 5]] == pytest.approx([-0.02026, -0.09936, -0.001797], rel=5e-4)


def test_member_end_actions(response):
    """End actions of both members, fixed-end actions added back."""
    _, solution = response
    book = (
        (FIXED_1, [[20.261, 13.138, 436.65], [-20.261, 10.862, -322.87]]),
        (FIXED_2, [[28.726, -4.533, -677.13], [-40.726, 20.533, -889.52]]),
    )
    for n, (fixed, printed) in enumerate(book):
        ends = solution.forces[0, 0, n][:, [0, 1, 5]] * np.array([[-1.0], [1.0]])
        assert ends + fixed == pytest.approx(np.array(printed), abs=6e-3)


def test_reactions(response):
    """(2) 20.261 13.138 436.65; (3) -20.261 40.862 -889.52."""
    _, solution = response
    at_2 = solution.reactions[0, 0, 0][[0, 1, 5]] + FIXED_1[0]
    far = FIXED_2[1, 0] * ALONG_2 + FIXED_2[1, 1] * ACROSS_2
    at_3 = solution.reactions[0, 0, 1][[0, 1, 5]] + np.array([*far, FIXED_2[1, 2]])
    assert at_2 == pytest.approx([20.261, 13.138, 436.65], abs=6e-3)
    assert at_3 == pytest.approx([-20.261, 40.862, -889.52], abs=6e-3)
