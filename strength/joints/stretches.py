"""Places of lines that are looked at as one, under the forces of many designs."""

import numpy as np
from numpy.typing import NDArray

from strength.joints.bounds import Weighed
from strength.joints.samples import Frames
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
            found.append(
                Stretches(
                    piece=piece[::each],
                    along=frames.along[places].reshape(-1, each),
                    matrix=own,
                    places=places,
                )
            )
    return found


@frozen(kw_only=True, eq=False)
class Looks:
    """Stretches under the forces of all designs, each of one row and load: (tasks,).

    pull: (tasks, 6, designs). square: q_x^2, q_s^2, q_n^2 and where asked for q_x q_n (tasks, 3 or 4, places,
    designs).
    """

    row: Index
    load: Index
    stretch: Index
    pull: Array
    square: Array


def looked(own: Stretches, open_: Flags, force: Array, *, mixed: bool) -> Looks:
    """What is open (rows, loads, stretches) under pulls (rows, designs, loads, 6)."""
    row, load, stretch = np.nonzero(open_)
    pull = np.swapaxes(force[row, :, load], 1, 2)
    return Looks(
        row=row,
        load=load,
        stretch=stretch,
        pull=pull,
        square=squares(own.matrix[row, stretch], pull, mixed=mixed),
    )


def squares(matrix: Array, pull: Array, *, mixed: bool) -> Array:
    """As of `Looks`, by matrices (n, 3, places, 6) of pulls (n, 6, designs)."""
    count, _, places, _ = matrix.shape
    local = (matrix.reshape(count, 3 * places, 6) @ pull).reshape(count, 3, places, -1)
    square = local * local
    return np.concatenate([square, local[:, :1] * local[:, 2:]], axis=1) if mixed else square


@frozen(kw_only=True, eq=False)
class Heights:
    """Forms on stretches: (tasks, most); those with fewer than the most are filled up.

    task: number of the look of each. form: numbers among those kept. valid: it is none filled up. weight:
    (tasks, most, designs or 1). height: value times weight (tasks, most, places, designs). top: its greatest
    (tasks, designs).
    """

    task: Index
    row: Index
    form: Index
    valid: Flags
    coefficients: Array
    weight: Array
    height: Array


def heights(looks: Looks, own: Stretches, group: Weighed, flags: Flags) -> Heights:
    """Forms that are open (rows, forms, loads, stretches) on what is looked at."""
    mine = flags[looks.row, :, looks.load, looks.stretch]
    task = np.flatnonzero(mine.any(axis=1))
    mine = mine[task]
    most = int(mine.sum(axis=1).max(initial=0))
    form = np.argsort(~mine, axis=1, kind="stable")[:, :most]
    row, load, piece = looks.row[task], looks.load[task], own.piece[looks.stretch[task]]
    rows, _, pieces, _ = group.forms.shape
    of = np.minimum(row, rows - 1)[:, None], form, np.minimum(piece, pieces - 1)[:, None]
    coefficients = group.forms[of][..., : looks.square.shape[1]]
    weight = group.weight(row, load, form)
    square = looks.square[task]
    count, parts, places, designs = square.shape
    height = (coefficients @ square.reshape(count, parts, -1)).reshape(count, most, places, designs)
    height *= weight[:, :, None]
    return Heights(
        task=task,
        row=row,
        form=form,
        valid=np.take_along_axis(mine, form, axis=1),
        coefficients=coefficients,
        weight=weight,
        height=height,
    )
