"""Cholesky's factor of a large frame's matrix, panel by panel, and solving with it.

Left-looking block elimination (Golub & Van Loan, Matrix Computations, 4.2.6, from memory), each step one
call of BLAS or LAPACK that works in place: rows that stand one after the other are to them the columns of
the transposed matrix.
"""

import numpy as np

from strength.frame.envelope import Envelope
from strength.frame.response import Array
from strength.values import frozen


@frozen(kw_only=True, eq=False)
class Factor:
    """The factor in its envelope."""

    envelope: Envelope
    values: Array
    pivot: float  # least beside its diagonal; 0: the matrix is singular and there is no factor

    def solve(self, loads: Array) -> Array:
        """Unknowns (unknowns, loads) from loads in their own order."""
        from scipy.linalg.blas import dtrsm

        envelope = self.envelope
        found = loads[envelope.order]
        for panel in envelope.panels:
            part, own = panel.of(self.values), slice(panel.begin, panel.end)
            count = panel.end - panel.begin
            found[own] = dtrsm(1.0, part[:count].T, found[own], trans_a=1)
            found[panel.end : panel.last] -= part[count:] @ found[own]
        for panel in reversed(envelope.panels):
            part, own = panel.of(self.values), slice(panel.begin, panel.end)
            count = panel.end - panel.begin
            rest = found[own] - part[count:].T @ found[panel.end : panel.last]
            found[own] = dtrsm(1.0, part[:count].T, rest)
        out = np.empty_like(found)
        out[envelope.order] = found
        return out


def factorise(envelope: Envelope, values: Array) -> Factor:
    """Factor the matrix in place; the pivot is 0 where it stops, singular."""
    from scipy.linalg.blas import dgemm, dtrsm
    from scipy.linalg.lapack import dpotrf

    before = values[envelope.diagonal]
    panels = envelope.panels
    first = 0
    for n, panel in enumerate(panels):
        part, count = panel.of(values), panel.end - panel.begin
        while panels[first].last <= panel.begin and first < n:
            first += 1
        for other in panels[first:n]:
            rows = other.of(values)[panel.begin - other.begin :]
            own, height = rows[:count].T, rows.shape[0]
            if height < count:
                part[:height, :height] -= rows @ own
            else:
                dgemm(-1.0, own, rows.T, 1.0, part[:height].T, trans_a=1, overwrite_c=1)
        corner, stopped = dpotrf(part[:count].T, clean=0, overwrite_a=1)
        if stopped:
            return Factor(envelope=envelope, values=values, pivot=0.0)
        if part.shape[0] > count:
            dtrsm(1.0, corner, part[count:].T, trans_a=1, overwrite_b=1)
    least = np.min(values[envelope.diagonal] ** 2 / before, initial=1.0)
    return Factor(envelope=envelope, values=values, pivot=float(least))
