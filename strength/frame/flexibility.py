"""How a frame without axial forces moves under forces, block by block.

One call inverts all blocks of all designs, another what these leave of the unknowns between them: a tenth
of the work of inverting whole matrices.
"""

import numpy as np

from strength.frame.blocks import Blocks
from strength.frame.proof import BucklingPlan, steady
from strength.frame.response import Array
from strength.values import frozen


@frozen(kw_only=True, eq=False)
class Flexibility:
    """Inverses for each design."""

    blocks: Blocks
    give: Array  # (designs, blocks, width, width) inverses
    follow: Array  # (designs, blocks, width, between): what a block moves back by a unit of each between
    between: Array  # (designs, between, between) inverse of what the blocks leave

    @classmethod
    def of(cls, ready: BucklingPlan, coefficient: Array) -> "Flexibility":
        """That of coefficients (designs, segments, patterns) without axial force."""
        blocks = ready.blocks
        designs, (count, width), last = coefficient.shape[0], blocks.own.shape, blocks.between
        flat = np.stack([ready.assembly.summed(each, blocks.place, blocks.size) for each in coefficient])
        inner, across, rest = np.split(flat, blocks.ends, axis=1)
        inner = inner.reshape(designs, count, width, width)
        none, at = np.nonzero(blocks.own == ready.assembly.unknowns)
        inner[:, none, at, at] = 1.0
        across = across.reshape(designs, count, width, last.size)
        give = np.asarray(np.linalg.inv(inner), dtype=float)
        follow = give @ across
        rest = rest.reshape(designs, last.size, last.size) - _flat(across).transpose(0, 2, 1) @ _flat(follow)
        left = np.linalg.inv(steady(rest, ready.rigid[last], ready.amount[:, last]))
        return cls(blocks=blocks, give=give, follow=follow, between=np.asarray(left, dtype=float))

    @property
    def designs(self) -> int:
        """How many designs there are."""
        return int(self.give.shape[0])

    def moved(self, force: Array) -> Array:
        """Movements under forces (designs, unknowns, columns); of a free body some of those."""
        designs, unknowns, columns = force.shape
        own, last = self.blocks.own, self.blocks.between
        given = np.zeros((designs, unknowns + 1, columns))
        given[:, :unknowns] = force
        pushed = given[:, own]
        out = np.empty_like(given)
        found = self.between @ (force[:, last] - _flat(self.follow).transpose(0, 2, 1) @ _flat(pushed))
        out[:, own] = self.give @ pushed - self.follow @ found[:, None]
        out[:, last] = found
        return out[:, :unknowns]


def _flat(values: Array) -> Array:
    """(designs, blocks, width, columns) to (designs, blocks x width, columns)."""
    return values.reshape(values.shape[0], values.shape[1] * values.shape[2], values.shape[3])
