"""The lines of a case's welds: drawn one by one, measured together where they are of one make-up."""

from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from strength.arrays import in_designs, settled, spread
from strength.case.model import Case
from strength.case.shape import Bar, Box, Tube
from strength.errors import CaseError
from strength.frame.response import Layout
from strength.joints.extent import extents
from strength.joints.outline import pattern, shortened
from strength.joints.pieces import Pieces, split_at
from strength.joints.pieces import stacked as stacked_pieces
from strength.joints.saddle import STEEP, WHOLE, Cylinder
from strength.joints.saddle import stacked as stacked_cylinders
from strength.joints.seat import Seat, seats
from strength.sections.bars import Bars
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Number = TypeVar("Number", bound=np.generic)
THROAT = float(1.0 / np.sqrt(2.0))  # of the leg: equal legs


class UndrawnError(CaseError):
    """Welds that cannot be drawn.

    designs: for each fault the designs (designs or 1,) that have it. drawn: of one weld its line in the
    others. lines: of all welds those of the designs without a fault. None: there are none.
    """

    def __init__(
        self,
        faults: Iterable[tuple[str, str]],
        designs: Iterable[NDArray[np.bool_]] = (),
        *,
        drawn: "Drawn | None" = None,
        lines: "Lines | None" = None,
    ) -> None:
        super().__init__(faults)
        self.designs = tuple(designs) or (np.ones(1, dtype=bool),) * len(self.faults)
        self.drawn, self.lines = drawn, lines

    def by_design(self, count: int) -> list[str]:
        """What each of so many designs is at fault in, as a message; empty: nothing."""
        masks = [spread(mask, (count,)) for mask in self.designs]
        return [
            str(CaseError([fault for fault, mask in zip(self.faults, masks, strict=True) if mask[design]]))
            for design in range(count)
        ]


class Sides(NamedTuple):
    """Sizes of all bars, each (designs,), or (1,) where it is the same in all designs [mm]."""

    depth: list[Array]
    width: list[Array]
    wall: list[Array]


@frozen(kw_only=True, eq=False)
class Drawn:
    """The line of one weld; reach: (designs or 1,) of a saddle, `Cylinder.reach`."""

    pieces: Pieces
    cylinder: Cylinder | None
    reach: Array

    def of_designs(self, own: NDArray[np.intp]) -> "Drawn":
        """That in some of the designs."""
        return Drawn(
            pieces=self.pieces.of_designs(own),
            cylinder=None if self.cylinder is None else self.cylinder.of_designs(own),
            reach=in_designs(self.reach, own),
        )


@frozen(kw_only=True, eq=False)
class Group:
    """Welds whose lines are of one make-up: rows are weld after weld, all designs each.

    reach: (rows,) of saddles, `Cylinder.reach`. alike: every line is the same in all designs, and there is
    one row a weld.
    """

    welds: tuple[int, ...]
    pieces: Pieces
    cylinder: Cylinder | None
    reach: Array
    designs: int
    alike: bool = False

    @property
    def each(self) -> int:
        """Rows of a weld."""
        return 1 if self.alike else self.designs

    def rows(self, values: Sequence[Array]) -> Array:
        """Values of all welds (each designs or 1, ...) as rows of a group that is not `alike`."""
        return np.concatenate([spread(values[n], (self.designs, *values[n].shape[1:])) for n in self.welds])

    def some(self, numbers: list[int]) -> "Group":
        """Some welds of a group that is `alike`."""
        return self._some(tuple(self.welds[k] for k in numbers), np.array(numbers, dtype=np.intp))

    def of_designs(self, own: NDArray[np.intp]) -> "Group":
        """All welds in some of the designs."""
        if self.alike:
            return evolve(self, designs=own.size)
        return evolve(self._some(self.welds, self.rows_in(own)), designs=own.size)

    def rows_in(self, own: NDArray[np.intp]) -> NDArray[np.intp]:
        """Numbers of the rows of some designs, of all where every line is the same."""
        if self.alike:
            return np.arange(len(self.welds))
        return (np.arange(len(self.welds))[:, None] * self.designs + own).reshape(-1)

    def _some(self, welds: tuple[int, ...], rows: NDArray[np.intp]) -> "Group":
        return evolve(
            self,
            welds=welds,
            pieces=self.pieces.some(rows),
            cylinder=None if self.cylinder is None else self.cylinder.some(rows),
            reach=self.reach[rows],
        )

    def own(self, number: int, values: NDArray[Number]) -> NDArray[Number]:
        """The rows of the group's weld `number` (designs or 1, ...)."""
        return values[self.rows_of(number)]

    def rows_of(self, number: int) -> slice:
        """Which rows are those of the group's weld `number`."""
        return slice(number * self.each, (number + 1) * self.each)


