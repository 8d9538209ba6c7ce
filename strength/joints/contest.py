"""Which of many candidates may be the greatest of their kind, and which are."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import last_maxima
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class Contest:
    """Loads that stand against each other, so many behind one another.

    factor: by what heights of loads count, (rows or 1, loads or rivals).
    """

    rivals: int = 1
    factor: Array

    def some(self, rows: slice) -> "Contest":
        """Of some rows."""
        return self if len(self.factor) == 1 else Contest(rivals=self.rivals, factor=self.factor[rows])

    def open(self, least: Array, most: Array) -> Flags:
        """Where heights that lie between `least` and `most` (rows, forms, loads) may be the greatest.

        All forms of a set of rivals stand against each other.
        """
        rows, forms, loads = least.shape
        by = self.factor.reshape(len(self.factor), 1, -1, self.rivals)
        known = last_maxima(least.reshape(rows, forms, -1, self.rivals) * by)
        known = known.max(axis=1)[:, None, :, None]
        found = most.reshape(rows, forms, -1, self.rivals) * by >= known
        return np.asarray(found.reshape(rows, forms, loads))


ALONE = Contest(factor=np.ones((1, 1)))  # every load for itself


def winners(cell: Index, height: Array) -> Index:
    """Numbers of the highest candidate of each cell, cells ascending; the last of equals.

    >>> winners(np.array([4, 4, 2, 4]), np.array([1.0, 3.0, 0.5, 2.0])).tolist()
    [2, 1]
    """
    greatest = np.full(int(cell.max(initial=-1)) + 1, -np.inf)
    np.maximum.at(greatest, cell, height)
    top = np.flatnonzero(height >= greatest[cell])
    number = np.full(greatest.size, -1, dtype=np.intp)
    number[cell[top]] = top
    return number[number >= 0]
