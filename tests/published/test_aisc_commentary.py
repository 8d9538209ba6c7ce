"""AISC 360-10, Commentary to Chapter C, benchmark problems of Figures C-C2.2 and C-C2.3.

W14x48, E = 29 000 ksi, L = 28 ft; figures from memory, recomputed by their closed forms. The exact
beam-column stiffness that finds critical multipliers must also give second-order moments.
"""

import numpy as np
import pytest

from strength.frame.stability import bending

YOUNGS, LENGTH, INERTIA, AREA = 29000.0, 336.0, 484.0, 14.1
NO_BALL, ONE_BALL = np.array(True), np.array(False)


def second_order_cantilever(axial, side, ga=np.inf):
    """Tip deflection and root moment of a cantilever under `side` and the compression `axial`."""
    even, odd = bending(
        np.array(axial), np.array(YOUNGS * INERTIA), np.array(ga), np.array(LENGTH), ONE_BALL, NO_BALL
    )
    # Unknowns: tip deflection and tip rotation. even: turn = rotation; odd: rotation + 2 chord turn.
    sway = np.array([2.0 / LENGTH, 1.0])
    turn = np.array([0.0, 1.0])
    chord = np.array([1.0, 0.0])
    stiffness = (
        even * np.outer(turn, turn) + odd * np.outer(sway, sway) - axial / LENGTH * np.outer(chord, chord)
    )
    move = np.linalg.solve(stiffness, np.array([side, 0.0]))
    moment = abs(-even * (turn @ move) + odd * (sway @ move))
    return move[0], moment


@pytest.mark.parametrize(
    ("axial", "moment", "tip"),
    [(1e-9, 336.0, 0.9009), (100.0, 469.1, 1.3307), (150.0, 598.7, 1.7510), (200.0, 849.0, 2.5649)],
)
def test_case_2_cantilever(axial, moment, tip):
    """Base moment [kip-in] and tip deflection [in] without shear deformation, H = 1 kip."""
    deflection, root = second_order_cantilever(axial, 1.0)
    assert deflection == pytest.approx(tip, rel=1e-4)
    assert root == pytest.approx(moment, rel=2e-4)


@pytest.mark.parametrize(
    ("axial", "moment", "tip"),
    [(1e-9, 336.0, 0.907), (100.0, 470.0, 1.34), (150.0, 601.0, 1.77), (200.0, 856.0, 2.60)],
)
def test_case_2_cantilever_with_shear(axial, moment, tip):
    """The same with shear deformation; shear area d t_w = 13.8 x 0.340 in, G = 11 200 ksi (from memory).

    The printed figures have three digits, and the book's shear area is not stated: 0.5 %.
    """
    deflection, root = second_order_cantilever(axial, 1.0, 11200.0 * 13.8 * 0.340)
    assert deflection == pytest.approx(tip, rel=5e-3)
    assert root == pytest.approx(moment, rel=5e-3)
