"""Maxima of smooth heights on short stretches, from the polynomial through a few of their values there."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

NEAR = (0.6, 1.0)  # steps about a sample within which its maximum nearly always lies, and always
BORDER = 0.999  # of a stretch, from where a maximum may lie beyond it
BESIDE = 1e-5  # steps from an end: whether a height falls from there
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


@frozen(kw_only=True, eq=False)
class Bracket:
    """Stretches (n,) about samples; end: the sample is an end of the piece, which is 1 long."""

    middle: Array
    half: Array
    end: Flags
    near: float

    @staticmethod
    def about(sample: Array, step: float, near: float) -> "Bracket":
        """So many steps about samples, one from the ends."""
        end = (sample <= 0.0) | (sample >= 1.0)
        reach = np.where(end, 1.0, near) * step
        low, high = np.maximum(sample - reach, 0.0), np.minimum(sample + reach, 1.0)
        return Bracket(middle=(low + high) / 2.0, half=(high - low) / 2.0, end=end, near=near)

    @property
    def nodes(self) -> Array:
        """Where heights are asked for: (n, nodes)."""
        return self.middle[:, None] + self.half[:, None] * nodes()

    def beyond(self, place: Array, own: "Index | slice" = slice(None)) -> Flags:
        """Whether maxima at places from -1 to 1 of its own stretches may lie beyond."""
        return (np.abs(place) > BORDER) & ~self.end[own] & (self.near < NEAR[-1])


def summits(values: Array) -> tuple[Array, Array]:
    """Greatest value from -1 to 1, ends included, and its place, of heights (n, nodes): (n,) each.

    >>> top, place = summits(3.0 - (nodes() - 0.3)[None] ** 2)
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
