"""Points, members and struts of a case to a layout of straight segments."""

from operator import attrgetter

import numpy as np

from strength.arrays import distinct
from strength.case.model import Case, Member, Strut
from strength.errors import CaseError
from strength.frame.response import Array, Flags, Index, Layout

COS_UPRIGHT = float(np.cos(np.radians(8.0)))  # within it of body z, `up` defaults to body x (own choice)


def lay_out(case: Case) -> Layout:
    """Cut members at their via points and give every segment its axes.

    Axes of a segment: x_m from start to end; z_m the part of `up` normal to x_m, normalised;
    y_m = z_m x x_m. `up` defaults to body z, and to body x where the whole part is within 8 degrees
    of z (own choice). A via point may stand a little off the line: the segments meet it exactly.
    Raises CaseError for a part of no length and for an `up` that lies along its part.
    """
    number = {point.name: n for n, point in enumerate(case.points)}
    points = np.array([at for point in case.points for at in point.at], dtype=float).reshape(-1, 3)
    parts: list[Member | Strut] = [*case.members, *case.struts]
    starts, ends, firsts, bars = _segments(parts, number)
    lasts = np.append(firsts[1:], bars.size)[: firsts.size] - 1
    run = points[ends] - points[starts]
    length = np.linalg.norm(run, axis=1)
    chord = points[ends[lasts]] - points[starts[firsts]]
    whole = np.linalg.norm(chord, axis=1)
    _refuse(parts, distinct(bars[length == 0.0]), "has two of its points at the same place")
    _refuse(parts, np.flatnonzero(whole == 0.0), "ends where it starts")
    chord /= whole[:, None]
    ups = default_up(chord)
    for b, up in enumerate([part.up for part in parts]):
        if up is not None:
            ups[b] = up
    axes, lying = frame_axes(run, ups[bars])
    _refuse(parts, distinct(bars[lying]), "has its `up` along its own line")
    base = points[starts[firsts]][bars]
    along = np.stack([np.einsum("si,si->s", points[at] - base, chord[bars]) for at in (starts, ends)], axis=1)
    return Layout(
        points=points,
        names=tuple(point.name for point in case.points),
        bar=bars,
        start=starts,
        end=ends,
        along=along,
        axes=axes,
        length=length,
        bar_length=whole,
        first=firsts,
        last=lasts,
    )


def _segments(parts: list[Member | Strut], number: dict[str, int]) -> tuple[Index, Index, Index, Index]:
    """Point numbers at the segments' starts and ends, each bar's first segment, each segment's bar."""
    starts = list(map(number.__getitem__, map(attrgetter("start"), parts)))
    ends = list(map(number.__getitem__, map(attrgetter("end"), parts)))
    members = [part for part in parts if isinstance(part, Member)]  # they come before the struts
    between = {b: [number[name] for name in m.via] for b, m in enumerate(members) if m.via}
    pieces = np.ones(len(parts), dtype=np.intp)
    for b, via in between.items():
        pieces[b] += len(via)
    first = np.cumsum(pieces) - pieces
    bar = np.repeat(np.arange(len(parts)), pieces)
    start, end = np.array(starts, dtype=np.intp)[bar], np.array(ends, dtype=np.intp)[bar]
    for b, via in between.items():
        at = int(first[b])
        start[at + 1 : at + 1 + len(via)] = end[at : at + len(via)] = via
    return start, end, first, bar


def default_up(direction: Array) -> Array:
    """Body z, or body x for a part within 8 degrees of it; unit directions (n, 3).

    >>> default_up(np.array([[0.1, 0.0, 0.99498744], [0.6, 0.0, 0.8]]))
    array([[1., 0., 0.],
           [0., 0., 1.]])
    """
    steep = np.abs(direction[:, 2:]) >= COS_UPRIGHT
    return np.asarray(np.where(steep, [[1.0, 0.0, 0.0]], [[0.0, 0.0, 1.0]]))


def frame_axes(run: Array, up: Array) -> tuple[Array, Flags]:
    """Axes (n, 3, 3), rows x_m, y_m, z_m, of runs (n, 3); and where `up` lies along the run."""
    x = run / np.linalg.norm(run, axis=1, keepdims=True)
    up = up / np.linalg.norm(up, axis=1, keepdims=True)
    z = up - np.einsum("ni,ni->n", up, x)[:, None] * x
    size = np.linalg.norm(z, axis=1, keepdims=True)
    lying = size[:, 0] < 1e-6
    z = z / np.where(lying[:, None], 1.0, size)
    return np.stack([x, np.cross(z, x), z], axis=1), lying


def part_names(case: Case) -> list[str]:
    """Names of the bars: members in order, then struts."""
    return [*(member.name for member in case.members), *(strut.name for strut in case.struts)]


def _refuse(parts: list[Member | Strut], wrong: Index, why: str) -> None:
    faults = [(parts[b].path or parts[b].name, f"{parts[b].name} {why}") for b in wrong]
    if faults:
        raise CaseError(faults)
