"""How far a weld's line reaches along directions in space."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import picked
from strength.joints.climb import climbed
from strength.joints.pieces import Pieces
from strength.joints.saddle import Cylinder

Array = NDArray[np.float64]

STEPS = 8  # of a quarter of a circle on a saddle: its greatest heights lie within a step of the best place
SHORT = 4  # of the sides and small corners of boxes and flats


def extents(pieces: Pieces, cylinder: Cylinder | None, along: Array) -> tuple[Array, Array]:
    """Least and greatest of place . along (rows, directions, 3) on a line: (rows, directions) each [mm].

    Closed form in a plane; on a saddle a search, right to rounding.
    """
    if cylinder is None:
        found = [pieces.reach(sign * along[:, n, 1:]) for sign in (-1.0, 1.0) for n in range(along.shape[1])]
        reach = np.stack(found, axis=1)
    else:
        reach = _on_cylinder(pieces, cylinder, np.concatenate([-along, along], axis=1))
    half = along.shape[1]
    return -reach[:, :half], reach[:, half:]


def _on_cylinder(pieces: Pieces, cylinder: Cylinder, along: Array) -> Array:
    """Greatest of place . along (rows, directions, 3)."""
    grid = np.linspace(0.0, 1.0, (STEPS if pieces.curved.all() else SHORT) + 1)
    y, z = pieces.places(grid)
    rows = y.shape[0]
    y, z = y.reshape(rows, -1), z.reshape(rows, -1)
    x = cylinder.height(y, z)
    height = along @ np.stack([x, y, z], axis=1)
    best = np.argmax(height, axis=-1)
    piece, node = np.divmod(best, grid.size)
    chosen = pieces.chosen(np.arange(rows)[:, None], piece)

    def at(u: Array) -> Array:
        y, z = chosen.places(u)
        found = cylinder.height(y, z)
        found *= along[..., :1]
        y *= along[..., 1:2]
        z *= along[..., 2:]
        found += y
        found += z
        return found

    step = float(grid[1])
    top = at(climbed(at, grid[node], step)[..., None])[..., 0]
    return np.asarray(np.maximum(picked(height, best), top))
