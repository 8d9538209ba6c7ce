"""From unknowns to forces in the parts, reactions, and back to mm, rad and N*mm.

Quantity first, designs and loads last: what is the same for all of them is one matrix product.
"""

from collections.abc import Callable

import numpy as np

from strength.arrays import few, greatest
from strength.case.model import Case
from strength.frame.links import Links
from strength.frame.plan import Plan
from strength.frame.response import Array, Index, Layout, Response

FINE = 1e-13  # of the greatest force; an imbalance above it is solved for once more where that is quick
POLISHED = 1e-10  # the same where it is not
ROUNDS = 4

Solver = Callable[[Array, Index], Array]
Recovered = tuple[Array, Array, Array]  # see `recover`


def recover(
    ready: Plan, coefficient: Array, forces: Array, solver: Solver, quick: Solver | None = None
) -> Recovered:
    """Solve, and return movements, sizes of the patterns and what no part takes.

    forces: scaled, (freedoms, designs or 1, loads). solver: forces on the unknowns (unknowns, some or 1,
    loads) and the numbers of some designs to their unknowns (unknowns, some, loads); quick: likewise, not so
    sure. Returns scaled movements (freedoms, designs, loads), pattern forces (segments, 6, designs, loads)
    and the force left over on the freedoms (freedoms, designs, loads), which is minus the reactions.

    A stout part beside a soft one loses digits of its force, since that hangs on a small difference of
    movements. What is left out of balance is then solved for and added to the forces themselves, which
    brings the digits back. Exact segments take what the others leave, with the least norm where there is
    a choice.
    """
    designs = max(coefficient.shape[0], forces.shape[1])
    moves = ready.reduction.expand(solver(ready.reduction.gather(forces), np.arange(designs)))
    found = _Found(ready, coefficient, forces, moves)
    if quick is not None:
        found.polish(quick, FINE)
    for _ in range(ROUNDS):
        if not found.polish(solver, POLISHED):
            break
    pattern_force, left = found.pattern_force, found.left
    if ready.shares:
        size = np.linalg.norm(ready.links.vec[:, :6], axis=2)
        for share in ready.shares:
            force = np.tensordot(share.share, left[share.freedom], axes=1)
            pattern_force[share.segment, share.pattern] = (
                force / size[share.segment, share.pattern, None, None]
            )
        left -= ready.exact_pulls.summed(pattern_force[ready.exact_pulls.segment])
    return found.moves, pattern_force, left


class _Found:
    """Movements, pattern forces and what is left over, until they are in balance."""

    def __init__(self, ready: Plan, coefficient: Array, forces: Array, moves: Array) -> None:
        self.ready, self.forces, self.moves = ready, forces, moves
        self.stiff = np.ascontiguousarray(coefficient.transpose(1, 2, 0))[..., None]
        self.pattern_force = self._carried(moves, slice(None))
        self.left = self._left(slice(None))
        self.scale = np.maximum(greatest(forces), greatest(self.left))
        self.rest = ready.reduction.gather(self.left)  # of what is left, that on the unknowns
        self.wrong = greatest(self.rest)

    def polish(self, solver: Solver, digits: float) -> bool:
        """Solve for what is out of balance by more than `digits`; whether there was anything.

        Kept for designs where it halves that or brings it below.
        """
        reduction = self.ready.reduction
        rough = np.flatnonzero(np.any(self.wrong > digits * self.scale, axis=1))
        if not rough.size:
            return False
        own = slice(None) if rough.size == self.wrong.shape[0] else rough
        more = reduction.expand(solver(self.rest[:, own], rough))
        added = self._carried(more, own)
        self.pattern_force[:, :, own] += added
        left = self._left(own)
        rest = reduction.gather(left)
        wrong = greatest(rest)
        good = np.all(wrong <= np.maximum(0.5 * self.wrong[own], digits * self.scale[own]), axis=1)
        if good.all():
            self.moves[:, own] += more
            self.left[:, own], self.rest[:, own], self.wrong[own] = left, rest, wrong
            return True
        kept = rough[good]
        self.pattern_force[:, :, rough[~good]] -= added[:, :, ~good]
        self.moves[:, kept] += more[:, good]
        self.left[:, kept], self.rest[:, kept], self.wrong[kept] = left[:, good], rest[:, good], wrong[good]
        return bool(kept.size)

    def _carried(self, moves: Array, own: Index | slice) -> Array:
        """What the patterns of some designs carry as their points move."""
        found = deformation(self.ready.links, moves)
        found *= self.stiff if self.stiff.shape[2] == 1 else self.stiff[:, :, own]
        return found

    def _left(self, own: Index | slice) -> Array:
        """What the patterns of some designs leave of the loads."""
        taken = self.ready.pulls.summed(self.pattern_force[:, :, own])
        forces = self.forces if self.forces.shape[1] == 1 else self.forces[:, own]
        return np.subtract(forces, taken, out=taken)


