"""What a part resists all by itself, and what moves beside what where nothing else strains.

Every deformation row of every part has size 1 (see `mechanism`), so stiffness plays no part. With all rows
B, G = B^T B and the rows b of one part, what is left when they go is singular where M = b G^-1 b^T has the
eigenvalue 1: its vectors v are what the part resists alone, and G^-1 b^T v the movement that strains the
part by v and nothing else. A low-rank downdate: what the blocks of the frame leave serves all parts.
"""

import numpy as np

from strength.frame.assembly import Assembly
from strength.frame.flexibility import Flexibility
from strength.frame.plan import Plan
from strength.frame.response import Array, Flags, Index
from strength.values import frozen

FREED = 1e-8  # eigenvalues nearer to 1 set a movement free


@frozen(kw_only=True, eq=False)
class _Rows:
    """Deformation rows of all segments (segments, 6, ...); those of exact segments are 0."""

    block: Index  # (segments,) the block of unknowns that a segment touches, -1 for none
    own: Array  # rows over the unknowns of that block (segments, 6, width)
    between: Array  # what they strain by a unit of each unknown between, blocks following (..., between)
    seen: Array  # and by what is watched (..., watched)


def shifts(ready: Plan, parts: list[Index], watched: Array) -> Array:
    """How far each watched row moves where nothing but a part strains, and that by 1: (parts, watched).

    parts: segments of each. watched: (freedoms, watched) rows of size 1. Raises LinAlgError for a frame that
    can move as it is.
    """
    weight = ready.links.weight
    flexible = Flexibility.parted(ready.assembly, ready.blocks, weight[None])
    rows = _rows(ready.assembly, flexible, weight, ready.reduction.gather(watched))
    out = np.zeros((len(parts), watched.shape[1]))
    count = np.array([part.size for part in parts])
    for k in set(count.tolist()):
        chosen = np.flatnonzero(count == k)
        segment = np.array([parts[n] for n in chosen])
        values, vectors = np.linalg.eigh(_resisted(rows, flexible, segment))
        alone = vectors * (values > 1.0 - FREED)[:, None]
        seen = rows.seen[segment].reshape(chosen.size, 6 * k, -1)
        out[chosen] = np.abs(seen.transpose(0, 2, 1) @ alone).max(axis=2)
    return out


def _rows(assembly: Assembly, flexible: Flexibility, weight: Array, watched: Array) -> _Rows:
    """watched: (unknowns, watched)."""
    unknowns, last = assembly.unknowns, flexible.last.size
    follow = np.zeros((unknowns + 1, last))
    follow[flexible.last] = np.eye(last)
    seen = np.concatenate([flexible.moved(watched[None])[0], np.zeros((1, watched.shape[1]))])
    block, at = np.full((2, unknowns + 1), -1)
    width = 0
    for part in flexible.parts:  # one, as there is but one design
        count, width = part.own.shape
        follow[part.own] = -part.follow[0]
        block[part.own], at[part.own] = np.divmod(np.arange(count * width).reshape(count, width), width)
    block[unknowns] = at[unknowns] = -1
    segments = weight.shape[0]
    out = _Rows(
        block=np.full(segments, -1),
        own=np.zeros((segments, 6, width + 1)),
        between=np.zeros((segments, 6, last)),
        seen=np.zeros((segments, 6, watched.shape[1])),
    )
    for each in assembly.blocks:
        vec = each.vec[:, :6] * np.sqrt(weight[each.segment])[:, :, None]
        number = np.where(each.number < 0, unknowns, each.number)
        out.block[each.segment] = block[number].max(axis=1)
        out.own[each.segment[:, None, None], np.arange(6)[:, None], at[number][:, None]] = vec
        out.between[each.segment] = vec @ follow[number]
        out.seen[each.segment] = vec @ seen[number]
    return out


def _resisted(rows: _Rows, flexible: Flexibility, segment: Index) -> Array:
    """M of parts of equally many segments (parts, segments): (parts, 6 segments, 6 segments)."""
    parts, k = segment.shape
    across = rows.between[segment].reshape(parts, 6 * k, -1)
    out = across @ flexible.between[0] @ across.transpose(0, 2, 1)
    block = rows.block[segment]
    for part in flexible.parts:
        own = rows.own[segment][..., :-1]
        given = own @ part.give[0][block]
        ends = own.reshape(parts, 6 * k, -1).transpose(0, 2, 1)
        out += _alike(block) * (given.reshape(parts, 6 * k, -1) @ ends)
    return np.asarray(out)


def _alike(block: Index) -> Flags:
    """Where rows of two segments are of one block (parts, 6 segments, 6 segments)."""
    each = np.repeat(block, 6, axis=1)
    return np.asarray((each[:, :, None] == each[:, None]) & (each[:, None] >= 0))
