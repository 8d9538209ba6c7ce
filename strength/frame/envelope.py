"""A large frame's matrix within its envelope: panels of columns, each down to the last row it reaches.

Reverse Cuthill-McKee order (Cuthill & McKee 1969, George 1971; scipy.sparse.csgraph) keeps the envelope
narrow; memory grows with unknowns x width. scipy is imported here only, and only when needed.
"""

from collections.abc import Iterator

import numpy as np

from strength.arrays import few, numbered
from strength.frame.assembly import Assembly, Block, joined
from strength.frame.response import Array, Index
from strength.values import frozen

WIDTH = 48  # columns of a panel (own choice from timing)


@frozen(kw_only=True, eq=False)
class Panel:
    """Columns `begin` to `end`, with all rows from `begin` to `last`, row after row from `at`."""

    begin: int
    end: int
    last: int
    at: int

    def of(self, values: Array) -> Array:
        """Its entries (rows, columns); those above the diagonal mean nothing."""
        size = (self.last - self.begin) * (self.end - self.begin)
        return values[self.at : self.at + size].reshape(-1, self.end - self.begin)


@frozen(kw_only=True, eq=False)
class Envelope:
    """Where the products of an assembly stand in the panels."""

    assembly: Assembly
    order: Index  # (unknowns,) the unknown at each place
    panels: tuple[Panel, ...]
    places: tuple[Index, ...]  # of each block (own, width): places of its unknowns, -1 where there is none
    base: Index  # (unknowns,) of each column, where its row 0 would stand among the values of all panels
    stride: Index  # (unknowns,) of each column, from one row to the next
    size: int

    @property
    def diagonal(self) -> Index:
        """Where the diagonal stands (unknowns,)."""
        return self.base + self.stride * np.arange(self.order.size)

    def fill(self, coefficient: Array) -> Array:
        """Values of all panels (size,) of coefficients (segments, patterns)."""
        out = np.zeros(self.size + 1)  # the last takes what belongs nowhere
        for block, at in zip(self.assembly.blocks, self.places, strict=True):
            for some in few(at.shape[0], at.shape[1] ** 2):
                row, column = at[some, :, None], at[some, None, :]
                goes = self.base[column] + self.stride[column] * row
                goes[(row < column) | (column < 0)] = self.size
                np.add.at(out, goes.reshape(-1), block.products(coefficient, some).reshape(-1))
        return out[: self.size]


def narrow(assembly: Assembly) -> Envelope:
    """Order the points, and with them the unknowns, so that the envelope is narrow."""
    names, owner = numbered(assembly.owner)
    found = min(
        (_reached(assembly, rank[owner]) for rank in _ranks(assembly, owner, names.size)),
        key=lambda each: int(each[2].sum()),
    )
    order, places, reach = found
    panels = _panels(reach)
    columns = [panel.end - panel.begin for panel in panels]
    stride = np.repeat(np.array(columns, dtype=np.intp), columns)
    corner = [panel.at - panel.begin * (panel.end - panel.begin + 1) for panel in panels]
    base = np.repeat(np.array(corner, dtype=np.intp), columns) + np.arange(order.size)
    size = sum((panel.last - panel.begin) * (panel.end - panel.begin) for panel in panels)
    return Envelope(
        assembly=assembly,
        order=order,
        panels=panels,
        places=places,
        base=base,
        stride=stride,
        size=size,
    )


def _reached(assembly: Assembly, rank: Index) -> tuple[Index, tuple[Index, ...], Index]:
    """Order of the unknowns by rank, places of each block's unknowns, the row each column reaches."""
    order = np.argsort(rank, kind="stable")
    place = np.empty_like(order)
    place[order] = np.arange(order.size)
    reach = np.arange(order.size)
    places = []
    for block in assembly.blocks:
        at = place[block.number]
        first = np.where(block.number < 0, order.size, at).min(axis=1)
        at[block.number < 0] = -1
        some = first < order.size
        np.maximum.at(reach, first[some], at.max(axis=1)[some])
        places.append(at)
    return order, tuple(places), np.maximum.accumulate(reach)


def _ranks(assembly: Assembly, owner: Index, count: int) -> Iterator[Index]:
    """Orders of the owners, by the place of each: from one end, and from all that is held at once."""
    from scipy.sparse import csr_array
    from scipy.sparse.csgraph import breadth_first_order, reverse_cuthill_mckee

    ties = [_ties(block, owner, count) for block in assembly.blocks]
    one, other = joined([tie[0] for tie in ties]), joined([tie[1] for tie in ties])
    both = (np.concatenate([one, other]), np.concatenate([other, one]))
    graph = csr_array((np.ones(both[0].size), both), shape=(count + 1, count + 1))
    rank = np.empty(count, dtype=np.intp)
    rank[reverse_cuthill_mckee(graph[:count, :count], symmetric_mode=True)] = np.arange(count)
    yield rank
    outward = breadth_first_order(graph, count, return_predecessors=False)
    if outward.size == count + 1:
        rank = np.empty(count + 1, dtype=np.intp)
        rank[outward] = np.arange(count, -1, -1)
        yield rank[:count]


def _ties(block: Block, owner: Index, ground: int) -> tuple[Index, Index]:
    """Pairs of owners that segments tie together: all of a segment to the first of them, or to the ground."""
    here = np.where(block.number >= 0, owner[block.number], ground)
    least = here.min(axis=1)[:, None]
    new = here > least
    new[:, 1:] &= here[:, 1:] != here[:, :-1]
    return np.broadcast_to(least, here.shape)[new], here[new]


def _panels(reach: Index) -> tuple[Panel, ...]:
    """Panels that hold each column down to the row it reaches; these rows rise with the columns."""
    out, at = [], 0
    for begin in range(0, reach.size, WIDTH):
        end = min(begin + WIDTH, reach.size)
        panel = Panel(begin=begin, end=end, last=int(reach[end - 1]) + 1, at=at)
        at += (panel.last - begin) * (end - begin)
        out.append(panel)
    return tuple(out)
