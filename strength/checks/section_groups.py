"""Stations whose sections have their stresses from one matrix."""

from collections.abc import Hashable, Iterator
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Shoulder
from strength.case.shape import Bar, Box, Flat, Shape, Tube
from strength.checks.places import Gaps
from strength.sections.box_stress import box_scale, unit_box
from strength.sections.flat_stress import unit_flat
from strength.sections.matrices import bore_ratio, stress_matrix
from strength.sections.net_stress import Gap, net_matrix
from strength.sections.net_unit import unit_net
from strength.sections.round_stress import round_bounds, round_matrix, round_scale, unit_round
from strength.sections.stress import StressMatrix
from strength.values import frozen

if TYPE_CHECKING:
    from strength.sections.bars import Bars

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

ROUND, BOX, NONE, OTHER = range(4)
KINDS: dict[type[Shape | None], int] = {Tube: ROUND, Bar: ROUND, Box: BOX, type(None): NONE}


@frozen(kw_only=True, eq=False)
class Group:
    """Stations `own` of one matrix; scale: (columns, stations or 1, 1, designs or 1)."""

    matrix: StressMatrix
    own: Index
    scale: Array

    def nominal(self, forces: Array) -> Array:
        """Nominal stresses (columns, stations, loads, designs) of forces (6, stations, loads, designs)."""
        found = forces[self.matrix.source[:, None], self.own]
        if self.scale.shape[-1] > found.shape[-1]:
            return np.asarray(found * self.scale)
        found *= self.scale
        return found

    def bounds(self, nominal: Array) -> tuple[Array, Array]:
        """Squares of what the worst von Mises lies between, twice (stations, loads, designs)."""
        if self.matrix is unit_round():
            return round_bounds(nominal)
        if not self.matrix.is_common:
            each = self.matrix.worst(
                nominal.transpose(3, 0, 1, 2).reshape(nominal.shape[3], len(nominal), -1)
            )
            square = np.square(each.T.reshape(nominal.shape[1:]))
            return square, square
        low, high = self.matrix.bounds(nominal.reshape(len(nominal), -1))
        return low.reshape(nominal.shape[1:]), high.reshape(nominal.shape[1:])

    def worst(self, nominal: Array, where: Index) -> Array:
        """Squares of the worst von Mises at some places (places,), numbers of the flat three axes."""
        found: Array = self.matrix.worst(nominal.reshape(1, len(nominal), -1)[..., where])[0]
        found *= found
        return found


def groups(
    case: Case,
    bars: "Bars",
    bar: Index,
    gaps: tuple[Gaps, ...],
    shoulder: Index,
    chosen: Flags | None = None,
) -> Iterator[Group]:
    """Stations that have a section: round ones together, boxes together, others of one size.

    chosen: (stations,) those to look at; all where left out.
    """
    kind = np.array([KINDS.get(type(shape), OTHER) for shape in bars.shapes])[bar]
    if chosen is not None:
        kind[~chosen] = NONE
    rounds, boxes, others = (np.flatnonzero(kind == number) for number in (ROUND, BOX, OTHER))
    if rounds.size:
        yield Group(
            matrix=unit_round(), own=rounds, scale=_round_scale(case, bars, bar[rounds], shoulder[rounds])
        )
    if boxes.size:
        yield Group(matrix=unit_box(), own=boxes, scale=_box_scale(bars, bar[boxes]))
    alike: dict[Hashable, list[int]] = {}
    for n in others.tolist():
        number = int(bar[n])
        sizes = (bars.depth[:, number].tobytes(), bars.width[:, number].tobytes())
        shape = sizes if isinstance(bars.shapes[number], Flat) else bars.shapes[number]
        alike.setdefault((gaps[n], shape), []).append(n)
    for own in alike.values():
        number, gap = int(bar[own[0]]), gaps[own[0]]
        scaled = None
        if isinstance(bars.shapes[number], Flat):
            depth, width = _told_once(bars.depth[:, number], bars.width[:, number])
            if not gap:
                scaled = unit_flat(depth, width)
            elif depth.size > 1:
                scaled = unit_net(depth, width, *_taken(case, gap, depth.size))
        if scaled is None:
            matrix = station_matrix(case, bars, number, gap, -1)
            if matrix is None:
                continue
            scaled = matrix, matrix.scale
        unit, scale = scaled
        yield Group(matrix=unit, own=np.array(own, dtype=np.intp), scale=scale.T[:, None, None])


def _round_scale(case: Case, bars: "Bars", bar: Index, shoulder: Index) -> Array:
    area, modulus, bore = bars.area[:, bar], bars.modulus_y[:, bar], bore_ratio(bars)[:, bar]
    for n in np.flatnonzero(shoulder >= 0).tolist():
        least = smaller_diameter(case.shoulders[shoulder[n]], bars.depth[:, bar[n]])
        area[:, n], modulus[:, n], bore[:, n] = np.pi / 4.0 * least**2, np.pi / 32.0 * least**3, 0.0
    return _by_station(round_scale(area, modulus, bore))


def _box_scale(bars: "Bars", bar: Index) -> Array:
    sizes = (bars.depth, bars.width, bars.wall, bars.area, bars.iy, bars.iz)
    return _by_station(box_scale(*(size[:, bar] for size in sizes)))


def _by_station(scale: Array) -> Array:
    """Scales (designs, stations, columns) as a group holds them."""
    return np.ascontiguousarray(scale.transpose(2, 1, 0))[:, :, None]


def station_matrix(case: Case, bars: "Bars", bar: int, gaps: Gaps, shoulder: int) -> StressMatrix | None:
    """Stress matrix of a bar at a station with these holes or this shoulder."""
    if shoulder >= 0:
        least = smaller_diameter(case.shoulders[shoulder], bars.depth[:, bar])
        return round_matrix(np.pi / 4.0 * least**2, np.pi / 32.0 * least**3, np.zeros_like(least))
    if gaps:
        depth, width = _told_once(bars.depth[:, bar], bars.width[:, bar])
        return net_matrix(depth, width, *_taken(case, gaps, depth.size))
    return stress_matrix(bars, bar)


def _taken(case: Case, gaps: Gaps, designs: int) -> tuple[list[Gap], list[Gap]]:
    """What holes take out of the width and out of the thickness of a flat (designs,)."""
    whole = np.ones(designs)
    sides: dict[str, list[Gap]] = {"thickness": [], "width": []}
    for n, breadth in gaps:
        hole = case.holes[n]
        sides[hole.across].append((hole.off_centre * whole, breadth * whole))
    return sides["thickness"], sides["width"]


def _told_once(*sizes: Array) -> tuple[Array, ...]:
    """Sizes (designs,) of the first design alone where all designs have the same."""
    alike = all(bool((size == size[0]).all()) for size in sizes)
    return tuple(size[:1] for size in sizes) if alike else sizes


def smaller_diameter(shoulder: Shoulder, diameter: Array) -> Array:
    """Diameter [mm] beside a shoulder: the lesser of the two, or the core where a thread is cut."""
    if shoulder.root is not None:
        from strength.library import thread

        return np.minimum(diameter, thread(shoulder.root).root)
    return np.minimum(diameter, shoulder.larger)
