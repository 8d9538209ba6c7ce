"""Logan, D. L.: A First Course in the Finite Element Method (Cengage).

Space frame: Example 5.8 of recent editions; element stiffness entries as printed, the other data from
memory. Plane frame (fixed-base portal) and grid (Example 5.6): from memory. Figures marked `calc` are
full-precision solutions of the published problem, worked out apart from this program.
"""

import numpy as np
import pytest

from strength.frame.layout import lay_out
from strength.frame.solve import solve
from tests.frame.building import ALL, Size, at, bars_of, case_of, member, pushes_of


@pytest.fixture
def space_frame():
    """Example 5.8: kip and inch; node 1 at the origin, three members to fixed nodes."""
    case = case_of(
        {"1": (0, 0, 0), "2": (-100, 0, 0), "3": (0, 0, -100), "4": (0, -100, 0)},
        [member("el1", "2", "1"), member("el2", "3", "1"), member("el3", "4", "1")],
        {"2": ALL, "3": ALL, "4": ALL},
    )
    size = Size(youngs=30000.0, shear=10000.0, area=10.0, iy=100.0, iz=100.0, torsion=50.0)
    push = pushes_of(case, {"1": (0, -50, 0, -1000, 0, 0)})
    return case, solve(case, lay_out(case), bars_of(case, size), push)


def test_space_frame_displacements(space_frame):
    """Node 1: book to the digits printed, calc to 1e-5."""
    case, response = space_frame
    moved = at(case, response, "1")
    assert moved == pytest.approx([7.098e-5, -0.0140, -2.352e-3, -3.996e-3, 1.78e-5, -1.033e-4], rel=2e-3)
    calc = [7.09826e-5, -1.39951e-2, -2.35189e-3, -3.99609e-3, 1.78007e-5, -1.03343e-4]
    assert moved == pytest.approx(calc, rel=1e-5)


# Book's end forces on the member, first end = support; el.2 and el.3 in the book's local y and z.
END_FORCES = {
    0: ((-0.213, 0.318, 0.053, 19.98, -3.165, 18.991), (0.213, -0.318, -0.053, -19.98, -2.097, 12.79)),
    1: ((7.056, 7.697, -0.029, 0.517, 0.940, 264.957), (-7.056, -7.697, 0.029, -0.517, 2.008, 504.722)),
    2: ((41.985, -0.183, -7.108, -0.089, 235.532, -6.073), (-41.985, 0.183, 7.108, 0.089, 475.297, -12.273)),
}


@pytest.mark.parametrize("element", END_FORCES)
def test_space_frame_end_forces(space_frame, element):
    """End forces on each member; where y and z differ from the book's, sizes across are compared.

    At the start the force on the member is minus the internal force, at the end the same. Rounded to
    three decimals in the book.
    """
    _, response = space_frame
    internal = response.forces[0, 0, element]
    ours = (-internal[0], internal[1])
    for mine, book in zip(ours, END_FORCES[element], strict=True):
        assert mine[[0, 3]] == pytest.approx([book[0], book[3]], abs=1.5e-3)
        for pair in ((1, 2), (4, 5)):
            assert sorted(np.abs(mine[list(pair)])) == pytest.approx(
                sorted(np.abs(np.array(book)[list(pair)])), abs=2e-3
            )


def test_space_frame_reactions(space_frame):
    """Reactions are the end forces at the supports, turned to body axes (el.1 lies along x)."""
    _, response = space_frame
    assert response.reactions[0, 0, 0] == pytest.approx(END_FORCES[0][0], abs=1.5e-3)


def test_plane_portal():
    """10 ft x 10 ft portal, pound and inch: 10 000 lb at node 2, 5 000 lb-in at node 3."""
    case = case_of(
        {"1": (0, 0, 0), "2": (0, 120, 0), "3": (120, 120, 0), "4": (120, 0, 0)},
        [member("left", "1", "2"), member("beam", "2", "3"), member("right", "4", "3")],
        {"1": ALL, "4": ALL},
    )
    column = Size(youngs=30e6, shear=12e6, area=10.0, iy=77.0, iz=200.0, torsion=31.0)
    beam = Size(youngs=30e6, shear=12e6, area=10.0, iy=55.0, iz=100.0, torsion=23.0)
    push = pushes_of(case, {"2": (10000, 0, 0), "3": (0, 0, 0, 0, 0, 5000)})
    bars = bars_of(case, {"left": column, "beam": beam, "right": column})
    response = solve(case, lay_out(case), bars, push)
    book = {"2": (0.211, 0.00148, -0.00153), "3": (0.209, -0.00148, -0.00149)}
    calc = {"2": (0.21136, 0.00148, -0.00153), "3": (0.20936, -0.00148, -0.00149)}
    for name in ("2", "3"):
        moved = at(case, response, name)[[0, 1, 5]]
        assert moved[0] == pytest.approx(book[name][0], rel=5e-3)
        assert moved[0] == pytest.approx(calc[name][0], rel=5e-5)
        assert moved[1:] == pytest.approx(book[name][1:], abs=6e-6)
        assert at(case, response, name)[[2, 3, 4]] == pytest.approx([0, 0, 0], abs=1e-15)
    start, end = response.forces[0, 0, 0]
    # The left column is pulled: 3700 lb; base moment 376 000, top 223 000 lb-in (calc 375 803, 223 200).
    assert start[0] == pytest.approx(3700, rel=5e-3)
    assert abs(start[1]) == pytest.approx(4990, rel=2e-3)
    assert (abs(start[5]), abs(end[5])) == pytest.approx((375803, 223200), rel=1e-5)
    assert abs(response.forces[0, 0, 2, 0, 5]) == pytest.approx(374798, rel=1e-5)
    assert abs(response.reactions[0, 0, 1, 5]) == pytest.approx(375000, rel=2e-3)


def test_grid():
    """Example 5.6: two 3 m members at right angles, far ends fixed, 22 kN down at the corner.

    The book (from memory) prints -2.59e-3 m, -1.26e-3 rad, 1.50 and 31.5 kN m after rounding an
    intermediate matrix: 2 to 9 % off the solution of its own data. Only `calc` is used here.
    """
    case = case_of(
        {"1": (0, 0, 3), "2": (3, 0, 3), "3": (3, 0, 0)},
        [member("a", "1", "2", up=(0, 1, 0)), member("b", "2", "3", up=(0, 1, 0))],
        {"1": ALL, "3": ALL},
    )
    size = Size(youngs=210e6, shear=84e6, area=0.02, iy=16.6e-5, iz=9e-5, torsion=4.6e-5)
    response = solve(case, lay_out(case), bars_of(case, size), pushes_of(case, {"2": (0, -22, 0)}))
    moved = at(case, response, "2")
    assert moved[1] == pytest.approx(-2.63e-3, rel=3e-3)
    assert np.abs(moved[[3, 5]]) == pytest.approx([1.28e-3, 1.28e-3], rel=4e-3)
    for segment, root in ((0, 0), (1, 1)):
        _, _, vz, torque, my, _ = response.forces[0, 0, segment, root]
        assert abs(vz) == pytest.approx(11.0, rel=1e-9)
        assert abs(torque) == pytest.approx(1.646, rel=5e-4)
        assert abs(my) == pytest.approx(31.35, rel=5e-4)