@frozen(kw_only=True, eq=False)
class Span:
    """How far each line of a group reaches (rows,) [mm].

    low, high: along the member, from the weld's plane. host_low, host_high: along the host, from its
    `from`.
    """

    low: Array
    high: Array
    host_low: Array
    host_high: Array

    def some(self, rows: "NDArray[np.intp] | list[int]") -> "Span":
        """Of some lines."""
        every = (self.low, self.high, self.host_low, self.host_high)
        low, high, host_low, host_high = (values[rows] for values in every)
        return Span(low=low, high=high, host_low=host_low, host_high=host_high)


@frozen(kw_only=True, eq=False)
class Lines:
    """Where all welds sit, and their whole lines, end craters included."""

    seats: tuple[Seat, ...]
    groups: tuple[Group, ...]

    def of_designs(self, own: NDArray[np.intp]) -> "Lines":
        """Those of some of the designs."""
        found = Lines(
            seats=tuple(seat.of_designs(own) for seat in self.seats),
            groups=tuple(group.of_designs(own) for group in self.groups),
        )
        if "spans" in vars(self):  # worked out already
            pairs = zip(self.groups, self.spans, strict=True)
            vars(found)["spans"] = tuple(span.some(group.rows_in(own)) for group, span in pairs)
        return found

    @cached_property
    def spans(self) -> tuple[Span, ...]:
        """How far the lines of each group reach."""
        return tuple(span(group, self.seats) for group in self.groups)


def span(group: Group, seats: tuple[Seat, ...]) -> Span:
    """How far the lines of a group reach.

    A line in a plane is carried along the member onto the host's face. 0 where there is no host.
    """
    along = np.zeros((len(group.welds), 2, 3))
    along[:, 0, 0] = 1.0
    at = np.zeros((len(group.welds), group.each))
    for k, n in enumerate(group.welds):
        host = seats[n].host
        if host is None:
            continue
        direction = host.axes[0]
        if host.face is not None and abs(host.face[0]) > 1e-6:
            direction = direction - direction[0] / host.face[0] * host.face
        along[k, 1] = direction
        at[k] = spread(host.at[: group.each], (group.each,))
    low, high = extents(group.pieces, group.cylinder, np.repeat(along, group.each, axis=0))
    shift = at.reshape(-1)
    return Span(low=low[:, 0], high=high[:, 0], host_low=low[:, 1] + shift, host_high=high[:, 1] + shift)


def weld_lines(case: Case, layout: Layout, bars: Bars) -> Lines:
    """Seats and lines of the welds of a case, in all designs of `bars`."""
    every = seats(case, layout, bars)
    return Lines(seats=every, groups=drawn(every, bars, cut=False, designs=bars.wall.shape[0]))


def drawn(seats: tuple[Seat, ...], bars: Bars, *, cut: bool, designs: int) -> tuple[Group, ...]:
    """Lines of all welds, in groups; where `cut`, free ends are cut back by a throat.

    Raises UndrawnError with every weld that has no such line on its section or misses its host.
    """
    faults: list[tuple[str, str]] = []
    where: list[NDArray[np.bool_]] = []
    lines: list[Drawn] = []
    sizes = Sides(depth=settled(bars.depth), width=settled(bars.width), wall=settled(bars.wall))
    outlines: dict[int, Pieces] = {}
    for seat in seats:
        try:
            lines.append(draw(seat, sizes, outlines, cut=cut))
        except UndrawnError as error:
            faults += error.faults
            where += error.designs
            lines += [] if error.drawn is None else [error.drawn]
    if not faults:
        return _grouped(seats, lines, designs)
    sound = np.flatnonzero(~np.any([spread(each, (designs,)) for each in where], axis=0))
    left = None
    if sound.size and len(lines) == len(seats):
        seats = tuple(seat.of_designs(sound) for seat in seats)
        left = Lines(
            seats=seats, groups=_grouped(seats, [one.of_designs(sound) for one in lines], sound.size)
        )
    raise UndrawnError(faults, where, lines=left)


