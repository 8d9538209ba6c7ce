"""A movement without strain, in words a builder can act on."""

import numpy as np

from strength.arrays import distinct
from strength.case.model import Case
from strength.case.shape import Rigid
from strength.frame.layout import part_names
from strength.frame.links import Links
from strength.frame.response import Array, Index, Layout

WAYS = ("fore-and-aft", "sideways", "up and down")
AXES = ("fore-and-aft (x)", "crosswise (y)", "upright (z)")


def describe(case: Case, layout: Layout, links: Links, moves: Array) -> tuple[str, str]:
    """Part and reason for the most local of the movements (count, freedoms) that strain nothing."""
    if not case.supports:
        moves = _grounded(layout, links, moves)
    move = _local(moves)
    at = move[: 6 * links.points].reshape(-1, 6)
    shift, turn = at[:, :3], at[:, 3:]
    shifts = np.linalg.norm(shift, axis=1)
    turns = np.linalg.norm(turn, axis=1)
    touched = distinct(np.concatenate([layout.start, layout.end]))
    parts = part_names(case)
    more = f" ({moves.shape[0]} movements in all are free)" if moves.shape[0] > 1 else ""
    if shifts.max() < 0.02 * turns.max():
        p = int(touched[np.argmax(turns[touched])])
        part = parts[_bars_at(layout, p)[0]]
        about = _words(turn[p] / turns[p], AXES)
        return part, (
            f"can turn: nothing keeps {layout.names[p]} from turning about the {about} axis{more}; "
            f"where {part} sits on a ball joint, give it that end"
        )
    bar, p, still = _swinging(case, layout, shifts, touched)
    way = _words(shift[p] / shifts[p], WAYS)
    hint = ""
    if case.wheels and still is not None and bar < len(case.members):
        hint = _hint(np.cross(layout.points[p] - layout.points[still], shift[p]), shift[p])
    verb = "move" if still is None else "swing"
    return parts[bar], f"can {verb}: nothing holds {layout.names[p]} {way}{hint}{more}"


def _swinging(case: Case, layout: Layout, shifts: Array, touched: Index) -> tuple[int, int, int | None]:
    """Bar to name, its moving point and its still end: best a member with a section that swings."""
    top = float(shifts.max())
    # The still end of a swinging part may itself stir a little, as a plate beside its ball joints does.
    start, end = layout.start[layout.first], layout.end[layout.last]
    one, other = shifts[start], shifts[end]
    far = np.maximum(one, other)
    swings = (np.minimum(one, other) < 0.15 * far) & (far > 0.2 * top)
    # A strut swings along with what it ought to hold, a rigid member is no part to point at.
    solid = np.zeros(swings.size, dtype=bool)
    solid[: len(case.members)] = [not isinstance(member.shape, Rigid) for member in case.members]
    if np.any(swings & solid):
        swings &= solid
    if np.any(swings):
        bar = int(np.flatnonzero(swings)[np.argmax(far[swings])])
        p, still = (int(n) for n in (start[bar], end[bar])[:: 1 if one[bar] > other[bar] else -1])
        beside = [b for b in _bars_at(layout, p) if solid[b]]
        return (int(beside[0]) if beside and not solid[bar] else bar), p, still
    p = int(touched[np.argmax(shifts[touched])])
    return int(_bars_at(layout, p)[0]), p, None


def _grounded(layout: Layout, links: Links, moves: Array) -> Array:
    """Movements of a free body seen from the member beside which the most points stay where they are."""
    at = moves[:, : 6 * links.points].reshape(moves.shape[0], -1, 6)
    shift, turn = at[..., :3], at[..., 3:] / links.reach
    touched = distinct(np.concatenate([layout.start, layout.end]))
    best, most = moves, -1
    stiff = np.flatnonzero(~links.ball[:, 0] & (links.freedom[:, 12] < 0))
    for s in stiff[:: max(1, stiff.size // 200)]:
        p = layout.start[s]
        arm = layout.points - layout.points[p]
        seen = shift - shift[:, p : p + 1] - np.cross(turn[:, p : p + 1], arm)
        still = int(np.count_nonzero(np.all(np.linalg.norm(seen[:, touched], axis=2) < 1e-6, axis=0)))
        if still > most:
            spin = np.broadcast_to(turn[:, p : p + 1], turn.shape)
            rest = np.concatenate([seen, (turn - spin) * links.reach], axis=2)
            best, most = rest.reshape(moves.shape[0], -1), still
    return np.asarray(best)


def _local(moves: Array) -> Array:
    """One movement of the space that `moves` span, still at as many points as it can be."""
    work = moves.copy()
    for k in range(work.shape[0]):
        size = np.abs(work[k:])
        r, c = divmod(int(np.argmax(size)), size.shape[1])
        work[[k, k + r]] = work[[k + r, k]]
        work[k] /= work[k, c]
        others = np.arange(work.shape[0]) != k
        work[others] -= np.outer(work[others, c], work[k])
    work[np.abs(work) < 1e-7] = 0.0
    return np.asarray(work[np.argmin(np.count_nonzero(work, axis=1))])


def _bars_at(layout: Layout, point: int) -> Index:
    return distinct(layout.bar[(layout.start == point) | (layout.end == point)])


def _words(direction: Array, names: tuple[str, str, str]) -> str:
    share = np.abs(direction)
    return " and ".join(names[k] for k in range(3) if share[k] > 0.38)


def _hint(axis: Array, way: Array) -> str:
    if abs(float(axis[2])) > 0.8 * float(np.linalg.norm(axis)):
        return " (no tie rod?)"
    return " (no shock or spring?)" if abs(float(way[2])) > 0.8 * float(np.linalg.norm(way)) else ""
