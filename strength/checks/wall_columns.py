"""Members welded onto walls side by side: what a check takes for all of one make-up in one step."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.shape import Bar, Tube
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.verdict import Late, Verdict
from strength.checks.walls import WallJoint, host_places
from strength.frame.response import find_places
from strength.frame.sums import sums_at
from strength.joints.meeting import Neighbour, together
from strength.values import frozen

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]
# where joints are out of a source's range (joints or 1, loads or 1, designs or 1), and why: of all or of each
Reason = tuple[Bool, str | Sequence[str]]

HIGH = 355.0  # MPa: above, joint strengths x 0.9, EN 1993-1-8 7.1.1(4), from memory
HIGH_FACTOR = 0.9
HIGHEST = 460.0


@frozen(kw_only=True, eq=False)
class WallColumns:
    """Joints whose hosts are all round, or none is. Forces times load factor and divisor, (joints, loads, designs).

    axial: N, tension positive [N]; in_plane, out_of_plane: moments, magnitudes [N*mm]. compression:
    the host's greatest compressive stress on either side over its yield. fy: (joints, 1, designs or 1) of
    the host's wall, reduced above 355 MPa. angle: (joints, 1, 1) [rad]. outside: what of the source's range
    is left, whatever the table.
    """

    joints: tuple[WallJoint, ...]
    axial: Array
    in_plane: Array
    out_of_plane: Array
    compression: Array
    fy: Array
    angle: Array
    outside: tuple[Reason, ...]


def wall_columns(context: Context, joints: Sequence[WallJoint]) -> WallColumns:
    """Joints, one at least, as columns."""
    strength = _column(joint.wall.yield_ for joint in joints)
    light = by_joint(joint.wall.metal.kind == "aluminium" for joint in joints)
    load = context.factors.load()
    by = np.array([load * divisor(context, joint) for joint in joints])
    through = _through(context, joints)
    through *= by[:, None, :, None]
    np.abs(through[:, 1:], out=through[:, 1:])
    compression = _squeeze(context, joints)
    beyond = by if context.factors.method == "allowable" else load[None]
    compression *= beyond[:, :, None] / strength
    angle = by_joint(joint.meeting.angle for joint in joints)
    return WallColumns(
        joints=tuple(joints),
        axial=through[:, 0],
        in_plane=through[:, 1],
        out_of_plane=through[:, 2],
        compression=compression,
        fy=strength * np.where((strength > HIGH) & ~light, HIGH_FACTOR, 1.0),
        angle=angle,
        outside=_outside(context, joints, light, strength, angle, compression),
    )


def by_joint(values: Iterable[float | bool]) -> NDArray[Any]:
    """A figure for each joint, (joints, 1, 1)."""
    return np.array(list(values))[:, None, None]


def of_bars(values: Array, bars: Sequence[int]) -> Array:
    """Figures (designs, all bars) of some bars, (bars, 1, designs)."""
    return np.ascontiguousarray(values.T[list(bars)])[:, None]


def _column(values: Iterable[Array]) -> Array:
    """Figures (designs or 1,) of each joint, (joints, 1, designs or 1)."""
    return together(list(values))[:, None]


def divisor(context: Context, joint: WallJoint) -> Array:
    """(loads,) yield factor or gamma_M5."""
    wall = joint.wall
    return context.factors.on_yield(wall.metal.kind, brittle=wall.brittle, gamma="gamma_m5")


def _through(context: Context, joints: Sequence[WallJoint]) -> Array:
    """N and both moments through the welds' planes: (joints, 3, loads, designs)."""
    seats = [joint.effect.seat for joint in joints]
    rows = np.zeros((len(joints), 3, 6))
    rows[:, 0, 0] = 1.0
    rows[:, 1, 3:] = [joint.meeting.in_plane for joint in joints]
    rows[:, 2, 3:] = [joint.meeting.out_of_plane for joint in joints]
    return sums_at(
        context.layout,
        context.response,
        np.array([seat.bar for seat in seats], dtype=np.intp),
        together([seat.plane for seat in seats]).T,
        np.array([seat.later for seat in seats], dtype=np.intp),
        rows,
    )


def _squeeze(context: Context, joints: Sequence[WallJoint]) -> Array:
    """Greatest compressive stress of hosts next to welds (joints, loads, designs) [MPa], not negative."""
    layout, bars, count = context.layout, context.bars, len(joints)
    host, place = host_places(context, [joint.meeting for joint in joints])
    before, after = (find_places(layout, host, place, np.full(count, side))[0] for side in (0, 1))
    twice = np.flatnonzero((before != after).any(axis=0))  # at via points, where forces jump
    both = np.concatenate([np.arange(count), twice])
    later = np.zeros(both.size, dtype=np.intp)
    later[count:] = 1
    rows = np.zeros((both.size, 3, 6))
    rows[:, (0, 1, 2), (0, 4, 5)] = 1.0
    inside = sums_at(layout, context.response, host[both], place[:, both], later, rows)
    area, wy, wz = (of_bars(v, host[both].tolist()) for v in (bars.area, bars.modulus_y, bars.modulus_z))
    axial, my, mz = inside[:, 0], inside[:, 1], inside[:, 2]
    if isinstance(joints[0].meeting.host.shape, Tube | Bar):
        my *= my
        mz *= mz
        my += mz
        bend = np.sqrt(my, out=my)
        bend /= wy
    else:
        bend = np.abs(my) / wy + np.abs(mz) / wz
    bend -= axial / area
    found = np.maximum(bend[:count], 0.0)
    found[twice] = np.maximum(found[twice], bend[count:])
    return found


