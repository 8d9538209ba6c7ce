"""From unknowns to forces in the parts, reactions, and back to mm, rad and N*mm."""

from collections.abc import Callable

import numpy as np

from strength.case.model import Case
from strength.frame.assembly import runs
from strength.frame.links import Links
from strength.frame.plan import Plan
from strength.frame.response import Array, Index, Layout, Response

POLISHED = 1e-10  # of the greatest force; an imbalance above it is solved for once more
ROUNDS = 4

Solver = Callable[[Array, Index], Array]


def recover(ready: Plan, coefficient: Array, forces: Array, solver: Solver) -> tuple[Array, Array, Array]:
    """Solve, and return movements, sizes of the patterns and what no part takes.

    solver: forces on the unknowns (some or 1, unknowns, loads) and the numbers of some designs to their
    unknowns (some, unknowns, loads). Returns scaled movements
    (designs, freedoms, loads), pattern forces (designs, segments, 6, loads) and the force left over on
    the freedoms (designs, freedoms, loads), which is minus the reactions.

    A stout part beside a soft one loses digits of its force, since that hangs on a small difference of
    movements. What is left out of balance is then solved for and added to the forces themselves, which
    brings the digits back. Exact segments take what the others leave, with the least norm where there is
    a choice.
    """
    links = ready.links
    designs = max(coefficient.shape[0], forces.shape[0])
    unknown = solver(ready.reduction.gather(forces), np.arange(designs))
    moves = ready.reduction.expand(unknown)
    pattern_force = coefficient[..., None] * deformation(links, moves)
    left = forces - scatter(links, pattern_force)
    scale = np.maximum(*(np.abs(part).max(axis=1, keepdims=True, initial=0.0) for part in (forces, left)))
    for _ in range(ROUNDS):
        rest = ready.reduction.gather(left)
        rough = np.flatnonzero(np.any(np.abs(rest) > POLISHED * scale, axis=(1, 2)))
        if not rough.size:
            break
        more = ready.reduction.expand(solver(rest[rough], rough))
        moves[rough] += more
        pattern_force[rough] += coefficient[rough % coefficient.shape[0], ..., None] * deformation(
            links, more
        )
        left[rough] = (forces - scatter(links, pattern_force))[rough]
    if ready.shares:
        size = np.linalg.norm(links.vec[:, :6], axis=2)
        for share in ready.shares:
            found = share.share @ left[:, share.freedom]
            pattern_force[:, share.segment, share.pattern] = found / size[share.segment, share.pattern, None]
        exact = np.flatnonzero(links.exact)
        left = left - scatter(links, pattern_force[:, exact], exact)
    return moves, pattern_force, left


def deformation(links: Links, moves: Array) -> Array:
    """Natural deformations (designs, segments, 6, loads) of scaled movements (designs, freedoms, loads)."""
    own = moves[:, np.maximum(links.freedom, 0)]
    own[:, links.freedom < 0] = 0.0
    return np.asarray(links.vec[:, :6] @ own)


def scatter(links: Links, pattern_force: Array, some: Index | slice = slice(None)) -> Array:
    """Sum over (some) segments of what they take from the freedoms: (designs, freedoms, loads) N."""
    ends = links.vec[some, :6].transpose(0, 2, 1) @ pattern_force
    flat = ends.reshape(ends.shape[0], -1, ends.shape[-1])
    key = links.freedom[some].reshape(-1)
    order, begin = runs(key)
    out = np.zeros((ends.shape[0], links.freedoms, ends.shape[-1]))
    if order.size:
        out[:, key[order[begin]]] = np.add.reduceat(flat[:, order], begin, axis=1)
    return out


def respond(
    case: Case, layout: Layout, ready: Plan, moves: Array, pattern_force: Array, left: Array
) -> Response:
    """Back to mm, rad and N*mm, and to the parts' own axes."""
    links = ready.links
    designs, _, loads = moves.shape
    shape = (designs, links.points, 6, loads)
    real = (moves / links.unit[:, None])[:, : 6 * links.points].reshape(shape)
    internal = links.pattern[:, :, :6] @ pattern_force
    number = {point.name: n for n, point in enumerate(case.points)}
    held_at = np.array([number[support.at] for support in case.supports], dtype=np.intp)
    pushed = -(left * links.unit[:, None])[:, : 6 * links.points].reshape(shape)[:, held_at]
    return Response(
        displacements=real.transpose(0, 3, 1, 2),
        forces=internal.reshape(designs, layout.bar.size, 2, 6, loads).transpose(0, 4, 1, 2, 3),
        reactions=(pushed * _taken(case)[:, :, None]).transpose(0, 3, 1, 2),
    )


def _taken(case: Case) -> Array:
    """1 where a support takes a reaction; of two that hold the same, the first (supports, 6)."""
    out = np.array([support.hold for support in case.supports], dtype=float).reshape(-1, 6)
    for n, support in enumerate(case.supports):
        for before in range(n):
            if case.supports[before].at == support.at:
                out[n] *= 1.0 - out[before]
    return out