def _grouped(seats: tuple[Seat, ...], lines: list[Drawn], designs: int) -> tuple[Group, ...]:
    """Lines of one make-up together."""
    kinds: dict[tuple[bytes, bytes, bool, bool, bool], list[tuple[int, Drawn]]] = {}
    for n, (seat, one) in enumerate(zip(seats, lines, strict=True)):
        same = designs > 1 and _same(seat, one)
        pieces = one.pieces
        steep = bool((one.reach > STEEP).any())  # they need a closer look, which others are spared
        key = (np.round(pieces.span, 9).tobytes(), pieces.ends.tobytes(), one.cylinder is None, same, steep)
        kinds.setdefault(key, []).append((n, one))
    found = []
    for key, members in kinds.items():
        hosts = tuple(one.cylinder for _, one in members if one.cylinder is not None)
        same = key[3]
        rows = 1 if same else designs
        found.append(
            Group(
                welds=tuple(n for n, _ in members),
                pieces=stacked_pieces(tuple(one.pieces for _, one in members), rows),
                cylinder=stacked_cylinders(hosts, rows) if hosts else None,
                reach=np.concatenate([spread(one.reach[:rows], (rows,)) for _, one in members]),
                designs=designs,
                alike=same,
            )
        )
    return tuple(found)


def _same(seat: Seat, one: Drawn) -> bool:
    """Whether a line, and its place on both parts, is the same in all designs."""
    pieces, cylinder = one.pieces, one.cylinder
    arrays = [pieces.base, pieces.delta, pieces.radius, pieces.first, seat.plane]
    if seat.host is not None:
        arrays.append(seat.host.at)
    if cylinder is not None:
        arrays += [cylinder.through, cylinder.direction, cylinder.radius]
    return all(array.shape[0] == 1 for array in arrays)


def _outline(seat: Seat, sizes: Sides) -> Pieces:
    bar = seat.bar
    wall = sizes.wall[bar] if isinstance(seat.shape, Box) else sizes.wall[bar][:1]  # rounds its corners
    own = [sizes.depth[bar], sizes.width[bar], wall]
    rows = max(map(len, own))
    return pattern(seat.weld, seat.shape, *(spread(each, (rows,)) for each in own))


def draw(seat: Seat, sizes: Sides, outlines: dict[int, Pieces], *, cut: bool) -> Drawn:
    """The line of one weld, its free ends cut back by a throat where `cut`.

    outlines: lines right round bars, as they become known: mostly a bar has two such welds.
    """
    weld = seat.weld
    pieces = outlines.get(seat.bar) if weld.pattern == "around" else None
    if pieces is None:
        pieces = _outline(seat, sizes)
        if weld.pattern == "around":
            outlines[seat.bar] = pieces
    if seat.host is not None and seat.host.round:
        return _saddle(seat, pieces, sizes.depth[seat.host.bar] / 2.0)
    if cut:
        pieces = shortened(pieces, seat.leg * THROAT)
    empty = np.asarray(pieces.length().sum(axis=1) <= 0.0)
    if empty.any():
        why = "a throat off each free end leaves no weld" if cut else "its lines have no length"
        raise UndrawnError([(weld.path or weld.name, f"{weld.name}: {why}; make the lines longer")], [empty])
    return Drawn(pieces=pieces, cylinder=None, reach=np.zeros(1))


def _saddle(seat: Seat, pieces: Pieces, radius: Array) -> Drawn:
    weld, host = seat.weld, seat.host
    where = weld.path or weld.name
    if host is None or weld.pattern != "around":
        why = (
            f"{weld.name}: only pattern around can sit on a round part such as {weld.onto}; "
            'give the weld pattern = "around" (that of a bracket by a [[change]])'
        )
        raise UndrawnError([(where, why)])
    cylinder = Cylinder(
        through=host.origin,
        direction=host.axes[:1],
        radius=radius,
        into=np.array([seat.into]),
    )
    if isinstance(seat.shape, Tube | Bar):
        pieces = evolve(pieces, first=np.broadcast_to(cylinder.turned, pieces.first.shape))
    else:
        pieces = split_at(pieces, cylinder.turned)
    one = Drawn(pieces=pieces, cylinder=cylinder, reach=cylinder.reach(pieces))
    misses = one.reach > WHOLE
    if misses.any():
        why = (
            f"{weld.name}: the outline of {weld.member} misses {weld.onto} in part; "
            f"take a thinner {weld.member}, or move its end onto the middle line of {weld.onto}"
        )
        raise UndrawnError([(where, why)], [misses], drawn=one)
    return one
