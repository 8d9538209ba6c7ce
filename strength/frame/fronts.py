"""The fronts of an elimination: planned once, for all sizes of a frame."""

import numpy as np

from strength.arrays import distinct, numbered
from strength.frame.assembly import Assembly, joined
from strength.frame.ordering import Group, group_nodes
from strength.frame.response import Array, Flags, Index
from strength.values import frozen

Runs = tuple[tuple[slice, slice], ...]


@frozen(kw_only=True, eq=False)
class Front:
    """Unknowns `begin` to `end` in the order of elimination, and what they are joined to."""

    begin: int
    end: int
    border: Index  # (width,) places of later unknowns
    coefficient: Index  # (terms,) numbers among segments x patterns
    matrix: Array  # (terms, own x (own + width) or 2): the rows of its own unknowns, for a unit of each
    children: tuple[tuple[int, Runs], ...]  # fronts that hand over here: from their border to this front


@frozen(kw_only=True, eq=False)
class Fronts:
    """The order of all unknowns and the fronts that eliminate them, none before its children."""

    order: Index  # (unknowns,) the unknown at each place
    fronts: tuple[Front, ...]
    early: int  # how many there are before those of the points that go last


@frozen(kw_only=True, eq=False)
class _Shape:
    """Sizes of all fronts and where each place stands in them."""

    begin: Index  # (fronts,)
    end: Index
    border: list[Index]
    place: Index  # (unknowns,) in the order of elimination
    column: Index  # (fronts, unknowns) of every place of a front

    @property
    def wide(self) -> Index:
        """Unknowns of each front, its own and its border's (fronts,)."""
        return self.end - self.begin + np.array([around.size for around in self.border], dtype=np.intp)


def plan_fronts(assembly: Assembly, last: Flags | None = None) -> Fronts:
    """Find the order of elimination, and where each coefficient goes.

    last: (unknowns,) those whose points go after all others; none where left out.
    """
    _, node = numbered(assembly.owner)
    size = np.bincount(node)
    unknowns = np.split(np.argsort(node, kind="stable"), np.cumsum(size)[:-1])
    late = frozenset() if last is None else frozenset(node[last].tolist())
    groups = group_nodes(_neighbours(assembly, node, size.size), size.tolist(), late)
    order = joined([unknowns[n] for group in groups for n in group.own])
    place = np.empty_like(order)
    place[order] = np.arange(order.size)
    own = np.array([sum(unknowns[n].size for n in group.own) for group in groups], dtype=np.intp)
    end = np.cumsum(own)
    border = [np.sort(place[joined([unknowns[n] for n in group.border])]) for group in groups]
    column = np.zeros((len(groups), order.size), dtype=np.intp)
    for n, around in enumerate(border):
        column[n, end[n] - own[n] : end[n]] = np.arange(own[n])
        column[n, around] = own[n] + np.arange(around.size)
    shape = _Shape(begin=end - own, end=end, border=border, place=place, column=column)
    early = sum(late.isdisjoint(group.own) for group in groups)
    return Fronts(order=order, fronts=_fronts(assembly, groups, shape), early=early)


def _neighbours(assembly: Assembly, node: Index, count: int) -> list[int]:
    """Of each node, one bit for every other node that a segment ties it to."""
    out = [0] * count
    for block in assembly.blocks:
        for own in np.where(block.number >= 0, node[block.number], -1).tolist():
            tied = set(own) - {-1}
            mask = sum(1 << one for one in tied)
            for one in tied:
                out[one] |= mask
    return [mask & ~(1 << one) for one, mask in enumerate(out)]


def _fronts(assembly: Assembly, groups: list[Group], shape: _Shape) -> tuple[Front, ...]:
    terms, matrices = _matrices(assembly, shape)
    return tuple(
        Front(
            begin=int(shape.begin[n]),
            end=int(shape.end[n]),
            border=shape.border[n],
            coefficient=terms[n],
            matrix=matrices[n],
            children=tuple((child, _runs(shape.column[n, shape.border[child]])) for child in group.children),
        )
        for n, group in enumerate(groups)
    )


def _runs(columns: Index) -> Runs:
    """Stretches of a border that stand together in the next front, as slices of both."""
    found = []
    begin = 0
    at = columns.tolist()
    for end in range(1, len(at) + 1):
        if end == len(at) or at[end] != at[end - 1] + 1:
            found.append((slice(begin, end), slice(at[begin], at[end - 1] + 1)))
            begin = end
    return tuple(found)


def _matrices(assembly: Assembly, shape: _Shape) -> tuple[list[Index], list[Array]]:
    """Of each front: its coefficients, and its own rows for a unit of each."""
    fronts, wide, begin = shape.begin.size, shape.wide, shape.begin
    size = np.maximum((shape.end - begin) * wide, 2)  # a product with one column sums in another order
    front_at = np.repeat(np.arange(fronts), shape.end - begin)
    patterns = assembly.blocks[0].vec.shape[1] if assembly.blocks else 0
    segments = 1 + max((int(block.segment.max()) for block in assembly.blocks), default=0)
    touched = []
    for block in assembly.blocks:
        key = front_at[shape.place[block.number]] * segments + block.segment[:, None]
        touched.append(key[block.number >= 0])
    pairs = distinct(joined(touched))
    first = np.searchsorted(pairs, np.arange(fronts + 1) * segments)
    offset = np.append(0, np.cumsum(patterns * np.diff(first) * size))
    flat = np.zeros(int(offset[-1]))
    for block in assembly.blocks:
        at = shape.place[block.number]
        front, there = front_at[at], block.number >= 0
        pair = np.searchsorted(pairs, front * segments + block.segment[:, None]) - first[front]
        row = offset[front] + patterns * pair * size[front] + (at - begin[front]) * wide[front]
        later = at[:, None, :] >= begin[front][:, :, None]
        chosen = np.flatnonzero(there[:, :, None] & there[:, None, :] & later)
        one = chosen // at.shape[1]  # of all rows of all segments
        other = at.shape[1] * (one // at.shape[1]) + chosen % at.shape[1]
        front = front.reshape(-1)[one]
        goes = row.reshape(-1)[one] + shape.column[front, at.reshape(-1)[other]]
        vec = block.vec.transpose(1, 0, 2)
        products = np.take((vec[..., None] * vec[:, :, None]).reshape(patterns, -1), chosen, axis=1)
        flat[goes + np.arange(patterns)[:, None] * size[front]] = products
    own = [pairs[first[n] : first[n + 1]] % segments for n in range(fronts)]
    terms = [(patterns * each[:, None] + np.arange(patterns)).reshape(-1) for each in own]
    matrices = [flat[offset[n] : offset[n + 1]].reshape(terms[n].size, int(size[n])) for n in range(fronts)]
    return terms, matrices
