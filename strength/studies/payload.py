"""`payload`: the greatest payload at which nothing is over its limit, and what sets it."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.case.places import other_side
from strength.errors import CaseError
from strength.sections import sizes_of
from strength.studies.evaluate import evaluate, evaluate_sizes, shapes_of
from strength.studies.evaluated import Evaluated
from strength.studies.prepared import Prepared, prepare
from strength.studies.screened import ROUNDING
from strength.studies.task import Ask
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Step = Callable[[int], None]

STEPS = 8  # places looked at between none and the first payload that is too much
MOST = 10_000.0  # kg: a payload that great is not limited by these checks
SLACK = 1e-9  # kg, of a root
UNLIMITED = 1e6  # a factor that great counts as none
ROUNDS = 60


@frozen(kw_only=True)
class Reach:
    """How far a load can be raised: every force of it times `factor` brings its worst row to its limit.

    factor None: nothing in it is brought to its limit, however great.
    """

    load: str
    factor: float | None
    governs: str


@frozen(kw_only=True)
class Payload:
    """The greatest payload [kg], None where no check limits it.

    now: what the case has; in_range_now: False where some row is then out of its source's range.
    governs: the check that sets the payload. following, following_governs: the payload at which the next
    part, another one than that, comes to its limit. more_helps: places [kg] where
    utilisation falls with more payload; over_at_none: something is over its limit without any.
    """

    payload: float | None
    now: float
    utilisation_now: float
    in_range_now: bool
    governs: str
    following: float | None
    following_governs: str
    over_at_none: bool
    more_helps: tuple[tuple[float, float], ...]
    loads: tuple[Reach, ...]


def payload(case: Case, *, step: Step = lambda _: None) -> Payload:
    """Search the greatest payload; raises CaseError where the case marks no mass as payload."""
    now = sum(mass.mass for mass in case.masses if mass.payload)
    if now <= 0.0:
        why = (
            "no mass is marked as payload: put `payload = true` into the line of what is carried, such as a "
            "box or a passenger"
        )
        raise CaseError([("masses", why)])
    ready = prepare(case)
    search = _Search(case=case, ready=ready, now=now, step=step)
    grid, found = search.bracketed()
    worst = found.worst
    helps = tuple(
        (float(grid[n]), float(grid[n + 1]))
        for n in range(grid.size - 1)
        if worst[n + 1] < worst[n] - ROUNDING
    )
    here = search.at([now])
    first = _first_over(worst)
    limit, governs = (None, found.governs(0)) if first is None else search.crossing(grid, first, None)
    following, after = search.following(grid, governs, limit)
    return Payload(
        payload=limit,
        now=now,
        utilisation_now=float(here.worst[0]),
        in_range_now=bool(here.in_range[0]),
        governs=governs,
        following=following,
        following_governs=after,
        over_at_none=first == 0,
        more_helps=helps,
        loads=reaches(ready, step=step),
    )


def loaded(case: Case, now: float, wanted: float) -> Case:
    """The case with its payload scaled to a mass [kg], each part of it alike."""
    masses = tuple(
        evolve(mass, mass=mass.mass * wanted / now) if mass.payload else mass for mass in case.masses
    )
    return evolve(case, masses=masses)


def _first_over(worst: Array) -> int | None:
    """Number of the first design that is over; one that cannot be computed counts as over."""
    over = np.flatnonzero(~(worst <= 1.0 + ROUNDING))
    return int(over[0]) if over.size else None


def _rest(found: Evaluated, design: int, without: str) -> tuple[float, str]:
    """Worst utilisation and its check, without one part and its image; nan: cannot be computed."""
    if design in found.failed:
        return np.nan, ""
    left = [n for n, (part, _) in enumerate(found.names) if part not in (without, other_side(without))]
    use = found.utilisation[design, left]
    if not left:
        return 0.0, ""
    at = int(np.argmax(use))
    return float(use[at]), found.identity(design, left[at])


@frozen(kw_only=True, eq=False)
class _Search:
    """Evaluations of the case at payloads."""

    case: Case
    ready: Prepared
    now: float
    step: Step

    def at(self, payloads: Sequence[float]) -> Evaluated:
        """The case with each payload [kg]."""
        cases = [loaded(self.case, self.now, each) for each in payloads]
        return evaluate(cases, known=self.ready, step=self.step)

    def bracketed(self) -> tuple[Array, Evaluated]:
        """Payloads from none to one that is too much, and the case with each."""
        top = max(self.now, 1.0)
        while top < MOST and _first_over(self.at([top]).worst) is None:
            top *= 2.0
        grid = np.linspace(0.0, top, STEPS + 1)
        return grid, self.at(grid.tolist())

    def crossing(self, grid: Array, first: int, without: str | None) -> tuple[float, str]:
        """The payload just before grid[first] at which something reaches its limit, and the check.

        without: a part that is not looked at.
        """
        if first == 0:
            found = self.at([0.0])
            return 0.0, found.governs(0) if without is None else _rest(found, 0, without)[1]
        low, high = float(grid[first - 1]), float(grid[first])
        found = self.at([high])
        if 0 in found.failed:
            low, high = self._computable(low, high)

        def over(payload: float) -> float:
            found = self.at([payload])
            use = float(found.worst[0]) if without is None else _rest(found, 0, without)[0]
            return use - 1.0

        if over(low) > 0.0:
            high = low
        elif not over(high) > 0.0:
            return high, "the vehicle itself: beyond this its loads cannot be brought into balance"
        from scipy.optimize import brentq

        root = low if low == high else float(brentq(over, low, high, xtol=SLACK, rtol=1e-12))
        found = self.at([root])
        return root, found.governs(0) if without is None else _rest(found, 0, without)[1]

    def _computable(self, low: float, high: float) -> tuple[float, float]:
        """Narrow a bracket until its upper end can be computed, or both ends meet."""
        top = low
        while high - top > 1e-6 * max(high, 1.0):
            middle = (top + high) / 2.0
            found = self.at([middle])
            if 0 in found.failed:
                high = middle
            elif found.worst[0] > 1.0:
                return low, middle
            else:
                top = middle
        return low, top

    def following(self, grid: Array, governs: str, limit: float | None) -> tuple[float | None, str]:
        """Where the next part comes to its limit, beyond the one that governs."""
        part = governs.split("/", maxsplit=1)[0]
        if not limit or "/" not in governs:
            return None, ""
        top = max(float(grid[-1]), 2.0 * limit)
        while top < MOST:
            found = self.at([top])
            if 0 in found.failed or _rest(found, 0, part)[0] > 1.0:
                break
            top *= 2.0
        places = np.linspace(limit, top, STEPS + 1)
        found = self.at(places.tolist())
        use = np.array([_rest(found, n, part)[0] for n in range(places.size)])
        first = _first_over(use)
        if first is None:
            return None, ""
        return self.crossing(places, max(first, 1), part)


def reaches(ready: Prepared, *, step: Step = lambda _: None) -> tuple[Reach, ...]:
    """The factor on all forces of each load that brings its worst row to its limit.

    Loads do not hang on each other, so one design with a factor of its own on each load tells of all.
    False position with the Illinois halving (Dahlquist & Bjorck, Numerical Methods, section 6.4).
    """
    count = len(ready.loads)
    sizes = sizes_of([shapes_of(ready.case)])
    factor, low, high = np.ones(count), np.zeros(count), np.full(count, np.inf)
    below, above = np.full(count, -1.0), np.full(count, np.inf)
    governs = [""] * count
    open_ = np.ones(count, dtype=bool)
    for _ in range(ROUNDS):
        forces = ready.pushes.forces * factor[:, None, None]
        pushes = evolve(ready.pushes, forces=forces)
        found = evaluate_sizes(ready, sizes, pushes=[pushes], ask=Ask(every=True), step=step)
        for load in np.flatnonzero(open_).tolist():
            value, governs[load] = _of_load(found, load)
            if value <= 0.0:
                above[load] *= 0.5 if low[load] > 0.0 and np.isfinite(high[load]) else 1.0
                low[load], below[load] = factor[load], value
            else:
                below[load] *= 0.5 if np.isfinite(high[load]) else 1.0
                high[load], above[load] = factor[load], value
            met = np.isfinite(high[load]) and high[load] - low[load] <= 1e-12 * high[load]
            open_[load] = abs(value) > 1e-10 and not met
            if open_[load]:
                factor[load] = _next(low[load], high[load], below[load], above[load])
                open_[load] = factor[load] < UNLIMITED
        if not open_.any():
            break
    return tuple(
        Reach(load=name, factor=float(f), governs=g)
        if f < UNLIMITED
        else Reach(load=name, factor=None, governs="")
        for name, f, g in zip(ready.load_names, factor, governs, strict=True)
    )


def _of_load(found: Evaluated, load: int) -> tuple[float, str]:
    """Worst utilisation of one load less 1, and its check."""
    if found.failed or found.every is None:
        return np.inf, ""
    if not found.names:
        return -1.0, ""
    use = found.every[0, :, load]
    row = int(np.argmax(use))
    part, kind = found.names[row]
    return float(max(use[row], 0.0)) - 1.0, f"{part}/{kind}/{found.loads[load]}"


def _next(low: float, high: float, below: float, above: float) -> float:
    """Where to look next: by a straight line; further up while nothing is over."""
    if np.isinf(high):
        return float(4.0 * low) if below < -0.75 else float(min(1.02 * low / (below + 1.0), 4.0 * low))
    if np.isinf(above):
        return float((low + high) / 2.0)
    return float(low - below * (high - low) / (above - below))
