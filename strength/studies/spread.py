"""`spread`: from the scatter of walls, welds, metals, masses and loads to the scatter of margins."""

import gc
from concurrent.futures import Executor

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.checks.register import every_use
from strength.errors import StrengthError
from strength.joints.draw import Lines
from strength.joints.fillet import QUALITY
from strength.sections import Bars, Sizes, rebuilt, sizes_of
from strength.studies.batch import Batch, context_of
from strength.studies.branches import branches, parted
from strength.studies.draws import Scatter, drawn, parts_of, scatter_of
from strength.studies.evaluate import evaluate, shapes_of
from strength.studies.forces import Loading, loading
from strength.studies.prepared import Prepared, prepare
from strength.studies.screened import ROUNDING
from strength.studies.task import Step
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

CHUNK = 64  # draws at a time
THROAT = "weld-throat"
QUANTILES = (0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99)
CONFIDENCE = 0.95


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
    chance: "Chance"
    by_quality: dict[str, "Chance"]
    parts: tuple[tuple[str, float], ...]
    matters: tuple[tuple[str, str, float], ...]
    failed: int
    utilisation: tuple[float, ...]  # of every draw, in order


@frozen(kw_only=True)
class Chance:
    """Of the worst utilisation: quantiles, and the chance that it is over 1.

    quantiles: share of draws -> what this share stays under. over: draws with something over its limit.
    chance: that share; low, high: its confidence interval.
    """

    quantiles: dict[float, float]
    over: int
    chance: float
    low: float
    high: float


@frozen(kw_only=True, eq=False)
class Draws:
    """A piece of work: some draws of a case, (draws, inputs) factors."""

    ready: Prepared
    loading: Loading
    scatter: Scatter
    factors: Array


@frozen(kw_only=True, eq=False)
class Worst:
    """Worst utilisation of each draw.

    other: all checks but weld throats. throat: these, for welds of quality good. whole: all, as the case has
    them. parts: (draws, names) worst of each part, as the case has it.
    """

    other: Array
    throat: Array
    whole: Array
    parts: Array
    names: tuple[str, ...]


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
    ready = prepare(_nominal(case))
    ready.buckling  # noqa: B018 - made once, sent along with every piece
    factors = drawn(scatter)
    moves = loading(ready)
    pieces = [
        Draws(ready=ready, loading=moves, scatter=scatter, factors=factors[at : at + CHUNK])
        for at in range(0, factors.shape[0], CHUNK)
    ]
    found = _worked_off(pieces, executor, step)
    nominal = worst_of(
        Draws(ready=ready, loading=moves, scatter=scatter, factors=np.ones((1, factors.shape[1])))
    )
    whole = np.concatenate([each.whole for each in found])
    other, throat = (np.concatenate([getattr(each, name) for each in found]) for name in ("other", "throat"))
    return Spread(
        scatter=scatter,
        draws=int(whole.size),
        nominal=float(nominal.whole[0]),
        in_range=bool(evaluate([case]).in_range[0]),
        chance=_chance(whole),
        by_quality={name: _chance(np.maximum(other, throat / quality)) for name, quality in QUALITY.items()},
        parts=_parts(found, whole.size),
        matters=_matters(scatter, factors, whole),
        failed=int(np.count_nonzero(np.isnan(whole))),
        utilisation=tuple(whole.tolist()),
    )


def _nominal(case: Case) -> Case:
    """Walls are drawn about their nominal size, whatever the basis takes off."""
    return evolve(case, basis=evolve(case.basis, wall="nominal"))


def _worked_off(pieces: list[Draws], executor: Executor | None, step: Step) -> list[Worst]:
    if executor is None:
        found = []
        for piece in pieces:
            found.append(worst_of(piece))
            gc.collect(1)  # what the checks kept of it is large and knows itself
            step(piece.factors.shape[0])
        return found
    waiting = [executor.submit(worst_of, piece) for piece in pieces]
    found = []
    try:
        for future, piece in zip(waiting, pieces, strict=True):
            found.append(future.result())
            gc.collect(1)
            step(piece.factors.shape[0])
    except BaseException:
        for future in waiting:
            future.cancel()
        raise
    return found


