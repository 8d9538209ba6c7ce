"""The greatest value on a circle of quadratic forms of the force per length, in closed form but for a root.

On a circle in a plane q_x, q_s and q_n are each a constant and one wave, so a quadratic form of them is a
constant and waves of one and two turns, whose crest is known (`waves`).
"""

from collections.abc import Sequence
from functools import partial

import numpy as np
from numpy.typing import NDArray

from strength.arrays import behind, few
from strength.joints.bounds import may_govern, parts_between
from strength.joints.contest import ALONE, Contest, winners
from strength.joints.forms import Forms
from strength.joints.samples import framed
from strength.joints.top import Top
from strength.joints.traction import Pull
from strength.joints.waves import crest
from strength.joints.weighed import weighed
from strength.joints.weld_line import WeldLine
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

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
    parts, heights, forms = [], [], []
    for n, group in enumerate(each.by_load() for each in groups):
        kept = group.needed()
        own = group.only(kept)
        by = np.swapaxes(own.scales, 1, 2) if own.scales.ndim == 3 else own.scales[..., None]
        low, high = _first_bounds(greatest, own.forms[:, :, 0])
        low, high = low * by * (1.0 - ROUNDING), high * by  # so that no rounding shuts the greatest out
        row, form, load = np.nonzero(contest.open(low, high))
        parts.append(
            Waved(
                group=np.full(row.size, n),
                row=row,
                load=load[:, None],
                form=kept[form],
                coefficients=own.coefficients(row, form, np.zeros_like(row)),
                scale=own.of(row, load, form)[0][:, None],
                pull=pull.both[row, load][:, None],
            )
        )
        heights.append(low.max(axis=1))
        forms.append(kept[low.argmax(axis=1)])
    return _tops(line, pull, behind(parts), np.stack(heights), np.stack(forms))


def tops_of_alike_circles(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest) -> list[Top]:
    """The same for circles alike in many designs, whose loads stand behind one another.

    Forms and loads that govern in no design are left out first; loads that do not govern are told as 0.
    """
    rows, columns = pull.direct.shape[:2]
    force = pull.both.reshape(rows, -1, contest.rivals, 6)
    frames, own = framed(line, line.per_piece), weighed(groups, contest, rows)
    dead = np.zeros((rows, frames.piece.size), dtype=bool)
    flags = may_govern(frames, parts_between(frames, force), own, dead)
    row, form, load = np.nonzero(flags.any(axis=-1))
    waved = Waved(
        group=own.group[form],
        row=row,
        load=load[:, None] + np.arange(force.shape[1]) * contest.rivals,
        form=own.kept[form],
        coefficients=own.coefficients(row, form, np.zeros_like(row)),
        scale=own.scales(row, load, form),
        pull=force[row, :, load],
    )
    shape = (own.groups, rows, columns)
    return _tops(line, pull, waved, np.zeros(shape), np.zeros(shape, dtype=np.intp))


def _greatest(pull: Pull, radius: Array) -> Array:
    """The greatest q_x^2, q_s^2 and q_n^2 round circles, and no less than q_x q_n: (rows, 4, loads)."""
    (a, dy, dz), (wx, wy, wz) = np.moveaxis(pull.direct, -1, 0), np.moveaxis(pull.spin, -1, 0)
    across = np.sqrt(dy * dy + dz * dz)
    x = np.abs(a) + radius * np.sqrt(wy * wy + wz * wz)
    s = np.abs(radius * wx) + across
    return np.stack([x * x, s * s, across * across, x * across], axis=1)


@frozen(kw_only=True, eq=False)
class Waved:
    """Forms that may be the worst of their group and row under some loads, group, row and form (n,).

    load: (n, loads). coefficients: (n, 3 or 4). scale: (n, loads or 1). pull: (n, loads, 6), force and
    moment per length.
    """

    group: Index
    row: Index
    load: Index
    form: Index
    coefficients: Array
    scale: Array
    pull: Array


def _tops(line: WeldLine, pull: Pull, waved: Waved, height: Array, form: Index) -> list[Top]:
    """The best of each group, row and load; height, form: (groups, rows, loads) where there is none."""
    radius = line.pieces.radius[:, 0]
    top = behind(
        [
            crest(_waves(waved.coefficients[some], waved.pull[some], radius[waved.row[some], None]))
            for some in few(waved.load.shape[0], 2 * waved.load.shape[1]) or [slice(0)]
        ]
    )
    _, rows, loads = height.shape
    value, load = (top.value * waved.scale).reshape(-1), waved.load.reshape(-1)
    group, row, own = (np.repeat(each, waved.load.shape[1]) for each in (waved.group, waved.row, waved.form))
    best = winners((group * rows + row) * loads + load, value)
    at = group[best], row[best], load[best]
    height[at], form[at] = np.maximum(value[best], 0.0), own[best]

    def told(number: int) -> tuple[Array, Array]:
        mine = best[group[best] == number]
        angles = np.zeros((rows, loads))
        angles[row[mine], load[mine]] = top.angle(mine)
        return _parts(pull, radius[:, None], angles), _place(line, radius[:, None], angles)

    return [
        Top(height=np.maximum(height[n], 0.0), form=form[n], there=partial(told, n))
        for n in range(height.shape[0])
    ]


def _first_bounds(greatest: Array, forms: Array) -> tuple[Array, Array]:
    """What the maxima of forms (rows, forms, 4) lie between, from the greatest of each part alone."""
    mixed = bool(forms[..., 3].any())
    high = np.abs(forms[..., : 4 if mixed else 3]) @ greatest[:, : 4 if mixed else 3]
    low = np.zeros(high.shape)
    if not mixed:
        for part in range(3):
            np.maximum(low, forms[..., part, None] * greatest[:, None, part], out=low)
    return low, high


def _waves(coefficients: Array, pull: Array, r: Array) -> Array:
    """Forms (n, 3 or 4) as waves of 1, cos, sin, cos 2, sin 2: (5, n, loads).

    With the angle, q_x is a + b cos + e sin, q_s is t + dz cos - dy sin and q_n is dy cos + dz sin.
    pull: (n, loads, 6). r: radius (n, 1).
    """
    a, dy, dz, wx, wy, wz = np.ascontiguousarray(np.moveaxis(pull, 2, 0))
    b, e, t = -r * wz, r * wy, r * wx
    x, s, n = coefficients.T[:3, :, None]
    bb, ee, yy, zz = b * b, e * e, dy * dy, dz * dz
    found = np.empty((5, *a.shape))
    found[0] = x * (a * a + 0.5 * (bb + ee)) + s * (t * t) + 0.5 * (s + n) * (yy + zz)
    found[1] = 2.0 * (x * (a * b) + s * (t * dz))
    found[2] = 2.0 * (x * (a * e) - s * (t * dy))
    found[3] = 0.5 * (x * (bb - ee) + (n - s) * (yy - zz))
    found[4] = x * (b * e) + (n - s) * (dy * dz)
    if coefficients.shape[1] > 3:
        both = coefficients.T[3, :, None]
        found[0] += both * (0.5 * (b * dy + e * dz))
        found[1] += both * (a * dy)
        found[2] += both * (a * dz)
        found[3] += both * (0.5 * (b * dy - e * dz))
        found[4] += both * (0.5 * (b * dz + e * dy))
    return found


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
