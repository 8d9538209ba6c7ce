"""Local maxima of forms on stretches of a line, under the forces of many designs."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import rows_of
from strength.joints.bracket import BESIDE, NEAR, Bracket, summits
from strength.joints.stretches import Looks, heights, squares
from strength.joints.traced import traced
from strength.joints.weld_line import WeldLine
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class Found:
    """Local maxima (n,), each of a row, design, load, form and piece, and how far along it.

    height: value times weight; of those between places right to some 1e-9.
    """

    row: Index
    design: Index
    load: Index
    form: Index
    piece: Index
    along: Array
    height: Array


@frozen(kw_only=True, eq=False)
class Spots:
    """Samples (n,) by their numbers in `Looks`, ascending in this order."""

    look: Index
    node: Index
    design: Index

    def of(self, height: Array, inward: "Index | int" = 0) -> Array:
        """Heights (looks, places, designs) there, or so many places on."""
        return np.asarray(height[self.look, self.node + inward, self.design])


def maxima(line: WeldLine, looks: Looks, least: Array) -> Found:
    """Local maxima at or above `least` (looks, designs), climbed to where they are not at ends."""
    height, floor = looks.height, least[:, None]
    top = height >= floor
    rise = height[:, 1:] >= height[:, :-1]
    top[:, 1:] &= rise & (floor > 0.0)  # where nothing acts one place is as good as any other
    top[:, :-1] &= ~rise | (height[:, 1:] == height[:, :-1])
    look, node, design = np.nonzero(top)
    spots = Spots(look=look, node=node, design=design)
    value, where = spots.of(height), looks.along[look, node]
    some = np.flatnonzero(_rising(line, looks, spots) & (value > 0.0))
    for near in NEAR:
        if some.size:
            value[some], where[some], over = _climbed(line, looks, rows_of(spots, some), near)
            some = some[over]
    return Found(
        row=looks.row[look],
        design=design,
        load=looks.load[look],
        form=looks.form[look],
        piece=looks.piece[look],
        along=where,
        height=value,
    )


def _rising(line: WeldLine, looks: Looks, spots: Spots) -> Flags:
    """Whether a maximum may lie off its sample: but for ends from which the height falls."""
    last = looks.height.shape[1] - 1
    found = np.full(spots.node.size, last > 0)
    at = np.flatnonzero((spots.node == 0) | (spots.node == last)) if last > 0 else np.zeros(0, dtype=np.intp)
    if at.size:
        end = rows_of(spots, at)
        which, first = _distinct(end, last)
        step = 1.0 / last
        inside = np.where(first.node == 0, BESIDE * step, 1.0 - BESIDE * step)
        beside = _heights(line, looks, first.look, inside[:, None])[which, 0, end.design]
        found[at] = beside * _weight(looks, end) > end.of(looks.height)
    return found


def _climbed(line: WeldLine, looks: Looks, spots: Spots, near: float) -> tuple[Array, Array, Flags]:
    """Greatest height within so many steps of spots, where along the piece, and whether it may go on."""
    last = looks.height.shape[1] - 1
    which, first = _distinct(spots, last)
    bracket = Bracket.about(first.node / last, 1.0 / last, near)
    top, place = summits(_heights(line, looks, first.look, bracket.nodes)[which, :, spots.design])
    top *= _weight(looks, spots)
    return top, bracket.middle[which] + bracket.half[which] * place, bracket.beyond(place, which)


def _distinct(spots: Spots, last: int) -> tuple[Index, Spots]:
    """Of spots the number of their sample, each told once; and those samples."""
    new = np.diff(spots.look * (last + 1) + spots.node, prepend=-1) > 0
    return np.cumsum(new) - 1, rows_of(spots, np.flatnonzero(new))


def _heights(line: WeldLine, looks: Looks, look: Index, along: Array) -> Array:
    """Heights without weights of looks (n,) at places along (n, places): (n, places, designs)."""
    row, piece = looks.row[look], looks.piece[look]
    host = None if line.cylinder is None else line.cylinder.some(row)
    spot = traced(host, *line.pieces.chosen(row, piece).at(line.spaced(along, row)))
    matrix = spot.by_force(line.centroid[row]).transpose(0, 1, 3, 2)
    coefficients = looks.coefficients[look]
    return heights(coefficients, squares(matrix, looks.pull[look], mixed=coefficients.shape[1] > 3))


def _weight(looks: Looks, spots: Spots) -> Array:
    return np.asarray(looks.weight[spots.look, np.minimum(spots.design, looks.weight.shape[1] - 1)])
