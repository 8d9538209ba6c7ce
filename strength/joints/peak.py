"""The greatest value along a weld's line of quadratic forms of its force per length."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross, picked, spread
from strength.joints.circle import is_circle, top_of_circle
from strength.joints.forms import Forms
from strength.joints.traction import Pull
from strength.joints.weld_line import PER_PIECE, WeldLine
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

CANDIDATES = 3  # local maxima looked at more closely
STENCIL = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
BLOCK = 1 << 17  # samples looked at together: what the processor's cache holds
ZOOMS = (1.0, 0.25, 0.04)  # of the sampling step


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
class Samples:
    """Local q (3, designs, loads, pieces, n) at `grid` on pieces `own`; places (designs, pieces, n, 3)."""

    own: Index
    grid: Array
    local: Array
    place: Array


def peaks(line: WeldLine, pull: Pull, groups: Sequence[Forms]) -> list[Peak]:
    """Worst form and place of each group.

    A convex form of what varies linearly is greatest at an end of a straight piece; along arcs and saddles
    it is sampled, and its best local maxima are refined to rounding.
    """
    kept = [group.needed() for group in groups]
    found = _found(line, pull, [group.only(own) for group, own in zip(groups, kept, strict=True)])
    return [evolve(peak, form=own[peak.form]) for peak, own in zip(found, kept, strict=True)]


def _found(line: WeldLine, pull: Pull, groups: Sequence[Forms]) -> list[Peak]:
    if is_circle(line) and all(_alike(group.forms) for group in groups):
        return [_on_circle(line, pull, group) for group in groups]
    rows, most = line.length.size, max(group.forms.shape[1] for group in groups)
    step = max(1, BLOCK // (pull.direct.shape[1] * most * line.pieces.span.size * PER_PIECE))
    if step >= rows:
        return _of_block(line, pull, groups)
    found = []
    for at in range(0, rows, step):
        part = slice(at, at + step)
        some = Pull(direct=pull.direct[part], spin=pull.spin[part])
        found.append(_of_block(line.some(part), some, [group.some(part) for group in groups]))
    return [_joined([block[n] for block in found]) for n in range(len(groups))]


def _joined(blocks: list[Peak]) -> Peak:
    """Peaks of blocks of rows behind one another."""
    return Peak(
        value=np.concatenate([block.value for block in blocks]),
        form=np.concatenate([block.form for block in blocks]),
        parts=np.concatenate([block.parts for block in blocks]),
        place=np.concatenate([block.place for block in blocks]),
    )


def _of_block(line: WeldLine, pull: Pull, groups: Sequence[Forms]) -> list[Peak]:
    ends = np.flatnonzero(line.pieces.ends & ~line.curved)
    bent = np.flatnonzero(line.curved)
    steps = PER_PIECE if line.cylinder is None else 2 * PER_PIECE - 1
    straight = _sampled(line, pull, ends, np.array([0.0, 1.0])) if ends.size else None
    curved = _sampled(line, pull, bent, np.linspace(0.0, 1.0, steps)) if bent.size else None
    return [_peak(line, pull, group, straight, curved) for group in groups]


def _alike(forms: Array) -> bool:
    """Whether forms (designs or 1, forms, pieces or 1, 4) are the same on all pieces."""
    return forms.shape[2] == 1 or bool(np.all(forms == forms[:, :, :1]))


def _on_circle(line: WeldLine, pull: Pull, group: Forms) -> Peak:
    every = spread(group.forms[:, :, 0], (line.length.size, group.forms.shape[1], 4))
    scales = group.scales if group.scales.ndim == 3 else spread(group.scales, every.shape[:2])
    top = top_of_circle(line, pull, every, scales)
    value = _stress(group, top.form, top.height)
    return Peak(value=np.sqrt(np.maximum(value, 0.0)), form=top.form, parts=top.parts, place=top.place)


def _stress(group: Forms, form: Index, height: Array) -> Array:
    """Stress squared from a form's height over its limit."""
    scale, size = group.at(form)
    return height / np.where(scale > 0.0, scale, 1.0) * size


