"""Where checks take different ways for designs of one batch, so that the batch must be parted.

A check looks at some things once for all designs: which face of a box a member stands on, whether two
welds on a wall make a joint of their own, which plates a bolt goes through. Sizes can change these. All of it
is geometry, so that it is settled before anything is solved.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.case.shape import Bar, Tube
from strength.frame.response import Layout
from strength.joints.draw import Lines, drawn
from strength.joints.meeting import DEEP, SAME_PLANE, Meeting, crossing, meetings, pairs
from strength.joints.seat import Seat, seats
from strength.sections import Bars

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


def branches(case: Case, layout: Layout, bars: Bars) -> tuple[Flags, Lines | None]:
    """Which way each design goes at every such place: (designs, places); and the welds' whole lines.

    Raises CaseError where some design's welds cannot be drawn.
    """
    designs = bars.area.shape[0]
    every = seats(case, layout, bars)
    cut = case.basis.method == "limit-state"
    lines = Lines(seats=every, groups=drawn(every, bars, cut=cut, designs=designs))
    told = [*_faces(bars, every), *_joints(bars, lines), *_passing(case, layout, bars)]
    flags = np.zeros((designs, 0), dtype=bool)
    if told:
        flags = np.stack([np.broadcast_to(each, designs) for each in told], axis=1)
    return flags, None if cut else lines


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
    if not (np.abs(pairs(_met(lines.seats, anywhere, anywhere)).same) > SAME_PLANE).any():
        return  # lines are not measured for those that can be neither
    low, high = list(anywhere), list(anywhere)
    for group, span in zip(lines.groups, lines.spans, strict=True):
        for k, n in enumerate(group.welds):
            low[n], high[n] = group.own(k, span.host_low), group.own(k, span.host_high)
    met = _met(lines.seats, low, high)
    near = pairs(met)
    for n in np.flatnonzero(np.abs(near.same) > SAME_PLANE).tolist():
        own, other = met[int(near.first[n])], met[int(near.second[n])]
        if near.same[n] < 0.0:
            yield near.gap[n] < 0.0
        else:
            yield own.low + own.high < other.low + other.high
            yield crossing(own, other) <= DEEP * bars.depth[:, own.host.bar]


def _met(every: tuple[Seat, ...], low: list[Array], high: list[Array]) -> list[Meeting]:
    return [one for one in meetings(every, low, high) if one is not None]


def _passing(case: Case, layout: Layout, bars: Bars) -> Iterator[Flags]:
    """Whether a bar of the second plate's metal passes through that plate at every bolt."""
    for bolt in case.bolts:
        if len(bolt.plates) < 2:
            continue
        metal = case.metals[bolt.plates[1].material]
        own = bars.names.index(bolt.member)
        end = layout.start[layout.first[own]] if bolt.end == "from" else layout.end[layout.last[own]]
        places = layout.points[end] + (np.array(bolt.group) if bolt.group else np.zeros((1, 3)))
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
