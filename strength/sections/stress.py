"""Worst von Mises stress of a section from its six internal forces.

Every shape comes down to a `StressMatrix`: forces times a scale are nominal stresses, and a matrix
takes these to sigma, tau_1 and tau_2 at the points of the section. Shapes differ in nothing else.
"""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.arrays import in_designs, picked
from strength.values import evolve, field, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

CHUNK = 1 << 17  # numbers held at once, so that they stay in the processor's cache
MOST_PAIRS = 16  # of nominal stresses: with more, squares are quicker taken at the points
Parts = list[tuple[float, Index, Array]]  # weight, columns, matrix


@frozen(kw_only=True, eq=False)
class StressMatrix:
    """From N, Vy, Vz, T, My, Mz to stresses at points.

    scale: (designs or 1, columns) makes nominal stresses [MPa] of forces [N, N*mm], those that `source`
    (columns,) names: a force may stand in several columns, so that one matrix serves many proportions.
    sigma, tau_1, tau_2: (designs or 1, points, columns). tau_1 and tau_2 are two parts of the shear
    stress at right angles to each other; tau_2 None: there is but one.
    neighbours: (lines, 2, points) numbers of the points on either side along each line of points, a
    point's own number where the line ends there.
    probe: numbers of a few points, one of which is often near the worst.
    reach: (parts, columns) what nominal stresses of 1 can add to sigma, tau_1 and tau_2 at any point,
    together a bound of these; None: the greatest of each column.
    has_corners: at some point sigma comes up to its bound.
    """

    scale: Array
    sigma: Array
    tau_1: Array
    tau_2: Array | None
    neighbours: Index
    source: Index = field(factory=lambda: np.arange(6))
    probe: Index = field(factory=lambda: np.zeros(1, dtype=np.intp))
    reach: Array | None = None
    has_corners: bool = False

    @property
    def is_common(self) -> bool:
        """True where one matrix serves all designs, whatever their scales."""
        return bool(self.sigma.shape[0] == 1)

    def von_mises(self, forces: Array) -> Array:
        """Greatest sqrt(sigma^2 + 3 tau^2) [MPa] over the points, (designs, ...).

        forces: (designs, ..., 6). Between points a parabola through three of them gives the peak.
        """
        rows = self._nominal(forces)
        if self.is_common:
            columns = rows.transpose(2, 0, 1).reshape(1, rows.shape[2], -1)
            return self.worst(columns).reshape(rows.shape[0], *forces.shape[1:-1])
        found = self.worst(rows.swapaxes(1, 2))
        return found.reshape(found.shape[0], *forces.shape[1:-1])

    def worst(self, nominal: Array) -> Array:
        """The same of nominal stresses (designs or 1, columns, rows), (designs or 1, rows)."""
        designs, rows = max(nominal.shape[0], self.sigma.shape[0]), nominal.shape[2]
        out = np.empty((designs, rows))
        points = self.sigma.shape[1]
        few = max(1, min(rows, CHUNK // points))
        many = max(1, CHUNK // (points * few))
        for first in range(0, designs, many):
            some = slice(first, first + many)
            parts = [(weight, columns, in_designs(matrix, some)) for weight, columns, matrix in self._parts]
            own = in_designs(nominal, some)
            for at in range(0, rows, few):
                out[some, at : at + few] = self._greatest(own[..., at : at + few], parts)
        return out

    def bounds(self, nominal: Array) -> tuple[Array, Array]:
        """Squares of what the worst von Mises lies between, twice (rows,): of (columns, rows).

        For matrices that serve all designs alike.
        """
        if self.has_corners:
            size = np.abs(nominal)
            every = self._most @ size
            every *= every
            return every[0], self._weights @ every
        rows = nominal.shape[1]
        low, high = np.empty(rows), np.empty(rows)
        parts = [(weight, columns, matrix[..., self.probe]) for weight, columns, matrix in self._parts]
        step = CHUNK // (4 * self.probe.size)
        for at in range(0, rows, step):
            part = slice(at, at + step)
            own = nominal[:, part]
            np.max(self._squares(own[None], parts, by_point=True)[0], axis=0, out=low[part])
            size = self._most @ np.abs(own)
            size *= size
            high[part] = self._weights @ size
        return low, high

    def first(self) -> "StressMatrix":
        """The matrix of the first design alone."""
        return evolve(
            self,
            scale=self.scale[:1],
            sigma=self.sigma[:1],
            tau_1=self.tau_1[:1],
            tau_2=None if self.tau_2 is None else self.tau_2[:1],
        )

    def at_points(self, forces: Array) -> tuple[Array, Array]:
        """Sigma and the resultant shear stress [MPa] at every point, (designs, ..., points)."""
        nominal = self._nominal(forces)
        sigma = nominal @ self.sigma.swapaxes(-1, -2)
        tau = nominal @ self.tau_1.swapaxes(-1, -2)
        if self.tau_2 is not None:
            tau = np.hypot(tau, nominal @ self.tau_2.swapaxes(-1, -2))
        shape = (sigma.shape[0], *forces.shape[1:-1], sigma.shape[-1])
        return sigma.reshape(shape), tau.reshape(shape)

    def _nominal(self, forces: Array) -> Array:
        """Nominal stresses (designs, rows, columns) of forces (designs, ..., 6)."""
        rows = forces.reshape(forces.shape[0], -1, 6)
        nominal: Array = rows[..., self.source] * self.scale[:, None, :]
        return nominal

    @property
    def _linear(self) -> list[tuple[float, Array]]:
        """Sigma and tau with the weights of their squares."""
        found = [(1.0, self.sigma), (3.0, self.tau_1)]
        return found if self.tau_2 is None else [*found, (3.0, self.tau_2)]

    @property
    def _weights(self) -> Array:
        return np.array([weight for weight, _ in self._linear])

    @cached_property
    def _sizes(self) -> Array:
        """Greatest of each column at any point, of sigma and tau (parts, columns)."""
        return np.stack([np.abs(matrix).max(axis=(0, 1)) for _, matrix in self._linear])

    @property
    def _most(self) -> Array:
        return self._sizes if self.reach is None else self.reach

    @cached_property
    def _pairs(self) -> tuple[Index, Index]:
        """Pairs of columns whose products the square of the von Mises stress is made of."""
        columns = self.sigma.shape[-1]
        met = np.zeros((columns, columns), dtype=bool)
        for own in self._sizes > 0.0:
            met |= own[:, None] & own
        one, other = np.nonzero(np.triu(met))
        return one, other

    @cached_property
    def _parts(self) -> Parts:
        """What squares at the points are made of, matrices (designs or 1, columns, points).

        Of few pairs: from their products to the whole (weight 0). Of many: from nominal stresses of
        some columns to each part of the stress, which is squared and weighted.
        """
        one, other = self._pairs
        if one.size > MOST_PAIRS:
            parts = []
            for (weight, matrix), size in zip(self._linear, self._sizes, strict=True):
                used = np.flatnonzero(size > 0.0)
                parts.append((weight, used, np.ascontiguousarray(matrix[..., used].swapaxes(-1, -2))))
            return parts
        square = np.zeros((1, 1, 1))
        for weight, matrix in self._linear:
            square = square + weight * matrix[..., one] * matrix[..., other]
        square = square * np.where(one == other, 1.0, 2.0)
        return [(0.0, one, np.ascontiguousarray(square.swapaxes(-1, -2)))]

    def _squares(self, nominal: Array, parts: Parts, *, by_point: bool = False) -> Array:
        """Sigma^2 + 3 tau^2 at points (designs, rows, points), or (designs, points, rows)."""
        total = np.zeros(())
        for weight, columns, matrix in parts:
            own = nominal[:, columns]
            if weight == 0.0:
                own = own * nominal[:, self._pairs[1]]
            stress = matrix.swapaxes(1, 2) @ own if by_point else own.swapaxes(1, 2) @ matrix
            if weight == 0.0:
                return stress
            stress *= stress
            if weight != 1.0:
                stress *= weight
            total = total + stress if total.ndim else stress
        return total

    def _greatest(self, nominal: Array, parts: Parts) -> Array:
        square = self._squares(nominal, parts)
        best = square.argmax(axis=-1)
        top = picked(square, best)
        gain = np.zeros_like(top)
        for before, after in self.neighbours:
            low = picked(square, before[best])
            high = picked(square, after[best])
            bend = 2.0 * top - low - high
            gain += np.divide((high - low) ** 2, 8.0 * bend, out=np.zeros_like(top), where=bend > 0.0)
        found: Array = np.sqrt(np.maximum(top + gain, 0.0))  # rounding, where nothing pulls
        return found


def stretch(count: int, *, closed: bool) -> Index:
    """Neighbours along one line of `count` points, (2, count); closed: a ring.

    >>> stretch(3, closed=False).tolist()
    [[0, 0, 2], [0, 2, 2]]
    """
    found: Index = np.arange(count) + np.array([[-1], [1]])
    if closed:
        found[0, 0], found[1, -1] = count - 1, 0
    else:
        found[:, 0], found[:, -1] = 0, count - 1
    return found


def selector(*columns: tuple[int, Array | float], points: int) -> Array:
    """Matrix (points, 6) with the given columns filled: N 0, Vy 1, Vz 2, T 3, My 4, Mz 5."""
    found = np.zeros((points, 6))
    for column, values in columns:
        found[:, column] = values
    return found