def worst_of(piece: Draws) -> Worst:
    """The worst of each draw; draws that cannot be computed come out as no number."""
    count = piece.factors.shape[0]
    try:
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            bars = varied(piece)
            forces = piece.loading.forces(_of(piece, "mass", len(piece.ready.case.masses)))
            forces *= _of(piece, "load", len(piece.ready.loads))[:, :, None, None]
            flags, lines = branches(piece.ready.case, piece.ready.layout, bars)
            ways = parted(flags)
            if len(ways) == 1:
                return _judged(piece, bars, forces, lines)
    except StrengthError:
        if count == 1:
            nan = np.full(1, np.nan)
            return Worst(other=nan, throat=nan, whole=nan, parts=np.zeros((1, 0)), names=())
        ways = [np.arange(count // 2), np.arange(count // 2, count)]
    return _joined([(own, worst_of(evolve(piece, factors=piece.factors[own]))) for own in ways], count)


def _of(piece: Draws, kind: str, count: int) -> Array:
    """Factors on all things of a kind (draws, count), 1 where they do not scatter."""
    out = np.ones((piece.factors.shape[0], count))
    for column, number in piece.scatter.of(kind):
        out[:, number] = piece.factors[:, column]
    return out


def varied(piece: Draws) -> Bars:
    """Bars of all draws: walls, thicknesses, strengths and legs."""
    ready = piece.ready
    case, base = ready.case, ready.bars
    designs = piece.factors.shape[0]
    nominal = sizes_of([shapes_of(case)])
    walls, plates = (_of(piece, kind, len(base.names)) for kind in ("wall", "thickness"))
    width = nominal.width * plates
    flat = np.asarray(plates != 1.0) & (nominal.width < nominal.depth)
    sizes = Sizes(
        depth=np.repeat(nominal.depth, designs, axis=0),
        width=width,
        wall=np.where(flat, np.minimum(width, nominal.depth), nominal.wall * walls),
    )
    plain = evolve(base, metals=tuple(_of_one_strength(base, n) for n in range(len(base.names))))
    bars = rebuilt(plain, case.basis, sizes)
    metal = _of(piece, "strength", len(piece.scatter.metals))
    number = {name: n for n, name in enumerate(piece.scatter.metals)}
    strong = np.stack(
        [
            metal[:, number[name]] if name else np.ones(designs)
            for name in (part.material for part in parts_of(case))
        ],
        axis=1,
    )
    legs = np.array([[weld.leg for weld in case.welds]]) * _of(piece, "leg", len(case.welds))
    insets = np.array([[weld.inset for weld in case.welds]])
    return evolve(
        bars,
        metals=base.metals,
        yield_=bars.yield_ * strong,
        ultimate=bars.ultimate * strong,
        yield_welded=bars.yield_welded * strong,
        ultimate_welded=bars.ultimate_welded * strong,
        weld_legs=legs if case.welds else None,
        weld_insets=np.repeat(insets, designs, axis=0) if case.welds else None,
    )


def _of_one_strength(bars: Bars, number: int) -> object:
    """The metal of a bar with the strength of its nominal thickness, whatever is drawn."""
    metal = bars.metals[number]
    if metal is None:
        return None
    row = metal.rows[0]
    values = {
        name: float(getattr(bars, name)[0, number])
        for name in ("yield_", "ultimate", "yield_welded", "ultimate_welded", "elongation")
    }
    if not np.isfinite(values["yield_"]):
        return metal
    whole = evolve(row, over=0.0, up_to=float("inf"), diameter_to=float("inf"), **values)
    return evolve(metal, rows=(whole,))


def _judged(piece: Draws, bars: Bars, forces: Array, lines: Lines | None) -> Worst:
    ready = piece.ready
    own = tuple(evolve(ready.pushes, forces=each) for each in forces)
    context, _ = context_of(Batch(prepared=ready, bars=bars, own=own, lines=lines), brief=True)
    uses = every_use(context)
    worst = np.maximum(uses.use.max(axis=1, initial=0.0), 0.0)
    throats = np.array([kind == THROAT for _, kind in uses.names], dtype=bool)
    quality = {weld.name: QUALITY[weld.quality] for weld in ready.case.welds}
    good = np.array([quality[part] for part, kind in uses.names if kind == THROAT]).reshape(-1, 1)
    names = tuple(dict.fromkeys(part for part, _ in uses.names))
    rank = {name: n for n, name in enumerate(names)}
    table = np.zeros((len(names), bars.area.shape[0]))
    np.maximum.at(table, np.array([rank[part] for part, _ in uses.names], dtype=np.intp), worst)
    return Worst(
        other=worst[~throats].max(axis=0, initial=0.0),
        throat=(worst[throats] * good).max(axis=0, initial=0.0),
        whole=table.max(axis=0, initial=0.0),
        parts=table.T,
        names=names,
    )


def _joined(pieces: list[tuple[Index, Worst]], count: int) -> Worst:
    """Pieces of one set of draws back in their order."""
    names = tuple(dict.fromkeys(name for _, piece in pieces for name in piece.names))
    place = {name: n for n, name in enumerate(names)}
    other, throat, whole = (np.empty(count) for _ in range(3))
    parts = np.zeros((count, len(names)))
    for own, piece in pieces:
        other[own], throat[own], whole[own] = piece.other, piece.throat, piece.whole
        parts[np.ix_(own, np.array([place[name] for name in piece.names], dtype=np.intp))] = piece.parts
    return Worst(other=other, throat=throat, whole=whole, parts=parts, names=names)


def _chance(worst: Array) -> Chance:
    """Quantiles, and the share of draws over 1 with its exact binomial interval (Clopper & Pearson 1934)."""
    from scipy.stats import binomtest

    counted = np.where(np.isnan(worst), np.inf, worst)
    over = int(np.count_nonzero(counted > 1.0 + ROUNDING))
    interval = binomtest(over, counted.size).proportion_ci(confidence_level=CONFIDENCE, method="exact")
    ordered = np.sort(counted)
    return Chance(
        quantiles={
            share: float(ordered[min(int(np.ceil(share * ordered.size)) - 1, ordered.size - 1)])
            for share in QUANTILES
        },
        over=over,
        chance=over / counted.size,
        low=float(interval.low),
        high=float(interval.high),
    )


def _parts(found: list[Worst], count: int) -> tuple[tuple[str, float], ...]:
    """Share of draws in which each part is over its limit, the most first; those that never are left out."""
    over: dict[str, int] = {}
    for piece in found:
        for name, use in zip(piece.names, piece.parts.T, strict=True):
            over[name] = over.get(name, 0) + int(np.count_nonzero(use > 1.0 + ROUNDING))
    return tuple((name, n / count) for name, n in sorted(over.items(), key=lambda item: -item[1]) if n)


def _matters(scatter: Scatter, factors: Array, worst: Array) -> tuple[tuple[str, str, float], ...]:
    """Rank correlation of each input with the worst utilisation (Spearman), the strongest first."""
    known = np.isfinite(worst)
    if np.count_nonzero(known) < 3 or np.ptp(worst[known]) == 0.0:
        return ()
    y = _ranks(worst[known])
    found = []
    for n, each in enumerate(scatter.inputs):
        x = _ranks(factors[known, n])
        found.append((each.kind, each.name, float(np.corrcoef(x, y)[0, 1])))
    return tuple(sorted(found, key=lambda entry: -abs(entry[2])))


def _ranks(values: Array) -> Array:
    """Ranks of values, equal ones sharing the mean of theirs."""
    from scipy.stats import rankdata

    return np.asarray(rankdata(values), dtype=np.float64)
