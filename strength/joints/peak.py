"""The greatest value along a weld's line of quadratic forms of its force per length."""

from collections.abc import Callable, Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.arrays import last_maxima
from strength.joints.alike import tops_alike
from strength.joints.bounds import LOW
from strength.joints.bracket import BESIDE, NEAR, Bracket, summits
from strength.joints.circle import is_circle, tops_of_alike_circles, tops_of_circle
from strength.joints.contest import ALONE, Contest, winners
from strength.joints.forms import Forms, form_at
from strength.joints.samples import Samples, framed
from strength.joints.shortlist import Shortlist, shortlisted
from strength.joints.traced import traced
from strength.joints.traction import Pull
from strength.joints.weld_line import WeldLine
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

BLOCK = 1 << 19  # numbers looked at together: what the processor's cache holds
FEW = 16  # rows of one design each, up to which they are looked at as of many designs


@frozen(kw_only=True, eq=False)
class Peak:
    """The worst of some forms and where it stands; (designs, loads).

    height: the form times its scale. form: its number in the group. there: works out parts and place.
    """

    group: Forms
    height: Array
    form: Index
    there: Callable[[], tuple[Array, Array]]

    @cached_property
    def use(self) -> Array:
        """Square root of the form over its limit."""
        return np.sqrt(self.height)

    @cached_property
    def value(self) -> Array:
        """Square root of the form."""
        return np.sqrt(self.group.stress(self.form, self.height))

    @cached_property
    def _there(self) -> tuple[Array, Array]:
        return self.there()

    @property
    def parts(self) -> Array:
        """Force per length q_x, q_s, q_n there [N/mm] (..., 3)."""
        return self._there[0]

    @property
    def place(self) -> Array:
        """Where it is, in member axes from the middle of the weld plane [mm] (..., 3)."""
        return self._there[1]


@frozen(kw_only=True, eq=False)
class Seen:
    """What samples tell: the greatest of each row and load, and where maxima may be.

    height, worst: (rows, loads) scaled height and form. row, form, load, piece, along: (n,) of each local
    maximum among the samples. step: of the samples along a curved piece.
    """

    height: Array
    worst: Index
    row: Index
    form: Index
    load: Index
    piece: Index
    along: Array
    step: float

    def placed(self, first: int, short: Shortlist | None, group: int) -> "Seen":
        """From a row on, and for all loads: what was seen of those that a short list leaves out."""
        if short is None:
            return evolve(self, row=self.row + first)
        height, worst = short.height[group], np.zeros(short.height[group].shape, dtype=np.intp)
        np.put_along_axis(height, short.number, self.height, axis=1)
        np.put_along_axis(worst, short.number, self.worst, axis=1)
        load = short.number[self.row, self.load]
        return evolve(self, row=self.row + first, load=load, height=height, worst=worst)

    @staticmethod
    def joined(parts: "list[Seen]") -> "Seen":
        """Rows behind one another."""
        if len(parts) == 1:
            return parts[0]
        names = ("height", "worst", "row", "form", "load", "piece", "along")
        return Seen(
            step=parts[0].step,
            **{name: np.concatenate([getattr(part, name) for part in parts]) for name in names},
        )


def peaks(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest = ALONE) -> list[Peak]:
    """Worst form and place of each group.

    A convex form of what varies linearly is greatest at an end of a straight piece; along arcs and saddles
    it is sampled, and its best local maxima are refined to rounding. contest: a load that cannot be the
    greatest of its rivals may be told lower than it is, and its place not at all.
    """
    rows, columns = pull.direct.shape[:2]
    many = contest.rivals > 1 and rows * contest.rivals <= FEW * columns
    if is_circle(line) and all(group.even for group in groups):
        tops = (tops_of_alike_circles if many else tops_of_circle)(line, pull, groups, contest)
    elif many:
        tops = tops_alike(line, pull, groups, contest)
    else:
        return _sampled(line, pull, groups, contest)
    return [
        Peak(group=group, height=top.height, form=top.form, there=top.there)
        for group, top in zip(groups, tops, strict=True)
    ]


def _sampled(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest) -> list[Peak]:
    groups = [group.by_load() for group in groups]
    kept = [group.needed() for group in groups]
    few = [group.only(own) for group, own in zip(groups, kept, strict=True)]
    found = [
        _peak(line, pull, group, own) for group, own in zip(few, _seen(line, pull, few, contest), strict=True)
    ]
    return [
        evolve(peak, form=own[peak.form], group=group)
        for peak, own, group in zip(found, kept, groups, strict=True)
    ]


