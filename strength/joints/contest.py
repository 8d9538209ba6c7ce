"""Which of many candidates may be the greatest of their kind, and which are."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


def contested(height: Array, low: float, rivals: int) -> Flags:
    """Where heights (rows, forms, loads) come within `low` of the greatest of all forms of their rivals.

    rivals: loads behind one another that stand against each other.
    """
    rows, _, loads = height.shape
    best = height.max(axis=1).reshape(rows, -1, rivals).max(axis=-1, keepdims=True)
    least = np.repeat(best * (1.0 - low), rivals, axis=-1).reshape(rows, 1, loads)
    return np.asarray(height >= least)


def winners(cell: Index, height: Array) -> Index:
    """Numbers of the highest candidate of each cell; the last of equals.

    >>> winners(np.array([4, 4, 2, 4]), np.array([1.0, 3.0, 0.5, 2.0])).tolist()
    [2, 1]
    """
    order = np.lexsort((height, cell))
    last = np.ones(order.size, dtype=bool)
    last[:-1] = cell[order[1:]] != cell[order[:-1]]
    return order[last]
