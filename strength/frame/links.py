"""How each segment is joined at its ends, and by which freedoms it moves."""

from functools import cached_property
from operator import attrgetter

import numpy as np

from strength.case.model import Case
from strength.case.shape import Rigid
from strength.frame.modes import patterns, turn_axes, turn_back, turning, vectors
from strength.frame.response import Array, Flags, Index, Layout
from strength.sections.principal import principal_turns
from strength.values import evolve, frozen


@frozen(kw_only=True, eq=False)
class Links:
    """Segments with their freedoms; everything here is the same for all designs.

    Freedoms are scaled: a rotation counts as the movement [mm] of a point `reach` away, so every
    freedom is in mm and every force in N. A hinge end has a freedom of its own: how far the segment
    turns against the point. Freedoms of a segment: 6 at the start, 6 at the end, hinge at the start,
    hinge at the end (-1 where there is none).
    """

    reach: float
    points: int
    freedoms: int  # 6 a point, then one a hinge
    freedom: Index  # (segments, 14)
    pattern: Array  # (segments, 12, 8), see `patterns`
    vec: Array  # (segments, 8, 14), scaled
    hinge: Array  # (segments, 2, 3) axes, 0 where none
    ball: Flags  # (segments, 2)
    exact: Flags  # (segments,) undeformable: a rigid member, or a strut that holds its length
    stiffness: Array  # (segments,) N/mm of struts given by stiffness, else nan
    held: Flags  # (freedoms,) by supports

    @property
    def unit(self) -> Array:
        """What a freedom is multiplied by to be scaled: 1 or `reach` (freedoms,)."""
        out = np.full(self.freedoms, self.reach)
        out[: 6 * self.points].reshape(-1, 6)[:, :3] = 1.0
        return out

    @cached_property
    def rows(self) -> Array:
        """Deformation rows of all segments, each of size 1 or 0: (segments, 6, 14)."""
        vec = self.vec[:, :6]
        size = np.sqrt(np.einsum("smf,smf->sm", vec, vec))[:, :, None]
        return np.asarray(vec / np.where(size == 0.0, 1.0, size))

    @cached_property
    def weight(self) -> Array:
        """Stiffness that stands for deformation rows of size 1 (segments, 6); 0 of none, and where exact."""
        size = np.linalg.norm(self.vec[:, :6], axis=2)
        none = (size == 0.0) | self.exact[:, None]
        return np.asarray(np.where(none, 0.0, 1.0 / np.where(size == 0.0, 1.0, size) ** 2))

    @property
    def hinged(self) -> Flags:
        """Ends that have a hinge (segments, 2)."""
        return np.asarray(self.freedom[:, 12:] >= 0)


def link(case: Case, layout: Layout) -> Links:
    """Read ends, hinges and supports of the case."""
    segments = layout.bar.size
    ball = np.zeros((segments, 2), dtype=bool)
    hinge = np.zeros((segments, 2, 3))
    exact = np.zeros(segments, dtype=bool)
    stiffness = np.full(segments, np.nan)
    members = case.members
    shapes = [*map(attrgetter("shape"), members), *map(attrgetter("shape"), case.struts)]
    solid = np.zeros(len(members), dtype=bool)
    if Rigid in set(map(type, shapes)):
        solid[:] = [isinstance(shape, Rigid) for shape in shapes[: len(members)]]
    exact[: int(layout.last[len(members) - 1]) + 1 if members else 0] = np.repeat(
        solid, (layout.last - layout.first + 1)[: len(members)]
    )
    loose = (b for b, m in enumerate(members) if m.from_end != "fixed" or m.to_end != "fixed")
    for b in loose:
        member = members[b]
        for side, kind, at in ((0, member.from_end, layout.first[b]), (1, member.to_end, layout.last[b])):
            ball[at, side] = kind == "ball"
            if kind == "hinge" and member.hinge_axis is not None:
                axis = np.array(member.hinge_axis, dtype=float)
                hinge[at, side] = axis / np.linalg.norm(axis)
    for b, strut in enumerate(case.struts, start=len(members)):
        at = int(layout.first[b])
        ball[at] = True
        exact[at] = strut.shape is None and strut.stiffness is None
        if strut.stiffness is not None:
            stiffness[at] = strut.stiffness
    count = len(case.points)
    freedom = np.full((segments, 14), -1, dtype=np.intp)
    freedom[:, :6] = 6 * layout.start[:, None] + np.arange(6)
    freedom[:, 6:12] = 6 * layout.end[:, None] + np.arange(6)
    hinged = np.any(hinge != 0.0, axis=2)
    own_freedoms = 6 * count + np.arange(int(hinged.sum()))
    freedom[:, 12:][hinged] = own_freedoms
    reach = float(np.mean(layout.length)) if segments else 1.0
    pattern = patterns(layout.length, ball[:, 0], ball[:, 1])
    # A skew outline bends apart in its principal axes only, so the patterns stand in those.
    turn = principal_turns(shapes)[layout.bar]
    axes = turn_axes(layout.axes, turn) if np.any(turn) else layout.axes
    ends = vectors(axes, pattern)
    vec = np.zeros((segments, 8, 14))
    turned = np.flatnonzero(np.any(hinged, axis=1))
    for side in (0, 1):
        turn_by = np.einsum("smx,sx->sm", turning(ends[turned], side), hinge[turned, side])
        vec[turned, :, 12 + side] = turn_by / reach
    for side in (0, 1):
        about = turning(ends, side)
        about /= reach
    vec[:, :, :12] = ends
    held = np.zeros(6 * count + own_freedoms.size, dtype=bool)
    number = {point.name: n for n, point in enumerate(case.points)}
    for support in case.supports:
        at = 6 * number[support.at]
        held[at : at + 6] |= np.array(support.hold, dtype=bool)
    return Links(
        reach=reach,
        points=count,
        freedoms=held.size,
        freedom=freedom,
        pattern=_in_order(turn_back(pattern, turn) if np.any(turn) else pattern),
        vec=vec,
        hinge=hinge,
        ball=ball,
        exact=exact,
        stiffness=stiffness,
        held=held,
    )


def holding(case: Case, layout: Layout, links: Links) -> Links:
    """The same with struts given by stiffness that hold their length."""
    exact = links.exact.copy()
    exact[layout.first[len(case.members) :]] = [strut.shape is None for strut in case.struts]
    return evolve(links, exact=exact)


def _in_order(pattern: Array) -> Array:
    """Segment by segment, pattern by pattern in memory, as matrix products want them."""
    return np.ascontiguousarray(pattern.transpose(0, 2, 1)).transpose(0, 2, 1)
