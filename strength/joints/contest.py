"""Which of many candidates may be the greatest of their kind, and which are."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

ALONE = np.ones(1)  # weight of a load that stands in no contest


def contested(least: Array, most: Array, weight: Array) -> Flags:
    """Where heights that lie between `least` and `most` (rows, forms, loads) may be the greatest.

    Loads stand in contest in sets of as many behind one another as there are weights, their squares'
    factors on heights; all forms of a set stand against each other.
    """
    rows, forms, loads = least.shape
    by = (weight**2).reshape(1, 1, 1, -1)
    known = (least.reshape(rows, forms, -1, weight.size) * by).max(axis=(1, 3), keepdims=True)
    found = most.reshape(rows, forms, -1, weight.size) * by >= known
    return np.asarray(found.reshape(rows, forms, loads))


def winners(cell: Index, height: Array) -> Index:
    """Numbers of the highest candidate of each cell; the last of equals.

    >>> winners(np.array([4, 4, 2, 4]), np.array([1.0, 3.0, 0.5, 2.0])).tolist()
    [2, 1]
    """
    order = np.lexsort((height, cell))
    last = np.ones(order.size, dtype=bool)
    last[:-1] = cell[order[1:]] != cell[order[:-1]]
    return order[last]
