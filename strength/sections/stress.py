"""Worst von Mises stress of a section from its six internal forces.

Every shape comes down to a `StressMatrix`: forces times a scale are nominal stresses, and a matrix
takes these to sigma, tau_1 and tau_2 at the points of the section. Shapes differ in nothing else.
"""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import picked
from strength.values import evolve, field, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]

CHUNK = 1 << 17  # numbers held at once, so that they stay in the processor's cache


@frozen(kw_only=True, eq=False)
class StressMatrix:
    """From N, Vy, Vz, T, My, Mz to stresses at points.

    scale: (designs, 6) makes nominal stresses [MPa] of forces [N, N*mm].
    sigma, tau_1, tau_2: (designs or 1, points, 6 + more). tau_1 and tau_2 are two parts of the shear
    stress at right angles to each other; tau_2 None: there is but one.
    twist: (designs, 1 + more) or None. How far the torsion stress is spread over column 3 and the
    columns after the sixth, so that one matrix serves designs of several proportions.
    neighbours: (lines, 2, points) numbers of the points on either side along each line of points, a
    point's own number where the line ends there.
    probe: numbers of a few points, one of which is often near the worst.
    """

    scale: Array
    sigma: Array
    tau_1: Array
    tau_2: Array | None
    neighbours: Index
    twist: Array | None = None
    probe: Index = field(factory=lambda: np.zeros(1, dtype=np.intp))

    def von_mises(self, forces: Array) -> Array:
        """Greatest sqrt(sigma^2 + 3 tau^2) [MPa] over the points, (designs, ...).

        forces: (designs, ..., 6). Between points a parabola through three of them gives the peak.
        """
        rows = forces.reshape(forces.shape[0], -1, 6)
        designs = max(rows.shape[0], self.scale.shape[0], self.sigma.shape[0])
        out = np.empty((designs, rows.shape[1]))
        step = max(1, CHUNK // (self.sigma.shape[1] * max(1, rows.shape[1])))
        for at in range(0, designs, step):
            part = slice(at, at + step)
            out[part] = self._greatest(self._nominal(rows, part), part)
        return out.reshape(designs, *forces.shape[1:-1])

    def needed(self, forces: Array, where: Flags) -> Array:
        """The same at some places only: forces (designs, rows, 6), where (designs, rows); one per place."""
        if self.sigma.shape[0] > 1:
            rows = np.flatnonzero(where.any(axis=0))
            return self.von_mises(forces[:, rows])[where[:, rows]]
        nominal = self._nominal(forces, slice(None))[where]
        step = max(1, CHUNK // self.sigma.shape[1])
        out = np.empty(nominal.shape[0])
        for at in range(0, out.size, step):
            out[at : at + step] = self._greatest(nominal[None, at : at + step], slice(None))[0]
        return out

    def bounds(self, forces: Array) -> tuple[Array, Array]:
        """What the worst von Mises lies between: forces (designs, rows, 6), low and high (designs, rows)."""
        nominal = self._nominal(forces, slice(None))
        high, low = np.zeros(nominal.shape[:-1]), np.zeros(nominal.shape[:-1])
        size = np.abs(nominal)
        for part, weight in ((self.sigma, 1.0), (self.tau_1, 3.0), (self.tau_2, 3.0)):
            if part is not None:
                high += weight * (size @ np.abs(part).max(axis=1)[..., None])[..., 0] ** 2
        square = self._squares(nominal, slice(None), self.probe)
        np.max(square, axis=-1, out=low)
        return np.sqrt(low), np.sqrt(high)

    def first(self) -> "StressMatrix":
        """The matrix of the first design alone."""
        return evolve(
            self,
            scale=self.scale[:1],
            sigma=self.sigma[:1],
            tau_1=self.tau_1[:1],
            tau_2=None if self.tau_2 is None else self.tau_2[:1],
            twist=None if self.twist is None else self.twist[:1],
        )

    def at_points(self, forces: Array) -> tuple[Array, Array]:
        """Sigma and the resultant shear stress [MPa] at every point, (designs, ..., points)."""
        nominal = self._nominal(forces.reshape(forces.shape[0], -1, 6), slice(None))
        sigma = nominal @ self.sigma.swapaxes(-1, -2)
        tau = nominal @ self.tau_1.swapaxes(-1, -2)
        if self.tau_2 is not None:
            tau = np.hypot(tau, nominal @ self.tau_2.swapaxes(-1, -2))
        shape = (sigma.shape[0], *forces.shape[1:-1], sigma.shape[-1])
        return sigma.reshape(shape), tau.reshape(shape)

    def _nominal(self, rows: Array, part: slice) -> Array:
        nominal: Array = _part(rows, part) * _part(self.scale, part)[:, None, :]
        if self.twist is None:
            return nominal
        spread = nominal[..., 3:4] * _part(self.twist, part)[:, None, :]
        return np.concatenate([nominal[..., :3], spread[..., :1], nominal[..., 4:], spread[..., 1:]], axis=-1)

    def _squares(self, nominal: Array, part: slice, points: slice | Index) -> Array:
        """Sigma^2 + 3 tau^2 at some points."""
        square: Array = nominal @ _part(self.sigma, part)[:, points].swapaxes(-1, -2)
        np.square(square, out=square)
        for tau in (self.tau_1, self.tau_2):
            if tau is not None:
                own = nominal @ _part(tau, part)[:, points].swapaxes(-1, -2)
                np.square(own, out=own)
                own *= 3.0
                square += own
        return square

    def _greatest(self, nominal: Array, part: slice) -> Array:
        square = self._squares(nominal, part, slice(None))
        best = square.argmax(axis=-1)
        top = picked(square, best)
        gain = np.zeros_like(top)
        for before, after in self.neighbours:
            low = picked(square, before[best])
            high = picked(square, after[best])
            bend = 2.0 * top - low - high
            gain += np.divide((high - low) ** 2, 8.0 * bend, out=np.zeros_like(top), where=bend > 0.0)
        found: Array = np.sqrt(top + gain)
        return found


def _part(array: Array, part: slice) -> Array:
    return array if array.shape[0] == 1 else array[part]


def stretch(count: int, *, closed: bool) -> Index:
    """Neighbours along one line of `count` points, (2, count); closed: a ring.

    >>> stretch(3, closed=False).tolist()
    [[0, 0, 2], [0, 2, 2]]
    """
    number = np.arange(count)
    before, after = np.roll(number, 1), np.roll(number, -1)
    if not closed:
        before[[0, -1]] = after[[0, -1]] = number[[0, -1]]
    return np.stack([before, after])


def selector(*columns: tuple[int, Array | float], points: int) -> Array:
    """Matrix (points, 6) with the given columns filled: N 0, Vy 1, Vz 2, T 3, My 4, Mz 5."""
    found = np.zeros((points, 6))
    for column, values in columns:
        found[:, column] = values
    return found
