"""Small frames, many designs: point after point eliminated, all designs at once.

The multifrontal method (Duff & Reid 1983, ACM TOMS 9:302, from memory): each front is a small dense matrix
of the unknowns that go and of those they are joined to, and hands what it leaves to the next. A front whose
members are alike in all designs, and all that it is handed, is worked out once for all of them.
"""

import numpy as np

from strength.arrays import in_designs
from strength.errors import SolveError
from strength.frame.fronts import Front, Fronts
from strength.frame.response import Array, Index
from strength.values import frozen


@frozen(kw_only=True, eq=False)
class Eliminated:
    """Unknowns under some loads, and what serves to solve for others.

    unknowns: (designs, unknowns, loads). pivots: of each front, (designs or 1, own, own) the matrix of the
    unknowns that go there. passed: (designs or 1, own, border) how they hang on those around.
    """

    planned: Fronts
    unknowns: Array
    pivots: list[Array]
    passed: list[Array]

    def again(self, loads: Array, some: Index) -> Array:
        """Unknowns (some, unknowns, loads) of designs numbered `some` under other loads of that shape."""
        fronts = self.planned.fronts
        given = np.take(loads, self.planned.order, axis=1)
        handed: dict[int, Array] = {}
        own: list[Array | None] = []
        for n, (front, pivots, passed) in enumerate(zip(fronts, self.pivots, self.passed, strict=True)):
            pushed = _pushed(front, given, handed)
            split = front.end - front.begin
            own.append(_solved(in_designs(pivots, some), pushed[:, :split]))
            if front.border.size:
                handed[n] = (
                    pushed[:, split:] - in_designs(passed, some).transpose(0, 2, 1) @ pushed[:, :split]
                )
        kept = [(in_designs(passed, some), known) for passed, known in zip(self.passed, own, strict=True)]
        return _backward(self.planned, kept, *given.shape[::2])


class Fronted:
    """Solves small frames, all designs at once; what the first elimination leaves serves for polishing.

    coefficient: (designs, segments, 6), or (1, ...) where only the loads differ.
    """

    def __init__(self, planned: Fronts, coefficient: Array) -> None:
        self._planned = planned
        self._coefficient = coefficient
        self._kept: Eliminated | None = None

    def solve(self, loads: Array, some: Index) -> Array:
        """Unknowns (unknowns, some, loads) of the designs numbered `some`; loads: the same or one for all."""
        own = in_designs(self._coefficient, some)
        found = eliminate(self._planned, own, loads.transpose(1, 0, 2))
        self._kept = self._kept or found
        return found.unknowns.transpose(1, 0, 2)

    def again(self, loads: Array, some: Index) -> Array:
        """The same by what was left when all designs were solved for; see `Eliminated.again`."""
        if self._kept is None:
            return self.solve(loads, some)
        return self._kept.again(loads.transpose(1, 0, 2), some).transpose(1, 0, 2)


def eliminate(planned: Fronts, coefficient: Array, loads: Array) -> Eliminated:
    """Solve for loads (designs, unknowns, loads), those of all designs or one for all.

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
    pivots: list[Array] = []
    kept: list[tuple[Array, Array | None]] = []
    for n, front in enumerate(planned.fronts):
        alike = not np.any(varied[front.coefficient])
        rows = np.take(flat[:2] if alike else flat, front.coefficient, axis=1) @ front.matrix
        whole = filled(front, rows[: 1 if alike else coefficient.shape[0]], given, handed)
        own, width = front.end - front.begin, front.border.size
        pivots.append(whole[:, :own, :own].copy())
        try:
            found = np.asarray(np.linalg.solve(pivots[-1], whole[:, :own, own:]), dtype=float)
        except np.linalg.LinAlgError:
            raise SolveError("the stiffness matrix is singular") from None
        kept.append((found[..., :width], found[..., width:] if found.shape[2] > width else None))
        if width:
            handed[n] = whole[:, own:, own:]
            handed[n] -= whole[:, :own, own : own + width].transpose(0, 2, 1) @ found
    return Eliminated(
        planned=planned,
        unknowns=_backward(planned, kept, designs, loads.shape[-1]),
        pivots=pivots,
        passed=[passed for passed, _ in kept],
    )


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


def _pushed(front: Front, loads: Array, handed: dict[int, Array]) -> Array:
    """What acts on a front (designs, all, loads): its own loads, and what is handed over."""
    own = front.end - front.begin
    out = np.zeros((loads.shape[0], own + front.border.size, loads.shape[2]))
    out[:, :own] = loads[:, front.begin : front.end]
    for n, runs in front.children:
        part = handed.pop(n)
        for there, here in runs:
            out[:, here] += part[:, there]
    return out


def _solved(pivots: Array, pushed: Array) -> Array:
    """Solve (designs or 1, own, own) for (designs, own, loads)."""
    if pivots.shape[0] == pushed.shape[0]:
        return np.asarray(np.linalg.solve(pivots, pushed), dtype=float)
    flat = pushed.transpose(1, 0, 2).reshape(pushed.shape[1], -1)
    found = np.linalg.solve(pivots[0], flat).reshape(pushed.shape[1], pushed.shape[0], -1)
    return np.asarray(found.transpose(1, 0, 2), dtype=float)


def _backward(planned: Fronts, kept: list[tuple[Array, Array | None]], designs: int, loads: int) -> Array:
    """All unknowns (designs, unknowns, loads), in their order.

    kept: of each front how its own hang on those around it, and what they are if those do not move; None: 0.
    """
    found = np.empty((designs, planned.order.size, loads))
    for front, (passed, known) in zip(reversed(planned.fronts), reversed(kept), strict=True):
        out = found[:, front.begin : front.end]
        out[:] = 0.0 if known is None else known
        if front.border.size:
            out -= passed @ np.take(found, front.border, axis=1)
    ordered = np.empty_like(found)
    ordered[:, planned.order] = found
    return ordered
