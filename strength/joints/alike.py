"""The worst place of lines that are the same in many designs, under the forces of all of them.

Loads, forms and pieces of the line that govern in no design are left out first (`bounds`). Of what is left
all designs are looked at together at the same places, and those whose best place lies between the same two
are climbed together (`bracket`). Loads that do not govern are told as 0, but for ties.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import run_maxima
from strength.joints.bounds import Weighed, may_govern, parts_between, weighed
from strength.joints.contest import Contest, winners
from strength.joints.forms import Forms, form_at
from strength.joints.maxima import Found, maxima
from strength.joints.samples import framed
from strength.joints.stretches import Heights, Stretches, heights, looked, stretches
from strength.joints.top import Top
from strength.joints.traced import Traced, traced
from strength.joints.traction import Pull
from strength.joints.weld_line import WeldLine

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

LOW = 0.1  # of the greatest sample; a maximum is no further above its best sample
TIED = 1e-6  # of the greatest: closer heights are worked out to the last bit before one is picked
BLOCK = 1 << 20  # numbers looked at together


def tops_alike(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest) -> list[Top]:
    """The worst of each group of forms; loads are those of one design after those of another."""
    rows, designs = pull.direct.shape[0], pull.direct.shape[1] // contest.rivals
    force = np.concatenate([pull.direct, pull.spin], axis=-1).reshape(rows, designs, contest.rivals, 6)
    frames = framed(line, line.per_piece)
    dead = np.zeros((rows, frames.piece.size), dtype=bool)
    dead[:, : frames.straight] = line.pieces.length()[:, frames.piece[: frames.straight]] <= 0.0
    between = parts_between(frames, force)
    own = [weighed(group, contest, rows) for group in groups]
    open_ = []
    for group in own:
        flags = may_govern(frames, between, group, LOW, dead)
        idle = np.flatnonzero(~flags.any(axis=(1, 2, 3)))
        flags[idle, 0, 0, dead[idle].argmin(axis=1)] = True
        open_.append(flags)
    parts = stretches(frames)
    count = sum(int(flags.any(axis=1).sum()) for flags in open_) * 4
    step = max(1, BLOCK // max(count, 1))
    found: list[list[Found]] = [[] for _ in groups]
    for at in range(0, designs, step):
        some = slice(at, min(at + step, designs))
        for n, each in enumerate(_found(line, parts, force, some, own, open_)):
            found[n].append(each)
    return [
        _top(line, pull, group, kept.kept, contest, Found.joined(each))
        for group, kept, each in zip(groups, own, found, strict=True)
    ]


def _found(
    line: WeldLine,
    parts: list[Stretches],
    force: Array,
    some: slice,
    groups: list[Weighed],
    open_: list[Flags],
) -> list[Found]:
    """What may be the worst of each group, in some designs."""
    mixed = any(bool(group.forms[..., 3].any()) for group in groups)
    own = [[part.open(flags) for part in parts] for flags in open_]
    looks = []
    for n, part in enumerate(parts):
        every = np.logical_or.reduce([flags[n].any(axis=1) for flags in own])
        looks.append(looked(part, every, force[:, some], mixed=mixed))
    found = []
    for group, flags in zip(groups, own, strict=True):
        seen = [
            heights(look, part, group.some(some), each)
            for look, part, each in zip(looks, parts, flags, strict=True)
        ]
        best = np.zeros((force.shape[0], seen[0].height.shape[-1]))
        for each in seen:
            _raise(best, each)
        best *= 1.0 - LOW
        every = Found.joined([maxima(line, *both, best) for both in zip(seen, looks, parts, strict=True)])
        cell = every.row * best.shape[1] + every.design
        top = np.zeros(best.size)
        first = winners(cell, every.height)
        top[cell[first]] = every.height[first]
        near = every.some(every.height >= (1.0 - TIED) * top[cell])
        near.design[:] += some.start
        found.append(near)
    return found


def _raise(best: Array, seen: Heights) -> None:
    """The greatest of rows and designs, raised to what is seen."""
    if seen.row.size:
        top = np.where(seen.valid[:, :, None], seen.height.max(axis=2), 0.0).max(axis=1)
        first = np.flatnonzero(np.diff(seen.row, prepend=-1))
        row = seen.row[first]
        best[row] = np.maximum(best[row], run_maxima(top, first))


def _top(line: WeldLine, pull: Pull, group: Forms, kept: Index, contest: Contest, found: Found) -> Top:
    """The best of what is near the greatest, worked out exactly."""
    form, load = kept[found.form], found.design * contest.rivals + found.load
    spot = _spots(line, found.row, found.piece, found.along)
    force = spot.force(line.centroid[found.row], pull.direct[found.row, load], pull.spin[found.row, load])
    scale, _ = group.of(found.row, load, form)
    height = form_at(group.coefficients(found.row, form, found.piece)[:, None], *force)[:, 0] * scale
    best = winners(found.row * pull.direct.shape[1] + load, height)
    at = found.row[best], load[best]
    greatest, worst = np.zeros(pull.direct.shape[:2]), np.zeros(pull.direct.shape[:2], dtype=np.intp)
    greatest[at], worst[at] = height[best], form[best]

    def told() -> tuple[Array, Array]:
        parts, place = np.zeros((2, *pull.direct.shape))
        parts[at] = np.concatenate(force, axis=-1)[best]
        place[at] = np.concatenate([spot.x, spot.y, spot.z], axis=-1)[best]
        return parts, place

    return Top(height=greatest, form=worst, there=told)


def _spots(line: WeldLine, row: Index, piece: Index, along: Array) -> Traced:
    """Places of rows (n,), each (n, 1)."""
    host = None if line.cylinder is None else line.cylinder.some(row)
    return traced(host, *line.pieces.chosen(row, piece).at(line.spaced(along[:, None], row)))
