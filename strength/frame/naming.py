"""A movement without strain, in words a builder can act on."""

import numpy as np

from strength.case.model import Case
from strength.frame.layout import part_names
from strength.frame.links import Links
from strength.frame.response import Array, Layout

WAYS = ("fore-and-aft", "sideways", "up and down")
AXES = ("fore-and-aft (x)", "crosswise (y)", "upright (z)")


def describe(case: Case, layout: Layout, links: Links, moves: Array) -> tuple[str, str]:
    """Part and reason for the most local of the movements (count, freedoms) that strain nothing."""
    move = _local(moves)
    at = move[: 6 * links.points].reshape(-1, 6)
    shift, turn = at[:, :3], at[:, 3:]
    shifts = np.linalg.norm(shift, axis=1)
    turns = np.linalg.norm(turn, axis=1)
    touched = np.unique(np.concatenate([layout.start, layout.end]))
    parts = part_names(case)
    more = f" ({moves.shape[0]} movements in all are free)" if moves.shape[0] > 1 else ""
    if shifts.max() < 0.02 * turns.max():
        p = int(touched[np.argmax(turns[touched])])
        bar = _part_at(layout, p, turns)
        ends = sorted(
            {layout.names[layout.start[layout.first[bar]]], layout.names[layout.end[layout.last[bar]]]}
        )
        about = _words(turn[p] / turns[p], AXES)
        return parts[bar], (
            f"can turn: nothing keeps {layout.names[p]} from turning about the {about} axis{more}; "
            f"a ball end of {parts[bar]} at {' or '.join(ends)}, if it has one, leaves this out"
        )
    p = int(touched[np.argmax(shifts[touched])])
    bar = _part_at(layout, p, shifts)
    ends = [int(layout.start[layout.first[bar]]), int(layout.end[layout.last[bar]])]
    still = min(float(shifts[end]) for end in ends) < 1e-3 * shifts.max()
    verb = "swing" if still else "move"
    way = _words(shift[p] / shifts[p], WAYS)
    hint = _hint(turn[p]) if case.wheels and turns[p] > 0.0 else ""
    return parts[bar], f"can {verb}: nothing holds {layout.names[p]} {way}{hint}{more}"


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


def _part_at(layout: Layout, point: int, size: Array) -> int:
    """The part to name: one that touches the point, best one whose other end stays put."""
    bars = np.unique(layout.bar[(layout.start == point) | (layout.end == point)])
    calm = np.minimum(size[layout.start[layout.first[bars]]], size[layout.end[layout.last[bars]]])
    return int(bars[np.argmin(calm)])


def _words(direction: Array, names: tuple[str, str, str]) -> str:
    share = np.abs(direction)
    return " and ".join(names[k] for k in range(3) if share[k] > 0.38)


def _hint(turn: Array) -> str:
    upright = abs(float(turn[2])) / float(np.linalg.norm(turn))
    if upright > 0.8:
        return " (no tie rod?)"
    return " (no shock or spring?)" if upright < 0.6 else ""