def deformation(links: Links, moves: Array) -> Array:
    """Natural deformations (segments, 6, designs, loads) of scaled movements (freedoms, designs, loads)."""
    flat = moves.reshape(moves.shape[0], -1)
    out = np.empty((links.freedom.shape[0], 6, flat.shape[1]))
    for some in few(out.shape[0], 12 * flat.shape[1]):
        np.matmul(links.vec[some, :6, :12], flat[links.freedom[some, :12]], out=out[some])
    for side in (12, 13):
        hinged = np.flatnonzero(links.freedom[:, side] >= 0)
        out[hinged] += links.vec[hinged, :6, side, None] * flat[links.freedom[hinged, side], None]
    return out.reshape(*out.shape[:2], *moves.shape[1:])


def respond(case: Case, layout: Layout, ready: Plan, found: Recovered, gauge: Array | None) -> Response:
    """Back to mm, rad and N*mm, and to the parts' own axes.

    found: as of `recover`. gauge: (6, freedoms), how much of each rigid motion is taken away from a body
    that flies free.
    """
    links = ready.links
    moves, pattern_force, left = found
    designs, loads = moves.shape[1:]
    flat = pattern_force.reshape(*pattern_force.shape[:2], -1)
    internal = links.pattern[:, :, :6] @ flat
    return Response(
        displaced=lambda: displacements(ready, moves, gauge),
        forces=internal.reshape(layout.bar.size, 2, 6, designs, loads).transpose(3, 4, 0, 1, 2),
        reactions=reactions(case, links, left),
    )


def displacements(ready: Plan, moves: Array, gauge: Array | None) -> Array:
    """Movements and turns of the points (designs, loads, points, 6) mm, rad, of scaled ones."""
    links = ready.links
    if ready.rigid_motions is not None and gauge is not None:
        flat = moves.reshape(links.freedoms, -1)
        moves = (flat - ready.rigid_motions.T @ (gauge @ flat)).reshape(moves.shape)
    unit = links.unit[: 6 * links.points, None, None]
    return (moves[: unit.size] / unit).reshape(links.points, 6, *moves.shape[1:]).transpose(2, 3, 0, 1)


def reactions(case: Case, links: Links, left: Array) -> Array:
    """What supports push with (designs, loads, supports, 6) N, N*mm, of what is left over on the freedoms."""
    unit = links.unit[: 6 * links.points]
    number = {point.name: n for n, point in enumerate(case.points)}
    held_at = np.array([number[support.at] for support in case.supports], dtype=np.intp)
    at_points = left[: unit.size].reshape(links.points, 6, *left.shape[1:])
    pushed = -(at_points[held_at] * unit.reshape(-1, 6, 1, 1)[held_at])
    return np.asarray((pushed * _taken(case)[:, :, None, None]).transpose(2, 3, 0, 1))


def _taken(case: Case) -> Array:
    """1 where a support takes a reaction; of two that hold the same, the first (supports, 6)."""
    out = np.array([support.hold for support in case.supports], dtype=float).reshape(-1, 6)
    for n, support in enumerate(case.supports):
        for before in range(n):
            if case.supports[before].at == support.at:
                out[n] *= 1.0 - out[before]
    return out
