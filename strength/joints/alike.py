"""The worst place of lines that are the same in many designs, under the forces of all of them.

Loads, forms and pieces of the line that govern in no design are left out first (`bounds`). Of what is left
all designs are looked at together at the same places, and those whose best place lies between the same two
are climbed together (`bracket`). Loads that do not govern are told as 0, but for ties.
"""

from collections.abc import Sequence
from functools import partial

import numpy as np
from numpy.typing import NDArray

from strength.arrays import behind, rows_of, run_maxima
from strength.joints.bounds import LOW, may_govern, parts_between
from strength.joints.contest import Contest, winners
from strength.joints.forms import Forms, form_at
from strength.joints.maxima import Found, maxima
from strength.joints.samples import framed
from strength.joints.stretches import Looks, Stretches, looked, stretches
from strength.joints.top import Top
from strength.joints.traced import traced
from strength.joints.traction import Pull
from strength.joints.weighed import Weighed, weighed
from strength.joints.weld_line import WeldLine

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

TIED = 1e-6  # of the greatest: closer heights are worked out to the last bit before one is picked
BLOCK = 1 << 20  # numbers looked at together


def tops_alike(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest) -> list[Top]:
    """The worst of each group of forms; loads are those of one design after those of another."""
    rows, designs = pull.direct.shape[0], pull.direct.shape[1] // contest.rivals
    force = pull.both.reshape(rows, designs, contest.rivals, 6)
    frames, own = framed(line, line.per_piece), weighed(groups, contest, rows)
    dead = np.zeros((rows, frames.piece.size), dtype=bool)
    dead[:, : frames.straight] = line.pieces.length()[:, frames.piece[: frames.straight]] <= 0.0
    flags = may_govern(frames, parts_between(frames, force), own, dead)
    for n in range(own.groups):  # where nothing acts one place is as good as any other
        idle = np.flatnonzero(~flags[:, own.group == n].any(axis=(1, 2, 3)))
        flags[idle, np.argmax(own.group == n), 0, dead[idle].argmin(axis=1)] = True
    parts = stretches(frames)
    open_ = [part.open(flags) for part in parts]
    each = sum(int(found.sum()) * part.along.shape[1] for found, part in zip(open_, parts, strict=True))
    step = max(1, BLOCK // (4 * each))
    some = [slice(at, min(at + step, designs)) for at in range(0, designs, step)]
    found = behind([_found(line, parts, open_, force, own, part) for part in some])
    return _tops(line, pull, contest.rivals, own, found)


def _found(
    line: WeldLine, parts: list[Stretches], open_: list[Flags], force: Array, own: Weighed, designs: slice
) -> Found:
    """What may be the worst of some designs."""
    looks = [looked(part, flags, force, own, designs) for part, flags in zip(parts, open_, strict=True)]
    best = np.zeros((own.groups, force.shape[0], designs.stop - designs.start))
    for each in looks:
        _raise(best, each, own)
    every = behind([maxima(line, each, (1.0 - LOW) * best[own.group[each.form], each.row]) for each in looks])
    cell = own.group[every.form], every.row, every.design
    np.maximum.at(best, cell, every.height)
    near = rows_of(every, every.height >= (1.0 - TIED) * best[cell])
    near.design[:] += designs.start
    return near


def _raise(best: Array, looks: Looks, own: Weighed) -> None:
    """The greatest of groups, rows and designs, raised to what is seen."""
    if looks.row.size:
        group = own.group[looks.form]
        first = np.flatnonzero(np.diff(looks.row * own.groups + group, prepend=-1))
        at = group[first], looks.row[first]
        best[at] = np.maximum(best[at], run_maxima(looks.height.max(axis=1), first))


def _tops(line: WeldLine, pull: Pull, rivals: int, own: Weighed, found: Found) -> list[Top]:
    """The best of what is near the greatest, worked out exactly."""
    row, load = found.row, found.design * rivals + found.load
    host = None if line.cylinder is None else line.cylinder.some(row)
    along = line.spaced(found.along[:, None], row)
    spot = traced(host, *line.pieces.chosen(row, found.piece).at(along))
    force = spot.force(line.centroid[row], pull.direct[row, load], pull.spin[row, load])
    coefficients = own.forms[
        np.minimum(row, len(own.forms) - 1), found.form, np.minimum(found.piece, own.forms.shape[2] - 1)
    ]
    height = form_at(coefficients[:, None], *force)[:, 0]
    height *= own.scale_of(row, found.design, found.load, found.form)
    rows, columns = pull.direct.shape[:2]
    group = own.group[found.form]
    best = winners((group * rows + row) * columns + load, height)
    at = group[best], row[best], load[best]
    greatest, worst = (
        np.zeros((own.groups, rows, columns)),
        np.zeros((own.groups, rows, columns), dtype=np.intp),
    )
    greatest[at], worst[at] = height[best], own.kept[found.form[best]]

    def told(number: int) -> tuple[Array, Array]:
        mine = best[group[best] == number]
        parts, place = np.zeros((2, rows, columns, 3))
        parts[row[mine], load[mine]] = np.concatenate(force, axis=-1)[mine]
        place[row[mine], load[mine]] = np.concatenate([spot.x, spot.y, spot.z], axis=-1)[mine]
        return parts, place

    return [Top(height=greatest[n], form=worst[n], there=partial(told, n)) for n in range(own.groups)]
