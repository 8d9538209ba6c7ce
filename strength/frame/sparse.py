"""Large frames: the same matrix in a narrow band. scipy is imported here only, and only when needed.

Reverse Cuthill-McKee order (Cuthill & McKee 1969, George 1971; scipy.sparse.csgraph) and LAPACK's banded
Cholesky factors; memory grows with unknowns x band, one design at a time.
"""

import numpy as np

from strength.arrays import numbered
from strength.frame.assembly import Assembly, Block, joined
from strength.frame.response import Array, Index
from strength.values import frozen

NUDGE = 1e-11  # on the unit diagonal, so that a singular matrix can still be factorised
GUESSES = 8  # soft movements looked for at once
TURNS = 6


@frozen(kw_only=True, eq=False)
class Band:
    """Where the products of an assembly stand in the band."""

    assembly: Assembly
    order: Index  # (unknowns,) the unknown at each place
    places: Index  # (products,) in the columns of the band, one after the other
    width: int

    def fill(self, coefficient: Array) -> Array:
        """Lower band (width + 1, unknowns), as LAPACK wants it, of coefficients (segments, patterns)."""
        size = (self.width + 1) * self.order.size
        return self.assembly.summed(coefficient, self.places, size).reshape(self.order.size, -1).T

    def solve(self, factor: Array, loads: Array) -> Array:
        """Unknowns (unknowns, loads) from the factor and loads in their own order."""
        from scipy.linalg import cho_solve_banded

        out = np.empty_like(loads)
        out[self.order] = cho_solve_banded((factor, True), loads[self.order], check_finite=False)
        return out


def narrow(assembly: Assembly) -> Band:
    """Order the points, and with them the unknowns, so that the band is narrow."""
    from scipy.sparse import csr_array
    from scipy.sparse.csgraph import reverse_cuthill_mckee

    n = assembly.unknowns
    names, owner = numbered(assembly.owner)
    one, other = _ties(assembly, owner)
    both = (np.concatenate([one, other]), np.concatenate([other, one]))
    graph = csr_array((np.ones(both[0].size), both), shape=(names.size, names.size))
    rank = np.empty(names.size, dtype=np.intp)
    rank[reverse_cuthill_mckee(graph, symmetric_mode=True)] = np.arange(names.size)
    order = np.argsort(rank[owner], kind="stable")
    place = np.empty(n, dtype=np.intp)
    place[order] = np.arange(n)
    width = 0
    for block in assembly.blocks:
        there, at = block.number >= 0, place[block.number]
        reach = np.where(there, at, -1).max(axis=1) - np.where(there, at, n).min(axis=1)
        width = max(width, int(reach.max()))
    places = joined([_places(block, place, width).reshape(-1) for block in assembly.blocks])
    return Band(assembly=assembly, order=order, places=places, width=width)


def _ties(assembly: Assembly, owner: Index) -> tuple[Index, Index]:
    """Pairs of owners that segments tie together: all of a segment to the first of them."""
    ones, others = [], []
    for block in assembly.blocks:
        here = np.where(block.number >= 0, owner[block.number], owner.size)
        least = here.min(axis=1)[:, None]
        new = (here > least) & (here < owner.size)
        new[:, 1:] &= here[:, 1:] != here[:, :-1]
        ones.append(np.broadcast_to(least, here.shape)[new])
        others.append(here[new])
    return np.concatenate(ones), np.concatenate(others)


def _places(block: Block, place: Index, width: int) -> Index:
    """Where in the band the products of a block stand: (own, unknowns, unknowns)."""
    at = np.where(block.number >= 0, place[block.number], -1)
    out = at[:, :, None] + width * at[:, None, :]
    out[(at[:, :, None] < at[:, None, :]) | (at[:, None, :] < 0)] = (width + 1) * place.size
    return np.asarray(out)


def factorise(band: Array) -> tuple[Array, float]:
    """Banded Cholesky factor, and the least pivot beside its diagonal: 0 where it stops, singular."""
    from scipy.linalg import cholesky_banded

    diagonal = band[0].copy()
    try:
        factor = cholesky_banded(band, lower=True, overwrite_ab=True, check_finite=False)
    except np.linalg.LinAlgError:
        return band, 0.0
    return factor, float(np.min(factor[0] ** 2 / diagonal, initial=1.0))


class Banded:
    """Solves large frames one design after the other; the last design's factor is kept for polishing."""

    def __init__(self, assembly: Assembly, coefficient: Array) -> None:
        self._coefficient = coefficient
        self._band = narrow(assembly)
        self._kept: tuple[int, Array] | None = None
        self.pivot = 1.0  # least pivot beside its diagonal; 0: singular

    def solve(self, loads: Array, some: Index) -> Array:
        """Unknowns (unknowns, some, loads) of the designs numbered `some`; loads: the same or one for all."""
        out = np.empty((loads.shape[0], some.size, loads.shape[2]))
        for n, d in enumerate(some.tolist()):
            column = d % self._coefficient.shape[0]
            if self._kept is None or self._kept[0] != column:
                factor, pivot = factorise(self._band.fill(self._coefficient[column]))
                self._kept = (column, factor)
                self.pivot = min(self.pivot, pivot)
            if self.pivot == 0.0:
                break
            out[:, n] = self._band.solve(self._kept[1], loads[:, n % loads.shape[1]])
        return out


def soft_vectors(assembly: Assembly, weight: Array) -> Array:
    """Movements (unknowns, count) among which any that strain nothing must be; see `mechanism`.

    None where the factorisation is plainly sound; else inverse iteration on a few vectors at once, with
    the matrix nudged by 1e-11 of its diagonal.
    """
    diagonal = np.zeros(assembly.unknowns + 1)
    for block in assembly.blocks:
        own = np.einsum("sp,spw->sw", weight[block.segment, : block.vec.shape[1]], block.vec**2)
        np.add.at(diagonal, block.number, own)  # what belongs to no unknown adds to the last
    scale = 1.0 / np.sqrt(np.where(diagonal[:-1] > 0.0, diagonal[:-1], 1.0))
    band = narrow(assembly)
    matrix = band.fill(weight)
    height = np.arange(band.width + 1)[:, None]
    along = np.append(scale[band.order], np.zeros(band.width))
    matrix *= along[: scale.size] * along[height + np.arange(scale.size)]
    matrix[0] += NUDGE
    factor, pivot = factorise(matrix)
    if pivot > 1e3 * NUDGE:
        return np.zeros((assembly.unknowns, 0))
    guess = np.random.default_rng(0).standard_normal((scale.size, GUESSES))
    for _ in range(TURNS):
        guess, _ = np.linalg.qr(band.solve(factor, guess))
    return np.asarray(scale[:, None] * guess)