def _seen(line: WeldLine, pull: Pull, groups: Sequence[Forms], contest: Contest) -> list[Seen]:
    """What samples of the line tell of each group, rows by rows."""
    rows, most = line.length.size, max(group.forms.shape[1] for group in groups)
    step = max(1, BLOCK // (pull.direct.shape[1] * (3 + most) * line.pieces.span.size * line.per_piece))
    blocks: list[list[Seen]] = [[] for _ in groups]
    for at in range(0, rows, step):
        part = slice(at, at + step)
        own, open_ = line.some(part), contest.some(part)
        forms = [group.some(part) for group in groups]
        frames = framed(own, line.per_piece)
        force = pull.both[part]
        short = None
        if contest.rivals > 1:
            short = shortlisted(frames, force, forms, open_)
        if short is not None:
            force, open_ = short.taken(force), short.contest(open_)
            forms = [short.forms(group) for group in forms]
        samples = frames.under(force)
        dead = own.pieces.length()[:, samples.piece[: samples.straight]] <= 0.0
        for n, group in enumerate(forms):
            found = _candidates(samples, samples.heights(group), dead, open_)
            blocks[n].append(found.placed(at, short, n))
    return [Seen.joined(seen) for seen in blocks]


def _candidates(samples: Samples, heights: Array, dead: Flags, contest: Contest) -> Seen:
    """The greatest samples, and the local maxima among them that may be above all others."""
    if dead.any():
        np.copyto(heights[..., : samples.straight], -1.0, where=dead[:, None, None])
    highest = last_maxima(heights)
    row, form, load = np.nonzero(contest.open(highest * (1.0 - LOW), highest))
    columns = heights[row, form, load]
    who, sample = samples.maxima(columns, highest[row, form, load] * (1.0 - LOW))
    return Seen(
        height=highest.max(axis=1),
        worst=highest.argmax(axis=1),
        row=row[who],
        form=form[who],
        load=load[who],
        piece=samples.piece[sample],
        along=samples.along[sample],
        step=samples.step,
    )


def _peak(line: WeldLine, pull: Pull, group: Forms, seen: Seen) -> Peak:
    """The worst of each row and load, climbed to from the candidates."""
    row, form, load, piece = seen.row, seen.form, seen.load, seen.piece
    own = group.coefficients(row, form, piece)[:, None]
    chosen = line.pieces.chosen(row, piece)
    cylinder = None if line.cylinder is None else line.cylinder.some(row)
    pulled = line.centroid[row], pull.direct[row, load], pull.spin[row, load]
    v = seen.along.copy()

    def value(v: Array, some: Index) -> Array:
        host = None if cylinder is None else cylinder.some(some)
        spot = traced(host, *chosen.some(some).at(line.spaced(v, row[some])))
        return form_at(own[some], *spot.force(*(each[some] for each in pulled)))

    some = np.flatnonzero(line.curved[piece])
    at_end = (v[some] == 0.0) | (v[some] == 1.0)
    if at_end.any():  # from most it falls
        end = some[at_end]
        inside = np.abs(v[end] - BESIDE * seen.step)
        both = value(np.stack([v[end], inside], axis=1), end)
        some = np.concatenate([some[~at_end], end[both[:, 0] < both[:, 1]]])
    for near in NEAR:
        if some.size:
            bracket = Bracket.about(seen.along[some], seen.step, near)
            _, top = summits(value(bracket.nodes, some))
            v[some] = bracket.middle + bracket.half * top
            some = some[bracket.beyond(top)]
    there = traced(cylinder, *chosen.at(line.spaced(v[:, None], row)))
    force = there.force(*pulled)
    scale, _ = group.of(row, load, form)
    height = form_at(own, *force)[:, 0] * scale
    best = winners(row * pull.direct.shape[1] + load, height)
    worst, highest = seen.worst, np.maximum(seen.height, 0.0)
    at = row[best], load[best]
    worst[at], highest[at] = form[best], height[best]

    def told() -> tuple[Array, Array]:
        parts, place = np.zeros((2, *pull.direct.shape))
        parts[at] = np.concatenate(force, axis=-1)[best]
        place[at] = np.concatenate([there.x, there.y, there.z], axis=-1)[best]
        return parts, place

    return Peak(group=group, height=highest, form=worst, there=told)