def _outside(
    context: Context,
    joints: Sequence[WallJoint],
    light: Bool,
    strength: Array,
    angle: Array,
    compression: Array,
) -> tuple[Reason, ...]:
    """Reasons common to all tables that leave their range."""
    met = [joint.meeting for joint in joints]
    onto = [joint.effect.weld.onto for joint in joints]
    depth = of_bars(context.bars.depth, [one.host.bar for one in met])
    low, high = _column(one.low for one in met), _column(one.high for one in met)
    length = by_joint(one.host.length for one in met)
    return (
        (light, "EN 1993-1-8 section 7 is for steel: welded yield put in its formulas as a guide"),
        (
            _column(joint.wall.wall for joint in joints) < 2.5,
            [f"{name}: wall under 2.5 mm, thinner than EN 1993-1-8 section 7 covers" for name in onto],
        ),
        (strength > HIGHEST, "yield over 460 MPa"),
        (angle < np.radians(30.0) - 1e-9, "angle under 30 degrees"),
        (
            (low < -1e-6) | (high > length + 1e-6),
            [f"the weld runs past the end of {name}" for name in onto],
        ),
        (
            _column(one.aside for one in met) > 0.05 * depth,
            "the middle lines pass each other by over 5 % of the depth",
        ),
        (compression > 1.0, [f"{name} itself is over its yield" for name in onto]),
    )


def reasons_beside(
    joints: Sequence[WallJoint], designs: int, tell: Callable[[int, Neighbour], tuple[Bool, str] | None]
) -> Iterator[Reason]:
    """What neighbours of joints bring: of joint n and one near it a mask (designs or 1,) and why, or None."""
    for k in range(max(len(joint.near) for joint in joints)):
        mask = np.zeros((len(joints), 1, designs), dtype=bool)
        why = [""] * len(joints)
        for n, joint in enumerate(joints):
            told = tell(n, joint.near[k]) if k < len(joint.near) else None
            if told is not None:
                mask[n, 0], why[n] = told
        yield mask, why


def late_verdicts(
    context: Context,
    kind: str,
    columns: WallColumns,
    use: Array,
    source: str,
    modes: Callable[[int], Sequence[str]],
    reasons: Sequence[Reason],
) -> list[Verdict]:
    """Of each joint an interaction that already holds load factor and divisor, against 1.

    modes: of joint n, in words for each load.
    """
    every = (*columns.outside, *reasons)
    outside = np.zeros((1, 1, 1), dtype=bool)
    for mask, _ in sorted(every, key=lambda reason: reason[0].size):
        outside = outside | mask
    inside = ~spread(outside, use.shape)
    whole = inside.all(axis=(1, 2)).tolist()
    return [
        Late(
            joint.effect.weld.name,
            kind,
            use[n].T * joint.effect.path_factor,
            partial(_whole, context, kind, joint, use[n].T, inside[n].T, source, n, modes, every),
            in_range=None if whole[n] else inside[n].T,
        )
        for n, joint in enumerate(columns.joints)
    ]


def _whole(
    context: Context,
    kind: str,
    joint: WallJoint,
    use: Array,
    inside: Bool,
    source: str,
    number: int,
    modes: Callable[[int], Sequence[str]],
    reasons: Sequence[Reason],
) -> Verdict:
    loads = use.shape[1]
    told = []
    for mask, why in reasons:
        own = mask[number if len(mask) > 1 else 0, :, 0]
        if own.any():
            told.append((spread(own, (loads,)).tolist(), why if isinstance(why, str) else why[number]))
    notes = []
    for load, text in enumerate(modes(number)):
        parts = [text, *(why for mask, why in told if mask[load]), amplified_note(context, load)]
        notes.append("; ".join(part for part in parts if part))
    return Verdict(
        part=joint.effect.weld.name,
        kind=kind,
        unit="1",
        fails="bends" if kind != "chord-punching" else "parts",
        source=source,
        demand=use,
        limit=np.ones(use.shape),
        utilisation=use * joint.effect.path_factor,
        places=(f"wall of {joint.effect.weld.onto}, {joint.meeting.host.at[0]:.0f} mm along it",),
        in_range=inside,
        notes=tuple(notes),
    )
