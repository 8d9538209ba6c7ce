"""`chord-wall`, `chord-punching`: walls of round tubes under round members welded onto them."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bar
from strength.checks.context import Context
from strength.checks.verdict import Verdict
from strength.checks.wall_columns import Reason, WallColumns, by_joint, columns_alike, of_bars
from strength.checks.wall_verdicts import late_verdicts, reasons_beside
from strength.checks.walls import WallJoint
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
class Round:
    """Round members on round tubes: sizes of chords and braces, (joints, 1, designs) [mm]."""

    columns: WallColumns
    d0: Array
    t0: Array
    d1: Array
    t1: Array


def chord_wall(context: Context) -> Iterator[Verdict]:
    """Chord face failure: A = N/N_R + Mop/Mop_R, B = (Mip/Mip_R)^2, u = (A + sqrt(A^2 + 4 B))/2.

    T and Y joints; the lesser of these and X where another tube stands opposite; K where two lean
    apart and their forces balance in that load.
    """
    own = _round(context)
    if own is None:
        return
    columns, d0, t0, d1 = own.columns, own.d0, own.t0, own.d1
    angle, fy, kp = columns.angle, columns.fy, en.chord_factor(columns.compression)
    use = en.interaction(
        np.abs(columns.axial) / _axial(context, own, kp),
        columns.in_plane / en.in_plane(d0, t0, d1, angle, fy, kp),
        columns.out_of_plane / en.out_of_plane(d0, t0, d1, angle, fy, kp),
    )

    def beside(n: int, one: Neighbour) -> tuple[Bool, str] | None:
        name = one.other.seat.weld.member
        if one.kind == "pair":
            both = own.t1[n, 0] + context.bars.wall[:, one.other.seat.bar]
            return one.gap < both, f"gap to {name} under the sum of both walls"
        return None if one.kind == "opposite" else (one.gap < 0.0, f"{name} meets the wall at the same place")

    joints = columns.joints
    crossed = by_joint(joint.is_crossed for joint in joints)
    reasons = [*_range(own, crossed), *reasons_beside(joints, use.shape[2], beside)]
    yield from late_verdicts(
        context, "chord-wall", columns, use, SOURCE, lambda n: _kinds(context, joints[n]), reasons
    )


def chord_punching(context: Context) -> Iterator[Verdict]:
    """Punching shear of the chord's wall, where the member is narrow enough to punch: d1 <= d0 - 2 t0."""
    own = _round(context)
    if own is None:
        return
    columns, t0, d1 = own.columns, own.t0, own.d1
    narrow = d1 <= own.d0 - 2.0 * t0
    angle, fy = columns.angle, columns.fy
    use = en.interaction(
        np.abs(columns.axial) / en.axial_punching(t0, d1, angle, fy),
        columns.in_plane / en.in_plane_punching(t0, d1, angle, fy),
        columns.out_of_plane / en.out_of_plane_punching(t0, d1, angle, fy),
    )
    use *= narrow
    joints, loads = columns.joints, use.shape[1]
    told = late_verdicts(
        context,
        "chord-punching",
        columns,
        use,
        SOURCE,
        lambda n: [_angle(joints[n])] * loads,
        [*_range(own, by_joint(False for _ in joints))],
    )
    yield from (verdict for verdict, own in zip(told, narrow, strict=True) if own.any())


def _round(context: Context) -> Round | None:
    columns = next((each for own, each in columns_alike(context).items() if own.is_chord), None)
    if columns is None:
        return None
    bars, joints = context.bars, columns.joints
    own, host = [joint.effect.seat.bar for joint in joints], [joint.meeting.host.bar for joint in joints]
    wall = of_bars(bars.wall, own)
    return Round(
        columns=columns,
        d0=of_bars(bars.depth, host),
        t0=of_bars(bars.wall, host),
        d1=of_bars(bars.depth, own),
        t1=np.where(_solid(columns), wall / 2.0, wall),
    )


