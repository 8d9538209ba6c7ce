"""Members welded onto walls side by side: what a check takes for all of one make-up in one step."""

from collections.abc import Iterable, Sequence
from typing import Any
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.wall_kinds import MakeUp, make_up
from strength.checks.walls import WallJoint, host_places, wall_joints
from strength.frame.response import find_places
from strength.frame.sums import sums_at
from strength.joints.meeting import together
from strength.values import frozen

Array = NDArray[np.float64]
Bool = NDArray[np.bool_]
Index = NDArray[np.intp]
# where joints are out of a source's range (joints or 1, loads or 1, designs or 1), and why: of all or of each
Reason = tuple[Bool, str | Sequence[str]]

HIGH = 355.0  # MPa: above, joint strengths x 0.9, EN 1993-1-8 7.1.1(4), from memory
HIGH_FACTOR = 0.9
HIGHEST = 460.0


@frozen(kw_only=True, eq=False)
class WallColumns:
    """Joints side by side. Forces times load factor and divisor, (joints, loads, designs).

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

    def some(self, own: slice) -> "WallColumns":
        """Some of the joints."""
        return WallColumns(
            joints=self.joints[own],
            axial=self.axial[own],
            in_plane=self.in_plane[own],
            out_of_plane=self.out_of_plane[own],
            compression=self.compression[own],
            fy=self.fy[own],
            angle=self.angle[own],
            outside=tuple(
                (mask[own], why if isinstance(why, str) else why[own]) for mask, why in self.outside
            ),
        )


_known: "WeakKeyDictionary[Context, dict[MakeUp, WallColumns]]" = WeakKeyDictionary()


def columns_alike(context: Context) -> dict[MakeUp, WallColumns]:
    """All joints that a table has, by their make-up; in the order of the welds."""
    if context not in _known:
        alike: dict[MakeUp, list[WallJoint]] = {}
        for joint in wall_joints(context):
            own = make_up(joint)
            if own is not None:
                alike.setdefault(own, []).append(joint)
        _known[context] = _parted(context, alike) if alike else {}
    return _known[context]


def _parted(context: Context, alike: dict[MakeUp, list[WallJoint]]) -> dict[MakeUp, WallColumns]:
    every = wall_columns(context, [joint for joints in alike.values() for joint in joints])
    ends = np.cumsum([len(joints) for joints in alike.values()]).tolist()
    starts = [0, *ends[:-1]]
    return {own: every.some(slice(start, end)) for own, start, end in zip(alike, starts, ends, strict=True)}


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
    layout, bars = context.layout, context.bars
    host, place = host_places(context, [joint.meeting for joint in joints])
    own, number = _distinct(host, place)
    host, place = host[own], place[:, own]
    before, after = (find_places(layout, host, place, np.full(host.size, side))[0] for side in (0, 1))
    twice = np.flatnonzero((before != after).any(axis=0))  # at via points, where forces jump
    both = np.concatenate([np.arange(host.size), twice])
    later = np.zeros(both.size, dtype=np.intp)
    later[host.size :] = 1
    rows = np.zeros((both.size, 3, 6))
    rows[:, (0, 1, 2), (0, 4, 5)] = 1.0
    inside = sums_at(layout, context.response, host[both], place[:, both], later, rows)
    area, wy, wz = (of_bars(v, host[both].tolist()) for v in (bars.area, bars.modulus_y, bars.modulus_z))
    bend = np.empty_like(inside[:, 0])
    is_round = np.array([joints[own[n]].meeting.host.round for n in both.tolist()])
    for some, bent in ((is_round, _bent_round), (~is_round, _bent)):
        bend[some] = bent(inside[some, 1], inside[some, 2], wy[some], wz[some])
    bend -= inside[:, 0] / area
    found = np.maximum(bend[: host.size], 0.0)
    found[twice] = np.maximum(found[twice], bend[host.size :])
    return np.asarray(found[number])


def _distinct(host: Index, place: Array) -> tuple[list[int], list[int]]:
    """First joint of each place on a host, where many may stand; and the place of each joint."""
    known: dict[tuple[int, bytes], int] = {}
    keys = [(bar, own.tobytes()) for bar, own in zip(host.tolist(), place.T, strict=True)]
    number = [known.setdefault(key, len(known)) for key in keys]
    first = {key: n for n, key in reversed(list(enumerate(keys)))}
    return [first[key] for key in known], number


def _bent_round(my: Array, mz: Array, wy: Array, _: Array) -> Array:
    """Greatest bending stress of round hosts."""
    my *= my
    mz *= mz
    my += mz
    return np.sqrt(my, out=my) / wy


def _bent(my: Array, mz: Array, wy: Array, wz: Array) -> Array:
    """The same of others: at a corner."""
    return np.abs(my) / wy + np.abs(mz) / wz


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
