"""Where checks take different ways for designs of one batch, so that the batch must be parted.

A check looks at some things once for all designs: which face of a box a member stands on, which
neighbours stand close to a weld on a wall, which plates a bolt goes through. Sizes can change these.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bar, Tube
from strength.checks.context import Context
from strength.checks.welds import weld_effects
from strength.joints.end_force import end_force
from strength.joints.meeting import DEEP, Meeting, meeting

Flags = NDArray[np.bool_]


def branches(context: Context) -> Flags:
    """Which way each design goes at every such place: (designs, places)."""
    designs = context.bars.area.shape[0]
    told = [*_faces(context), *_crowds(context), *_passing(context)]
    if not told:
        return np.zeros((designs, 0), dtype=bool)
    return np.stack([np.broadcast_to(each, designs) for each in told], axis=1)


def _faces(context: Context) -> Iterator[Flags]:
    """Which face of a host that is not round a member leaves through."""
    bars = context.bars
    for effect in weld_effects(context):
        host = effect.seat.host
        if host is None or isinstance(host.shape, Tube | Bar):
            continue
        out = np.abs(host.axes @ np.array([1.0, 0.0, 0.0]))
        yield bars.width[:, host.bar] * out[2] <= bars.depth[:, host.bar] * out[1]


def _crowds(context: Context) -> Iterator[Flags]:
    """How members welded onto one host stand to each other."""
    met = [
        joint
        for effect in weld_effects(context)
        if (joint := meeting(effect.seat, effect.low, effect.high)) is not None
    ]
    for n, own in enumerate(met):
        for other in met[n + 1 :]:
            if other.host.bar == own.host.bar and other.seat.bar != own.seat.bar:
                yield own.low - other.high < 0.0
                yield other.low - own.high < 0.0
                yield own.low + own.high < other.low + other.high
                yield _crossing(own, other) <= DEEP * context.bars.depth[:, own.host.bar]


def _crossing(own: Meeting, other: Meeting) -> NDArray[np.float64]:
    """Distance from the host's middle line to where two members' lines cross [mm]."""
    slopes = [np.sign(joint.lean) / np.tan(joint.angle) for joint in (own, other)]
    return np.asarray(np.abs(own.at - other.at) / max(abs(slopes[0] - slopes[1]), 1e-9))


def _passing(context: Context) -> Iterator[Flags]:
    """Whether a bar of the second plate's metal passes through that plate at every bolt."""
    bars, layout = context.bars, context.layout
    for bolt in context.case.bolts:
        if len(bolt.plates) < 2:
            continue
        metal = context.case.metals[bolt.plates[1].material]
        own = bars.names.index(bolt.member)
        at = end_force(layout, context.response, own, bolt.end).at
        places = at + (np.array(bolt.group) if bolt.group else np.zeros((1, 3)))
        stack = sum(plate.thickness for plate in bolt.plates) + bolt.gap
        for bar, other in enumerate(bars.metals):
            if other == metal and bar != own:
                first = int(layout.first[bar])
                local = np.abs((places - layout.points[layout.start[first]]) @ layout.axes[first].T)
                for axis, side in ((1, bars.width), (2, bars.depth)):
                    yield local[:, axis].max() <= side[:, bar] / 2.0 + stack


def parted(found: Flags) -> list[NDArray[np.intp]]:
    """Designs that go the same ways, as their numbers; in the order of the first of each."""
    if found.shape[1] == 0 or np.all(found == found[:1]):
        return [np.arange(found.shape[0])]
    _, inverse = np.unique(found, axis=0, return_inverse=True)
    inverse = inverse.reshape(-1)
    sets = [np.flatnonzero(inverse == n) for n in range(int(inverse.max()) + 1)]
    return sorted(sets, key=lambda own: int(own[0]))
