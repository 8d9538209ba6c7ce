"""Local maxima of forms on stretches of a line, under the forces of many designs."""

import numpy as np
from numpy.typing import NDArray

from strength.joints.bracket import NEAR, Bracket, rising, summits
from strength.joints.stretches import Heights, Looks, Stretches, squares
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
    """Samples (n,) by their numbers in `Heights`, ascending in this order."""

    task: Index
    form: Index
    node: Index
    design: Index

    def some(self, own: Index) -> "Spots":
        """Some of them."""
        return Spots(task=self.task[own], form=self.form[own], node=self.node[own], design=self.design[own])

    def of(self, height: Array, inward: "Index | int" = 0) -> Array:
        """Heights (tasks, most, places, designs) there, or so many places on."""
        return np.asarray(height[self.task, self.form, self.node + inward, self.design])


def maxima(line: WeldLine, seen: Heights, looks: Looks, part: Stretches, least: Array) -> Found:
    """Local maxima at or above `least` (rows, designs), climbed to where they are not at ends."""
    height = seen.height
    floor = least[seen.row][:, None, None]
    top = height >= floor
    top &= seen.valid[:, :, None, None]
    rise = height[:, :, 1:] >= height[:, :, :-1]
    top[:, :, 1:] &= rise & (floor > 0.0)  # where nothing acts one place is as good as any other
    top[:, :, :-1] &= ~rise | (height[:, :, 1:] == height[:, :, :-1])
    spots = Spots(**dict(zip(("task", "form", "node", "design"), np.nonzero(top), strict=True)))
    look = seen.task[spots.task]
    value, along = spots.of(height), part.along[looks.stretch[look], spots.node]
    some = np.flatnonzero(_rising(height, spots) & (value > 0.0))
    for near in NEAR:
        if some.size:
            value[some], along[some], over = _climbed(line, seen, looks, part, spots.some(some), near)
            some = some[over]
    return Found(
        row=seen.row[spots.task],
        design=spots.design,
        load=looks.load[look],
        form=seen.form[spots.task, spots.form],
        piece=part.piece[looks.stretch[look]],
        along=along,
        height=value,
    )


def _rising(height: Array, spots: Spots) -> Flags:
    """Whether a maximum may lie off its sample: but for ends from which the height surely falls."""
    last = height.shape[2] - 1
    found = np.full(spots.node.size, last > 0)
    if last > 0:
        at = np.flatnonzero((spots.node == 0) | (spots.node == last))
        end = spots.some(at)
        inward = np.where(end.node == 0, 1, -1)
        found[at] = rising(*(end.of(height, n * inward) for n in range(4)))
    return found


def _climbed(
    line: WeldLine, seen: Heights, looks: Looks, part: Stretches, spots: Spots, near: float
) -> tuple[Array, Array, Flags]:
    """Greatest height within so many steps of spots, where along the piece, and whether it may go on."""
    most, places = seen.height.shape[1:3]
    new = np.diff((spots.task * most + spots.form) * places + spots.node, prepend=-1) > 0
    which, first = np.cumsum(new) - 1, spots.some(np.flatnonzero(new))
    look = seen.task[first.task]
    bracket = Bracket.about(first.node / (places - 1), 1.0 / (places - 1), near)
    row, piece = looks.row[look], part.piece[looks.stretch[look]]
    host = None if line.cylinder is None else line.cylinder.some(row)
    spot = traced(host, *line.pieces.chosen(row, piece).at(line.spaced(bracket.nodes, row)))
    matrix = spot.by_force(line.centroid[row]).transpose(0, 1, 3, 2)
    square = squares(matrix, looks.pull[look], mixed=looks.square.shape[1] > 3)
    count, parts, each, designs = square.shape
    coefficients = seen.coefficients[first.task, first.form]
    value = (coefficients[:, None] @ square.reshape(count, parts, -1)).reshape(count, each, designs)
    top, place = summits(value[which, :, spots.design])
    top *= _weight(seen, spots)
    return top, bracket.middle[which] + bracket.half[which] * place, bracket.beyond(place, which)


def _weight(seen: Heights, spots: Spots) -> Array:
    """Weights of spots (n,)."""
    weight = seen.weight
    return np.asarray(weight[spots.task, spots.form, np.minimum(spots.design, weight.shape[2] - 1)])
