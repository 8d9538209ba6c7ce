"""How movements of a frame strain its segments, and what balances the forces that go with the strains."""

import numpy as np

from strength.frame.assembly import Assembly, Block, runs
from strength.frame.response import Array, Index
from strength.values import frozen

PATTERNS = 8  # of a segment: six deformations and two sways


@frozen(kw_only=True, eq=False)
class Straining:
    """Segment by segment; the forces of all segments are summed in one sorted run per unknown."""

    blocks: tuple[Block, ...]
    back: tuple[Array, ...]  # the blocks' vectors (own, width, patterns)
    order: Index  # of the forces of all blocks, by unknown
    begin: Index  # first force on each unknown that has one
    number: Index  # those unknowns
    unknowns: int
    segments: int

    @classmethod
    def of(cls, assembly: Assembly, segments: int) -> "Straining":
        """That of a frame with all eight patterns."""
        number = np.concatenate(
            [np.zeros(0, dtype=np.intp), *(b.number.reshape(-1) for b in assembly.blocks)]
        )
        order, begin = runs(number)
        return cls(
            blocks=assembly.blocks,
            back=tuple(np.ascontiguousarray(block.vec.transpose(0, 2, 1)) for block in assembly.blocks),
            order=order,
            begin=begin,
            number=number[order[begin]],
            unknowns=assembly.unknowns,
            segments=segments,
        )

    def strains(self, movement: Array) -> Array:
        """Deformations of all patterns (8 segments, columns) of movements (unknowns, columns)."""
        out = np.zeros((self.segments, PATTERNS, movement.shape[1]))
        known = np.concatenate(
            [movement, np.zeros_like(movement[:1])]
        )  # the last stands for what is not there
        for block in self.blocks:
            out[block.segment] = block.vec @ known[block.number]
        return out.reshape(PATTERNS * self.segments, -1)

    def balance(self, force: Array) -> Array:
        """What balances forces of all patterns (8 segments, columns) on the unknowns: (unknowns, columns)."""
        columns = force.shape[1]
        out = np.zeros((self.unknowns, columns))
        if self.begin.size:
            own = force.reshape(-1, PATTERNS, columns)
            parts = [
                (back @ own[block.segment]).reshape(-1, columns)
                for back, block in zip(self.back, self.blocks, strict=True)
            ]
            out[self.number] = np.add.reduceat(np.concatenate(parts)[self.order], self.begin, axis=0)
        return out
