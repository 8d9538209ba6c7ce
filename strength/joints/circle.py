"""The greatest value on a circle of quadratic forms of the force per length, in closed form but for a root.

On a circle in a plane q_x, q_s and q_n are each a constant and one wave, so a quadratic form of them is a
constant and waves of one and two turns, whose crest is known (`waves`).
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.joints.bounds import may_govern, parts_between, weighed
from strength.joints.contest import ALONE, Contest, winners
from strength.joints.forms import Forms
from strength.joints.samples import framed
from strength.joints.top import Top
from strength.joints.traction import Pull
from strength.joints.waves import crest
from strength.joints.weld_line import WeldLine

Array = NDArray[np.float64]
Index = NDArray[np.intp]

LOW = 0.1  # of the greatest place looked at; a maximum is no further above it
ROUNDING = 1e-9


def is_circle(line: WeldLine) -> bool:
    """Whether a line is one whole circle in the plane of the section, run from y toward z, in all designs."""
    pieces = line.pieces
    if line.cylinder is not None or not pieces.curved.all() or not np.all(pieces.span > 0.0):
        return False
    around = abs(float(pieces.span.sum()) - 2.0 * np.pi) < 1e-9
    one = np.all(pieces.base == pieces.base[:, :1]) and np.all(pieces.radius == pieces.radius[:, :1])
    return bool(around and one)


def tops_of_circle(
    line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest = ALONE
) -> list[Top]:
    """The worst of each group of forms, the same on all pieces.

    contest: where a bound shows that a load is not the greatest of its rivals, its height is a lower bound.
    """
    greatest = _greatest(pull, line.pieces.radius[:, :1])
    found = []
    for group in (each.by_load() for each in groups):
        kept = group.needed()
        few = group.only(kept)
        by = np.swapaxes(few.scales, 1, 2) if few.scales.ndim == 3 else few.scales[..., None]
        low, high = _first_bounds(greatest, few.forms[:, :, 0])
        low, high = low * by * (1.0 - ROUNDING), high * by  # so that no rounding shuts the greatest out
        row, form, load = np.nonzero(contest.open(low, high))
        best = np.asarray(kept[low.argmax(axis=1)], dtype=np.intp)
        found.append(_top(line, pull, group, (row, kept[form], load), low.max(axis=1), best))
    return found


def tops_of_alike_circles(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest) -> list[Top]:
    """The same for circles alike in many designs, whose loads stand behind one another.

    Forms and loads that govern in no design are left out first; loads that do not govern are told as 0.
    """
    rows, columns = pull.direct.shape[:2]
    designs = columns // contest.rivals
    force = np.concatenate([pull.direct, pull.spin], axis=-1).reshape(rows, designs, contest.rivals, 6)
    frames = framed(line, line.per_piece)
    between, dead = parts_between(frames, force), np.zeros((rows, frames.piece.size), dtype=bool)
    none = np.zeros((rows, columns))
    found = []
    for group in groups:
        own = weighed(group, contest, rows)
        row, form, load = np.nonzero(may_govern(frames, between, own, LOW, dead).any(axis=-1))
        column = (load[:, None] + np.arange(designs) * contest.rivals).reshape(-1)
        at = np.repeat(row, designs), np.repeat(own.kept[form], designs), column
        found.append(_top(line, pull, group, at, none.copy(), np.zeros(none.shape, dtype=np.intp)))
    return found


def _greatest(pull: Pull, radius: Array) -> Array:
    """The greatest q_x^2, q_s^2 and q_n^2 round circles, and no less than q_x q_n: (rows, 4, loads)."""
    (a, dy, dz), (wx, wy, wz) = np.moveaxis(pull.direct, -1, 0), np.moveaxis(pull.spin, -1, 0)
    across = np.sqrt(dy * dy + dz * dz)
    x = np.abs(a) + radius * np.sqrt(wy * wy + wz * wz)
    s = np.abs(radius * wx) + across
    return np.stack([x * x, s * s, across * across, x * across], axis=1)


def _top(
    line: WeldLine, pull: Pull, group: Forms, at: tuple[Index, Index, Index], height: Array, worst: Index
) -> Top:
    """The best of forms of rows and loads `at`; height, worst: (rows, loads) where there is none."""
    row, form, load = at
    radius = line.pieces.radius[:, 0]
    scale, _ = group.of(row, load, form)
    squares = _squares(pull.direct[row, load].T, pull.spin[row, load].T, radius[row])
    own = group.coefficients(row, form, np.zeros_like(row)).T * scale
    waves = own[0] * squares[0]
    for part in range(1, 4 if own[3].any() else 3):
        waves += own[part] * squares[part]
    top = crest(waves)
    best = winners(row * pull.direct.shape[1] + load, top.value)
    there = row[best], load[best]
    height[there], worst[there] = np.maximum(top.value[best], 0.0), form[best]

    def told() -> tuple[Array, Array]:
        angles = np.zeros(height.shape)
        angles[there] = top.angle(best)
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
