"""Forms of several groups side by side, with what they count against others of their group."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.joints.contest import Contest
from strength.joints.forms import Forms
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@frozen(kw_only=True, eq=False)
class Weighed:
    """Forms that may govern their group, under loads of many designs behind one another.

    group, kept: (forms,) numbers of the groups, ascending, and of the forms in them. forms: (rows or 1,
    forms, pieces or 1, 4). scale: (rows or 1, designs or 1, loads or 1, forms). factor: of the contest
    (rows or 1, designs or 1, loads). low, high: least and greatest of the designs of both, brought to one
    size in each, (rows or 1, loads, forms).
    """

    group: Index
    kept: Index
    forms: Array
    scale: Array
    factor: Array
    low: Array
    high: Array

    @property
    def groups(self) -> int:
        """How many there are."""
        return int(self.group[-1]) + 1

    def weights(self, row: Index, load: Index, form: Index) -> Array:
        """Scales times factors of forms, each of a row and load (n,): (n, designs or 1)."""
        return self.scales(row, load, form) * self.factor[np.minimum(row, len(self.factor) - 1), :, load]

    def scales(self, row: Index, load: Index, form: Index) -> Array:
        """Scales of forms, each of a row and load (n,): (n, designs or 1)."""
        rows, _, loads, _ = self.scale.shape
        return np.asarray(self.scale[np.minimum(row, rows - 1), :, np.minimum(load, loads - 1), form])

    def scale_of(self, row: Index, design: Index, load: Index, form: Index) -> Array:
        """Scales of forms, each of a row, design and load (n,)."""
        rows, designs, loads, _ = self.scale.shape
        at = np.minimum(row, rows - 1), np.minimum(design, designs - 1), np.minimum(load, loads - 1)
        return np.asarray(self.scale[(*at, form)])

    def coefficients(self, row: Index, form: Index, piece: Index) -> Array:
        """Forms on pieces, each of a row: (n, 4), or (n, 3) where none has a mixed part."""
        rows, _, pieces, _ = self.forms.shape
        found = self.forms[np.minimum(row, rows - 1), form, np.minimum(piece, pieces - 1)]
        return np.asarray(found[:, : 4 if self.mixed else 3])

    @property
    def mixed(self) -> bool:
        """Whether any form has a mixed part."""
        return bool(self.forms[..., 3].any())


def weighed(groups: Sequence[Forms], contest: Contest, rows: int) -> Weighed:
    """Forms of lines alike in all designs, with their scales and the factors of the contest."""
    factor = contest.factor.reshape(len(contest.factor), -1, contest.rivals)
    least, most = factor.min(axis=1)[..., None], factor.max(axis=1)[..., None]
    parts: list[tuple[Index, Array, Array, Array, Array]] = []
    for group in groups:
        scale = _scale(group, contest.rivals, rows)
        low, high = _spread(scale)
        low, high = low * least, high * most
        kept = group.governing(low, high)
        parts.append((kept, group.shapes(kept), scale[..., kept], low[..., kept], high[..., kept]))
    every, forms, scales, lows, highs = zip(*parts, strict=True)
    return Weighed(
        group=np.repeat(np.arange(len(every)), [kept.size for kept in every]),
        kept=np.concatenate(every),
        forms=_beside(forms, 1),
        scale=_beside(scales, 3),
        factor=factor,
        low=_beside(lows, 2),
        high=_beside(highs, 2),
    )


def _scale(group: Forms, rivals: int, rows: int) -> Array:
    """Scales (rows or 1, designs or 1, loads or 1, forms)."""
    if group.scales.ndim == 2:
        return group.scales[:, None, None]
    if group.each == rivals:
        scale = group.scales[:, :, None]
    else:
        scale = group.by_load().scales.reshape(rows, -1, rivals, group.scales.shape[2])
    return scale[:, :1] if bool((scale == scale[:, :1]).all()) else scale


def _spread(scale: Array) -> tuple[Array, Array]:
    """Least and greatest in designs of scales (rows, designs, loads or 1, forms), the greatest 1 in each."""
    if scale.shape[1] == 1:
        return scale[:, 0], scale[:, 0]
    most = scale.max(axis=(2, 3), keepdims=True)
    even = scale / np.where(most > 0.0, most, 1.0)
    return even.min(axis=1), even.max(axis=1)


def _beside(arrays: Sequence[Array], axis: int) -> Array:
    """Arrays behind one another along an axis, those of 1 along others spread there."""
    shapes = [np.array(array.shape) for array in arrays]
    wide = np.max(shapes, axis=0)
    spread = []
    for array, shape in zip(arrays, shapes, strict=True):
        wide[axis] = shape[axis]
        spread.append(np.broadcast_to(array, tuple(wide)))
    return np.concatenate(spread, axis=axis)