def _peak(line: WeldLine, pull: Pull, group: Forms, straight: Samples | None, curved: Samples | None) -> Peak:
    forms = group.forms
    whole = evolve(group, forms=spread(forms, (line.length.size, forms.shape[1], line.pieces.span.size, 4)))
    found = []
    if straight is not None:
        found.append(_on_straight(line, straight, whole))
    if curved is not None:
        found.append(_on_curved(line, pull, curved, whole))
    best, height = found[0]
    for other, higher in found[1:]:
        swap = higher > height
        height = np.where(swap, higher, height)
        best = Peak(
            value=np.where(swap, other.value, best.value),
            form=np.where(swap, other.form, best.form),
            parts=np.where(swap[..., None], other.parts, best.parts),
            place=np.where(swap[..., None], other.place, best.place),
        )
    return evolve(best, value=np.sqrt(np.maximum(best.value, 0.0)))


def form_at(coefficients: Array, x: Array, s: Array, n: Array) -> Array:
    """Value of forms (..., 4) of force per length q_x, q_s, q_n (...)."""
    found: Array = coefficients[..., 0] * (x * x)
    found += coefficients[..., 1] * (s * s)
    found += coefficients[..., 2] * (n * n)
    mixed = coefficients[..., 3]
    if mixed.any():
        found += mixed * (x * n)
    return found


def _sampled(line: WeldLine, pull: Pull, own: Index, grid: Array) -> Samples:
    place, frames = line.all_at(line.spaced(grid))
    place, frames = place[:, own], frames[:, own]
    arm = place - line.centroid[:, None, None]
    by_spin = cross(arm[..., None, :], frames)
    matrix = np.moveaxis(np.concatenate([frames, by_spin], axis=-1), 3, 1)
    matrix = matrix.reshape(place.shape[0], -1, 6)
    local = np.concatenate([pull.direct, pull.spin], axis=-1) @ np.swapaxes(matrix, 1, 2)
    local = np.moveaxis(local.reshape(*local.shape[:2], 3, own.size, grid.size), 2, 0)
    return Samples(own=own, grid=grid, local=local, place=place)


def _scaled(group: Forms, own: Index, local: Array) -> Array:
    """Scaled forms (designs, loads, forms, pieces, n) of samples (3, designs, loads, pieces, n)."""
    forms, scales = group.forms[:, :, own], group.scales
    if scales.ndim == 3:
        values = form_at(forms[:, None, :, :, None], *local[:, :, :, None])
        values *= scales[..., None, None]
        return values
    coefficients = (forms * scales[:, :, None, None])[:, None, :, :, None]
    return form_at(coefficients, *local[:, :, :, None])


def _on_straight(line: WeldLine, samples: Samples, group: Forms) -> tuple[Peak, Array]:
    own, local, place = samples.own, samples.local, samples.place
    values = _scaled(group, own, local)
    dead = line.pieces.length()[:, own] <= 0.0
    values = np.where(dead[:, None, None, :, None], -1.0, values).reshape(*values.shape[:2], -1)
    best = np.argmax(values, axis=-1)
    form, sample = np.divmod(best, 2 * own.size)
    height = picked(values, best)
    flat = local.reshape(*local.shape[:3], -1)
    parts = np.stack([picked(part, sample) for part in flat], axis=-1)
    rows = np.arange(place.shape[0])[:, None]
    return Peak(
        value=_stress(group, form, height),
        form=form,
        parts=parts,
        place=place.reshape(place.shape[0], -1, 3)[rows, sample],
    ), height


