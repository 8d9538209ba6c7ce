"""The different values of an array, ascending.

As `np.unique`, which loads numpy's masked arrays to ask whether it was given one: 6 ms of a start.
"""

from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

Number = TypeVar("Number", bound=np.generic)


def distinct(values: NDArray[Number]) -> NDArray[Number]:
    """Each value of an array of any shape once, ascending (n,).

    >>> distinct(np.array([7, 2, 7, 5]))
    array([2, 5, 7])
    """
    ordered = np.sort(values, axis=None)
    new = np.ones(ordered.size, dtype=bool)
    new[1:] = ordered[1:] != ordered[:-1]
    return ordered[new]


def numbered(values: NDArray[Any]) -> tuple[NDArray[Any], NDArray[np.intp]]:
    """Each value once, ascending, and for every value its number among them, in the shape given."""
    found = distinct(values)
    return found, np.searchsorted(found, values)


def others(count: int, taken: NDArray[np.intp]) -> NDArray[np.intp]:
    """The numbers from 0 to count - 1 that are not taken, ascending; `np.setdiff1d` likewise.

    >>> others(5, np.array([3, -1, 0]))
    array([1, 2, 4])
    """
    return np.flatnonzero(~np.isin(np.arange(count), taken))
