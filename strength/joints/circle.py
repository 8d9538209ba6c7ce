"""The greatest value on a circle of quadratic forms of the force per length, in closed form but for a root.

On a circle in a plane q_x, q_s and q_n are each a constant and one wave, so a quadratic form of them is a
constant and waves of one and two turns. Its maxima, two at most, are the roots of its derivative, found by
Newton's method from a grid close enough to tell them apart.
"""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from strength.joints.contest import ALONE, Contest, winners
from strength.joints.traction import Pull
from strength.joints.weld_line import WeldLine
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

GRID = 24  # places looked at first: the best of them is within 4 % of the waves' height of the true maximum
MISSED = 0.04
ROUNDING = 1e-9
STEPS = 5  # of Newton's method: from half a step of the grid to rounding
BLOCK = 1 << 15  # forms at a time: what the processor's cache holds
ANGLES = np.asarray(np.arange(GRID) * (2.0 * np.pi / GRID), dtype=np.float64)
WAVES = np.stack([np.ones(GRID), np.cos(ANGLES), np.sin(ANGLES), np.cos(2.0 * ANGLES), np.sin(2.0 * ANGLES)])


@frozen(kw_only=True, eq=False)
class Top:
    """The worst form and its place on each circle, (rows, loads).

    height: value times scale. there: works out q_x, q_s, q_n and the place [mm], each (..., 3).
    """

    height: Array
    form: Index
    there: Callable[[], tuple[Array, Array]]


def is_circle(line: WeldLine) -> bool:
    """Whether a line is one whole circle in the plane of the section, run from y toward z, in all designs."""
    pieces = line.pieces
    if line.cylinder is not None or not pieces.curved.all() or not np.all(pieces.span > 0.0):
        return False
    around = abs(float(pieces.span.sum()) - 2.0 * np.pi) < 1e-9
    one = np.all(pieces.base == pieces.base[:, :1]) and np.all(pieces.radius == pieces.radius[:, :1])
    return bool(around and one)


def tops_of_circle(
    line: WeldLine, pull: Pull, groups: Sequence[tuple[Array, Array]], contest: Contest = ALONE
) -> list[Top]:
    """The worst of each group of forms (rows, forms, 4) times scales (rows, forms) or (rows, loads, forms).

    contest: where a bound shows that a load is not the greatest of its rivals, its height is a lower bound.
    """
    parts = 4 if any(forms[..., 3].any() for forms, _ in groups) else 3
    squares = _squares(pull, line.pieces.radius[:, 0], parts)
    return [_top(line, pull, squares, forms[..., :parts], scales, contest) for forms, scales in groups]


