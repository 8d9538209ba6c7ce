"""Where each stiffness coefficient goes: the frame's matrix as a sum of constant matrices."""

import numpy as np

from strength.arrays import distinct, numbered
from strength.frame.links import Links
from strength.frame.reduction import Reduction
from strength.frame.response import Array, Index
from strength.values import frozen

LARGE = 1500  # unknowns from which the sparse path is taken (own choice: some 250 points)


@frozen(kw_only=True, eq=False)
class Block:
    """Segments that touch equally many unknowns, with their vectors in these."""

    segment: Index  # (own,)
    number: Index  # (own, width) unknowns, -1 where there is none
    vec: Array  # (own, patterns, width)

    def products(self, coefficient: Array) -> Array:
        """Lower triangles of the segments' matrices: (own, pairs, designs).

        coefficient: (segments, patterns, designs).
        """
        own = coefficient[self.segment]
        vec = self.vec[:, : own.shape[1]]
        first, second = np.tril_indices(vec.shape[2])
        # One design is computed as two: a matrix product of several columns sums in the same order however
        # many there are, one of a single column does not, and its last bits would differ.
        wide = np.repeat(own, 2, axis=2) if own.shape[2] == 1 else own
        found = (vec[:, :, first] * vec[:, :, second]).transpose(0, 2, 1) @ wide
        return np.asarray(found[..., : own.shape[2]])


@frozen(kw_only=True, eq=False)
class Assembly:
    """Map from stiffness coefficients to the entries of the matrix, lower triangle."""

    blocks: tuple[Block, ...]
    order: Index  # of the products of all blocks, by entry
    begin: Index  # (entries,) first product of each entry
    row: Index  # (entries,)
    column: Index  # (entries,) column <= row
    unknowns: int
    owner: Index  # (unknowns,) the point, or the hinge, that an unknown belongs to

    def entries(self, coefficient: Array) -> Array:
        """Entries of the matrix: (entries, designs) from coefficients (designs, segments, patterns)."""
        designs = coefficient.shape[0]
        if not self.begin.size or designs == 0:
            return np.zeros((self.begin.size, designs))
        by_segment = np.ascontiguousarray(coefficient.transpose(1, 2, 0))
        parts = [block.products(by_segment).reshape(-1, designs) for block in self.blocks]
        return np.add.reduceat(np.concatenate(parts)[self.order], self.begin, axis=0)

    def matrix(self, coefficient: Array) -> Array:
        """Dense matrices: (designs, unknowns, unknowns)."""
        return self.dense(self.entries(coefficient))

    def dense(self, entries: Array) -> Array:
        """Dense matrices (designs, unknowns, unknowns) of entries (entries, designs)."""
        out = np.zeros((entries.shape[1], self.unknowns, self.unknowns))
        out[:, self.row, self.column] = entries.T
        out[:, self.column, self.row] = entries.T
        return out


def map_assembly(links: Links, reduction: Reduction, patterns: int = 6) -> Assembly:
    """Prepare the sum for the first `patterns` patterns of each segment (6, or 8 with the sways)."""
    blocks, wheres = [], []
    for segment, number, vec in _supports(links, reduction, patterns):
        first, second = np.tril_indices(number.shape[1])
        row, column = number[:, first], number[:, second]
        blocks.append(Block(segment=segment, number=number, vec=vec))
        gone = (row < 0) | (column < 0)
        key = np.maximum(row, column) * reduction.unknowns + np.minimum(row, column)
        wheres.append(np.where(gone, -1, key).reshape(-1))
    key = np.concatenate(wheres) if wheres else np.zeros(0, dtype=np.intp)
    order, begin = runs(key)
    entry = key[order[begin]]
    owner = np.full(reduction.unknowns, -1, dtype=np.intp)
    free = np.flatnonzero(reduction.place >= 0)
    owner[reduction.place[free]] = np.where(free < 6 * links.points, free // 6, free)
    return Assembly(
        blocks=tuple(blocks),
        order=order,
        begin=begin,
        row=entry // max(reduction.unknowns, 1),
        column=entry % max(reduction.unknowns, 1),
        unknowns=reduction.unknowns,
        owner=owner,
    )


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
            number = np.where(there, reduction.place[links.freedom], -1)[segment, :wide]
            out.append((segment, number, links.vec[segment, :patterns, :wide]))
    if np.any(touched):
        out.append(_wide(links, reduction, patterns, np.flatnonzero(touched)))
    return out


def _wide(links: Links, reduction: Reduction, patterns: int, segment: Index) -> tuple[Index, Index, Array]:
    """The same for segments some of whose freedoms follow others."""
    group = np.full(links.freedoms, -1, dtype=np.intp)
    rank = np.zeros(links.freedoms, dtype=np.intp)
    for g, follow in enumerate(reduction.follows):
        group[follow.slave] = g
        rank[follow.slave] = np.arange(follow.slave.size)
    own: list[tuple[Index, Array]] = []
    for s in segment:
        there = links.freedom[s] >= 0
        freedom, vec = links.freedom[s][there], links.vec[s, :patterns][:, there]
        follower = group[freedom] >= 0
        columns, parts = [freedom[~follower]], [vec[:, ~follower]]
        for g in distinct(group[freedom[follower]]):
            mine = group[freedom] == g
            follow = reduction.follows[g]
            columns.append(follow.master)
            parts.append(vec[:, mine] @ follow.weight[rank[freedom[mine]]])
        place = reduction.place[np.concatenate(columns)]
        all_parts = np.concatenate(parts, axis=1)
        touched, at = numbered(place)
        sums = np.zeros((touched.size, patterns))
        np.add.at(sums, at, all_parts.T)
        kept = (touched >= 0) & np.any(sums != 0.0, axis=1)
        own.append((touched[kept], sums[kept].T))
    width = max(number.size for number, _ in own)
    number = np.full((segment.size, width), -1, dtype=np.intp)
    vec = np.zeros((segment.size, patterns, width))
    for n, (places, sums) in enumerate(own):
        number[n, : places.size] = places
        vec[n, :, : places.size] = sums
    return segment, number, vec
