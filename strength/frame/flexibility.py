"""How a frame without axial forces moves under forces, block by block.

One call inverts all blocks of all designs, another what these leave of the unknowns between them: a tenth
of the work of inverting whole matrices.
"""

import numpy as np

from strength.frame.assembly import Assembly
from strength.frame.blocks import Blocks
from strength.frame.proof import BucklingPlan, steady
from strength.frame.response import Array, Index
from strength.values import evolve, frozen


@frozen(kw_only=True, eq=False)
class Part:
    """Inverses of some blocks for each design, or for all of them as one."""

    own: Index  # (own, width) unknowns; their number where a block has no more
    give: Array  # (designs or 1, own, width, width)
    follow: Array  # (designs or 1, own, width, between): what a block moves back by a unit of each between


@frozen(kw_only=True, eq=False)
class Flexibility:
    """Blocks that are alike in all designs, the others, and what these leave of the unknowns between."""

    parts: tuple[Part, ...]
    last: Index  # (between,) unknowns
    between: Array  # (designs, between, between) inverse

    @classmethod
    def of(cls, ready: BucklingPlan, coefficient: Array) -> "Flexibility":
        """That of coefficients (designs, segments, patterns) without axial force."""
        last = ready.blocks.between
        return cls.parted(ready.assembly, ready.blocks, coefficient, ready.rigid[last], ready.amount[:, last])

    @classmethod
    def parted(
        cls,
        assembly: Assembly,
        blocks: Blocks,
        coefficient: Array,
        rigid: Array | None = None,
        amount: Array | None = None,
    ) -> "Flexibility":
        """The same of any frame; rigid, amount: of a free body's unknowns between blocks, as in `steady`."""
        designs, (count, width), last = coefficient.shape[0], blocks.own.shape, blocks.between
        flat = np.stack([assembly.summed(each, blocks.place, blocks.size) for each in coefficient])
        inner, across, rest = np.split(flat, blocks.ends, axis=1)
        inner = inner.reshape(designs, count, width, width)
        across = across.reshape(designs, count, width, last.size)
        rest = rest.reshape(designs, last.size, last.size)
        segment = np.any(coefficient != coefficient[:1], axis=(0, 2))[: blocks.touched.shape[0]]
        varied = np.any(blocks.touched[segment], axis=0)
        parts = []
        for chosen, some in ((np.flatnonzero(~varied), slice(1)), (np.flatnonzero(varied), slice(None))):
            if chosen.size:
                own, matrices, beside = blocks.own[chosen], inner[some, chosen], across[some, chosen]
                none, at = np.nonzero(own == assembly.unknowns)
                matrices[:, none, at, at] = 1.0
                give = np.asarray(np.linalg.inv(matrices), dtype=float)
                parts.append(Part(own=own, give=give, follow=give @ beside))
                rest = rest - _flat(beside).transpose(0, 2, 1) @ _flat(parts[-1].follow)
        left = np.linalg.inv(rest if rigid is None or amount is None else steady(rest, rigid, amount))
        return cls(parts=tuple(parts), last=last, between=np.asarray(left, dtype=float))

    @property
    def designs(self) -> int:
        """How many designs there are."""
        return int(self.between.shape[0])

    def of_designs(self, some: Index) -> "Flexibility":
        """That of some designs."""
        parts = (
            part if part.give.shape[0] == 1 else evolve(part, give=part.give[some], follow=part.follow[some])
            for part in self.parts
        )
        return Flexibility(parts=tuple(parts), last=self.last, between=self.between[some])

    def moved(self, force: Array) -> Array:
        """Movements under forces (designs, unknowns, columns); of a free body some of those."""
        designs, unknowns, columns = force.shape
        given = np.zeros((designs, unknowns + 1, columns))
        given[:, :unknowns] = force
        pushed = [given[:, part.own] for part in self.parts]
        handed = force[:, self.last]
        for part, own in zip(self.parts, pushed, strict=True):
            handed -= _flat(part.follow).transpose(0, 2, 1) @ _flat(own)
        out = np.empty_like(given)
        found = self.between @ handed
        for part, own in zip(self.parts, pushed, strict=True):
            out[:, part.own] = part.give @ own - part.follow @ found[:, None]
        out[:, self.last] = found
        return out[:, :unknowns]


def _flat(values: Array) -> Array:
    """(designs, blocks, width, columns) to (designs, blocks x width, columns)."""
    return values.reshape(values.shape[0], values.shape[1] * values.shape[2], values.shape[3])
