"""The outline of the contacts, and the first place where a smooth curve goes below zero."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_CELLS = 32
_FINEST = 1e-15  # rad
# samples at sevenths of a turn -> 7 x the harmonics 0 to 3
_HARMONICS = np.exp(-2j * np.pi / 7.0 * np.outer(np.arange(4), np.arange(7)))


def hull_edges(x: Array, y: Array) -> Array:
    """Half-planes that together hold the convex hull of the contacts: (edges, 3).

    A row (n0, nx, ny), (nx, ny) a unit vector, says n0 + nx x + ny y >= 0 [mm]. Through each pair of
    contacts its line, where all lie on one side, and the two ends along it; so contacts in one
    line or in one point have their outline too.
    """
    spots = np.column_stack([x, y])
    reach = float(np.abs(spots).max(initial=1.0))
    first, second = np.triu_indices(len(spots), k=1)
    along = spots[second] - spots[first]
    length = np.hypot(along[:, 0], along[:, 1])
    along = along[length > 1e-9 * reach] / length[length > 1e-9 * reach, None]
    along = np.vstack([along, np.eye(2)])
    across = np.column_stack([-along[:, 1], along[:, 0]])
    normals = np.vstack([along, -along, across, -across])
    lowest = (spots @ normals.T).min(axis=0)
    return np.column_stack([-lowest, normals])


def first_below(curves: Callable[[Array], Array], upper: float, slack: float) -> float | None:
    """Least p in [0, upper] at which one of the curves is under -slack; None where none is.

    curves(p (n,)) -> (n, curves), trigonometric polynomials of p of degree 3 at most. Between two
    points a curve lies no lower than the lesser end minus (greatest curvature) width^2/8, so a
    cell is only skipped when that bound clears it: no dip is missed between the points.
    """
    samples: Array = curves(np.asarray(2.0 * np.pi / 7.0 * np.arange(7.0), dtype=np.float64))
    harmonics = np.abs(_HARMONICS @ samples) / 7.0  # k = 0..3
    curvature = 2.0 * (np.arange(4.0) ** 2 @ harmonics)

    def search(low: float, high: float) -> float | None:
        p = np.linspace(low, high, _CELLS + 1)
        values = curves(p)
        width = (high - low) / _CELLS
        bound = np.minimum(values[:-1], values[1:]) - curvature * (width * width / 8.0)
        under: NDArray[np.bool_] = np.any(values < -slack, axis=1)
        for cell in np.flatnonzero(np.any(bound < -slack, axis=1)):
            if under[cell]:
                return float(p[cell])
            if width > _FINEST:
                found = search(float(p[cell]), float(p[cell + 1]))
            else:
                found = float(p[cell]) if under[cell + 1] else None
            if found is not None:
                return found
        return None

    return search(0.0, upper)


def first_below_linear(start: Array, stop: Array, slack: float) -> float:
    """Fraction of the way from `start` to `stop` (curves,) where a line first crosses zero; 1: none.

    A line that ends above -slack counts as not crossing.
    """
    crosses = stop < -slack
    if not crosses.any():
        return 1.0
    begin, end = np.maximum(start[crosses], 0.0), stop[crosses]
    return float((begin / (begin - end)).min())
