"""Small frames, many designs: point after point eliminated, all designs at once.

The multifrontal method (Duff & Reid 1983, ACM TOMS 9:302, from memory): each front is a small dense matrix
of the unknowns that go and of those they are joined to, and hands what it leaves to the next. A front whose
members are alike in all designs, and all that it is handed, is worked out once for all of them.
"""

import numpy as np

from strength.errors import SolveError
from strength.frame.fronts import Front, Fronts
from strength.frame.response import Array


def eliminate(planned: Fronts, coefficient: Array, loads: Array) -> Array:
    """Unknowns (designs, unknowns, loads) of loads, those of all designs or one for all.

    coefficient: (designs, segments, 6), or (1, ...) where only the loads differ.
    Raises SolveError where a front is singular.
    """
    designs = max(coefficient.shape[0], loads.shape[0])
    flat = coefficient.reshape(coefficient.shape[0], -1)
    # Of an odd number of rows a matrix product sums the last in another order, and its last bits differ.
    flat = np.concatenate([flat, flat[-1:]]) if flat.shape[0] % 2 else flat
    varied = np.any(flat != flat[:1], axis=0)
    given = loads[:, planned.order]
    handed: dict[int, Array] = {}
    kept = []
    for n, front in enumerate(planned.fronts):
        alike = not np.any(varied[front.coefficient])
        rows = np.take(flat[:2] if alike else flat, front.coefficient, axis=1) @ front.matrix
        whole = filled(front, rows[: 1 if alike else coefficient.shape[0]], given, handed)
        own, width = front.end - front.begin, front.border.size
        try:
            found = np.asarray(np.linalg.solve(whole[:, :own, :own], whole[:, :own, own:]), dtype=float)
        except np.linalg.LinAlgError:
            raise SolveError("the stiffness matrix is singular") from None
        kept.append(found)
        if width:
            handed[n] = whole[:, own:, own:]
            handed[n] -= whole[:, :own, own : own + width].transpose(0, 2, 1) @ found
    out = np.empty((designs, planned.order.size, loads.shape[-1]))
    out[:, planned.order] = _backward(planned, kept, designs, loads.shape[-1])
    return out


def filled(front: Front, rows: Array, loads: Array, handed: dict[int, Array]) -> Array:
    """A front's own rows, and what others handed over: (designs or 1, all, all + loads).

    rows: (designs or 1, own x all). loads: (designs or 1, unknowns, loads). handed: by number of front.
    The columns of the loads are left out where no load has come so far.
    """
    own, every = front.end - front.begin, front.end - front.begin + front.border.size
    given = [(handed.pop(n), runs) for n, runs in front.children]
    pushed = loads[:, front.begin : front.end]
    loaded = bool(np.any(pushed)) or any(part.shape[2] > part.shape[1] for part, _ in given)
    designs = max(part.shape[0] for part in (rows, loads, *(part for part, _ in given)))
    out = np.zeros((designs, every, every + (loads.shape[-1] if loaded else 0)))
    out[:, :own, :every] = rows[:, : own * every].reshape(-1, own, every)
    if loaded:
        out[:, :own, every:] = pushed
    for part, runs in given:
        for there, here in runs:
            for their, mine in runs:
                out[:, here, mine] += part[:, there, their]
            if part.shape[2] > part.shape[1]:
                out[:, here, every:] += part[:, there, part.shape[1] :]
    return out


def _backward(planned: Fronts, kept: list[Array], designs: int, loads: int) -> Array:
    """From each front's own unknowns, as they follow from those around it, to all in their order."""
    found = np.empty((designs, planned.order.size, loads))
    for front, known in zip(reversed(planned.fronts), reversed(kept), strict=True):
        width = front.border.size
        out = found[:, front.begin : front.end]
        out[:] = known[:, :, width:] if known.shape[2] > width else 0.0
        if width:
            out -= known[:, :, :width] @ np.take(found, front.border, axis=1)
    return found
