"""Where along the bars stresses are looked at."""

import attrs
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@attrs.frozen(kw_only=True, eq=False)
class Stations:
    """Stations of all bars, those of one bar consecutive and in order along it.

    heated: True where the section has its welded strengths (a boundary counts as heated).
    """

    bar: NDArray[np.intp]  # (stations,)
    place: Array  # (designs, stations) mm from `from`
    later: NDArray[np.intp]  # (stations,) 1: the side toward `to` of a via point
    labels: tuple[str, ...]  # what a builder would call the place: "at hub", "12 mm from ball.left"
    heated: NDArray[np.bool_]  # (designs, stations)
    forces: Array  # (designs, loads, stations, 6) internal forces, without load factor
