"""`spread`: from the scatter of walls, welds, metals, masses and loads to the scatter of margins."""

from collections.abc import Iterator
from concurrent.futures import Executor

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.joints.fillet import QUALITY
from strength.studies.chance import Chance, chance_of, rank_correlations
from strength.studies.draws import Scatter, drawn, scatter_of
from strength.studies.evaluate import evaluate
from strength.studies.forces import loading
from strength.studies.prepared import prepare
from strength.studies.screened import ROUNDING
from strength.studies.shared import Shared
from strength.studies.task import Step
from strength.studies.worst import Drawn, Draws, Worst, worked, worst_of
from strength.values import evolve, frozen

Array = NDArray[np.float64]

CHUNK = 136  # draws at a time at most: more cost memory, fewer cost time


@frozen(kw_only=True)
class Spread:
    """Scatter of the worst utilisation; `in_range`: False where some row, as drawn, is out of range.

    by_quality: quality of all welds -> what it would be with that. parts: part -> share of draws in which
    it is over, the most first. matters: kind and name of an input -> its rank correlation with the worst
    utilisation, the strongest first. failed: draws that could not be computed; they count as over.
    """

    scatter: Scatter
    draws: int
    nominal: float
    in_range: bool
    chance: Chance
    by_quality: dict[str, Chance]
    parts: tuple[tuple[str, float], ...]
    matters: tuple[tuple[str, str, float], ...]
    failed: int
    utilisation: tuple[float, ...]  # of every draw, in order


def spread(
    case: Case,
    *,
    draws: int | None = None,
    seed: int | None = None,
    executor: Executor | None = None,
    step: Step = lambda _: None,
) -> Spread:
    """Draw, evaluate and count; raises StrengthError where the case itself cannot be computed."""
    scatter = scatter_of(case, draws, seed)
    factors = drawn(scatter)
    ready = prepare(_nominal(case))
    shared = Shared(Drawn(ready=ready, loading=loading(ready), scatter=scatter))
    # first, so that what it works out by the way is there for all pieces
    nominal = worst_of(Draws(shared=shared, factors=np.ones((1, factors.shape[1]))))
    pairs = -(-factors.shape[0] // (2 * CHUNK))
    pieces = [Draws(shared=shared, factors=own) for own in np.array_split(factors, 2 * pairs)]
    coming = _worked_off(pieces, executor, step)
    in_range = bool(evaluate([case], known=ready).in_range[0])
    found = list(coming)
    whole = np.concatenate([each.whole for each in found])
    other, throat = (np.concatenate([getattr(each, name) for each in found]) for name in ("other", "throat"))
    return Spread(
        scatter=scatter,
        draws=int(whole.size),
        nominal=float(nominal.whole[0]),
        in_range=in_range,
        chance=chance_of(whole),
        by_quality={
            name: chance_of(np.maximum(other, throat / quality)) for name, quality in QUALITY.items()
        },
        parts=_parts(found, whole.size),
        matters=_matters(scatter, factors, whole),
        failed=int(np.count_nonzero(np.isnan(whole))),
        utilisation=tuple(whole.tolist()),
    )


def _nominal(case: Case) -> Case:
    """Walls are drawn about their nominal size, whatever the basis takes off."""
    return evolve(case, basis=evolve(case.basis, wall="nominal"))


def _worked_off(pieces: list[Draws], executor: Executor | None, step: Step) -> Iterator[Worst]:
    """What is found of each piece, in order; an executor begins at once."""
    waiting = None if executor is None else [executor.submit(worked, piece) for piece in pieces]

    def results() -> Iterator[Worst]:
        if waiting is None:
            for piece in pieces:
                yield worked(piece)
                step(piece.factors.shape[0])
            return
        try:
            for future, piece in zip(waiting, pieces, strict=True):
                yield future.result()
                step(piece.factors.shape[0])
        finally:
            for future in waiting:
                future.cancel()

    return results()


def _parts(found: list[Worst], count: int) -> tuple[tuple[str, float], ...]:
    """Share of draws in which each part is over its limit, the most first; those that never are left out."""
    over: dict[str, int] = {}
    for piece in found:
        for name, use in zip(piece.names, piece.parts.T, strict=True):
            over[name] = over.get(name, 0) + int(np.count_nonzero(use > 1.0 + ROUNDING))
    return tuple((name, n / count) for name, n in sorted(over.items(), key=lambda item: -item[1]) if n)


def _matters(scatter: Scatter, factors: Array, worst: Array) -> tuple[tuple[str, str, float], ...]:
    """Rank correlation of each input with the worst utilisation, the strongest first."""
    found = rank_correlations(factors, worst)
    named = [(each.kind, each.name, value) for each, value in zip(scatter.inputs, found, strict=False)]
    return tuple(sorted(named, key=lambda entry: -abs(entry[2])))