def _solid(columns: WallColumns) -> Bool:
    return np.asarray(by_joint(isinstance(joint.effect.seat.shape, Bar) for joint in columns.joints))


def _axial(context: Context, own: Round, kp: Array) -> Array:
    """Axial resistance by load, (joints, loads, designs) [N]."""
    columns, d0, t0, d1 = own.columns, own.d0, own.t0, own.d1
    axial = en.axial_t(d0, t0, d1, columns.angle, columns.fy, kp)
    for n, joint in enumerate(columns.joints):
        angle, fy, found = joint.meeting.angle, columns.fy[n], axial[n]
        for one in joint.near:
            if one.kind == "opposite":
                crossed = en.axial_x(d0[n], t0[n], d1[n], angle, fy, kp[n])
                np.minimum(found, crossed, out=found)
            elif one.kind == "pair":
                balanced, pressed = _paired(context, joint, one)
                other = context.bars.depth[:, one.other.seat.bar]
                pressing = np.where(pressed, d1[n], other)
                paired = en.axial_k(d0[n], t0[n], pressing, angle, fy, kp[n], one.gap)
                np.copyto(found, paired, where=balanced)
    return axial


def _paired(context: Context, joint: WallJoint, one: Neighbour) -> tuple[Bool, Bool]:
    """Where the parts of both forces square to the chord balance within 20 %; where the joint's own presses.

    (loads, designs).
    """
    force = forces_through(context, (joint.effect.seat, one.other.seat))[..., 0].T
    mine, yours = force[0] * np.sin(joint.meeting.angle), force[1] * np.sin(one.other.angle)
    balanced = np.abs(mine + yours) <= BALANCED * np.maximum(np.abs(mine), np.abs(yours))
    return balanced, force[0] < 0.0


def _kinds(context: Context, joint: WallJoint) -> list[str]:
    """A joint's kind in words, by load."""
    letter = "T" if joint.meeting.angle > np.radians(85.0) else "Y"
    kinds = [letter] * len(context.load_names)
    for one in joint.near:
        name = one.other.seat.weld.member
        if one.kind == "opposite":
            kinds = [f"lesser of {letter} and X with {name}"] * len(kinds)
        elif one.kind == "pair":
            balanced = _paired(context, joint, one)[0][:, 0].tolist()
            kinds = [f"K with {name}" if is_k else kind for is_k, kind in zip(balanced, kinds, strict=True)]
    return [f"{kind} joint, {_angle(joint)}" for kind in kinds]


def _range(own: Round, crossed: Bool) -> Iterator[Reason]:
    """Table 7.1: diameters, slendernesses and walls."""
    joints = own.columns.joints
    solid, most = _solid(own.columns), np.where(crossed, 40.0, 50.0)
    beta, chord, brace = own.d1 / own.d0, own.d0 / own.t0, own.d1 / own.t1
    members, hosts = zip(
        *((joint.effect.weld.member, joint.effect.weld.onto) for joint in joints), strict=True
    )
    yield (beta < 0.2) | (beta > 1.0 + 1e-9), "diameters outside 0.2 to 1 of the chord's"
    yield (
        (chord < 10.0) | (chord > most),
        [
            f"diameter over wall of {name} outside 10 to {limit:.0f}"
            for name, limit in zip(hosts, most[:, 0, 0].tolist(), strict=True)
        ],
    )
    yield solid, [f"{name} is solid: Table 7.1 is for tubes" for name in members]
    yield (
        ((brace < 10.0) | (brace > 50.0)) & ~solid,
        [f"diameter over wall of {name} outside 10 to 50" for name in members],
    )
    yield (
        (own.t1 < 2.5) & ~solid,
        [f"{name}: wall under 2.5 mm, thinner than EN 1993-1-8 section 7 covers" for name in members],
    )


def _angle(joint: WallJoint) -> str:
    return f"{np.degrees(joint.meeting.angle):.0f} degrees"
