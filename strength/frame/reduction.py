"""Exact constraints: which freedoms are left, and how all others follow from them."""

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from strength.arrays import distinct, others, picked
from strength.frame.response import Array, Flags, Index
from strength.values import frozen

NOT_THERE = 1e-9  # a row of unit size that is smaller than this after elimination was redundant


@frozen(kw_only=True, eq=False)
class Conditions:
    """Conditions weight @ freedoms = 0 that belong together; rows of size 1, no held freedoms."""

    freedom: Index  # (columns,)
    weight: Array  # (rows, columns)


@frozen(kw_only=True, eq=False)
class Follow:
    """Freedoms `slave` = `weight` @ freedoms `master`; numbers of all freedoms."""

    slave: Index
    master: Index
    weight: Array


@frozen(kw_only=True, eq=False)
class Reduction:
    """What is left of the freedoms: number `place` of the unknown, -1 where held or following."""

    unknowns: int
    place: Index  # (freedoms,)
    follows: tuple[Follow, ...]

    @cached_property
    def _together(self) -> list[tuple[Index, Index, Array]]:
        """Followers of one make side by side: slaves (own, slaves), masters and weights likewise."""
        return [
            (
                np.stack([self.follows[n].slave for n in numbers]),
                np.stack([self.follows[n].master for n in numbers]),
                np.stack([self.follows[n].weight for n in numbers]),
            )
            for numbers in alike([follow.weight for follow in self.follows])
        ]

    def expand(self, values: Array) -> Array:
        """Unknowns (unknowns, ...) to all freedoms (freedoms, ...)."""
        out = np.zeros((self.place.size, *values.shape[1:]))
        free = np.flatnonzero(self.place >= 0)
        out[free] = values[self.place[free]]
        flat = out.reshape(self.place.size, -1)
        for slave, master, weight in self._together:
            flat[slave] = weight @ flat[master]
        return out

    def gather(self, forces: Array) -> Array:
        """Forces on all freedoms (freedoms, ...) to forces on the unknowns (unknowns, ...)."""
        out = np.empty((self.unknowns, *forces.shape[1:]))
        free = np.flatnonzero(self.place >= 0)
        out[self.place[free]] = forces[free]
        flat, given = out.reshape(self.unknowns, -1), forces.reshape(self.place.size, -1)
        for slave, master, weight in self._together:
            push, place = weight.swapaxes(1, 2) @ given[slave], self.place[master]
            left = place >= 0
            flat[place[left]] += push[left]  # none twice: what has a freedom in common is one follower
        return out

    def drop(self, unknowns: Index) -> "Reduction":
        """The same with some unknowns held at zero."""
        gone = np.isin(self.place, unknowns)
        place = np.where(gone, -1, self.place)
        kept = place >= 0
        place[kept] = np.cumsum(np.bincount(place[kept], minlength=self.unknowns) > 0)[place[kept]] - 1
        return Reduction(unknowns=self.unknowns - unknowns.size, place=place, follows=self.follows)


def reduce_freedoms(held: Flags, conditions: Sequence[Conditions]) -> Reduction:
    """Leave out held freedoms and express by the others those that the conditions fix."""
    follows = []
    place = np.where(held, -1, 0)
    stacked = [stack([conditions[n] for n in group]) for group in groups(conditions)]
    solved = eliminate([matrix for _, matrix in stacked])
    for (columns, _), (slaves, weight) in zip(stacked, solved, strict=True):
        masters = others(columns.size, slaves)
        follows.append(Follow(slave=columns[slaves], master=columns[masters], weight=weight[:, masters]))
        place[columns[slaves]] = -1
    free = place >= 0
    place[free] = np.arange(int(free.sum()))
    return Reduction(unknowns=int(free.sum()), place=place, follows=tuple(follows))


def groups(conditions: Sequence[Conditions]) -> list[list[int]]:
    """Numbers of conditions that share freedoms, directly or through others, gathered in groups."""
    parent = list(range(len(conditions)))

    def root(n: int) -> int:
        while parent[n] != n:
            parent[n] = parent[parent[n]]
            n = parent[n]
        return n

    owner: dict[int, int] = {}
    for n, own in enumerate(conditions):
        for freedom in own.freedom.tolist():
            parent[root(n)] = root(owner.setdefault(freedom, n))
    out: dict[int, list[int]] = {}
    for n in range(len(conditions)):
        out.setdefault(root(n), []).append(n)
    return list(out.values())


def stack(group: Sequence[Conditions]) -> tuple[Index, Array]:
    """Freedoms that a group of conditions touches, and the conditions as one matrix."""
    columns = distinct(np.concatenate([own.freedom for own in group]))
    matrix = np.zeros((sum(own.weight.shape[0] for own in group), columns.size))
    row = 0
    for own in group:
        matrix[row : row + own.weight.shape[0], np.searchsorted(columns, own.freedom)] = own.weight
        row += own.weight.shape[0]
    return columns, matrix


def eliminate(matrices: Sequence[Array]) -> list[tuple[Index, Array]]:
    """Gauss-Jordan elimination with complete pivoting: of each, columns solved for and their weights.

    Returns slaves (rank,) and weights (rank, columns) with x[slaves] = weights @ x, the slaves' own
    columns zero. Matrices of one shape go together.
    """
    out: dict[int, tuple[Index, Array]] = {}
    for numbers in alike(matrices):
        work = np.stack([matrices[n] for n in numbers])
        rows, columns = work.shape[1:]
        taken = np.zeros((len(numbers), rows), dtype=bool)
        pivots = np.full((2, len(numbers), min(rows, columns)), -1)
        for step in range(pivots.shape[2]):
            size = np.where(taken[:, :, None], -1.0, np.abs(work)).reshape(len(numbers), -1)
            best = size.argmax(axis=1)
            own = np.flatnonzero(picked(size, best) >= NOT_THERE)
            if not own.size:
                break
            row, column = np.divmod(best[own], columns)
            pivot = work[own, row] / work[own, row, column][:, None]
            work[own] -= work[own, :, column][:, :, None] * pivot[:, None]
            work[own, row], taken[own, row], pivots[:, own, step] = pivot, True, (row, column)
        for n, each, solved in zip(numbers, work, pivots.swapaxes(0, 1), strict=True):
            row, slaves = solved[:, solved[0] >= 0]
            weight = -each[row]
            weight[:, slaves] = 0.0
            out[n] = slaves, weight
    return [out[n] for n in range(len(matrices))]


def alike(matrices: Sequence[Array]) -> list[list[int]]:
    """Numbers of the matrices of each shape."""
    out: dict[tuple[int, ...], list[int]] = {}
    for n, matrix in enumerate(matrices):
        out.setdefault(matrix.shape, []).append(n)
    return list(out.values())
