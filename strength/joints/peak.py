"""The greatest value along a weld's line of quadratic forms of its force per length."""

import attrs
import numpy as np
from numpy.typing import NDArray

from strength.joints.traction import Pull
from strength.joints.weld_line import PER_PIECE, WeldLine

Array = NDArray[np.float64]
Index = NDArray[np.intp]

CANDIDATES = 3  # local maxima looked at more closely
STENCIL = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
ZOOMS = (1.0, 0.25, 0.06)  # of the sampling step


@attrs.frozen(kw_only=True, eq=False)
class Peak:
    """Where each form is greatest; (designs, loads, forms) and what stands there.

    value: square root of the form. parts: (..., 3) force per length q_x, q_s, q_n [N/mm]. place:
    (..., 3) in member axes from the middle of the weld plane [mm].
    """

    value: Array
    parts: Array
    place: Array


def peaks(line: WeldLine, pull: Pull, forms: Array) -> Peak:
    """Greatest of each form c_xx qx^2 + c_ss qs^2 + c_nn qn^2 + c_xn qx qn along the line.

    forms: (designs or 1, forms, pieces or 1, 4), each non-negative for every q. A convex form of
    what varies linearly is greatest at an end of a straight piece; along arcs and saddles it is
    sampled, and its best local maxima are refined to rounding.
    """
    count = line.pieces.span.size
    forms = np.broadcast_to(forms, (line.length.size, forms.shape[1], count, 4))
    dead = line.pieces.length() <= 0.0
    found = []
    ends = line.pieces.ends & ~line.curved
    if ends.any():
        found.append(_on_straight(line, pull, forms, np.flatnonzero(ends), dead))
    if line.curved.any():
        found.append(_on_curved(line, pull, forms, np.flatnonzero(line.curved)))
    best = found[0]
    for other in found[1:]:
        swap = other.value > best.value
        best = Peak(
            value=np.where(swap, other.value, best.value),
            parts=np.where(swap[..., None], other.parts, best.parts),
            place=np.where(swap[..., None], other.place, best.place),
        )
    return attrs.evolve(best, value=np.sqrt(np.maximum(best.value, 0.0)))


def form_at(coefficients: Array, q: Array) -> Array:
    """Value of forms (..., 4) of force per length (..., 3)."""
    x, s, n = q[..., 0], q[..., 1], q[..., 2]
    found: Array = (
        coefficients[..., 0] * x * x
        + coefficients[..., 1] * s * s
        + coefficients[..., 2] * n * n
        + coefficients[..., 3] * x * n
    )
    return found


def _sampled(line: WeldLine, pull: Pull, own: Index, u: Array) -> tuple[Array, Array]:
    """Local q (designs, loads, pieces, n, 3) and places (designs, pieces, n, 3) on some pieces."""
    place, frames = line.all_at(u)
    place, frames = place[:, own], frames[:, own]
    arm = place - line.centroid[:, None, None]
    by_spin = np.cross(arm[..., None, :], frames)
    matrix = np.concatenate([frames, by_spin], axis=-1).reshape(place.shape[0], -1, 6)
    local = np.concatenate([pull.direct, pull.spin], axis=-1) @ np.swapaxes(matrix, 1, 2)
    return local.reshape(*local.shape[:2], own.size, u.size, 3), place


def _on_straight(line: WeldLine, pull: Pull, forms: Array, own: Index, dead: NDArray[np.bool_]) -> Peak:
    local, place = _sampled(line, pull, own, np.array([0.0, 1.0]))
    designs, loads = local.shape[:2]
    values = form_at(forms[:, :, own][:, None, :, :, None], local[:, :, None])
    values = np.where(dead[:, own][:, None, None, :, None], -1.0, values).reshape(
        designs, loads, forms.shape[1], -1
    )
    best = np.argmax(values, axis=-1)
    flat = local.reshape(designs, loads, -1, 3)
    places = np.broadcast_to(place.reshape(place.shape[0], 1, -1, 3), flat.shape)
    return Peak(
        value=np.take_along_axis(values, best[..., None], axis=-1)[..., 0],
        parts=np.take_along_axis(flat, best[..., None], axis=2),
        place=np.take_along_axis(places, best[..., None], axis=2),
    )


