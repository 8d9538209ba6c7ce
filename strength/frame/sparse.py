"""Large frames: the same matrix in a narrow band. scipy is imported here only, and only when needed.

Reverse Cuthill-McKee order (Cuthill & McKee 1969, George 1971; scipy.sparse.csgraph) and LAPACK's banded
Cholesky factors; memory grows with unknowns x band, one design at a time.
"""

import numpy as np

from strength.frame.assembly import Assembly
from strength.frame.response import Array, Index
from strength.values import frozen

NUDGE = 1e-11  # on the unit diagonal, so that a singular matrix can still be factorised
GUESSES = 8  # soft movements looked for at once
TURNS = 6


@frozen(kw_only=True, eq=False)
class Band:
    """Where the entries of an assembly stand in the band."""

    order: Index  # (unknowns,) the unknown at each place
    height: Index  # (entries,) distance from the diagonal
    column: Index  # (entries,)
    width: int

    def fill(self, values: Array) -> Array:
        """Lower band (width + 1, unknowns) of entries (entries,), as LAPACK wants it."""
        out = np.zeros((self.width + 1, self.order.size), order="F")
        out[self.height, self.column] = values
        return out

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
    names, owner = np.unique(assembly.owner, return_inverse=True)
    leads = np.zeros(n, dtype=bool)
    leads[np.unique(owner, return_index=True)[1]] = True
    some = leads[assembly.row]
    one, other = owner[assembly.row[some]], owner[assembly.column[some]]
    both = (np.concatenate([one, other]), np.concatenate([other, one]))
    graph = csr_array((np.ones(both[0].size), both), shape=(names.size, names.size))
    rank = np.empty(names.size, dtype=np.intp)
    rank[reverse_cuthill_mckee(graph, symmetric_mode=True)] = np.arange(names.size)
    order = np.argsort(rank[owner], kind="stable")
    place = np.empty(n, dtype=np.intp)
    place[order] = np.arange(n)
    row, column = place[assembly.row], place[assembly.column]
    low = np.minimum(row, column)
    height = np.maximum(row, column) - low
    return Band(order=order, height=height, column=low, width=int(height.max(initial=0)))


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
        self._values = assembly.entries(coefficient)
        self._band = narrow(assembly)
        self._kept: tuple[int, Array] | None = None
        self.pivot = 1.0  # least pivot beside its diagonal; 0: singular

    def solve(self, loads: Array, some: Index) -> Array:
        """Unknowns (unknowns, some, loads) of the designs numbered `some`; loads: the same or one for all."""
        out = np.empty((loads.shape[0], some.size, loads.shape[2]))
        for n, d in enumerate(some.tolist()):
            column = d % self._values.shape[1]
            if self._kept is None or self._kept[0] != column:
                factor, pivot = factorise(self._band.fill(self._values[:, column]))
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
    band = narrow(assembly)
    values = assembly.entries(weight[None])[:, 0]
    diagonal = np.zeros(assembly.unknowns)
    on = assembly.row == assembly.column
    diagonal[assembly.row[on]] = values[on]
    scale = 1.0 / np.sqrt(np.where(diagonal > 0.0, diagonal, 1.0))
    values = values * scale[assembly.row] * scale[assembly.column]
    values[on] += NUDGE
    factor, pivot = factorise(band.fill(values))
    if pivot > 1e3 * NUDGE:
        return np.zeros((assembly.unknowns, 0))
    guess = np.random.default_rng(0).standard_normal((scale.size, GUESSES))
    for _ in range(TURNS):
        guess, _ = np.linalg.qr(band.solve(factor, guess))
    return np.asarray(scale[:, None] * guess)
