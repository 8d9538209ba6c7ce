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
    parts: list[Array]  # of each panel (rows, columns)
    pivot: float  # least beside its diagonal; 0: the matrix is singular and there is no factor

    def solve(self, loads: Array) -> Array:
        """Unknowns (unknowns, loads) from loads in their own order."""
        from scipy.linalg.blas import dgemm, dtrsm

        panels = self.envelope.panels
        found = np.take(loads, self.envelope.order, axis=0)
        steps = [
            (
                part[:count].T,
                part[count:].T,
                found[panel.begin : panel.end].T,
                found[panel.end : panel.last].T,
            )
            for panel, part in zip(panels, self.parts, strict=True)
            for count in (panel.end - panel.begin,)
        ]
        for corner, below, own, later in steps:
            dtrsm(1.0, corner, own, side=1, overwrite_b=1)
            if later.size:
                dgemm(-1.0, own, below, 1.0, later, overwrite_c=1)
        for corner, below, own, later in reversed(steps):
            if later.size:
                dgemm(-1.0, later, below, 1.0, own, trans_b=1, overwrite_c=1)
            dtrsm(1.0, corner, own, side=1, trans_a=1, overwrite_b=1)
        out = np.empty_like(found)
        out[self.envelope.order] = found
        return out


def factorise(envelope: Envelope, values: Array) -> Factor:
    """Factor the matrix in place; the pivot is 0 where it stops, singular."""
    from scipy.linalg.blas import dgemm, dtrsm
    from scipy.linalg.lapack import dpotrf

    before = values[envelope.diagonal]
    panels = envelope.panels
    parts = [panel.of(values) for panel in panels]
    first = 0
    for n, (panel, part) in enumerate(zip(panels, parts, strict=True)):
        count = panel.end - panel.begin
        while panels[first].last <= panel.begin and first < n:
            first += 1
        for other in range(first, n):
            rows = parts[other][panel.begin - panels[other].begin :]
            own, height = rows[:count].T, rows.shape[0]
            if height < count:
                part[:height, :height] -= rows @ own
            else:
                dgemm(-1.0, own, rows.T, 1.0, part[:height].T, trans_a=1, overwrite_c=1)
        corner, stopped = dpotrf(part[:count].T, clean=0, overwrite_a=1)
        if stopped:
            return Factor(envelope=envelope, parts=parts, pivot=0.0)
        if part.shape[0] > count:
            dtrsm(1.0, corner, part[count:].T, trans_a=1, overwrite_b=1)
    least = np.min(values[envelope.diagonal] ** 2 / before, initial=1.0)
    return Factor(envelope=envelope, parts=parts, pivot=float(least))
