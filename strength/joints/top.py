"""The worst form and place of each row and load, as found."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Top:
    """The worst form and its place, (rows, loads).

    height: value times scale. form: its number. there: works out q_x, q_s, q_n and the place [mm], each
    (..., 3).
    """

    height: Array
    form: NDArray[np.intp]
    there: Callable[[], tuple[Array, Array]]
