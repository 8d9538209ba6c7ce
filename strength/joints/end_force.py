"""The force that a part hands over at one of its ends, in body axes."""

import numpy as np
from numpy.typing import NDArray

from strength.frame.response import Layout, Response
from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class EndForce:
    """Force and moment of a part on what holds its end, (designs, loads, 3) [N, N*mm], body axes.

    The moment is about the end's own point `at` [mm]. axes: rows x_m, y_m, z_m of the part there.
    into: +1 where the part runs from this end toward +x_m, -1 where toward -x_m.
    """

    bar: int
    at: Array
    axes: Array
    into: float
    length: float
    force: Array
    moment: Array


def end_force(layout: Layout, response: Response, bar: int, end: str) -> EndForce:
    """What bar number `bar` hands over at its end "from" or "to"; no load factor."""
    start = end == "from"
    segment = int(layout.first[bar] if start else layout.last[bar])
    inside = response.forces[:, :, segment, 0 if start else 1]
    axes = layout.axes[segment]
    # internal forces are those of the `to` side on the `from` side
    sign = 1.0 if start else -1.0
    return EndForce(
        bar=bar,
        at=layout.points[layout.start[segment] if start else layout.end[segment]],
        axes=axes,
        into=sign,
        length=float(layout.bar_length[bar]),
        force=sign * inside[..., :3] @ axes,
        moment=sign * inside[..., 3:] @ axes,
    )


def along_and_across(vector: Array, axis: Array) -> tuple[Array, Array]:
    """Parts of vectors (..., 3): signed along a unit axis (...), and the vector across it (..., 3)."""
    along = vector @ axis
    return along, vector - along[..., None] * axis


def size(vector: Array) -> Array:
    """Length of vectors (..., 3)."""
    found: Array = np.sqrt(np.einsum("...i,...i->...", vector, vector))
    return found
