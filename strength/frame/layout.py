"""Points, members and struts of a case to a layout of straight segments."""

from collections.abc import Iterator

import numpy as np

from strength.case.model import Case, Member, Strut, Vector
from strength.errors import CaseError
from strength.frame.response import Array, Layout

COS_UPRIGHT = float(np.cos(np.radians(8.0)))  # within it of body z, `up` defaults to body x (own choice)


def lay_out(case: Case) -> Layout:
    """Cut members at their via points and give every segment its axes.

    Axes of a segment: x_m from start to end; z_m the part of `up` normal to x_m, normalised;
    y_m = z_m x x_m. `up` defaults to body z, and to body x where the whole part is within 8 degrees
    of z (own choice). A via point may stand a little off the line: the segments meet it exactly.
    Raises CaseError for a part of no length and for an `up` that lies along its part.
    """
    number = {point.name: n for n, point in enumerate(case.points)}
    points = np.array([point.at for point in case.points], dtype=float).reshape(-1, 3)
    bar, start, end, ups, first, last, bar_length = [], [], [], [], [], [], []
    faults: list[tuple[str, str]] = []
    for b, (part, via) in enumerate(_parts(case)):
        chain = [number[name] for name in (part.start, *via, part.end)]
        chord = points[chain[-1]] - points[chain[0]]
        span = float(np.linalg.norm(chord))
        if span == 0.0:
            faults.append((part.path or part.name, f"`from` and `to` of {part.name} are the same place"))
            span, chord = 1.0, np.array([1.0, 0.0, 0.0])
        up = part.up or default_up(chord / span)
        first.append(len(bar))
        last.append(len(bar) + len(chain) - 2)
        bar_length.append(span)
        bar += [b] * (len(chain) - 1)
        start += chain[:-1]
        end += chain[1:]
        ups += [up] * (len(chain) - 1)
    if faults:
        raise CaseError(faults)
    bars, starts, ends = (np.array(values, dtype=np.intp) for values in (bar, start, end))
    firsts, lasts = np.array(first, dtype=np.intp), np.array(last, dtype=np.intp)
    run = points[ends] - points[starts]
    length = np.linalg.norm(run, axis=1)
    axes, lying = frame_axes(run, np.array(ups, dtype=float).reshape(-1, 3))
    parts = [part for part, _ in _parts(case)]
    faults = [
        (parts[bars[n]].path or parts[bars[n]].name, f"`up` of {parts[bars[n]].name} lies along the part")
        for n in np.flatnonzero(lying)
    ]
    if faults:
        raise CaseError(dict.fromkeys(faults))
    base = points[starts[firsts]]
    whole = np.array(bar_length, dtype=float)
    chords = (points[ends[lasts]] - base) / whole[:, None]
    along = np.stack(
        [np.einsum("si,si->s", points[at] - base[bars], chords[bars]) for at in (starts, ends)], axis=1
    )
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


def default_up(direction: Array) -> Vector:
    """Body z, or body x for a part within 8 degrees of it; `direction` is a unit vector.

    >>> default_up(np.array([0.1, 0.0, 0.99498744]))
    (1.0, 0.0, 0.0)
    """
    return (1.0, 0.0, 0.0) if abs(direction[2]) >= COS_UPRIGHT else (0.0, 0.0, 1.0)


def frame_axes(run: Array, up: Array) -> tuple[Array, Array]:
    """Axes (n, 3, 3), rows x_m, y_m, z_m, of runs (n, 3); and where `up` lies along the run."""
    x = run / np.linalg.norm(run, axis=1, keepdims=True)
    up = up / np.linalg.norm(up, axis=1, keepdims=True)
    z = up - np.einsum("ni,ni->n", up, x)[:, None] * x
    size = np.linalg.norm(z, axis=1, keepdims=True)
    lying = size[:, 0] < 1e-6
    z = z / np.where(lying[:, None], 1.0, size)
    return np.stack([x, np.cross(z, x), z], axis=1), lying


def _parts(case: Case) -> Iterator[tuple[Member | Strut, tuple[str, ...]]]:
    for member in case.members:
        yield member, member.via
    for strut in case.struts:
        yield strut, ()
