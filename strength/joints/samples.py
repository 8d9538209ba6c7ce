"""A weld's line at fixed places: what its force per length, and forms of it, come to there."""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.joints.forms import Forms
from strength.joints.traced import traced
from strength.joints.weld_line import WeldLine
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class Samples:
    """Ends of the straight pieces, then the curved ones step by step.

    piece, along: (places,) their pieces, and how far along them, 0 to 1. straight: how many of the places
    are ends of straight pieces. steps: places of each curved piece. local: (rows, 3, loads, places) q_x,
    q_s, q_n [N/mm].
    """

    piece: Index
    along: Array
    straight: int
    steps: int
    local: Array

    @property
    def step(self) -> float:
        """Distance of two places along a curved piece, which is 1 long."""
        return 1.0 / (self.steps - 1)

    @cached_property
    def _square(self) -> Array:
        """q_x^2, q_s^2, q_n^2."""
        return self.local * self.local

    @cached_property
    def _mixed(self) -> Array:
        """The same, and q_x q_n."""
        return np.concatenate([self._square, self.local[:, :1] * self.local[:, 2:]], axis=1)

    def maxima(self, column: Array, least: Array) -> tuple[Index, Index]:
        """Rows and places of the local maxima of columns (n, places) that are at or above `least` (n,)."""
        top = column >= least[:, None]
        top[least <= 0.0, 1:] = False  # nothing acts: one place is as good as any other
        bent = column[:, self.straight :].reshape(column.shape[0], -1, self.steps)
        higher = bent[..., 1:] - bent[..., :-1]
        own = top[:, self.straight :].reshape(bent.shape)
        own[..., 1:] &= higher >= 0.0
        own[..., :-1] &= higher <= 0.0
        top[:, self.straight :] = own.reshape(column.shape[0], -1)
        row, place = np.nonzero(top)
        return row, place

    def heights(self, group: Forms) -> Array:
        """Forms times their scales (rows, forms, loads, places)."""
        forms, scales = group.forms, group.scales
        by_load = scales.ndim == 3
        if not by_load:
            forms = forms * scales[:, :, None, None]
        mixed = bool(forms[..., 3].any())
        found = formed(forms[..., : 4 if mixed else 3], self._mixed if mixed else self._square, self.piece)
        if by_load:
            found *= np.swapaxes(scales, 1, 2)[..., None]
        return found


@frozen(kw_only=True, eq=False)
class Frames:
    """Places of a line as of `Samples`, with what forces do there.

    matrix: (rows, 3, 6, places), from the force and moment per length of a pull.
    """

    piece: Index
    along: Array
    straight: int
    steps: int
    matrix: Array

    def under(self, force: Array) -> Samples:
        """All places under pulls (rows, loads, 6)."""
        return Samples(
            piece=self.piece,
            along=self.along,
            straight=self.straight,
            steps=self.steps,
            local=force[:, None] @ self.matrix,
        )

    def few(self, steps: int) -> "Frames":
        """The same with so many places of each curved piece, its ends among them."""
        node = np.arange(self.piece.size - self.straight) % self.steps
        kept = node % ((self.steps - 1) // (steps - 1)) == 0
        own = np.concatenate([np.arange(self.straight), self.straight + np.flatnonzero(kept)])
        return Frames(
            piece=self.piece[own],
            along=self.along[own],
            straight=self.straight,
            steps=steps,
            matrix=self.matrix[..., own],
        )


def formed(forms: Array, parts: Array, piece: Index) -> Array:
    """Forms (rows or 1, forms, pieces or 1, n) of so many parts (rows, n, loads, places).

    piece: (places,) of each place. (rows, forms, loads, places).
    """
    if forms.shape[2] == 1:
        rows, count, *wide = parts.shape
        return np.asarray((forms[:, :, 0] @ parts.reshape(rows, count, -1)).reshape(rows, -1, *wide))
    own = np.moveaxis(forms[:, :, piece], 3, 0)[:, :, :, None]
    found: Array = own[0] * parts[:, None, 0]
    for n in range(1, parts.shape[1]):
        found += own[n] * parts[:, None, n]
    return found


def framed(line: WeldLine, steps: int) -> Frames:
    """Places of all rows of a line: so many of each curved piece."""
    pieces = line.pieces
    ends, bent = np.flatnonzero(pieces.ends & ~line.curved), np.flatnonzero(line.curved)
    rows = pieces.base.shape[0]
    parts = []
    grids = np.array([0.0, 1.0]), np.linspace(0.0, 1.0, steps)
    for own, grid in zip((ends, bent), grids, strict=True):
        if line.steep:
            chosen = pieces.chosen(np.arange(rows)[:, None], own[None])
            found = chosen.at(line.spaced(grid[None, None], np.arange(rows)[:, None]))
        elif own.size == pieces.span.size:
            found = pieces.all_at(grid)
        else:
            y, z, dy, dz = pieces.all_at(grid)
            found = y[:, own], z[:, own], dy[:, own], dz[:, own]
        parts.append([each.reshape(rows, -1) for each in found])
    y, z, dy, dz = (np.concatenate(both, axis=1) for both in zip(*parts, strict=True))
    return Frames(
        piece=np.concatenate([np.repeat(ends, 2), np.repeat(bent, steps)]),
        along=np.concatenate([np.tile(grids[0], ends.size), np.tile(grids[1], bent.size)]),
        straight=2 * ends.size,
        steps=steps,
        matrix=traced(line.cylinder, y, z, dy, dz).by_force(line.centroid),
    )
