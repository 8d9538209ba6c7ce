"""Whether anything can move without deforming, found from the geometry alone.

Every deformation row of every part is brought to size 1, so that neither soft struts nor stout stubs
nor units matter. Only where the factorisation of this matrix looks singular are its smallest
eigenvectors taken, and a movement counts only if no part is strained by it (1e-9): a sound frame that
is merely soft raises no alarm.
"""

import numpy as np

from strength.arrays import distinct
from strength.case.checking.meeting import unjoined
from strength.case.model import Case
from strength.errors import MechanismError
from strength.frame.assembly import LARGE, Assembly
from strength.frame.holds import EXACTLY
from strength.frame.layout import part_names
from strength.frame.links import Links
from strength.frame.reduction import Reduction
from strength.frame.response import Array, Index, Layout

DOUBTFUL = 1e-9  # least pivot beside its diagonal below which the matrix is looked at closely
SOFT = 1e-7  # eigenvalues below it are candidates


def refuse_mechanisms(
    case: Case, layout: Layout, links: Links, reduction: Reduction, assembly: Assembly
) -> None:
    """Raise MechanismError naming the part, the point and the direction that can move."""
    moves = _still(links, reduction, assembly)
    if moves.shape[0]:
        from strength.frame.naming import describe

        raise MechanismError(*describe(case, layout, links, moves))


def refuse_pieces(case: Case, layout: Layout, links: Links) -> None:
    """Raise MechanismError where parts are not joined to the rest or to any support."""
    piece = pieces(links.points, layout.start, layout.end)
    touched = distinct(np.concatenate([layout.start, layout.end]))
    kinds = distinct(piece[touched])
    if case.supports:
        held = np.flatnonzero(np.any(links.held[: 6 * links.points].reshape(-1, 6), axis=1))
        adrift = kinds[~np.isin(kinds, piece[held])]
        why = "it is joined neither to a support nor to a part that reaches one"
    else:
        adrift = kinds[kinds != np.bincount(piece[touched]).argmax()] if kinds.size else kinds
        why = "it is not joined to the other parts"
    if adrift.size:
        bars = distinct(layout.bar[piece[layout.start] == adrift[0]])
        parts = part_names(case)
        others = ", ".join(parts[b] for b in bars[1:4])
        more = f" (with {others}{' and more' if bars.size > 4 else ''})" if others else ""
        where = layout.names[int(layout.start[layout.first[bars[0]]])]
        beside = "".join(f"; {each.part!r} {each.text}" for each in unjoined(case.warnings))
        raise MechanismError(
            parts[bars[0]], f"can move freely{more}: {why}; join it at {where!r} or elsewhere{beside}"
        )


def pieces(points: int, start: Index, end: Index) -> Index:
    """Number of the connected piece each point is in (points,)."""
    piece = np.arange(points)
    while True:
        low = np.minimum(piece[start], piece[end])
        new = piece.copy()
        np.minimum.at(new, start, low)
        np.minimum.at(new, end, low)
        new = new[new]
        if np.array_equal(new, piece):
            return piece
        piece = new


def _still(links: Links, reduction: Reduction, assembly: Assembly) -> Array:
    """Movements (count, freedoms) that strain no part."""
    n = assembly.unknowns
    if n == 0:
        return np.zeros((0, links.freedoms))
    if n > LARGE:
        from strength.frame.sparse import soft_vectors

        soft = soft_vectors(assembly, links.weight)
    else:
        soft = _soft_vectors(assembly, links.weight)
    if soft.shape[1] == 0:
        return np.zeros((0, links.freedoms))
    moves = reduction.expand(soft)
    basis, _ = np.linalg.qr(moves)
    at = np.where(links.freedom[..., None] >= 0, basis[links.freedom], 0.0)
    strain = (links.rows @ at).reshape(-1, basis.shape[1])
    _, sizes, turn = np.linalg.svd(strain, full_matrices=True)
    sizes = np.append(sizes, np.zeros(turn.shape[0] - sizes.size))
    return np.asarray(turn[sizes < EXACTLY] @ basis.T)


def _soft_vectors(assembly: Assembly, weight: Array) -> Array:
    """Eigenvectors (unknowns, count) of the smallest eigenvalues, none where plainly sound."""
    matrix = assembly.matrix(weight[None])[0]
    diagonal = np.diagonal(matrix).copy()
    scale = 1.0 / np.sqrt(np.where(diagonal > 0.0, diagonal, 1.0))
    matrix *= scale[:, None]
    matrix *= scale
    try:
        pivots = np.diagonal(np.linalg.cholesky(matrix)) ** 2
        if float(pivots.min()) > DOUBTFUL:
            return np.zeros((assembly.unknowns, 0))
    except np.linalg.LinAlgError:
        pass
    values, vectors = np.linalg.eigh(matrix)
    return np.asarray(scale[:, None] * vectors[:, values < SOFT])
