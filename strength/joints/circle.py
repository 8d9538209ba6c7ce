"""The greatest value on a circle of quadratic forms of the force per length, in closed form but for a root.

On a circle in a plane q_x, q_s and q_n are each a constant and one wave, so a quadratic form of them is a
constant and waves of one and two turns, whose crest is known (`waves`).
"""

from collections.abc import Sequence
from functools import partial

import numpy as np
from numpy.typing import NDArray

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
        few = group.only(kept)
        by = np.swapaxes(few.scales, 1, 2) if few.scales.ndim == 3 else few.scales[..., None]
        low, high = _first_bounds(greatest, few.forms[:, :, 0])
        low, high = low * by * (1.0 - ROUNDING), high * by  # so that no rounding shuts the greatest out
        row, form, load = np.nonzero(contest.open(low, high))
        own = few.coefficients(row, form, np.zeros_like(row)) * few.of(row, load, form)[0][:, None]
        parts.append(Waved(group=np.full(row.size, n), row=row, load=load, form=kept[form], scaled=own))
        heights.append(low.max(axis=1))
        forms.append(kept[low.argmax(axis=1)])
    return _tops(line, pull, Waved.joined(parts), np.stack(heights), np.stack(forms))


def tops_of_alike_circles(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest) -> list[Top]:
    """The same for circles alike in many designs, whose loads stand behind one another.

    Forms and loads that govern in no design are left out first; loads that do not govern are told as 0.
    """
    rows, columns = pull.direct.shape[:2]
    force = np.concatenate([pull.direct, pull.spin], axis=-1).reshape(rows, -1, contest.rivals, 6)
    frames, own = framed(line, line.per_piece), weighed(groups, contest, rows)
    dead = np.zeros((rows, frames.piece.size), dtype=bool)
    flags = may_govern(frames, parts_between(frames, force), own, dead)
    row, form, load = np.nonzero(flags.any(axis=-1))
    designs = force.shape[1]
    design = np.tile(np.arange(designs), row.size)
    row, form, load = (np.repeat(each, designs) for each in (row, form, load))
    waved = Waved(
        group=own.group[form],
        row=row,
        load=design * contest.rivals + load,
        form=own.kept[form],
        scaled=own.coefficients(row, form, np.zeros_like(row)) * own.scales(row, design, load, form)[:, None],
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
    """Forms that may be the worst of their group, row and load, all (n,).

    scaled: their coefficients times their scales (n, 3 or 4).
    """

    group: Index
    row: Index
    load: Index
    form: Index
    scaled: Array

    @staticmethod
    def joined(parts: "list[Waved]") -> "Waved":
        """All of them."""
        names = ("group", "row", "load", "form", "scaled")
        return Waved(**{name: np.concatenate([getattr(part, name) for part in parts]) for name in names})


def _tops(line: WeldLine, pull: Pull, waved: Waved, height: Array, form: Index) -> list[Top]:
    """The best of each group, row and load; height, form: (groups, rows, loads) where there is none."""
    row, load = waved.row, waved.load
    radius = line.pieces.radius[:, 0]
    squares = _squares(pull.direct[row, load].T, pull.spin[row, load].T, radius[row])
    own = waved.scaled.T
    waves = own[0] * squares[0]
    for n in range(1, 4 if own[3:].any() else 3):
        waves += own[n] * squares[n]
    top = crest(waves)
    _, rows, loads = height.shape
    best = winners((waved.group * rows + row) * loads + load, top.value)
    at = waved.group[best], row[best], load[best]
    height[at], form[at] = np.maximum(top.value[best], 0.0), waved.form[best]

    def told(number: int) -> tuple[Array, Array]:
        mine = best[waved.group[best] == number]
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
