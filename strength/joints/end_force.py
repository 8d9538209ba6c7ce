"""The force that a part hands over at one of its ends, in body axes."""

from collections.abc import Sequence

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
    return end_forces(layout, response, [(bar, end)])[0]


def end_forces(layout: Layout, response: Response, ends: Sequence[tuple[int, str]]) -> list[EndForce]:
    """The same of many ends, all in one step."""
    if not ends:
        return []
    bars = np.array([bar for bar, _ in ends], dtype=np.intp)
    starts = np.array([end == "from" for _, end in ends], dtype=bool)
    segment = np.where(starts, layout.first[bars], layout.last[bars])
    point = np.where(starts, layout.start[segment], layout.end[segment])
    inside = response.forces[:, :, segment, np.where(starts, 0, 1)]
    designs, loads, count, _ = inside.shape
    # internal forces are those of the `to` side on the `from` side
    sign = np.where(starts, 1.0, -1.0)
    axes = layout.axes[segment]
    turn = (axes * sign[:, None, None]).transpose(0, 2, 1)[:, None]
    body = turn @ inside.transpose(2, 3, 1, 0).reshape(count, 2, 3, -1)
    force, moment = body.reshape(count, 2, 3, loads, designs).transpose(1, 0, 4, 3, 2)
    return [
        EndForce(
            bar=int(bars[n]),
            at=layout.points[point[n]],
            axes=axes[n],
            into=float(sign[n]),
            length=float(layout.bar_length[bars[n]]),
            force=force[n],
            moment=moment[n],
        )
        for n in range(count)
    ]


def resolved(vectors: Sequence[Array], axes: Sequence[Array]) -> tuple[Array, Array]:
    """Sizes of the parts of vectors (designs, loads, 3) along unit axes (3,) and across them.

    Of each vector: two arrays (vectors, loads, designs).
    """
    own = np.stack([vector.transpose(2, 1, 0) for vector in vectors])
    axis = np.stack(axes)[:, :, None, None]
    along = (own * axis).sum(axis=1)
    own -= along[:, None] * axis
    own *= own
    return np.abs(along), np.sqrt(own.sum(axis=1))


def along_and_across(vector: Array, axis: Array) -> tuple[Array, Array]:
    """Parts of vectors (..., 3): signed along a unit axis (...), and the vector across it (..., 3)."""
    along = vector @ axis
    return along, vector - along[..., None] * axis


def size(vector: Array) -> Array:
    """Length of vectors (..., 3)."""
    found: Array = np.sqrt(np.einsum("...i,...i->...", vector, vector))
    return found
