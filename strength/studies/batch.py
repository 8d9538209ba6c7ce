"""One batch: designs of one make-up through frame, stations and checks as arrays."""

from collections.abc import Iterator
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.frame_buckling import ENOUGH, LEAST, PART, amplification
from strength.checks.register import uses
from strength.checks.stations import place_stations
from strength.checks.uses import Uses
from strength.frame.buckling import critical_multiplier, plan_buckling
from strength.frame.proof import BucklingPlan
from strength.frame.response import Response
from strength.frame.solve import solve
from strength.joints.draw import Lines, weld_lines
from strength.joints.heat import heat_lengths
from strength.sections import Bars
from strength.studies.evaluated import Evaluated
from strength.studies.prepared import Prepared
from strength.studies.standing import far_from_buckling
from strength.values import evolve, frozen
from strength.vehicle.sheet import Pushes

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

KIND = "frame-buckling"
Kind = TypeVar("Kind", np.float64, np.intp, np.bool_)


@frozen(kw_only=True, eq=False)
class Batch:
    """Designs of one make-up: bars (designs, bars) and, where they differ, loads of their own.

    forces: (designs, loads, points, 6) of loads that differ in nothing else. fine: as of `frame.solve`.
    """

    prepared: Prepared
    bars: Bars
    own: tuple[Pushes, ...] = ()  # one a design; none: those of the prepared case
    forces: Array | None = None
    lines: Lines | None = None  # of the welds of all designs, where they are drawn already
    fine: bool = True

    @property
    def designs(self) -> int:
        """How many designs there are."""
        return int(self.bars.area.shape[0])

    @property
    def pushes(self) -> Pushes:
        """Loads of all designs, (designs, loads, points, 6) where they differ."""
        if self.forces is not None:
            return evolve(self.prepared.pushes, forces=self.forces)
        if not self.own:
            return self.prepared.pushes
        return evolve(self.prepared.pushes, forces=np.stack([each.forces for each in self.own]))


def context_of(batch: Batch, *, buckling: bool = True, brief: bool = False) -> Context:
    """Everything the checks look at.

    A critical multiplier that is proved to be at least 10 after its factor stands as inf: it amplifies
    nothing, and no row of it is over 0.3. Unless brief (see Context), a design has all its multipliers or
    none. buckling: False leaves frame buckling out.
    """
    ready, bars = batch.prepared, batch.bars
    response = solve(ready.case, ready.layout, bars, batch.pushes, ready.plan, fine=batch.fine)
    alpha = np.full(response.forces.shape[:2], np.inf)
    if buckling:
        near = ~proved(batch, response)
        if not brief:
            near |= near.any(axis=1, keepdims=True)
        if near.any():
            alpha[near] = multipliers(batch, response, near)[near]
    amplified = amplification(alpha)
    used = response.with_bending(amplified, over=True)
    lines = weld_lines(ready.case, ready.layout, bars) if batch.lines is None else batch.lines
    heat = heat_lengths(ready.case, ready.layout, bars, lines)
    stations = place_stations(
        ready.case, ready.layout, bars, used, heat, brief=ready.factors if brief else None
    )
    return Context(
        case=ready.case,
        loads=ready.loads,
        layout=ready.layout,
        bars=bars,
        response=used,
        stations=stations,
        factors=ready.factors,
        alpha=alpha,
        amplified=amplified,
        heat=heat,
        lines=lines,
        brief=brief,
    )


def proved(batch: Batch, response: Response) -> Flags:
    """Where multipliers are proved to be over 10 after their factor: (designs, loads)."""
    ready = batch.prepared
    enough = ENOUGH * float(ready.buckling_divisor.max(initial=1.0))
    return np.concatenate(
        [
            far_from_buckling(ready, bars, each, plan, enough)
            for bars, _, each, plan in _by_gauge(batch, response)
        ]
    )


def multipliers(batch: Batch, response: Response, where: Flags) -> Array:
    """Critical multipliers over their factor, nan where they are not asked for: (designs, loads)."""
    ready = batch.prepared
    found, at = [], 0
    for bars, pushes, each, plan in _by_gauge(batch, response):
        chosen = where[at : at + each.forces.shape[0]]
        found.append(critical_multiplier(ready.case, ready.layout, bars, pushes, each, plan, chosen))
        at += each.forces.shape[0]
    return np.asarray(np.concatenate(found) / ready.buckling_divisor)