def _on_curved(line: WeldLine, pull: Pull, forms: Array, own: Index) -> Peak:
    steps = PER_PIECE if line.cylinder is None else 2 * PER_PIECE - 1
    grid = np.linspace(0.0, 1.0, steps)
    local, _ = _sampled(line, pull, own, line.spaced(grid))
    number = np.stack([_tops(forms[:, c, own], local) for c in range(forms.shape[1])], axis=2)
    piece, middle = own[number // steps], grid[number % steps]
    rows = np.arange(forms.shape[0]).reshape(-1, 1, 1, 1)
    chosen = forms[rows, np.arange(forms.shape[1])[:, None], piece]
    shape = (*number.shape[:2], -1)
    value, parts, place = _refined(
        line,
        pull,
        chosen.reshape(*shape, 4),
        piece.reshape(shape),
        middle.reshape(shape),
        float(grid[1]),
    )
    value = value.reshape(number.shape)
    best = np.argmax(value, axis=-1)[..., None]
    wide = (*number.shape, 3)
    return Peak(
        value=np.take_along_axis(value, best, axis=-1)[..., 0],
        parts=np.take_along_axis(parts.reshape(wide), best[..., None], axis=3)[..., 0, :],
        place=np.take_along_axis(place.reshape(wide), best[..., None], axis=3)[..., 0, :],
    )


def _tops(form: Array, local: Array) -> Index:
    """Numbers of the highest samples that are no lower than their neighbours: (designs, loads, few)."""
    values = form_at(form[:, None, :, None], local)
    low = np.full_like(values[..., :1], -np.inf)
    before = np.concatenate([low, values[..., :-1]], axis=-1)
    after = np.concatenate([values[..., 1:], low], axis=-1)
    tops = np.where((values >= before) & (values >= after), values, -np.inf)
    tops = tops.reshape(*tops.shape[:2], -1)
    found: Index = np.argpartition(tops, -CANDIDATES, axis=-1)[..., -CANDIDATES:]
    return found


def _refined(
    line: WeldLine, pull: Pull, form: Array, piece: Index, middle: Array, step: float
) -> tuple[Array, Array, Array]:
    """Forms, local q and places at the tops next to `middle` (designs, loads, tops) of chosen pieces."""
    for zoom in ZOOMS:
        by = zoom * step
        middle = np.clip(middle, by, 1.0 - by)
        value, _, _ = _value(line, pull, form, piece, line.spaced(middle[..., None] + by * STENCIL))
        top = np.argmax(value, axis=-1)[..., None]
        inner = np.clip(top, 1, STENCIL.size - 2)
        low, mid, high = (np.take_along_axis(value, inner + n, axis=-1)[..., 0] for n in (-1, 0, 1))
        bend = low - 2.0 * mid + high
        peaked = (bend < 0.0) & (top == inner)[..., 0]
        shift = np.where(peaked, (low - high) / np.where(peaked, 2.0 * bend, 1.0), 0.0)
        middle = middle + by * (STENCIL[top[..., 0]] + shift * (STENCIL[1] - STENCIL[0]))
    value, parts, place = _value(line, pull, form, piece, line.spaced(middle[..., None]))
    return value[..., 0], parts[..., 0, :], place[..., 0, :]


def _value(line: WeldLine, pull: Pull, form: Array, piece: Index, u: Array) -> tuple[Array, Array, Array]:
    """Form, local q and place at u (designs, loads, candidates, n) of chosen pieces."""
    place, frames = line.some_at(np.broadcast_to(piece[..., None], u.shape), u)
    centroid = line.centroid.reshape(-1, 1, 1, 1, 3)
    q = pull.at(place - centroid)
    local = (frames @ q[..., None])[..., 0]
    return form_at(form[..., None, :], local), local, place
