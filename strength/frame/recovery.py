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

POLISHED = 1e-10  # of the greatest force; an imbalance above it is solved for once more
ROUNDS = 4

Solver = Callable[[Array, Index], Array]


def recover(ready: Plan, coefficient: Array, forces: Array, solver: Solver) -> tuple[Array, Array, Array]:
    """Solve, and return movements, sizes of the patterns and what no part takes.

    forces: scaled, (freedoms, designs or 1, loads). solver: forces on the unknowns (unknowns, some or 1,
    loads) and the numbers of some designs to their unknowns (unknowns, some, loads). Returns scaled
    movements (freedoms, designs, loads), pattern forces (segments, 6, designs, loads) and the force left
    over on the freedoms (freedoms, designs, loads), which is minus the reactions.

    A stout part beside a soft one loses digits of its force, since that hangs on a small difference of
    movements. What is left out of balance is then solved for and added to the forces themselves, which
    brings the digits back. Exact segments take what the others leave, with the least norm where there is
    a choice.
    """
    links, reduction = ready.links, ready.reduction
    designs = max(coefficient.shape[0], forces.shape[1])
    stiff = np.ascontiguousarray(coefficient.transpose(1, 2, 0))[..., None]
    moves = reduction.expand(solver(reduction.gather(forces), np.arange(designs)))
    pattern_force = deformation(links, moves)
    pattern_force *= stiff
    left = forces - ready.pulls.summed(pattern_force)
    scale = np.maximum(greatest(forces), greatest(left))
    for _ in range(ROUNDS):
        rest = reduction.gather(left)
        rough = np.flatnonzero(np.any(greatest(rest) > POLISHED * scale, axis=1))
        if not rough.size:
            break
        more = reduction.expand(solver(rest[:, rough], rough))
        moves[:, rough] += more
        pattern_force[:, :, rough] += stiff[:, :, rough % stiff.shape[2]] * deformation(links, more)
        taken = ready.pulls.summed(pattern_force[:, :, rough])
        left[:, rough] = forces[:, rough % forces.shape[1]] - taken
    if ready.shares:
        size = np.linalg.norm(links.vec[:, :6], axis=2)
        for share in ready.shares:
            found = np.tensordot(share.share, left[share.freedom], axes=1)
            pattern_force[share.segment, share.pattern] = (
                found / size[share.segment, share.pattern, None, None]
            )
        left -= ready.exact_pulls.summed(pattern_force[ready.exact_pulls.segment])
    return moves, pattern_force, left


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


def respond(
    case: Case, layout: Layout, ready: Plan, moves: Array, pattern_force: Array, left: Array
) -> Response:
    """Back to mm, rad and N*mm, and to the parts' own axes."""
    links = ready.links
    designs, loads = moves.shape[1:]
    shape = (links.points, 6, designs, loads)
    unit = links.unit[: 6 * links.points, None, None]
    real = (moves[: unit.size] / unit).reshape(shape)
    flat = pattern_force.reshape(*pattern_force.shape[:2], -1)
    internal = links.pattern[:, :, :6] @ flat
    number = {point.name: n for n, point in enumerate(case.points)}
    held_at = np.array([number[support.at] for support in case.supports], dtype=np.intp)
    pushed = -(left[: unit.size].reshape(shape)[held_at] * unit.reshape(-1, 6, 1, 1)[held_at])
    return Response(
        displacements=real.transpose(2, 3, 0, 1),
        forces=internal.reshape(layout.bar.size, 2, 6, designs, loads).transpose(3, 4, 0, 1, 2),
        reactions=(pushed * _taken(case)[:, :, None, None]).transpose(2, 3, 0, 1),
    )


def _taken(case: Case) -> Array:
    """1 where a support takes a reaction; of two that hold the same, the first (supports, 6)."""
    out = np.array([support.hold for support in case.supports], dtype=float).reshape(-1, 6)
    for n, support in enumerate(case.supports):
        for before in range(n):
            if case.supports[before].at == support.at:
                out[n] *= 1.0 - out[before]
    return out