def _by_gauge(batch: Batch, response: Response) -> Iterator[tuple[Bars, Pushes, Response, BucklingPlan]]:
    """The batch whole; design by design where masses differ, since a free body's gauge is theirs."""
    ready = batch.prepared
    if all(each.gauge is ready.pushes.gauge for each in batch.own):
        yield batch.bars, batch.pushes, response, ready.buckling
        return
    for n, pushes in enumerate(batch.own):
        one = response.of_design(n)
        plan = ready.buckling
        if pushes is not ready.pushes:
            plan = plan_buckling(ready.case, ready.layout, pushes, ready.plan)
        yield batch.bars.of_designs(slice(n, n + 1)), pushes, one, plan


def judged(context: Context, batch: Batch, *, buckling: bool = True, every: bool = False) -> Evaluated:
    """The worst utilisation of every part and kind in a batch.

    Where nothing else of a design comes up to 0.3, its multipliers are worked out after all, since
    frame buckling may then be what governs.
    """
    found = beside([reduced(each, context.load_names, every=every) for each in uses(context)])
    if not buckling:
        return found
    low = np.isinf(context.alpha) & (found.worst < LEAST / ENOUGH)[:, None]
    if not low.any():
        return found
    alpha = np.where(low, multipliers(batch, context.response, low), context.alpha)
    return with_row(found, LEAST / alpha)


def reduced(uses: Uses, loads: tuple[str, ...], *, every: bool = False) -> Evaluated:
    """Utilisations to the worst load of each row; every: the others kept too."""
    load, utilisation = _greatest(uses.use)
    return Evaluated(
        names=uses.names,
        loads=loads,
        utilisation=utilisation,
        load=load,
        covered=uses.covered.T,
        every=uses.use.transpose(2, 0, 1) if every else None,
    )


def beside(parts: list[Evaluated]) -> Evaluated:
    """Rows of the same designs behind one another."""
    kept = [part.every for part in parts if part.every is not None]
    return evolve(
        parts[0],
        names=tuple(name for part in parts for name in part.names),
        utilisation=np.concatenate([part.utilisation for part in parts], axis=1),
        load=np.concatenate([part.load for part in parts], axis=1),
        covered=np.concatenate([part.covered for part in parts], axis=1),
        every=np.concatenate(kept, axis=1) if kept else None,
    )


def _greatest(use: Array) -> tuple[NDArray[np.intp], Array]:
    """Number of the load that is worst, and its utilisation: (rows, loads, designs) to (designs, rows)."""
    load = np.zeros((use.shape[0], use.shape[2]), dtype=np.intp)
    worst = use[:, 0].copy()
    for n in range(1, use.shape[1]):
        more = ~(use[:, n] <= worst) & ~np.isnan(worst)  # no number is worst of all
        load[more] = n
        np.maximum(worst, use[:, n], out=worst)
    return load.T, worst.T


def with_row(found: Evaluated, use: Array) -> Evaluated:
    """The evaluation with the frame's own row, utilisations (designs, loads), set anew or put in."""
    at = use.argmax(axis=1)
    worst = np.take_along_axis(use, at[:, None], axis=1)
    name = (PART, KIND)
    names, place = found.names, len(found.names)
    if name in names:
        place = names.index(name)
        names = names[:place] + names[place + 1 :]
    keep = [n for n, each in enumerate(found.names) if each != name]

    def put(old: NDArray[Kind], new: NDArray[Kind]) -> NDArray[Kind]:
        return np.concatenate([old[:, keep][:, :place], new, old[:, keep][:, place:]], axis=1)

    return evolve(
        found,
        names=(*names[:place], name, *names[place:]),
        utilisation=put(found.utilisation, worst),
        load=put(found.load, at[:, None]),
        covered=put(found.covered, np.ones((found.designs, 1), dtype=bool)),
        every=None if found.every is None else put(found.every, use[:, None]),
    )
