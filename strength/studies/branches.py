"""Where checks take different ways for designs of one batch, so that the batch must be parted.

A check looks at some things once for all designs: which face of a box a member stands on, whether two
welds on a wall make a joint of their own, which plates a bolt goes through. Sizes can change these. All of it
is geometry, so that it is settled before anything is solved.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.model import Case
from strength.case.shape import Bar, Tube
from strength.frame.response import Layout
from strength.joints.draw import Lines, drawn
from strength.joints.meeting import DEEP, SAME_PLANE, crossing, meetings, pairs
from strength.joints.seat import Seat, seats
from strength.library import Metal
from strength.sections import Bars
from strength.values import evolve

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


def branches(
    case: Case, layout: Layout, bars: Bars, lines: Lines | None = None
) -> tuple[Flags, Lines | None]:
    """Which way each design goes at every such place: (designs, places); and the welds' whole lines.

    lines: those that are judged, where they are drawn already. Raises CaseError where some design's welds
    cannot be drawn.
    """
    designs = bars.area.shape[0]
    cut = case.basis.method == "limit-state"
    if lines is None:
        every = seats(case, layout, bars)
        lines = Lines(seats=every, groups=drawn(every, bars, cut=cut, designs=designs))
    told = [*_faces(bars, lines.seats), *_joints(bars, lines), *_passing(case, layout, bars)]
    flags = np.zeros((designs, 0), dtype=bool)
    if told:
        flags = np.concatenate([_columns(each, designs) for each in told], axis=1)
    return flags, None if cut else lines


def _columns(told: Flags, designs: int) -> Flags:
    """Answers (designs or 1, ...) as (designs, answers)."""
    found = told.reshape(len(told), -1)
    return spread(found, (designs, found.shape[1]))


def _faces(bars: Bars, every: tuple[Seat, ...]) -> Iterator[Flags]:
    """Which face of a host that is not round a member leaves through."""
    for seat in every:
        host = seat.host
        if host is not None and not isinstance(host.shape, Tube | Bar):
            out = np.abs(host.axes @ np.array([1.0, 0.0, 0.0]))
            yield bars.width[:, host.bar] * out[2] <= bars.depth[:, host.bar] * out[1]


def _joints(bars: Bars, lines: Lines) -> Iterator[Flags]:
    """Whether two members welded onto one host stand opposite each other, or as a pair."""
    anywhere = [np.zeros(1)] * len(lines.seats)
    found = {n: one for n, one in enumerate(meetings(lines.seats, anywhere, anywhere)) if one is not None}
    if not (np.abs(pairs([*found.values()]).same) > SAME_PLANE).any():
        return  # lines are not measured for those that can be neither
    for group, span in zip(lines.groups, lines.spans, strict=True):
        for k, n in enumerate(group.welds):
            if n in found:
                low, high = group.own(k, span.host_low), group.own(k, span.host_high)
                found[n] = evolve(found[n], low=low, high=high)
    met = [*found.values()]
    near = pairs(met)
    for n in np.flatnonzero(np.abs(near.same) > SAME_PLANE).tolist():
        own, other = met[int(near.first[n])], met[int(near.second[n])]
        if near.same[n] < 0.0:
            yield near.gap[n] < 0.0
        else:
            yield own.low + own.high < other.low + other.high
            yield crossing(own, other) <= DEEP * bars.depth[:, own.host.bar]


def _passing(case: Case, layout: Layout, bars: Bars) -> Iterator[Flags]:
    """Whether a bar of the second plate's metal passes through that plate at every bolt."""
    two = [bolt for bolt in case.bolts if len(bolt.plates) > 1]
    of_metal = {name: _made_of(case.metals[name], bars) for name in {bolt.plates[1].material for bolt in two}}
    for bolt in two:
        own = bars.names.index(bolt.member)
        end = layout.start[layout.first[own]] if bolt.end == "from" else layout.end[layout.last[own]]
        places = layout.points[end] + (np.array(bolt.group) if bolt.group else np.zeros((1, 3)))
        stack = sum(plate.thickness for plate in bolt.plates) + bolt.gap
        others = of_metal[bolt.plates[1].material]
        others = others[others != own]
        first = layout.first[others]
        off = places - layout.points[layout.start[first]][:, None]
        away = np.abs(off @ layout.axes[first].transpose(0, 2, 1)).max(axis=1)
        for axis, side in ((1, bars.width), (2, bars.depth)):
            yield away[:, axis] <= side[:, others] / 2.0 + stack


def _made_of(metal: Metal, bars: Bars) -> NDArray[np.intp]:
    return np.array([n for n, own in enumerate(bars.metals) if own is metal or own == metal], dtype=np.intp)


def parted(found: Flags) -> list[NDArray[np.intp]]:
    """Designs that go the same ways, as their numbers; in the order of the first of each."""
    if found.shape[1] == 0 or np.all(found == found[:1]):
        return [np.arange(found.shape[0])]
    _, inverse = np.unique(found, axis=0, return_inverse=True)
    inverse = inverse.reshape(-1)
    sets = [np.flatnonzero(inverse == n) for n in range(int(inverse.max()) + 1)]
    return sorted(sets, key=lambda own: int(own[0]))
