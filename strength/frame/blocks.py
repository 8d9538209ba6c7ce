"""Unknowns of a frame in blocks that no segment joins, parted by a few between them.

Nested dissection (George 1973, SIAM J. Numer. Anal. 10:345, from memory), cut from the order in which
points are eliminated anyway. Branches are packed into blocks of like size, so that one call serves all.
"""

import numpy as np

from strength.arrays import others
from strength.frame.assembly import Assembly, joined
from strength.frame.fronts import Fronts
from strength.frame.response import Flags, Index
from strength.values import frozen

SHARES = (2, 3, 4, 5, 6, 8)  # of all unknowns, none more in a block: the cheapest is taken


@frozen(kw_only=True, eq=False)
class Blocks:
    """Which unknowns stand together, and where each product of the assembly goes."""

    own: Index  # (blocks, width) unknowns; their number where a block has no more
    between: Index  # (between,) unknowns
    place: Index  # (products,) in matrices of blocks, of blocks by between, of between: `size` for none
    size: int
    touched: Flags  # (segments, blocks): whether a segment touches unknowns of a block

    @property
    def ends(self) -> tuple[int, int]:
        """Where the matrices of blocks end, and those of blocks by between."""
        inner = self.own.size * self.own.shape[1]
        return inner, inner + self.own.size * self.between.size


def part(assembly: Assembly, planned: Fronts) -> Blocks:
    """The cheapest of some partings, from the order in which points can be eliminated."""
    unknowns = assembly.unknowns
    own = min(
        (_packed(planned, -(-unknowns // shares)) for shares in SHARES), key=lambda own: _cost(own, unknowns)
    )
    between = others(unknowns, own)
    size = own.size * (own.shape[1] + between.size) + between.size**2
    return Blocks(
        own=own,
        between=between,
        place=_places(assembly, own, between),
        size=size,
        touched=_touched(assembly, own),
    )


def _packed(planned: Fronts, most: int) -> Index:
    """Blocks (blocks, width) of whole branches, none of more unknowns; their number where there is none.

    A branch is a front with all that comes before it in the order of elimination and is joined to it.
    """
    fronts, unknowns = planned.fronts, planned.order.size
    size = [front.end - front.begin for front in fronts]
    for n, front in enumerate(fronts):
        size[n] += sum(size[child] for child, _ in front.children)
    top = [n if n < planned.early and size[n] <= most else -1 for n in range(len(fronts))]
    for n in reversed(range(len(fronts))):
        if top[n] >= 0:
            for child, _ in fronts[n].children:
                top[child] = top[n]
    full: list[int] = []
    block = {}
    for n in sorted({n for n in top if n >= 0}, key=lambda n: -size[n]):
        block[n] = next((b for b, held in enumerate(full) if held + size[n] <= most), len(full))
        if block[n] == len(full):
            full.append(0)
        full[block[n]] += size[n]
    own: list[list[Index]] = [[] for _ in full]
    for n, front in enumerate(fronts):
        if top[n] >= 0:
            own[block[top[n]]].append(planned.order[front.begin : front.end])
    out = np.full((len(full), max(full, default=0)), unknowns)
    for row, used, parts in zip(out, full, own, strict=True):
        row[:used] = np.concatenate(parts)
    return out


def _cost(own: Index, unknowns: int) -> float:
    """Multiply-adds of the inverses, and of what goes between."""
    count, width = own.shape
    between = unknowns - int(np.count_nonzero(own < unknowns))
    return float(count * width * (width + between) ** 2 + between**3)


def _places(assembly: Assembly, own: Index, between: Index) -> Index:
    """Where each product of the assembly goes, see Blocks."""
    unknowns, width, last = assembly.unknowns, own.shape[1], between.size
    none = own.size * (width + last) + last**2
    block, at = np.full((2, unknowns + 1), -1)
    block[own.reshape(-1)], at[own.reshape(-1)] = np.divmod(np.arange(own.size), max(width, 1))
    at[between] = np.arange(last)
    block[unknowns], at[unknowns] = -1, -1
    out = []
    for each in assembly.blocks:
        row = np.where(each.number >= 0, each.number, unknowns)
        b, i, j = block[row][:, :, None], at[row][:, :, None], at[row][:, None, :]
        inner = block[row][:, None, :] >= 0
        place = np.where(inner, (b * width + i) * width + j, own.size * width + (b * width + i) * last + j)
        place = np.where(b >= 0, place, np.where(inner, none, own.size * (width + last) + i * last + j))
        out.append(np.where((i >= 0) & (j >= 0), place, none).reshape(-1))
    return joined(out)


def _touched(assembly: Assembly, own: Index) -> Flags:
    """Whether a segment touches unknowns of a block: (segments, blocks)."""
    held = np.zeros((assembly.unknowns + 1, own.shape[0]), dtype=bool)
    held[own.reshape(-1), np.repeat(np.arange(own.shape[0]), own.shape[1])] = True
    held[-1] = False  # what is not there
    segments = 1 + max((int(each.segment.max()) for each in assembly.blocks), default=-1)
    out = np.zeros((segments, own.shape[0]), dtype=bool)
    for each in assembly.blocks:
        out[each.segment] = held[each.number].any(axis=1)
    return out
