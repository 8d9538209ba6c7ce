"""The worst utilisation of many draws of a case at once."""

import gc

import numpy as np
from numpy.typing import NDArray

from strength.checks.register import every_use
from strength.errors import StrengthError
from strength.joints.draw import Lines
from strength.joints.fillet import QUALITY
from strength.sections import Bars, Sizes, rebuilt, sizes_of
from strength.studies.batch import Batch, context_of
from strength.studies.branches import branches, parted
from strength.studies.draws import Scatter, parts_of
from strength.studies.evaluate import shapes_of
from strength.studies.forces import Loading
from strength.studies.prepared import Prepared
from strength.studies.shared import Shared
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

THROAT = "weld-throat"


@frozen(kw_only=True, eq=False)
class Drawn:
    """What all draws of a case share."""

    ready: Prepared
    loading: Loading
    scatter: Scatter


@frozen(kw_only=True, eq=False)
class Draws:
    """A piece of work: some draws of a case, (draws, inputs) factors."""

    shared: Shared[Drawn]
    factors: Array

    @property
    def ready(self) -> Prepared:
        """The nominal case."""
        return self.shared.value.ready

    @property
    def scatter(self) -> Scatter:
        """What the columns of the factors belong to."""
        return self.shared.value.scatter


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


def worked(piece: Draws) -> Worst:
    """The worst of each draw, and what was kept on the way cleared away: it is large and knows itself."""
    found = worst_of(piece)
    gc.collect(1)
    return found


def worst_of(piece: Draws) -> Worst:
    """The worst of each draw; draws that cannot be computed come out as no number."""
    count = piece.factors.shape[0]
    try:
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            bars = varied(piece)
            forces = piece.shared.value.loading.forces(_of(piece, "mass", len(piece.ready.case.masses)))
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
    # digits that no chance hangs on are not polished
    batch = Batch(prepared=ready, bars=bars, forces=forces, lines=lines, fine=False)
    context = context_of(batch, brief=True)
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
