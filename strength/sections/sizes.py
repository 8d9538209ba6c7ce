"""Sizes of all bars as arrays: depth, width and wall, whatever the shape."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Bar, Box, Flat, Shape, Tube
from strength.values import frozen

Array = NDArray[np.float64]
SIZED = (Tube, Bar, Box, Flat)


@frozen(kw_only=True, eq=False)
class Sizes:
    """Nominal sizes (designs, bars) [mm]; nan for bars of another kind.

    Tube: depth = width = outside diameter. Bar: all three the diameter. Flat: depth its width,
    width its thickness, wall the lesser.
    """

    depth: Array
    width: Array
    wall: Array


def dimensions(shape: Shape | None) -> tuple[float, float, float]:
    """Depth, width and wall of one shape [mm].

    >>> dimensions(Tube(25.0, 2.0))
    (25.0, 25.0, 2.0)
    """
    match shape:
        case Tube():
            return shape.od, shape.od, shape.wall
        case Bar():
            return shape.diameter, shape.diameter, shape.diameter
        case Box():
            return shape.depth, shape.width, shape.wall
        case Flat():
            return shape.width, shape.thickness, min(shape.width, shape.thickness)
        case _:
            return np.nan, np.nan, np.nan


def sizes_of(designs: Sequence[Sequence[Shape | None]]) -> Sizes:
    """Sizes of designs, each a sequence of shapes, one per bar."""
    known: dict[int, tuple[float, float, float]] = {}  # by number: most designs share most shapes
    rows = []
    for shapes in designs:
        for shape in shapes:
            if id(shape) not in known:
                known[id(shape)] = dimensions(shape)
        rows.append([known[id(shape)] for shape in shapes])
    found = np.array(rows, dtype=np.float64)
    found = found.reshape(len(designs), -1, 3)
    return Sizes(depth=found[..., 0], width=found[..., 1], wall=found[..., 2])
