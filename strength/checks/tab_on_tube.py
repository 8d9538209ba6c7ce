"""Plates and boxes on the walls of round tubes: EN 1993-1-8 Table 7.3."""

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.standing import SQUARE, Standing, common, line_width, standing, words
from strength.checks.verdict import Verdict
from strength.checks.wall_columns import Reason, WallColumns, of_bars
from strength.checks.wall_kinds import MakeUp
from strength.checks.wall_verdicts import late_verdicts
from strength.joints import tab_joint
from strength.joints.tube_joint import chord_factor, interaction

Array = NDArray[np.float64]

SOURCE = "EN 1993-1-8:2005 Table 7.3 and equation 7.3 (from memory)"


def on_tube(context: Context, columns: WallColumns, make_up: MakeUp) -> list[Verdict]:
    """Worse of the tube's face, all three parts in interaction, and punching by the greatest stress."""
    joints = columns.joints
    stand = standing(context, joints, make_up)
    host = [joint.meeting.host.bar for joint in joints]
    d0, t0 = of_bars(context.bars.depth, host), of_bars(context.bars.wall, host)
    axial = _face(stand, d0, t0, columns.fy) / np.sin(columns.angle) * chord_factor(columns.compression)
    arm_in, arm_out = line_width(stand)
    pulled = np.abs(columns.axial)
    ratios = (
        pulled / axial,
        columns.in_plane / arm_in / axial,
        columns.out_of_plane / arm_out / axial,
    )
    face = interaction(*ratios)
    carried = tab_joint.punching(t0, columns.fy, plate=make_up.plate) / stand.t1
    punched = pulled / (stand.area * carried)
    punched += columns.in_plane / (stand.modulus_in * carried)
    punched += columns.out_of_plane / (stand.modulus_out * carried)
    use = np.maximum(face, punched)
    beta, slender, most = stand.b1 / d0, d0 / t0, 40.0 if make_up.crossed else 50.0
    reasons: list[Reason] = [
        ((slender < 10.0) | (slender > most), f"diameter over wall of the tube outside 10 to {most:.0f}"),
        (stand.h1 / d0 > 4.0, "longer along the tube than 4 diameters"),
        (
            columns.angle < np.pi / 2.0 - SQUARE,
            "Table 7.3 is drawn for a right angle: the part of the force square to the wall is taken",
        ),
        *common(columns, stand, ratios, use),
    ]
    if not (make_up.plate and make_up.along):
        reasons.append(((beta < 0.4) | (beta > 1.0 + 1e-9), "width outside 0.4 to 1 of the diameter"))

    def modes(n: int) -> list[str]:
        text = words(joints[n], make_up)
        more = punched[n, :, 0] > face[n, :, 0]
        return [f"{text}, {'punched' if each else 'its wall bends'}" for each in more.tolist()]

    return late_verdicts(context, "tab-wall", columns, use, SOURCE, modes, reasons)


def _face(stand: Standing, d0: Array, t0: Array, fy: Array) -> Array:
    """What the tube's face carries, square to it and before its own stress (joints, 1, designs) [N]."""
    own = stand.make_up
    if own.plate and own.along:
        return tab_joint.along(d0, t0, stand.h1, fy, np.ones(1))
    found = [
        tab_joint.across(d0, t0, stand.b1, fy, np.ones(1), crossed=crossed)
        if own.plate
        else tab_joint.box(d0, t0, stand.b1, stand.h1, fy, np.ones(1), crossed=crossed)
        for crossed in ((False, True) if own.crossed else (False,))
    ]
    return np.asarray(np.minimum(found[0], found[-1]))
