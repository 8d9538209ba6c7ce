"""A plate or a box on the wall of a round tube: EN 1993-1-8 Table 7.3."""

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.standing import SQUARE, Standing, common, line_width, standing, words
from strength.checks.verdict import Verdict
from strength.checks.walls import WallJoint
from strength.joints import tab_joint
from strength.joints.tube_joint import chord_factor, interaction

Array = NDArray[np.float64]

SOURCE = "EN 1993-1-8:2005 Table 7.3 and equation 7.3 (from memory)"


def on_tube(context: Context, joint: WallJoint) -> Verdict:
    """Worse of the tube's face, all three parts in interaction, and punching by the greatest stress."""
    bars, bar = context.bars, joint.meeting.host.bar
    stand = standing(context, joint)
    d0, t0 = bars.depth[:, bar, None], bars.wall[:, bar, None]
    kp = chord_factor(joint.compression)
    crossed = any(one.kind == "opposite" for one in joint.near)
    axial = _face(stand, d0, t0, joint.fy, kp, crossed=False)
    if crossed:
        axial = np.minimum(axial, _face(stand, d0, t0, joint.fy, kp, crossed=True))
    axial = axial / np.sin(joint.meeting.angle)
    arm_in, arm_out = line_width(stand)
    ratios = (
        np.abs(joint.axial) / axial,
        joint.in_plane / (arm_in * axial),
        joint.out_of_plane / (arm_out * axial),
    )
    stress = np.abs(joint.axial) / stand.area
    stress = stress + joint.in_plane / stand.modulus_in + joint.out_of_plane / stand.modulus_out
    punched = stress * stand.t1 / tab_joint.punching(t0, joint.fy, plate=stand.plate)
    face = interaction(*ratios)
    use = np.maximum(face, punched)
    beta, eta, slender = stand.b1 / d0, stand.h1 / d0, d0 / t0
    most = 40.0 if crossed else 50.0
    outside = [
        ((slender < 10.0) | (slender > most), f"diameter over wall of the tube outside 10 to {most:.0f}"),
        (eta > 4.0, "longer along the tube than 4 diameters"),
        (
            np.full((1, 1), joint.meeting.angle < np.pi / 2.0 - SQUARE),
            "Table 7.3 is drawn for a right angle: the part of the force square to the wall is taken",
        ),
        *common(joint, stand, ratios, use),
    ]
    if not (stand.plate and stand.along):
        outside.append(((beta < 0.4) | (beta > 1.0 + 1e-9), "width outside 0.4 to 1 of the diameter"))
    text = words(joint, stand)
    modes = tuple(f"{text}, {'punched' if more else 'its wall bends'}" for more in (punched > face)[0])
    return joint.verdict(context, "tab-wall", use, SOURCE, modes, tuple(outside))


def _face(stand: Standing, d0: Array, t0: Array, fy: Array, kp: Array, *, crossed: bool) -> Array:
    if not stand.plate:
        return tab_joint.box(d0, t0, stand.b1, stand.h1, fy, kp, crossed=crossed)
    if stand.along:
        return tab_joint.along(d0, t0, stand.h1, fy, kp)
    return tab_joint.across(d0, t0, stand.b1, fy, kp, crossed=crossed)
