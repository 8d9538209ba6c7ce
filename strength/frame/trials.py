"""Trial shapes of buckling, of which all combinations are judged at once."""

import numpy as np

from strength.arrays import numbered
from strength.frame.flexibility import Flexibility
from strength.frame.proof import BucklingPlan
from strength.frame.response import Array, Flags, Index
from strength.frame.straining import Straining
from strength.values import evolve, frozen

NEW = 1e-4  # share of a shape that must be new, lest round-off be taken for a shape


@frozen(kw_only=True, eq=False)
class Trials:
    """Shapes of all items, each a load of some design; they fill in place, 0 where there was nothing new.

    They share no strain energy without axial forces, but for round-off, and have a unit of it each.
    """

    ready: BucklingPlan
    straining: Straining
    flexibility: Flexibility
    design: Index  # (items,) numbers among the designs of the flexibility
    column: Index  # (items,) numbers among the items of the same design
    stiff: Array  # (items, patterns) stiffness without axial force
    moves: Array  # (items, room, unknowns)
    held: Array  # (items, room, patterns) strains

    @classmethod
    def of(cls, ready: BucklingPlan, coefficient: Array, design: Index, room: int) -> "Trials":
        """None yet; coefficient: (designs, segments, patterns). design: in rising order."""
        items, unknowns = design.size, ready.assembly.unknowns
        stiff = coefficient.reshape(coefficient.shape[0], -1)[design]
        return cls(
            ready=ready,
            straining=Straining.of(ready.assembly, coefficient.shape[1]),
            flexibility=Flexibility.of(ready, coefficient),
            design=design,
            column=_columns(design),
            stiff=stiff,
            moves=np.zeros((items, room, unknowns)),
            held=np.zeros((items, room, stiff.shape[1])),
        )

    @property
    def room(self) -> int:
        """How many shapes there is room for."""
        return int(self.held.shape[1])

    def some(self, wanted: Flags, n: int, room: int) -> "Trials":
        """The first n shapes of some items (items,), with room for so many in all."""
        designs, design = numbered(self.design[wanted])
        few = designs.size < self.flexibility.designs
        return evolve(
            self,
            flexibility=self.flexibility.of_designs(designs) if few else self.flexibility,
            design=design,
            column=_columns(design),
            stiff=self.stiff[wanted],
            moves=_roomy(self.moves[wanted, :n], room),
            held=_roomy(self.held[wanted, :n], room),
        )

    def moved(self, pull: Array) -> tuple[Array, Array, Array]:
        """Of pulls (items, unknowns): those that leave a free body where it is, movements, and their size.

        Size (items,): the root of the work of the pull on the movement.
        """
        pull = pull - (pull @ self.ready.rigid) @ self.ready.amount
        given = np.zeros((self.flexibility.designs, pull.shape[1], int(self.column.max()) + 1))
        given[self.design, :, self.column] = pull
        movement = self.flexibility.moved(given)[self.design, :, self.column]
        work = np.einsum("lu,lu->l", pull, movement)
        return pull, movement, np.sqrt(np.maximum(work, 0.0))

    def add(self, n: int, pull: Array, movement: Array, size: Array) -> None:
        """Make shape n of what is new in a movement, where it is new enough.

        Strains come from the movement that is left: what round-off leaves of strains alone is a shape
        that cannot be. What they still share with other shapes is taken off once more: shapes that hang on
        each other would fall of themselves.
        """
        moves, held = self.moves[:, :n], self.held[:, :n]
        shared = (moves @ pull[:, :, None]).transpose(0, 2, 1)
        movement = movement - (shared @ moves)[:, 0]
        movement -= (movement @ self.ready.amount.T) @ self.ready.rigid.T
        strains = self.straining.strains(movement.T).T
        shared = (held @ (self.stiff * strains)[:, :, None]).transpose(0, 2, 1)
        movement -= (shared @ moves)[:, 0]
        strains = strains - (shared @ held)[:, 0]
        left = np.sqrt(np.einsum("lp,lp,lp->l", strains, self.stiff, strains))
        new = left > NEW * size
        scale = np.where(new, 1.0 / np.where(new, left, 1.0), 0.0)[:, None]
        self.moves[:, n], self.held[:, n] = scale * movement, scale * strains

    def pull(self, stiffness: Array, strains: Array) -> Array:
        """Forces (items, unknowns) that go with strains (items, patterns) of stiffnesses alike."""
        return self.straining.balance((stiffness * strains).T).T

    def lowest(self, n: int, stiffness: Array) -> tuple[Array, Array]:
        """Strains (items, patterns) of the lowest combination of the first n shapes, and its height."""
        shapes = self.held[:, :n]
        matrix = (stiffness[:, None] * shapes) @ shapes.transpose(0, 2, 1)
        empty = ~np.any(shapes, axis=2)
        matrix += empty[:, None, :] * np.eye(n)
        values, vectors = np.linalg.eigh(matrix)
        return (vectors[:, None, :, 0] @ shapes)[:, 0], values[:, 0]


def _columns(design: Index) -> Index:
    return np.asarray(np.arange(design.size) - np.searchsorted(design, design))


def _roomy(shapes: Array, room: int) -> Array:
    """Shapes (items, shapes, ...) with zeros up to the room there is."""
    out = np.zeros((shapes.shape[0], room, shapes.shape[2]))
    out[:, : shapes.shape[1]] = shapes
    return out
