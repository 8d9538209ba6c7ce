"""The layout of a frame and its response: the values that pass between the frame's stages.

Signs: body axes for points. Internal forces N, Vy, Vz, T, My, Mz at a station are what the part on
the `to` side exerts on the part on the `from` side, in member axes (right-hand rule); tension
positive.
"""

from collections.abc import Callable
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.arrays import others
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class Layout:
    """Geometry of all segments: a member is cut at its via points, a strut is one segment.

    Independent of sizes. `bar` indexes `Bars` (members, then struts).
    """

    points: Array  # (points, 3) mm
    names: tuple[str, ...]  # of points
    bar: Index  # (segments,)
    start: Index  # (segments,) point numbers
    end: Index
    along: Array  # (segments, 2) mm from the bar's `from` to the segment's ends
    axes: Array  # (segments, 3, 3): rows x_m, y_m, z_m in body axes
    length: Array  # (segments,)
    bar_length: Array  # (bars,) from to to
    first: Index  # (bars,) number of the bar's first segment; segments of a bar are consecutive
    last: Index  # (bars,)


@frozen(kw_only=True, eq=False)
class Alike:
    """Segments whose forces some designs share to the last bit.

    still: (segments,) these segments. first: (kinds,) of each kind of designs one. kind: (designs,) of which
    kind each design is.
    """

    still: Flags
    first: Index
    kind: Index

    def told_apart(self, own: Index) -> "Alike | None":
        """The same where some designs are each of their own kind; None where that leaves none alike."""
        rest = others(self.kind.size, own)
        if not rest.size or self.first.size > 1:
            return None
        kind = np.zeros(self.kind.size, dtype=np.intp)
        kind[own] = 1 + np.arange(own.size)
        return Alike(still=self.still, first=np.append(rest[:1], own), kind=kind)


@frozen(kw_only=True, eq=False)
class Response:
    """What the frame does under each load.

    displaced: works out `displacements`, which studies do not ask for.
    """

    displaced: Callable[[], Array]
    forces: Array  # (designs, loads, segments, 2, 6) internal forces at the segment's two ends
    reactions: Array  # (designs, loads, supports, 6) on the structure; 0 where not held
    alike: Alike | None = None  # None: not known

    @cached_property
    def displacements(self) -> Array:
        """Movements and turns of the points, (designs, loads, points, 6) mm, rad."""
        return self.displaced()

    def of_design(self, number: int) -> "Response":
        """The response of one design alone."""
        own = slice(number, number + 1)
        return Response(
            displaced=lambda: self.displacements[own],
            forces=self.forces[own],
            reactions=self.reactions[own],
        )

    def with_bending(self, factor: Array, *, over: bool = False) -> "Response":
        """The response with all bending moments multiplied by a factor (designs, loads).

        over: nobody looks at this response any more, so that its numbers may be taken over.
        """
        raised = np.flatnonzero(np.any(factor != 1.0, axis=1))
        if not raised.size:
            return self
        forces = self.forces if over else self.forces.copy(order="K")
        for design in raised.tolist():
            forces[design, ..., 4:] *= factor[design, :, None, None, None]
        alike = None if self.alike is None else self.alike.told_apart(raised)
        return evolve(self, forces=forces, alike=alike)


def joined(parts: list[Response]) -> Response:
    """Responses of some designs after those of others."""
    if len(parts) == 1:
        return parts[0]
    forces = [part.forces.transpose(2, 3, 4, 0, 1) for part in parts]  # designs and loads last in memory
    return Response(
        displaced=lambda: np.concatenate([part.displacements for part in parts]),
        forces=np.concatenate(forces, axis=3).transpose(3, 4, 0, 1, 2),
        reactions=np.concatenate([part.reactions for part in parts]),
    )


def at_places(layout: Layout, response: Response, bar: Index, place: Array, later: Index) -> Array:
    """Internal forces at places along bars, linear within each segment (loads act at points only).

    bar: (places,) bar numbers. place: (designs or 1, places) mm from `from`. later: (places,) 1
    where, at a via point, the side toward `to` is meant, 0 the side toward `from`.
    Returns (designs, loads, places, 6). Places beyond an end follow the last segment's line.
    """
    segment, share = find_places(layout, bar, place, later)
    if np.all(segment == segment[:1]):
        ends = response.forces[:, :, segment[0]]
    else:
        row = np.arange(segment.shape[0])[:, None]
        ends = response.forces.transpose(0, 2, 1, 3, 4)[row, segment].transpose(0, 2, 1, 3, 4)
    weight = share[:, None, :, None]
    return np.asarray((1.0 - weight) * ends[..., 0, :] + weight * ends[..., 1, :])


def find_places(layout: Layout, bar: Index, place: Array, later: Index) -> tuple[Index, Array]:
    """Segment and share of its length (0 start, 1 end) of places: (designs or 1, places) each.

    bar, place, later: as for `at_places`.
    """
    first, last = layout.first[bar], layout.last[bar]
    steps = int((last - first).max(initial=0)) + 1
    number = first[:, None] + np.arange(steps)
    cut = np.where(number <= last[:, None], layout.along[np.minimum(number, layout.bar.size - 1), 1], np.inf)
    slack = 1e-9 * layout.bar_length[bar] * np.where(later != 0, 1.0, -1.0)
    passed = np.count_nonzero(cut <= (place + slack)[..., None], axis=-1)
    segment = np.minimum(first + passed, last)
    start, end = layout.along[segment, 0], layout.along[segment, 1]
    return segment, np.asarray((place - start) / (end - start))
