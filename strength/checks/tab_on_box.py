"""A plate, box or tube on a face of a box: EN 1993-1-8 Tables 7.10, 7.11, 7.13 and 7.14."""

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.perry import CURVES
from strength.checks.standing import SHARE, SQUARE, Outside, Standing, common, line_width, standing, words
from strength.checks.verdict import Verdict
from strength.checks.walls import WallJoint
from strength.joints import box_joint
from strength.joints.box_joint import Brace, Face
from strength.joints.tube_joint import interaction

Array = NDArray[np.float64]

SOURCE = "EN 1993-1-8:2005 Tables 7.10 to 7.14 (from memory), interaction as for round tubes (own choice)"


def on_box(context: Context, joint: WallJoint) -> Verdict:
    """All three parts in interaction; out of range where only the plain sum of the ratios is over 1."""
    stand = standing(context, joint)
    face = _face(context, joint, stand)
    brace = Brace(
        b1=stand.b1, h1=stand.h1, t1=stand.t1, fy1=joint.own.yield_[:, None], angle=joint.meeting.angle
    )
    crossed = any(one.kind == "opposite" for one in joint.near)
    if stand.plate:
        if stand.along:
            axial = box_joint.plate_along(face, brace, box_joint.plate_factor(joint.compression))
        else:
            axial = box_joint.plate_across(face, brace)
        arm_in, arm_out = line_width(stand)
        moments = arm_in * axial, arm_out * axial
    else:
        shape = box_joint.ROUND if stand.round else 1.0
        axial = shape * box_joint.axial(face, brace, joint.axial < 0.0, crossed=crossed)
        moments = (
            shape * box_joint.in_plane(face, brace, crossed=crossed),
            shape * box_joint.out_of_plane(face, brace, crossed=crossed),
        )
    ratios = (
        np.abs(joint.axial) / axial,
        joint.in_plane / moments[0],
        joint.out_of_plane / moments[1],
    )
    use = interaction(*ratios)
    outside = (*_range(joint, stand, face, ratios, use), *common(joint, stand, ratios, use))
    return joint.verdict(context, "tab-wall", use, SOURCE, (words(joint, stand),) * use.shape[1], outside)


def _face(context: Context, joint: WallJoint, stand: Standing) -> Face:
    """The loaded face; the host's y face is as wide as the host is deep."""
    bars, host = context.bars, joint.meeting.host
    depth, width = bars.depth[:, host.bar, None], bars.width[:, host.bar, None]
    on_y = host.face is not None and abs(float(host.face @ host.axes[1])) > 0.5
    b0, h0 = (depth, width) if on_y else (width, depth)
    return Face(
        b0=b0,
        h0=h0,
        t0=bars.wall[:, host.bar, None],
        fy=joint.fy,
        kn=box_joint.chord_factor(joint.compression, stand.b1 / b0),
        curve=CURVES[joint.wall.metal.buckling_curve],
    )


def _range(
    joint: WallJoint, stand: Standing, face: Face, ratios: tuple[Array, Array, Array], use: Array
) -> Outside:
    """Table 7.8, and what Table 7.14 leaves out."""
    ratio = face.h0 / face.b0
    beta = stand.b1 / face.b0
    bent = (ratios[1] + ratios[2]) > SHARE * use
    found: list[tuple[NDArray[np.bool_], str]] = [
        (np.maximum(face.b0, face.h0) / face.t0 > 35.0, "side over wall of the box over 35"),
        ((ratio < 0.5) | (ratio > 2.0), "box outside 0.5 to 2 of depth to width"),
        (beta > 1.0 + 1e-9, "wider than the face it stands on"),
        ((use <= 1.0) & (sum(ratios) > 1.0), "the plain sum of the ratios, EN 1993-1-8 7.5.2, is over 1"),
    ]
    if stand.plate:
        if stand.along:
            found.append((stand.t1 / face.b0 > 0.2, "plate thicker than 0.2 of the face"))
        else:
            found.append((beta < 0.5, "plate narrower than half the face"))
        return tuple(found)
    if stand.round:
        found.append(((beta < 0.4) | (beta > 0.8), "diameter outside 0.4 to 0.8 of the face"))
        found.append((bent, "Table 7.14 has no bending of round members: a square one's x pi/4 is taken"))
    else:
        found.append((beta < 0.25, "narrower than a quarter of the face"))
    leaning = joint.meeting.angle < np.pi / 2.0 - SQUARE
    found.append((bent & leaning, "Table 7.14 holds bending for a right angle only"))
    found.append(
        (stand.t1 < 2.5, f"{joint.effect.weld.member}: wall under 2.5 mm, thinner than section 7 covers")
    )
    return tuple(found)
