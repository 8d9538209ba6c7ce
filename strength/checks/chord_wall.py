"""`chord-wall`, `chord-punching`: the wall of a round tube under a round member welded onto it."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.shape import Bar, Tube
from strength.checks.context import Context
from strength.checks.verdict import Verdict
from strength.checks.walls import WallJoint, wall_joints
from strength.checks.weld_groups import forces_through
from strength.joints import tube_joint as en
from strength.joints.meeting import Neighbour
from strength.values import frozen

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]

SOURCE = "EN 1993-1-8:2005 Tables 7.2 and 7.5, equation 7.3 (from memory)"
BALANCED = (
    0.20  # the normal parts of a K joint's forces balance within this: EN 1993-1-8 7.1.2, Figure 7.2 in sense
)


@frozen(kw_only=True, eq=False)
class Sizes:
    """Chord and brace, (designs, 1) [mm]."""

    d0: Array
    t0: Array
    d1: Array
    t1: Array


def chord_wall(context: Context) -> Iterator[Verdict]:
    """Chord face failure: A = N/N_R + Mop/Mop_R, B = (Mip/Mip_R)^2, u = (A + sqrt(A^2 + 4 B))/2.

    T and Y joints; the lesser of these and X where another tube stands opposite; K where two lean
    apart and their forces balance in that load.
    """
    for joint in _round_joints(context):
        size = _sizes(context, joint)
        angle, fy, kp = joint.meeting.angle, joint.fy, en.chord_factor(joint.compression)
        axial, names, outside = _axial(context, joint, size, kp)
        use = en.interaction(
            np.abs(joint.axial) / axial,
            joint.in_plane / en.in_plane(size.d0, size.t0, size.d1, angle, fy, kp),
            joint.out_of_plane / en.out_of_plane(size.d0, size.t0, size.d1, angle, fy, kp),
        )
        crossed = any(one.kind == "opposite" for one in joint.near)
        yield joint.verdict(
            context, "chord-wall", use, SOURCE, names, (*_range(joint, size, crossed=crossed), *outside)
        )


def chord_punching(context: Context) -> Iterator[Verdict]:
    """Punching shear of the chord's wall, where the member is narrow enough to punch: d1 <= d0 - 2 t0."""
    for joint in _round_joints(context):
        size = _sizes(context, joint)
        if not np.any(size.d1 <= size.d0 - 2.0 * size.t0):
            continue
        angle, fy = joint.meeting.angle, joint.fy
        use = en.interaction(
            np.abs(joint.axial) / en.axial_punching(size.t0, size.d1, angle, fy),
            joint.in_plane / en.in_plane_punching(size.t0, size.d1, angle, fy),
            joint.out_of_plane / en.out_of_plane_punching(size.t0, size.d1, angle, fy),
        )
        use = np.where(size.d1 <= size.d0 - 2.0 * size.t0, use, 0.0)
        names = tuple(_angle(joint) for _ in context.load_names)
        yield joint.verdict(context, "chord-punching", use, SOURCE, names, _range(joint, size, crossed=False))


def _round_joints(context: Context) -> Iterator[WallJoint]:
    for joint in wall_joints(context):
        if isinstance(joint.meeting.host.shape, Tube) and isinstance(joint.effect.seat.shape, Tube | Bar):
            yield joint


def _sizes(context: Context, joint: WallJoint) -> Sizes:
    bars, own, host = context.bars, joint.effect.seat.bar, joint.meeting.host.bar
    wall = bars.wall[:, own, None]
    if isinstance(joint.effect.seat.shape, Bar):
        wall = wall / 2.0
    return Sizes(
        d0=bars.depth[:, host, None], t0=bars.wall[:, host, None], d1=bars.depth[:, own, None], t1=wall
    )


def _axial(
    context: Context, joint: WallJoint, size: Sizes, kp: Array
) -> tuple[Array, tuple[str, ...], tuple[tuple[Bool, str], ...]]:
    """Axial resistance by load [N], the joint's kind in words by load, and what leaves the range."""
    angle, fy = joint.meeting.angle, joint.fy
    axial = en.axial_t(size.d0, size.t0, size.d1, angle, fy, kp)
    axial = spread(axial, joint.axial.shape)
    letter = "T" if angle > np.radians(85.0) else "Y"
    kinds = [letter] * len(context.load_names)
    outside: list[tuple[Bool, str]] = []
    for one in joint.near:
        name = one.other.seat.weld.member
        if one.kind == "opposite":
            crossed = en.axial_x(size.d0, size.t0, size.d1, angle, fy, kp)
            axial = np.minimum(axial, crossed)
            kinds = [f"lesser of {letter} and X with {name}"] * len(kinds)
        elif one.kind == "pair":
            paired, balanced = _paired(context, joint, one, size, kp)
            axial = np.where(balanced, paired, axial)
            kinds = [f"K with {name}" if balanced[0, n] else kind for n, kind in enumerate(kinds)]
            tight = one.gap[:, None] < size.t1 + context.bars.wall[:, one.other.seat.bar, None]
            outside.append((tight, f"gap to {name} under the sum of both walls"))
        else:
            outside.append((one.gap[:, None] < 0.0, f"{name} meets the wall at the same place"))
    return axial, tuple(f"{kind} joint, {_angle(joint)}" for kind in kinds), tuple(outside)


def _paired(context: Context, joint: WallJoint, one: Neighbour, size: Sizes, kp: Array) -> tuple[Array, Bool]:
    """K resistance, and where the parts of both forces square to the chord balance within 20 %."""
    force = forces_through(context, (joint.effect.seat, one.other.seat))[..., 0]
    angle, other = joint.meeting.angle, one.other.angle
    mine, yours = force[..., 0] * np.sin(angle), force[..., 1] * np.sin(other)
    balanced = np.abs(mine + yours) <= BALANCED * np.maximum(np.abs(mine), np.abs(yours))
    other_size = context.bars.depth[:, one.other.seat.bar, None]
    pressing = np.where(force[..., 0] < 0.0, size.d1, other_size)
    found = en.axial_k(size.d0, size.t0, pressing, angle, joint.fy, kp, one.gap[:, None])
    return found, np.asarray(balanced)


def _range(joint: WallJoint, size: Sizes, *, crossed: bool) -> tuple[tuple[Bool, str], ...]:
    """Table 7.1: diameters, slendernesses and walls."""
    beta, chord, brace = size.d1 / size.d0, size.d0 / size.t0, size.d1 / size.t1
    most = 40.0 if crossed else 50.0
    solid = isinstance(joint.effect.seat.shape, Bar)
    member = joint.effect.weld.member
    return (
        ((beta < 0.2) | (beta > 1.0 + 1e-9), "diameters outside 0.2 to 1 of the chord's"),
        (
            (chord < 10.0) | (chord > most),
            f"diameter over wall of {joint.effect.weld.onto} outside 10 to {most:.0f}",
        ),
        (np.full((1, 1), solid), f"{member} is solid: Table 7.1 is for tubes"),
        (((brace < 10.0) | (brace > 50.0)) & (not solid), f"diameter over wall of {member} outside 10 to 50"),
        (
            (size.t1 < 2.5) & (not solid),
            f"{member}: wall under 2.5 mm, thinner than EN 1993-1-8 section 7 covers",
        ),
    )


def _angle(joint: WallJoint) -> str:
    return f"{np.degrees(joint.meeting.angle):.0f} degrees"
