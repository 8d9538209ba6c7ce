"""Maxima of smooth heights on short stretches, from the polynomial through a few of their values there."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

COUNT = 9  # places of a stretch: those of a gentle line are right to some 1e-10 of the height between them
LOOKS = 17  # places of the polynomial from which Newton's method starts
STEPS = 3  # of it: from half of 1/8 to rounding


@cache
def nodes() -> Array:
    """Where the values are asked for, from -1 to 1: Chebyshev's, the ends among them."""
    return np.asarray(-np.cos(np.pi * np.arange(COUNT) / (COUNT - 1)))


@cache
def _powers() -> Array:
    """From values at the nodes to the coefficients of 1, t, t^2, ...: (nodes, powers)."""
    return np.asarray(np.linalg.inv(np.vander(nodes(), increasing=True)).T)


@cache
def _grid() -> tuple[Array, Array]:
    grid = np.linspace(-1.0, 1.0, LOOKS)
    return grid, _powers() @ np.vander(grid, COUNT, increasing=True).T


def highest(values: Array) -> tuple[Array, Array]:
    """Greatest value from -1 to 1, ends included, and its place, of heights (n, nodes): (n,) each.

    >>> top, place = highest(3.0 - (nodes() - 0.3)[None] ** 2)
    >>> top.round(12).tolist(), place.round(12).tolist()
    ([3.0], [0.3])
    """
    grid, looks = _grid()
    t = grid[np.argmax(values @ looks, axis=1)]
    power = np.ascontiguousarray((values @ _powers()).T)
    for _ in range(STEPS):
        slope, bend = np.zeros_like(t), np.zeros_like(t)
        for n in range(COUNT - 1, 0, -1):
            bend = bend * t + slope
            slope = slope * t + n * power[n]
        down = bend < 0.0
        move = np.where(down, -slope / np.where(down, bend, 1.0), 0.0)
        t = np.clip(t + np.clip(move, -2.0 / LOOKS, 2.0 / LOOKS), -1.0, 1.0)
    height = power[-1]
    for n in range(COUNT - 2, -1, -1):
        height = height * t + power[n]
    return height, t