def _on_curved(line: WeldLine, pull: Pull, samples: Samples, group: Forms) -> tuple[Peak, Array]:
    own, grid, steps = samples.own, samples.grid, samples.grid.size
    values = _scaled(group, own, samples.local)
    higher = values[..., 1:] - values[..., :-1]
    tops = np.ones(values.shape, dtype=bool)
    tops[..., 1:] &= higher >= 0.0
    tops[..., :-1] &= higher <= 0.0
    values = np.where(tops, values, -np.inf).reshape(*values.shape[:2], -1)
    form, number = np.divmod(_highest(values), own.size * steps)
    piece, middle = own[number // steps], grid[number % steps]
    rows = np.arange(group.forms.shape[0]).reshape(-1, 1, 1)
    chosen = group.forms[rows, form, piece]
    value, parts, place = _refined(line, pull, chosen, piece, middle, float(grid[1]))
    scale, size = group.at(form)
    height = value * scale
    best = np.argmax(height, axis=-1)
    return Peak(
        value=picked(value * size, best),
        form=picked(form, best),
        parts=np.stack([picked(part, best) for part in parts], axis=-1),
        place=np.stack([picked(part, best) for part in place], axis=-1),
    ), picked(height, best)


def _highest(values: Array) -> Index:
    """Numbers of the highest along the last axis, which is overwritten: faster than argpartition."""
    found = []
    for _ in range(CANDIDATES):
        top = np.argmax(values, axis=-1)
        found.append(top)
        np.put_along_axis(values, top[..., None], -np.inf, axis=-1)
    return np.stack(found, axis=-1)


def _refined(
    line: WeldLine, pull: Pull, form: Array, piece: Index, middle: Array, step: float
) -> tuple[Array, list[Array], list[Array]]:
    """Forms, local q and places at the tops next to `middle` (designs, loads, tops) of chosen pieces."""
    for zoom in ZOOMS:
        by = zoom * step
        middle = np.clip(middle, by, 1.0 - by)
        value, _, _ = _value(line, pull, form, piece, line.spaced(middle[..., None] + by * STENCIL))
        top = np.argmax(value, axis=-1)
        inner = np.clip(top, 1, STENCIL.size - 2)
        low, mid, high = (picked(value, inner + n) for n in (-1, 0, 1))
        bend = low - 2.0 * mid + high
        peaked = (bend < 0.0) & (top == inner)
        shift = np.where(peaked, (low - high) / np.where(peaked, 2.0 * bend, 1.0), 0.0)
        middle = middle + by * (STENCIL[top] + shift * (STENCIL[1] - STENCIL[0]))
    value, parts, place = _value(line, pull, form, piece, line.spaced(middle[..., None]))
    return value[..., 0], [part[..., 0] for part in parts], [part[..., 0] for part in place]


def _value(
    line: WeldLine, pull: Pull, form: Array, piece: Index, u: Array
) -> tuple[Array, tuple[Array, ...], tuple[Array, ...]]:
    """Form, local q and place at u (designs, loads, tops, n) of chosen pieces.

    With t = sqrt(1 - sx^2): x = (e - sx s)/t and n = s cross x, so that q_x, q_s, q_n need no matrices.
    """
    place, (sx, sy, sz) = line.some_at(piece[..., None], u)
    shape = (-1, 1, 1, 1)
    ax, ay, az = (p - line.centroid[:, n].reshape(shape) for n, p in enumerate(place))
    wide = (*pull.spin.shape[:2], 1, 1)
    wx, wy, wz = (pull.spin[..., n].reshape(wide) for n in range(3))
    dx, dy, dz = (pull.direct[..., n].reshape(wide) for n in range(3))
    qx = dx + wy * az - wz * ay
    qy = dy + wz * ax - wx * az
    qz = dz + wx * ay - wy * ax
    in_section = qy * sy + qz * sz
    tall = np.sqrt(np.maximum(1.0 - sx * sx, 1e-30))
    parts = (
        qx * tall - sx * in_section / tall,
        qx * sx + in_section,
        (qy * sz - qz * sy) / tall,
    )
    return form_at(form[..., None, :], *parts), parts, place
