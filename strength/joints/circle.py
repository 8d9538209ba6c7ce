"""The greatest value on a circle of quadratic forms of the force per length, in closed form but for a root.

On a circle in a plane q_x, q_s and q_n are each a constant and one wave, so a quadratic form of them is a
constant and waves of one and two turns. Its maxima, two at most, are the roots of its derivative, found by
Newton's method from a grid close enough to tell them apart.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.joints.contest import ALONE, Contest, winners
from strength.joints.top import Top
from strength.joints.traction import Pull
from strength.joints.weld_line import WeldLine

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

GRID = 24  # places looked at first: the best of them is within 4 % of the waves' height of the true maximum
MISSED = 0.04
ROUNDING = 1e-9
STEPS = 5  # of Newton's method: from half a step of the grid to rounding
ANGLES = np.asarray(np.arange(GRID) * (2.0 * np.pi / GRID), dtype=np.float64)
WAVES = np.stack([np.ones(GRID), np.cos(ANGLES), np.sin(ANGLES), np.cos(2.0 * ANGLES), np.sin(2.0 * ANGLES)])


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
    greatest = _greatest(pull, line.pieces.radius[:, :1])
    return [_top(line, pull, greatest, forms, scales, contest) for forms, scales in groups]


def _greatest(pull: Pull, radius: Array) -> Array:
    """The greatest q_x^2, q_s^2 and q_n^2 round circles, and no less than q_x q_n: (rows, 4, loads)."""
    (a, dy, dz), (wx, wy, wz) = np.moveaxis(pull.direct, -1, 0), np.moveaxis(pull.spin, -1, 0)
    across = np.sqrt(dy * dy + dz * dz)
    x = np.abs(a) + radius * np.sqrt(wy * wy + wz * wz)
    s = np.abs(radius * wx) + across
    return np.stack([x * x, s * s, across * across, x * across], axis=1)


def _top(line: WeldLine, pull: Pull, greatest: Array, forms: Array, scales: Array, contest: Contest) -> Top:
    rows, loads = pull.direct.shape[:2]
    radius = line.pieces.radius[:, 0]
    by = np.swapaxes(scales, 1, 2) if scales.ndim == 3 else scales[..., None]
    low, high = _first_bounds(greatest, forms)
    low, high = low * by * (1.0 - ROUNDING), high * by  # so that no rounding shuts the greatest out
    row, form, load = np.nonzero(contest.open(low, high))
    scale = np.broadcast_to(by, low.shape)[row, form, load]
    squares = _squares(pull.direct[row, load].T, pull.spin[row, load].T, radius[row])
    waves = np.zeros((5, row.size))
    for part in range(4 if forms[..., 3].any() else 3):
        waves += (forms[row, form, part] * scale) * squares[part]
    at = row, form, load
    least, most = _bounds(waves)
    low[at] = np.maximum(low[at], least * (1.0 - ROUNDING))
    closer = np.full(high.shape, -1.0)
    closer[at] = most
    open_ = np.flatnonzero(contest.open(low, closer)[at])
    who, value, angle = _tops(waves[:, open_].T, least[open_])
    row, form, load = row[open_][who], form[open_][who], load[open_][who]
    best = winners(row * loads + load, value)
    height, worst, angles = low.max(axis=1), low.argmax(axis=1), np.zeros((rows, loads))
    there = row[best], load[best]
    height[there], angles[there], worst[there] = value[best], angle[best], form[best]

    def told() -> tuple[Array, Array]:
        return _parts(pull, radius[:, None], angles), _place(line, radius[:, None], angles)

    return Top(height=height, form=worst, there=told)


def _first_bounds(greatest: Array, forms: Array) -> tuple[Array, Array]:
    """What the maxima of forms (rows, forms, 4) lie between, from the greatest of each part alone."""
    mixed = bool(forms[..., 3].any())
    high = np.abs(forms[..., : 4 if mixed else 3]) @ greatest[:, : 4 if mixed else 3]
    low = np.zeros(high.shape)
    if not mixed:
        for part in range(3):
            np.maximum(low, forms[..., part, None] * greatest[:, None, part], out=low)
    return low, high


def _squares(direct: Array, spin: Array, r: Array) -> list[Array]:
    """q_x^2, q_s^2, q_n^2 and q_x q_n as waves of 1, cos, sin, cos 2, sin 2: four of (5, n).

    direct, spin: (3, n). r: radius (n,).
    """
    (a, dy, dz), (wx, wy, wz) = direct, spin
    b, e, t = -r * wz, r * wy, r * wx
    bb, ee, yy, zz, yz = b * b, e * e, dy * dy, dz * dz, dy * dz
    none = np.zeros(r.size)
    return [
        np.stack(waves)
        for waves in (
            (a * a + (bb + ee) / 2.0, 2.0 * a * b, 2.0 * a * e, (bb - ee) / 2.0, b * e),
            (t * t + (yy + zz) / 2.0, 2.0 * t * dz, -2.0 * t * dy, (zz - yy) / 2.0, -yz),
            ((yy + zz) / 2.0, none, none, (yy - zz) / 2.0, yz),
            ((b * dy + e * dz) / 2.0, a * dy, a * dz, (b * dy - e * dz) / 2.0, (b * dz + e * dy) / 2.0),
        )
    ]


def _tops(waves: Array, least: Array) -> tuple[Index, Array, Array]:
    """Local maxima of waves (n, 5): numbers of the waves, values and angles.

    Those that may be the greatest of their wave, which comes up to `least` (n,).
    """
    grid = waves @ WAVES
    least = np.maximum(least, grid.max(axis=1)) - MISSED * np.sqrt((waves[:, 1:] ** 2).sum(axis=1))
    top = (grid >= np.roll(grid, 1, axis=1)) & (grid >= np.roll(grid, -1, axis=1)) & (grid >= least[:, None])
    who, node = np.nonzero(top)
    value, angle = _climbed(waves[who], ANGLES[node])
    return who, value, angle


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
