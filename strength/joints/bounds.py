"""What may govern a line in any of many designs, from how far their forces lie apart.

Designs of one study differ little: at each place and under each load the forms of all of them lie between
two figures, and what is below the greatest of the lower ones governs in none.
"""

import numpy as np
from numpy.typing import NDArray

from strength.joints.contest import Contest
from strength.joints.forms import Forms
from strength.joints.samples import Frames, formed
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

ROUNDING = 1e-12


@frozen(kw_only=True, eq=False)
class Parts:
    """q_x^2, q_s^2, q_n^2 and q_x q_n of all designs lie between low and high, (rows, 4, loads, places)."""

    low: Array
    high: Array


@frozen(kw_only=True, eq=False)
class Weighed:
    """Forms that may govern, and by what their values count against those of other forms and loads.

    kept: numbers of the forms. forms: these alone (rows or 1, kept, pieces or 1, 4). scale: (rows or 1,
    designs or 1, loads or 1, kept). factor: of the contest (rows or 1, designs or 1, loads). low, high: least
    and greatest of the designs of both, brought to one size in each, (rows or 1, loads, kept).
    """

    kept: Index
    forms: Array
    scale: Array
    factor: Array
    low: Array
    high: Array

    def weight(self, row: Index, load: Index, form: Index) -> Array:
        """Scales times factors of forms (n, most), each of a row and load (n,): (n, most, designs or 1)."""
        rows, _, loads, _ = self.scale.shape
        at = np.minimum(row, rows - 1)[:, None], np.minimum(load, loads - 1)[:, None]
        found: Array = self.scale[at[0], :, at[1], form]
        return found * self.factor[np.minimum(row, len(self.factor) - 1), :, load][:, None]

    def some(self, designs: slice) -> "Weighed":
        """Some of the designs."""
        return evolve(
            self,
            scale=_of(self.scale, designs),
            factor=_of(self.factor, designs),
        )


def _of(values: Array, designs: slice) -> Array:
    return values if values.shape[1] == 1 else values[:, designs]


def weighed(group: Forms, contest: Contest, rows: int) -> Weighed:
    """Forms of lines alike in all designs, with their scales times the factors of the contest."""
    rivals, scales = contest.rivals, group.scales
    if scales.ndim == 2:
        scale = scales[:, None, None]
    elif group.each == rivals:
        scale = scales[:, :, None]
    else:
        scale = group.by_load().scales.reshape(rows, -1, rivals, scales.shape[2])
    if scale.shape[1] > 1 and bool((scale == scale[:, :1]).all()):
        scale = scale[:, :1]
    factor = contest.factor.reshape(len(contest.factor), -1, rivals)
    low, high = _spread(scale)
    low, high = low * factor.min(axis=1)[..., None], high * factor.max(axis=1)[..., None]
    kept = group.governing(low, high)
    return Weighed(
        kept=kept,
        forms=group.only(kept).forms,
        scale=scale[..., kept],
        factor=factor,
        low=low[..., kept],
        high=high[..., kept],
    )


def _spread(scale: Array) -> tuple[Array, Array]:
    """Least and greatest in designs of scales (rows, designs, loads or 1, forms), the greatest 1 in each."""
    if scale.shape[1] == 1:
        return scale[:, 0], scale[:, 0]
    most = scale.max(axis=(2, 3), keepdims=True)
    even = scale / np.where(most > 0.0, most, 1.0)
    return even.min(axis=1), even.max(axis=1)


def parts_between(frames: Frames, force: Array) -> Parts:
    """Of all designs' pulls (rows, designs, loads, 6), from the middle and half the width of each."""
    least, most = force.min(axis=1), force.max(axis=1)
    middle, wide = (most + least) / 2.0, (most - least) / 2.0
    wide += ROUNDING * np.maximum(most, -least)
    q, by = middle[:, None] @ frames.matrix, wide[:, None] @ np.abs(frames.matrix)
    size = np.abs(q)
    low, high = np.empty((2, q.shape[0], 4, *q.shape[2:]))
    low[:, :3], high[:, :3] = np.maximum(size - by, 0.0) ** 2, (size + by) ** 2
    mixed = q[:, 0] * q[:, 2]
    off = size[:, 0] * by[:, 2] + by[:, 0] * (size[:, 2] + by[:, 2])
    low[:, 3], high[:, 3] = mixed - off, mixed + off
    return Parts(low=low, high=high)


def may_govern(frames: Frames, parts: Parts, group: Weighed, margin: float, dead: Flags) -> Flags:
    """Where a form may be the greatest of its row in some design: (rows, kept forms, loads, places).

    margin: by how much of the greatest a maximum may be above the places beside it. dead: (rows, places)
    that do not count.
    """
    forms = group.forms
    mixed = np.minimum(forms[..., 3:], 0.0)
    some = slice(0, 4 if forms[..., 3].any() else 3)
    high = formed(np.maximum(forms, 0.0)[..., some], parts.high[:, some], frames.piece)
    low = formed(np.maximum(forms, 0.0)[..., some], parts.low[:, some], frames.piece)
    if mixed.any():
        high += formed(mixed, parts.low[:, 3:], frames.piece)
        low += formed(mixed, parts.high[:, 3:], frames.piece)
    high *= np.swapaxes(group.high, 1, 2)[..., None]
    low *= np.swapaxes(group.low, 1, 2)[..., None]
    if dead.any():
        alive = ~dead[:, None, None]
        high, low = np.where(alive, high, -1.0), np.where(alive, low, -1.0)
    known = (1.0 - margin) * low.max(axis=(1, 2, 3))
    return np.asarray((high > 0.0) & (high >= known[:, None, None, None]))
