"""Places of lines that are looked at as one, under the forces of many designs."""

import numpy as np
from numpy.typing import NDArray

from strength.joints.samples import Frames
from strength.joints.weighed import Weighed
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class Stretches:
    """Ends of straight pieces, each for itself, or the curved pieces.

    piece: (stretches,) number. along: (stretches, places). matrix: (rows, stretches, 3, places, 6), from the
    force and moment per length of a pull to q_x, q_s, q_n. places: where they stand among those of `Frames`.
    """

    piece: Index
    along: Array
    matrix: Array
    places: slice

    def open(self, flags: Flags) -> Flags:
        """Stretches any place of which is, (..., all places)."""
        own = flags[..., self.places]
        return np.asarray(own.reshape(*own.shape[:-1], *self.along.shape).any(axis=-1))


def stretches(frames: Frames) -> list[Stretches]:
    """The straight ends and the curved pieces, where there are any."""
    found = []
    for places, each in ((slice(0, frames.straight), 1), (slice(frames.straight, None), frames.steps)):
        piece = frames.piece[places]
        if piece.size:
            matrix = frames.matrix[..., places]
            own = matrix.reshape(*matrix.shape[:3], -1, each).transpose(0, 3, 1, 4, 2)
            along = frames.along[places].reshape(-1, each)
            found.append(Stretches(piece=piece[::each], along=along, matrix=own, places=places))
    return found


@frozen(kw_only=True, eq=False)
class Looks:
    """Forms of loads on stretches under the forces of many designs: (n,), by row, form, load and stretch.

    along: (n, places). pull: (n, 6, designs). coefficients: (n, 3 or 4). weight: (n, designs or 1). height:
    value times weight (n, places, designs).
    """

    row: Index
    form: Index
    load: Index
    piece: Index
    along: Array
    pull: Array
    coefficients: Array
    weight: Array
    height: Array


def looked(part: Stretches, open_: Flags, force: Array, own: Weighed, designs: slice) -> Looks:
    """What is open (rows, forms, loads, stretches) under pulls (rows, all designs, loads, 6)."""
    once = np.nonzero(open_.any(axis=1))
    number = np.zeros(open_[:, 0].shape, dtype=np.intp)
    number[once] = np.arange(once[0].size)
    row, form, load, stretch = np.nonzero(open_)
    which, piece = number[row, load, stretch], part.piece[stretch]
    pull = np.swapaxes(force[once[0], designs, once[1]], 1, 2)
    square = squares(part.matrix[once[0], once[2]], pull, mixed=own.mixed)
    coefficients, weight = own.coefficients(row, form, piece), own.weights(row, load, form)
    weight = weight if weight.shape[1] == 1 else weight[:, designs]
    height = heights(coefficients, square[which])
    height *= weight[:, None]
    return Looks(
        row=row,
        form=form,
        load=load,
        piece=piece,
        along=part.along[stretch],
        pull=pull[which],
        coefficients=coefficients,
        weight=weight,
        height=height,
    )


def squares(matrix: Array, pull: Array, *, mixed: bool) -> Array:
    """q_x^2, q_s^2, q_n^2 and where asked for q_x q_n: (n, 3 or 4, places, designs).

    By matrices (n, 3, places, 6) of pulls (n, 6, designs).
    """
    count, _, places, _ = matrix.shape
    local = (matrix.reshape(count, 3 * places, 6) @ pull).reshape(count, 3, places, -1)
    square = local * local
    return np.concatenate([square, local[:, :1] * local[:, 2:]], axis=1) if mixed else square


def heights(coefficients: Array, square: Array) -> Array:
    """Forms (n, parts) of squares (n, parts, places, designs): (n, places, designs)."""
    count, parts, places, designs = square.shape
    found: Array = coefficients[:, None] @ square.reshape(count, parts, -1)
    return found.reshape(count, places, designs)
