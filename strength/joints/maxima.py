"""Local maxima of forms on stretches of a line, under the forces of many designs."""

import numpy as np
from numpy.typing import NDArray

from strength.joints.bracket import NEAR, Bracket, rising, summits
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

    @staticmethod
    def joined(parts: "list[Found]") -> "Found":
        """All of them."""
        names = ("row", "design", "load", "form", "piece", "along", "height")
        return Found(**{name: np.concatenate([getattr(part, name) for part in parts]) for name in names})

    def some(self, own: Index | Flags) -> "Found":
        """Some of them."""
        names = ("row", "design", "load", "form", "piece", "along", "height")
        return Found(**{name: getattr(self, name)[own] for name in names})


@frozen(kw_only=True, eq=False)
class Spots:
    """Samples (n,) by their numbers in `Looks`, ascending in this order."""

    look: Index
    node: Index
    design: Index

    def some(self, own: Index) -> "Spots":
        """Some of them."""
        return Spots(look=self.look[own], node=self.node[own], design=self.design[own])

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
    some = np.flatnonzero(_rising(height, spots) & (value > 0.0))
    for near in NEAR:
        if some.size:
            value[some], where[some], over = _climbed(line, looks, spots.some(some), near)
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


def _rising(height: Array, spots: Spots) -> Flags:
    """Whether a maximum may lie off its sample: but for ends from which the height surely falls."""
    last = height.shape[1] - 1
    found = np.full(spots.node.size, last > 0)
    if last > 0:
        at = np.flatnonzero((spots.node == 0) | (spots.node == last))
        end = spots.some(at)
        inward = np.where(end.node == 0, 1, -1)
        found[at] = rising(*(end.of(height, n * inward) for n in range(4)))
    return found


def _climbed(line: WeldLine, looks: Looks, spots: Spots, near: float) -> tuple[Array, Array, Flags]:
    """Greatest height within so many steps of spots, where along the piece, and whether it may go on."""
    last = looks.height.shape[1] - 1
    new = np.diff(spots.look * (last + 1) + spots.node, prepend=-1) > 0
    which, first = np.cumsum(new) - 1, spots.some(np.flatnonzero(new))
    bracket = Bracket.about(first.node / last, 1.0 / last, near)
    row, piece = looks.row[first.look], looks.piece[first.look]
    host = None if line.cylinder is None else line.cylinder.some(row)
    spot = traced(host, *line.pieces.chosen(row, piece).at(line.spaced(bracket.nodes, row)))
    matrix = spot.by_force(line.centroid[row]).transpose(0, 1, 3, 2)
    coefficients = looks.coefficients[first.look]
    square = squares(matrix, looks.pull[first.look], mixed=coefficients.shape[1] > 3)
    top, place = summits(heights(coefficients, square)[which, :, spots.design])
    top *= looks.weight[spots.look, np.minimum(spots.design, looks.weight.shape[1] - 1)]
    return top, bracket.middle[which] + bracket.half[which] * place, bracket.beyond(place, which)
