"""Joints through the whole flow: the end force is that of the frame, worked by statics."""

import numpy as np
import pytest

from strength.case.read import case_from_text
from strength.run import run

CANTILEVER = """
title = "Bracken bench: a lug held at one end"
[defaults]
material = {flat = "S235JR", bar = "S235JR"}
class = "8.8"
[points]
a = "10 20 -5 mm"
b = "190 95 60 mm"
[supports]
a = {at = "a", hold = "all"}
[members]
lug = {from = "a", to = "b", section = "flat 60 x 10 mm", up = "0.1 -0.4 1"}
[bolts]
foot = {member = "lug", end = "from", axis = "0 1 0", size = "M12", group = [
  "5 0 30 mm", "-25 0 -20 mm", "20 0 -35 mm"]}
tip = {member = "lug", end = "to", axis = "0.6 0 0.8", size = "M10", shear_planes = 2}
[studs]
ball = {member = "lug", end = "to", axis = "0 0.28 0.96", size = "M12", reach = "25 mm", engaged = "18 mm"}
[[load]]
name = "push"
severity = "hard"
forces = [{at = "b", force = "300 -700 900 N", moment = "4 9 -6 N*m"}]
"""
FORCE, MOMENT = np.array([300.0, -700.0, 900.0]), np.array([4e3, 9e3, -6e3])
ARM = np.array([180.0, 75.0, 65.0])


def found(text):
    """Rows of a case by part and kind."""
    return {(row.part, row.kind): row for row in run(case_from_text(text)).rows}


def test_end_forces_by_statics():
    """At the tip the hand load itself; at the foot the load and its moment about that end."""
    rows = found(CANTILEVER)
    axis = np.array([0.6, 0.0, 0.8])
    across = FORCE - (FORCE @ axis) * axis
    assert rows["tip", "bolt-shear"].demand == pytest.approx(np.linalg.norm(across) / 2.0, rel=1e-6)
    assert rows["tip", "bolt-tension"].demand == pytest.approx(abs(FORCE @ axis), rel=1e-6)
    stem = np.array([0.0, 0.28, 0.96])
    beside = np.linalg.norm(FORCE - (FORCE @ stem) * stem)
    bent = np.linalg.norm(MOMENT - (MOMENT @ stem) * stem)
    rocking = (beside * (6.0 * 25.0 + 4.0 * 18.0) + 6.0 * bent) / (12.0 * 18.0**2)
    assert rows["ball", "stud-rocking"].demand == pytest.approx(rocking, rel=1e-6)
    places = np.array([[5.0, 0.0, 30.0], [-25.0, 0.0, -20.0], [20.0, 0.0, -35.0]])
    at_foot = MOMENT + np.cross(ARM, FORCE)
    middle = places.mean(axis=0)
    turning = at_foot - np.cross(middle, FORCE)
    arms = places - middle
    shear = FORCE[[0, 2]] / 3.0 + turning[1] / np.sum(arms**2) * np.cross([0.0, 1.0, 0.0], arms)[:, [0, 2]]
    assert rows["foot", "bolt-shear"].demand == pytest.approx(np.hypot(*shear.T).max(), rel=1e-6)
    # pulls T along y of bolts at (x, z): sum T = F_y, sum -z T = M_x, sum x T = M_z
    matrix = np.array([np.ones(3), -arms[:, 2], arms[:, 0]])
    pulls = np.linalg.solve(matrix, [FORCE[1], turning[0], turning[2]])
    assert rows["foot", "bolt-tension"].demand == pytest.approx(np.abs(pulls).max(), rel=1e-6)


def test_both_sides_of_a_mirrored_case():
    """Left and right of a mirrored part under a load without side: the same rows."""
    text = CANTILEVER.replace('title = "', 'mirror = true\ntitle = "')
    for name in ("a", "b", "lug", "foot", "tip", "ball"):
        text = text.replace(f"\n{name} = ", f"\n{name}.left = ").replace(f'"{name}"', f'"{name}.left"')
    other = 'moment = "4 9 -6 N*m"}, {at = "b.right", force = "300 700 900 N", moment = "-4 9 6 N*m"}]'
    rows = found(text.replace('moment = "4 9 -6 N*m"}]', other))
    kinds = {kind for part, kind in rows if part == "foot.left"}
    assert kinds == {kind for part, kind in rows if part == "foot.right"} != set()
    for part, kind in rows:
        if part.endswith(".left"):
            twin = rows[part.replace(".left", ".right"), kind]
            assert twin.utilisation == pytest.approx(rows[part, kind].utilisation, rel=1e-6)


def test_what_is_told_reaches_the_outcome():
    """Not checked and warnings of joints stand in the outcome."""
    outcome = run(case_from_text(CANTILEVER))
    told = {(one.part, one.kind) for one in outcome.not_checked}
    assert {("foot", "bearing"), ("tip", "bearing"), ("tip", "bolt-shear"), ("ball", "rod-end")} <= told
    assert not any(one.kind in ("bolt", "stud", "sleeve", "clamp") for one in outcome.not_checked)
    assert "tip" in {one.part for one in outcome.warnings if "thread lies in the shear plane" in one.text}
