"""What the checks of a host's wall look at: who is welded onto it where, and what the host carries there."""

from collections.abc import Sequence
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bare, Outline, Rigid
from strength.checks.context import Context
from strength.checks.welds import WeldEffect, weld_effects
from strength.frame.response import at_places
from strength.joints.meeting import Meeting, Neighbour, meetings, neighbours, together
from strength.joints.parents import Parent
from strength.values import frozen

Array = NDArray[np.float64]

NEAR = 1.0  # mm: the weld's place along the host is the host's point this near (own choice)


@frozen(kw_only=True, eq=False)
class WallJoint:
    """A member welded onto a member that has a section.

    near: others on the same host close by. own, wall: what the member and its host are made of.
    """

    effect: WeldEffect
    meeting: Meeting
    near: tuple[Neighbour, ...]
    own: Parent
    wall: Parent

    @property
    def is_crossed(self) -> bool:
        """Whether another member stands opposite."""
        return any(one.kind == "opposite" for one in self.near)


_known: "WeakKeyDictionary[Context, tuple[WallJoint, ...]]" = WeakKeyDictionary()


def wall_joints(context: Context) -> tuple[WallJoint, ...]:
    """All members welded onto members that have a section, in the order of the welds."""
    if context not in _known:
        _known[context] = _found(context)
    return _known[context]


def _found(context: Context) -> tuple[WallJoint, ...]:
    effects = weld_effects(context)
    met = meetings(
        [effect.seat for effect in effects],
        [effect.low for effect in effects],
        [effect.high for effect in effects],
    )
    some = [(effect, joint) for effect, joint in zip(effects, met, strict=True) if joint is not None]
    if not some:
        return ()
    near = neighbours([joint for _, joint in some], context.bars.depth)
    return tuple(
        _joint(effect, joint, beside)
        for (effect, joint), beside in zip(some, near, strict=True)
        if not isinstance(joint.host.shape, Rigid | Bare | Outline)
    )


def _joint(effect: WeldEffect, joint: Meeting, near: tuple[Neighbour, ...]) -> WallJoint:
    ruled = effect.judged.ruled[effect.number]
    if ruled.onto is None:
        raise TypeError("a host with a section has a metal")
    return WallJoint(effect=effect, meeting=joint, near=near, own=ruled.own, wall=ruled.onto)


def host_forces(context: Context, joint: Meeting) -> Array:
    """Internal forces of the host on either side of the member's end: (designs, loads, 2, 6)."""
    bar, place = host_places(context, [joint])
    both = np.repeat(place, 2, axis=1)
    return at_places(
        context.layout, context.response, np.repeat(bar, 2), both, np.array([0, 1], dtype=np.intp)
    )


def host_places(context: Context, met: Sequence[Meeting]) -> tuple[NDArray[np.intp], Array]:
    """Bar numbers of hosts (joints,), and where on them forces of members enter (designs or 1, joints) [mm].

    There, on the host's middle line, the member's end is; the weld of a slanting member is elsewhere.
    """
    layout = context.layout
    host = np.array([joint.host.bar for joint in met], dtype=np.intp)
    # the member's end lies an inset behind the middle of the weld's plane
    slant = np.array([joint.seat.into * float(joint.host.axes[0, 0]) for joint in met])
    enters = (
        together([joint.host.at for joint in met]).T - together([joint.seat.inset for joint in met]).T * slant
    )
    place = np.clip(enters, 0.0, layout.bar_length[host])
    first, last = layout.first[host], layout.last[host]
    steps = np.arange(int((last - first).max(initial=0)) + 1)
    number = np.minimum(first[:, None] + steps, last[:, None])
    cuts = layout.along[number].reshape(host.size, -1)  # the host's ends and via points
    away = np.abs(cuts - place[..., None])
    nearest = np.take_along_axis(cuts[None], away.argmin(axis=-1)[..., None], axis=-1)[..., 0]
    place = np.where(away.min(axis=-1) <= NEAR, nearest, place)
    return host, place[:1] if (place == place[:1]).all() else place
