"""The frame's matrix as a sum of constant matrices, each times a stiffness coefficient."""

import numpy as np

from strength.frame.links import Links
from strength.frame.reduction import Reduction
from strength.frame.response import Array, Flags, Index
from strength.values import frozen

LARGE = 1500  # unknowns from which the sparse path is taken (own choice: some 250 points)


@frozen(kw_only=True, eq=False)
class Block:
    """Segments that touch equally many unknowns, with their vectors in these."""

    segment: Index  # (own,)
    number: Index  # (own, width) unknowns, -1 where there is none
    vec: Array  # (own, patterns, width)

    def products(self, coefficient: Array, some: slice = slice(None)) -> Array:
        """Matrices (own, width, width) of (some of) the segments; coefficients: (segments, patterns)."""
        own = coefficient[self.segment[some], :, None]
        vec = self.vec[some, : own.shape[1]]
        return np.asarray(vec.transpose(0, 2, 1) @ (own * vec))


@frozen(kw_only=True, eq=False)
class Assembly:
    """Which unknowns each segment ties together, and how."""

    blocks: tuple[Block, ...]
    unknowns: int
    owner: Index  # (unknowns,) the point, or the hinge, that an unknown belongs to

    def summed(self, coefficient: Array, places: Index, size: int) -> Array:
        """Sums (size,) of all products at their places (products,), `size` for none.

        coefficient: (segments, patterns). Products: (own, width, width), block after block.
        """
        parts = [block.products(coefficient).reshape(-1) for block in self.blocks]
        if not parts:
            return np.zeros(size)
        every = parts[0] if len(parts) == 1 else np.concatenate(parts)
        return np.asarray(np.bincount(places, weights=every, minlength=size + 1)[:size], dtype=float)

    def matrix(self, coefficient: Array) -> Array:
        """Dense matrices (designs, unknowns, unknowns) of coefficients (designs, segments, patterns)."""
        n = self.unknowns
        places = []
        for block in self.blocks:
            number = block.number
            there = (number >= 0)[:, :, None] & (number >= 0)[:, None, :]
            places.append(np.where(there, n * number[:, :, None] + number[:, None, :], n * n))
        every = joined([place.reshape(-1) for place in places])
        if coefficient.shape[0] == 1:
            return self.summed(coefficient[0], every, n * n).reshape(1, n, n)
        out = np.empty((coefficient.shape[0], n, n))
        for one, own in zip(out, coefficient, strict=True):
            one[:] = self.summed(own, every, n * n).reshape(n, n)
        return out


def joined(parts: list[Index]) -> Index:
    """One after the other; a single one as it is."""
    return parts[0] if len(parts) == 1 else np.concatenate([np.zeros(0, dtype=np.intp), *parts])


def map_assembly(links: Links, reduction: Reduction, patterns: int = 6) -> Assembly:
    """Prepare the sum for the first `patterns` patterns of each segment (6, or 8 with the sways)."""
    owner = np.full(reduction.unknowns, -1, dtype=np.intp)
    free = np.flatnonzero(reduction.place >= 0)
    owner[reduction.place[free]] = np.where(free < 6 * links.points, free // 6, free)
    blocks = (
        Block(segment=segment, number=number, vec=vec)
        for segment, number, vec in _supports(links, reduction, patterns)
    )
    return Assembly(blocks=tuple(blocks), unknowns=reduction.unknowns, owner=owner)


def runs(key: Index) -> tuple[Index, Index]:
    """Order that sorts keys, those under 0 left out, and where each new key begins in it."""
    order = np.argsort(key, kind="stable")
    order = order[np.count_nonzero(key < 0) :]
    ranked = key[order]
    fresh = np.ones(ranked.size, dtype=bool)
    fresh[1:] = ranked[1:] != ranked[:-1]
    return order, np.flatnonzero(fresh)


def _supports(links: Links, reduction: Reduction, patterns: int) -> list[tuple[Index, Index, Array]]:
    """Segments by kind, the unknowns each touches (own, width) and their vectors (own, patterns, width)."""
    following = np.zeros(links.freedoms, dtype=bool)
    for follow in reduction.follows:
        following[follow.slave] = True
    there = links.freedom >= 0
    touched = np.any(following[links.freedom] & there, axis=1)
    hinged = np.any(there[:, 12:], axis=1)
    out = []
    for wide, chosen in ((12, ~touched & ~hinged), (14, ~touched & hinged)):
        segment = np.flatnonzero(chosen)
        if segment.size:
            own = slice(None) if segment.size == chosen.size else segment  # all: no copy
            number = np.where(there[own, :wide], reduction.place[links.freedom[own, :wide]], -1)
            out.append((segment, number, links.vec[own, :patterns, :wide]))
    if np.any(touched):
        out.append(_wide(links, reduction, patterns, np.flatnonzero(touched)))
    return out


def _wide(links: Links, reduction: Reduction, patterns: int, segment: Index) -> tuple[Index, Index, Array]:
    """The same for segments some of whose freedoms follow others."""
    unknown, weight, follows = _followed(links, reduction)
    freedom = links.freedom[segment]
    vec = np.where(freedom[:, None] >= 0, links.vec[segment, :patterns], 0.0)
    own, ends, most = *freedom.shape, unknown.shape[1]
    number = np.where(freedom[:, :, None] >= 0, unknown[freedom], -1).reshape(own, -1)
    row = np.arange(own)[:, None]
    order = np.argsort(number, axis=1)
    column = np.empty_like(order)  # of each among the segment's unknowns, in rising order
    column[row, order] = np.cumsum(np.diff(number[row, order], axis=1, prepend=-2) != 0, axis=1) - 1
    width = int(column.max()) + 1
    touched = np.full((own, width), -1)
    touched[row, column] = number
    share = np.zeros((own, ends, width))
    follower = follows[freedom]
    n, end = np.nonzero(follower)
    share[n[:, None], end[:, None], column.reshape(own, ends, most)[n, end]] = weight[freedom[n, end]]
    sums = vec @ share
    n, end = np.nonzero(~follower)
    sums[n, :, column.reshape(own, ends, most)[n, end, 0]] += vec[n, :, end]
    # An unknown that nothing is left of is left out.
    kept = (touched >= 0) & np.any(sums != 0.0, axis=1)
    order = np.argsort(~kept, axis=1, kind="stable")[:, : int(kept.sum(axis=1).max())]
    kept = kept[row, order]
    sums = np.where(kept[:, None], np.take_along_axis(sums, order[:, None], axis=2), 0.0)
    return segment, np.where(kept, touched[row, order], -1), sums


def _followed(links: Links, reduction: Reduction) -> tuple[Index, Array, Flags]:
    """Unknowns that each freedom moves with and by how much (freedoms, most), and whether it follows others.

    -1 and 0 where there are no more.
    """
    most = max(1, *(follow.master.size for follow in reduction.follows))
    unknown = np.full((links.freedoms, most), -1)
    weight = np.zeros((links.freedoms, most))
    follows = np.zeros(links.freedoms, dtype=bool)
    unknown[:, 0] = reduction.place
    for follow in reduction.follows:
        some = slice(follow.master.size)
        unknown[follow.slave, some] = reduction.place[follow.master]
        weight[follow.slave, some] = follow.weight
        follows[follow.slave] = True
    return unknown, weight, follows
