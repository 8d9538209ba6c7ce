"""Quadrature on 0..1, exact to rounding: for smooth lines, and where a derivative runs off at an end."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_STEPS = 36
_REACH = 3.2
# Nodes that give moments of a saddle to 1e-12, by the greatest distance of the line from the host's axis over
# the host's radius (measured over tubes and boxes, square and slanting); beyond, the line turns too fast.
SMOOTH = ((0.35, 12), (0.8, 16), (0.95, 24))


def nodes_needed(reach: Array) -> NDArray[np.intp]:
    """Which rule lines of such reaches need (n,): the number of that in `SMOOTH`, or the next.

    >>> nodes_needed(np.array([0.2, 0.8, 0.9, 1.0])).tolist()
    [0, 1, 2, 3]
    """
    return np.searchsorted(np.array([most for most, _ in SMOOTH]), reach)


def nodes_for(reach: float) -> tuple[Array, Array]:
    """Nodes and weights for a saddle whose line reaches so far from the host's axis, over its radius."""
    for most, count in SMOOTH:
        if reach <= most:
            return gauss(count)
    return double_exponential()


@cache
def gauss(count: int) -> tuple[Array, Array]:
    """Nodes and weights of Gauss and Legendre on 0..1.

    Source: Golub and Welsch, Calculation of Gauss quadrature rules, Mathematics of Computation 23 (1969):
    eigenvalues of the recurrence's matrix.

    >>> x, w = gauss(3)
    >>> x.round(6).tolist(), w.round(6).tolist()
    ([0.112702, 0.5, 0.887298], [0.277778, 0.444444, 0.277778])
    """
    n = np.arange(1, count)
    beside = n / np.sqrt(4.0 * n**2 - 1.0)
    root, vector = np.linalg.eigh(np.diag(beside, 1) + np.diag(beside, -1))
    return (1.0 + root) / 2.0, vector[0] ** 2


@cache
def double_exponential() -> tuple[Array, Array]:
    """Nodes and weights on 0..1, x = (1 + tanh(pi/2 sinh t))/2 at equal steps of t.

    Source: Takahasi and Mori, Double exponential formulas for numerical integration (1974).

    >>> x, w = double_exponential()
    >>> round(float(np.sum(w * np.sqrt(x))), 12)
    0.666666666667
    """
    t = np.linspace(-_REACH, _REACH, 2 * _STEPS + 1)
    inner = np.pi / 2.0 * np.sinh(t)
    nodes = 1.0 / (1.0 + np.exp(-2.0 * inner))
    weights = np.pi / 4.0 * np.cosh(t) / np.cosh(inner) ** 2
    weights /= weights.sum()
    return nodes, weights
