"""Large frames: one design after the other, the matrix kept within its envelope."""

import numpy as np

from strength.frame.assembly import Assembly
from strength.frame.envelope import Envelope, narrow
from strength.frame.factor import Factor, factorise
from strength.frame.response import Array, Index
from strength.values import evolve

NUDGE = 1e-11  # on the unit diagonal, so that a singular matrix can still be factorised
GUESSES = 8  # soft movements looked for at once
TURNS = 6


class Enveloped:
    """Solves large frames one design after the other; the last design's factor is kept for polishing."""

    def __init__(self, envelope: Envelope, coefficient: Array) -> None:
        self._coefficient = coefficient
        self._envelope = envelope
        self._kept: tuple[int, Factor] | None = None
        self.pivot = 1.0  # least pivot beside its diagonal; 0: singular

    def solve(self, loads: Array, some: Index) -> Array:
        """Unknowns (unknowns, some, loads) of the designs numbered `some`; loads: the same or one for all."""
        out = np.empty((loads.shape[0], some.size, loads.shape[2]))
        for n, d in enumerate(some.tolist()):
            design = d % self._coefficient.shape[0]
            if self._kept is None or self._kept[0] != design:
                factor = factorise(self._envelope, self._envelope.fill(self._coefficient[design]))
                self._kept = (design, factor)
                self.pivot = min(self.pivot, factor.pivot)
            if self.pivot == 0.0:
                break
            out[:, n] = self._kept[1].solve(loads[:, n % loads.shape[1]])
        return out


def soft_vectors(assembly: Assembly, weight: Array) -> Array:
    """Movements (unknowns, count) among which any that strain nothing must be; see `mechanism`.

    None where the factorisation is plainly sound; else inverse iteration on a few vectors at once, with
    the matrix nudged by 1e-11 of its diagonal. weight: (segments, patterns).
    """
    envelope = narrow(assembly)
    scale = np.empty(assembly.unknowns)
    diagonal = envelope.fill(weight)[envelope.diagonal]
    scale[envelope.order] = 1.0 / np.sqrt(np.where(diagonal > 0.0, diagonal, 1.0))
    blocks = (
        evolve(block, vec=block.vec * np.where(block.number < 0, 0.0, scale[block.number])[:, None])
        for block in assembly.blocks
    )
    envelope = evolve(envelope, assembly=evolve(assembly, blocks=tuple(blocks)))
    values = envelope.fill(weight)
    values[envelope.diagonal] += NUDGE
    factor = factorise(envelope, values)
    if factor.pivot > 1e3 * NUDGE:
        return np.zeros((assembly.unknowns, 0))
    guess = np.random.default_rng(0).standard_normal((scale.size, GUESSES))
    for _ in range(TURNS):
        guess, _ = np.linalg.qr(factor.solve(guess))
    return np.asarray(scale[:, None] * guess)
