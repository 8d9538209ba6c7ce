"""A box squeezed to its yield: the chord factors of EN 1993-1-8 Table 7.10 and 7.13 (from memory)."""

import numpy as np
import pytest

from strength.joints.box_joint import chord_factor, plate_factor


def test_chord_factors_by_hand():
    """By hand: kn = 1.3 - 0.4 x 0.6/0.5 = 0.82; km = 1.3 x 0.4 = 0.52; tension leaves both at 1."""
    assert chord_factor(np.array([0.6, -0.4]), np.array(0.5)) == pytest.approx([0.82, 1.0])
    assert plate_factor(np.array([0.6, -0.4])) == pytest.approx([0.52, 1.0])


def test_nothing_left_is_far_over_not_infinite():
    """At full squeeze a narrow tab finds nothing: a hundredth is kept, so no ratio is infinite."""
    assert chord_factor(np.array([1.0, 2.0]), np.array(0.2)) == pytest.approx([0.01, 0.01])
    assert plate_factor(np.array([1.0, 3.0])) == pytest.approx([0.01, 0.01])
