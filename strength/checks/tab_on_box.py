"""Plates, boxes and tubes on faces of boxes: EN 1993-1-8 Tables 7.10, 7.11, 7.13 and 7.14."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.perry import CURVES
from strength.checks.standing import SHARE, SQUARE, Standing, common, line_width, standing, words
from strength.checks.verdict import Verdict
from strength.checks.wall_columns import Reason, WallColumns, by_joint, of_bars
from strength.checks.wall_kinds import MakeUp
from strength.checks.wall_verdicts import late_verdicts
from strength.joints import box_joint
from strength.joints.box_joint import Brace, Face
from strength.joints.meeting import together
from strength.joints.tube_joint import interaction

Array = NDArray[np.float64]

SOURCE = "EN 1993-1-8:2005 Tables 7.10 to 7.14 (from memory), interaction as for round tubes (own choice)"


def on_box(context: Context, columns: WallColumns, make_up: MakeUp) -> list[Verdict]:
    """All three parts in interaction; out of range where only the plain sum of the ratios is over 1."""
    joints = columns.joints
    stand = standing(context, joints, make_up)
    face = _face(context, columns, stand)
    brace = Brace(
        b1=stand.b1,
        h1=stand.h1,
        t1=stand.t1,
        fy1=together([joint.own.yield_ for joint in joints])[:, None],
        angle=columns.angle,
    )
    carried = _carried(columns, stand, face, brace)
    acting = np.abs(columns.axial), columns.in_plane, columns.out_of_plane
    axial, in_plane, out_of_plane = (one / other for one, other in zip(acting, carried, strict=True))
    ratios = axial, in_plane, out_of_plane
    use = interaction(*ratios)
    reasons = (
        *_range(columns, stand, face, ratios, use),
        *common(columns, stand, ratios, use),
    )
    loads = use.shape[1]
    return late_verdicts(
        context, "tab-wall", columns, use, SOURCE, lambda n: [words(joints[n], make_up)] * loads, reasons
    )


def _carried(columns: WallColumns, stand: Standing, face: Face, brace: Brace) -> tuple[Array, Array, Array]:
    """Axial force and moments in the plane and out of it that the box's wall carries."""
    own = stand.make_up
    if own.plate:
        if own.along:
            axial = box_joint.plate_along(face, brace, box_joint.plate_factor(columns.compression))
        else:
            axial = box_joint.plate_across(face, brace)
        arm_in, arm_out = line_width(stand)
        return axial, arm_in * axial, arm_out * axial
    found = (
        box_joint.axial(face, brace, columns.axial < 0.0, crossed=own.crossed),
        box_joint.in_plane(face, brace, crossed=own.crossed),
        box_joint.out_of_plane(face, brace, crossed=own.crossed),
    )
    if own.round:
        for each in found:
            each *= box_joint.ROUND
    return found


def _face(context: Context, columns: WallColumns, stand: Standing) -> Face:
    """The loaded faces; a host's y face is as wide as the host is deep."""
    bars, joints = context.bars, columns.joints
    hosts = [joint.meeting.host for joint in joints]
    number = [host.bar for host in hosts]
    depth, width = of_bars(bars.depth, number), of_bars(bars.width, number)
    on_y = by_joint(host.face is not None and abs(float(host.face @ host.axes[1])) > 0.5 for host in hosts)
    b0 = np.where(on_y, depth, width)
    curves = [CURVES[joint.wall.metal.buckling_curve] for joint in joints]
    return Face(
        b0=b0,
        h0=np.where(on_y, width, depth),
        t0=of_bars(bars.wall, number),
        fy=columns.fy,
        kn=box_joint.chord_factor(columns.compression, stand.b1 / b0),
        curve=(by_joint(curve[0] for curve in curves), by_joint(curve[1] for curve in curves)),
    )


def _range(
    columns: WallColumns, stand: Standing, face: Face, ratios: tuple[Array, Array, Array], use: Array
) -> Iterator[Reason]:
    """Table 7.8, and what Table 7.14 leaves out."""
    own, ratio, beta = stand.make_up, face.h0 / face.b0, stand.b1 / face.b0
    total = ratios[0] + ratios[1]
    total += ratios[2]
    yield np.maximum(face.b0, face.h0) / face.t0 > 35.0, "side over wall of the box over 35"
    yield (ratio < 0.5) | (ratio > 2.0), "box outside 0.5 to 2 of depth to width"
    yield beta > 1.0 + 1e-9, "wider than the face it stands on"
    yield (use <= 1.0) & (total > 1.0), "the plain sum of the ratios, EN 1993-1-8 7.5.2, is over 1"
    if own.plate:
        if own.along:
            yield stand.t1 / face.b0 > 0.2, "plate thicker than 0.2 of the face"
        else:
            yield beta < 0.5, "plate narrower than half the face"
        return
    bent = ratios[1] + ratios[2] > SHARE * use
    if own.round:
        yield (beta < 0.4) | (beta > 0.8), "diameter outside 0.4 to 0.8 of the face"
        yield bent, "Table 7.14 has no bending of round members: a square one's x pi/4 is taken"
    else:
        yield beta < 0.25, "narrower than a quarter of the face"
    leaning = columns.angle < np.pi / 2.0 - SQUARE
    yield bent & leaning, "Table 7.14 holds bending for a right angle only"
    members = [joint.effect.weld.member for joint in columns.joints]
    why = [f"{name}: wall under 2.5 mm, thinner than section 7 covers" for name in members]
    yield stand.t1 < 2.5, why
