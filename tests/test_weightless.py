"""A standing vehicle whose masses all sit on its wheels puts nothing into its frame."""

import numpy as np
import pytest

from strength.case import case_from_text
from strength.run import run

TEXT = """
title = "wheels and a frame of no weight"
[wheels]
left = {centre = "30 410 250 mm", radius = "250 mm"}
right = {centre = "25 -390 250 mm", radius = "250 mm"}
rear = {centre = "-1130 15 260 mm", radius = "260 mm"}
[masses]
a = {mass = "31 kg", at = "left-hub", carried_by = "left-hub"}
b = {mass = "33.3 kg", at = "right-hub", carried_by = "right-hub"}
c = {mass = "41.7 kg", at = "rear-hub", carried_by = "rear-hub"}
[points]
cross = "30 20 250 mm"
[members]
one = {from = "cross", to = "left-hub", section = "tube 30 x 2 mm", material = "E235+N"}
two = {from = "cross", to = "right-hub", section = "tube 30 x 2 mm", material = "E235+N"}
three = {from = "cross", to = "rear-hub", section = "tube 40 x 2 mm", material = "E235+N"}
[loads]
standing = {}
bump = {vertical = 2.0}
"""


def test_what_cancels_is_no_failure() -> None:
    """Each wheel carries its own mass: by statics no member force, and no refusal for rounding."""
    outcome = run(case_from_text(TEXT))
    assert [w.force[2] for w in outcome.loads[0].wheels] == pytest.approx(
        [31 * 9.80665, 33.3 * 9.80665, 41.7 * 9.80665]
    )
    assert np.abs(outcome.response.forces[..., :3]).max() < 1e-9