def _top(line: WeldLine, pull: Pull, squares: Array, forms: Array, scales: Array, contest: Contest) -> Top:
    rows, count, parts = forms.shape
    loads = pull.direct.shape[1]
    radius = line.pieces.radius[:, 0]
    height, angle = (np.empty((rows, loads)) for _ in range(2))
    form = np.zeros((rows, loads), dtype=np.intp)
    by_load = scales.ndim == 3
    scaled = forms if by_load else forms * scales[..., None]
    step = max(1, BLOCK // (loads * count))
    for at in range(0, rows, step):
        part = slice(at, at + step)
        waves = scaled[part] @ squares[part].reshape(-1, parts, 5 * loads)
        waves = np.moveaxis(waves.reshape(-1, count, 5, loads), 2, 0)
        if by_load:
            waves = waves * np.swapaxes(scales[part], 1, 2)
        height[part], angle[part], form[part] = _tops(waves, contest.some(part))

    def there() -> tuple[Array, Array]:
        return _parts(pull, radius[:, None], angle), _place(line, radius[:, None], angle)

    return Top(height=height, form=form, there=there)


def _squares(pull: Pull, radius: Array, parts: int) -> Array:
    """q_x^2, q_s^2, q_n^2 and q_x q_n as waves: (rows, 3 or 4, 5, loads) of 1, cos, sin, cos 2, sin 2."""
    (a, dy, dz), (wx, wy, wz) = np.moveaxis(pull.direct, -1, 0), np.moveaxis(pull.spin, -1, 0)
    r = radius[:, None]
    b, e, t = -r * wz, r * wy, r * wx
    out = np.empty((a.shape[0], parts, 5, a.shape[1]))
    bb, ee, yy, zz, yz = b * b, e * e, dy * dy, dz * dz, dy * dz
    for n, waves in enumerate(
        (
            (a * a + (bb + ee) / 2.0, 2.0 * a * b, 2.0 * a * e, (bb - ee) / 2.0, b * e),
            (t * t + (yy + zz) / 2.0, 2.0 * t * dz, -2.0 * t * dy, (zz - yy) / 2.0, -yz),
            ((yy + zz) / 2.0, 0.0, 0.0, (yy - zz) / 2.0, yz),
            ((b * dy + e * dz) / 2.0, a * dy, a * dz, (b * dy - e * dz) / 2.0, (b * dz + e * dy) / 2.0),
        )[:parts]
    ):
        for k, wave in enumerate(waves):
            out[:, n, k] = wave
    return out


def _tops(waves: Array, contest: Contest) -> tuple[Array, Array, Index]:
    """Greatest height, its angle and form (rows, loads) of waves (5, rows, forms, loads)."""
    rows, loads = waves.shape[1], waves.shape[3]
    low, high = _bounds(waves)
    row, form, load = np.nonzero(contest.open(low * (1.0 - ROUNDING), high))
    some = waves[:, row, form, load].T
    grid = some @ WAVES
    least = np.maximum(low[row, form, load], grid.max(axis=1))
    top = (grid >= np.roll(grid, 1, axis=1)) & (grid >= np.roll(grid, -1, axis=1))
    top &= grid >= (least - MISSED * np.sqrt((some[:, 1:] ** 2).sum(axis=1)))[:, None]
    who, node = np.nonzero(top)
    value, where = _climbed(some[who], ANGLES[node])
    row, form, load = row[who], form[who], load[who]
    best = winners(row * loads + load, value)
    height, worst = low.max(axis=1), low.argmax(axis=1)
    angle = np.zeros((rows, loads))
    there = row[best], load[best]
    height[there], angle[there], worst[there] = value[best], where[best], form[best]
    return height, angle, worst


def _bounds(waves: Array) -> tuple[Array, Array]:
    """What the maxima of waves (5, ...) lie between.

    The mean of two places half a turn apart has no first wave, so that the second alone is reached; and
    the value where the first wave is greatest is reached.
    """
    zero, c, s, c2, s2 = waves
    cc, ss = c * c, s * s
    square = cc + ss
    first, second = np.sqrt(square), np.sqrt(c2 * c2 + s2 * s2)
    there = c2 * (cc - ss)
    there += 2.0 * s2 * (c * s)
    there /= np.where(square > 0.0, square, 1.0)
    there += first
    return zero + np.maximum(second, there), zero + first + second


def _climbed(waves: Array, angle: Array) -> tuple[Array, Array]:
    """Value and angle (n,) of the maximum of waves (n, 5) near an angle (n,)."""
    zero, c, s, c2, s2 = waves.T
    for _ in range(STEPS):
        cos, sin = np.cos(angle), np.sin(angle)
        twice, both = cos * cos - sin * sin, 2.0 * sin * cos
        slope = s * cos - c * sin + 2.0 * (s2 * twice - c2 * both)
        bend = c * cos + s * sin + 4.0 * (c2 * twice + s2 * both)
        down = bend > 0.0
        angle = angle + np.where(down, np.clip(slope / np.where(down, bend, 1.0), -0.2, 0.2), 0.0)
    cos, sin = np.cos(angle), np.sin(angle)
    value = zero + c * cos + s * sin + c2 * (cos * cos - sin * sin) + 2.0 * s2 * sin * cos
    return value, angle


def _parts(pull: Pull, radius: Array, angle: Array) -> Array:
    cos, sin = np.cos(angle), np.sin(angle)
    (dx, dy, dz), (wx, wy, wz) = np.moveaxis(pull.direct, -1, 0), np.moveaxis(pull.spin, -1, 0)
    return np.stack(
        [
            dx + radius * (wy * sin - wz * cos),
            dz * cos - dy * sin + radius * wx,
            dy * cos + dz * sin,
        ],
        axis=-1,
    )


def _place(line: WeldLine, radius: Array, angle: Array) -> Array:
    centre = line.pieces.base[:, 0]
    y = centre[:, :1] + radius * np.cos(angle)
    z = centre[:, 1:] + radius * np.sin(angle)
    return np.stack([np.zeros_like(y), y, z], axis=-1)
