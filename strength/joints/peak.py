"""The greatest value along a weld's line of quadratic forms of its force per length."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.joints.circle import is_circle, top_of_circle
from strength.joints.climb import climbed
from strength.joints.contest import contested, winners
from strength.joints.forms import Forms, form_at
from strength.joints.samples import Samples, sampled
from strength.joints.traced import traced
from strength.joints.traction import Pull
from strength.joints.weld_line import WeldLine
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

BLOCK = 1 << 16  # numbers looked at together: what the processor's cache holds
LOW = 0.1  # of the greatest sample; a maximum is no further above its best sample


@frozen(kw_only=True, eq=False)
class Peak:
    """The worst of some forms and where it stands; (designs, loads).

    value: square root of the form. form: its number. parts: (..., 3) force per length q_x, q_s, q_n
    there [N/mm]. place: (..., 3) in member axes from the middle of the weld plane [mm].
    """

    value: Array
    form: Index
    parts: Array
    place: Array


@frozen(kw_only=True, eq=False)
class Top:
    """A maximum a row of some list: height (n,), parts and place (n, 3)."""

    height: Array
    parts: Array
    place: Array


def peaks(line: WeldLine, pull: Pull, groups: Sequence[Forms], rivals: int = 1) -> list[Peak]:
    """Worst form and place of each group.

    A convex form of what varies linearly is greatest at an end of a straight piece; along arcs and saddles
    it is sampled, and its best local maxima are refined to rounding. rivals: so many loads behind one
    another stand in contest: the others may be lower than they are where one of these is higher.
    """
    kept = [group.needed() for group in groups]
    few = [group.only(own) for group, own in zip(groups, kept, strict=True)]
    if is_circle(line) and all(_alike(group.forms) for group in few):
        found = [_on_circle(line, pull, group, rivals) for group in few]
    else:
        found = _by_blocks(line, pull, few, rivals)
    return [evolve(peak, form=own[peak.form]) for peak, own in zip(found, kept, strict=True)]


def _by_blocks(line: WeldLine, pull: Pull, groups: Sequence[Forms], rivals: int) -> list[Peak]:
    rows, most = line.length.size, max(group.forms.shape[1] for group in groups)
    step = max(1, BLOCK // (pull.direct.shape[1] * (3 + most) * line.places))
    blocks = []
    for at in range(0, rows, step):
        part = slice(at, at + step)
        some, own = Pull(direct=pull.direct[part], spin=pull.spin[part]), line.some(part)
        samples = sampled(own, some)
        blocks.append([_peak(own, some, group.some(part), samples, rivals) for group in groups])
    return [_joined([block[n] for block in blocks]) for n in range(len(groups))]


def _joined(blocks: list[Peak]) -> Peak:
    """Peaks of blocks of rows behind one another."""
    return Peak(
        value=np.concatenate([block.value for block in blocks]),
        form=np.concatenate([block.form for block in blocks]),
        parts=np.concatenate([block.parts for block in blocks]),
        place=np.concatenate([block.place for block in blocks]),
    )


def _alike(forms: Array) -> bool:
    """Whether forms (designs or 1, forms, pieces or 1, 4) are the same on all pieces."""
    return forms.shape[2] == 1 or bool(np.all(forms == forms[:, :, :1]))


def _on_circle(line: WeldLine, pull: Pull, group: Forms, rivals: int) -> Peak:
    every = spread(group.forms[:, :, 0], (line.length.size, group.forms.shape[1], 4))
    scales = group.scales if group.scales.ndim == 3 else spread(group.scales, every.shape[:2])
    top = top_of_circle(line, pull, every, scales, rivals)
    value = group.stress(top.form, top.height)
    return Peak(value=np.sqrt(np.maximum(value, 0.0)), form=top.form, parts=top.parts, place=top.place)


def _peak(line: WeldLine, pull: Pull, group: Forms, samples: Samples, rivals: int) -> Peak:
    """The worst of each row and load: straight from the samples, or climbed to from some of them."""
    heights = samples.heights(group)
    dead = line.pieces.length()[:, samples.piece[: samples.straight]] <= 0.0
    if dead.any():
        heights[:, :, : samples.straight][np.repeat(dead[:, None], heights.shape[1], axis=1)] = -1.0
    highest = heights.max(axis=2)
    row, form, load = np.nonzero(contested(highest, LOW, rivals))
    column = heights[row, form, :, load]
    least = highest[row, form, load] * (1.0 - LOW)
    who, sample = _maxima(column, least, samples)
    row, form, load = row[who], form[who], load[who]
    top = _climbed(line, pull, group, samples, (row, form, load, sample))
    scale, _ = group.of(row, load, form)
    rows, loads = pull.direct.shape[:2]
    best = winners(row * loads + load, top.height * scale)
    worst, height = highest.argmax(axis=1), highest.max(axis=1)
    parts, place = np.zeros((rows, loads, 3)), np.zeros((rows, loads, 3))
    there = row[best], load[best]
    worst[there], height[there] = form[best], (top.height * scale)[best]
    parts[there], place[there] = top.parts[best], top.place[best]
    value = group.stress(worst, height)
    return Peak(value=np.sqrt(np.maximum(value, 0.0)), form=worst, parts=parts, place=place)


def _maxima(column: Array, least: Array, samples: Samples) -> tuple[Index, Index]:
    """Rows and places of the local maxima of columns (n, places) that are at or above `least` (n,)."""
    top = column >= least[:, None]
    top[least <= 0.0, 1:] = False  # nothing acts: one place is as good as any other
    bent = column[:, samples.straight :].reshape(column.shape[0], -1, samples.steps)
    higher = bent[..., 1:] - bent[..., :-1]
    own = top[:, samples.straight :].reshape(bent.shape)
    own[..., 1:] &= higher >= 0.0
    own[..., :-1] &= higher <= 0.0
    row, place = np.nonzero(top)
    return row, place


def _climbed(
    line: WeldLine, pull: Pull, group: Forms, samples: Samples, at: tuple[Index, Index, Index, Index]
) -> Top:
    """The maximum of a form at or next to a sample, for a list of rows, forms, loads and samples."""
    row, form, load, sample = at
    coefficients = group.coefficients(row, form, samples.piece[sample])
    parts = samples.local[row, :, sample, load]
    place = np.stack([each[row, sample] for each in samples.place], axis=-1)
    height = form_at(coefficients, *parts.T)
    some = np.flatnonzero(sample >= samples.straight)
    if not some.size:
        return Top(height=height, parts=parts, place=place)
    row, load, sample, form_there = row[some], load[some], sample[some], coefficients[some]
    chosen = line.pieces.chosen(row, samples.piece[sample])
    cylinder = None if line.cylinder is None else line.cylinder.some(row)
    pulled = line.centroid[row], pull.direct[row, load], pull.spin[row, load]

    def value(v: Array) -> Array:
        found = traced(cylinder, *chosen.at(line.spaced(v)))
        return form_at(form_there[:, None], *found.force(*pulled))

    v = climbed(value, samples.along(sample), samples.step)[:, None]
    there = traced(cylinder, *chosen.at(line.spaced(v)))
    force = there.force(*pulled)
    parts[some] = np.concatenate(force, axis=-1)
    place[some] = np.concatenate([there.x, there.y, there.z], axis=-1)
    height[some] = form_at(form_there[:, None], *force)[:, 0]
    return Top(height=height, parts=parts, place=place)
