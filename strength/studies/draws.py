"""What scatters, by how much, and draws of it."""

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from strength.case.faults import nearest
from strength.case.model import Case, Member, Strut
from strength.case.shape import Box, Flat, Tube
from strength.errors import CaseError
from strength.values import frozen

Array = NDArray[np.float64]

CUT = 3.0  # standard deviations at which a draw is cut off: what is worse is seen and scrapped (own choice)
MOST = 0.3  # a greater standard deviation is no scatter any more
# standard deviation as a fraction of the nominal value; own choices
DEFAULTS: dict[str, tuple[float, str]] = {
    "wall": (0.04, "walls of tubes and boxes; standards allow about +-10 % (EN 10305-1, EN 10219-2)"),
    "thickness": (0.02, "thickness of plates; standards allow about +-5 % (EN 10029, EN 485-3)"),
    "leg": (0.12, "legs of fillet welds made by hand"),
    "strength": (0.05, "yield and ultimate strength of each metal, about the figure of its standard"),
    "mass": (0.05, "each mass"),
    "load": (0.10, "all forces of each load"),
}
DRAWS, SEED = 1000, 1
MOST_DRAWS = 1_000_000


@frozen(kw_only=True)
class Input:
    """One thing that scatters: its kind (a key of DEFAULTS), what it belongs to, its standard deviation."""

    kind: str
    name: str
    number: int  # of the bar, weld, metal, mass or load
    deviation: float


@frozen(kw_only=True)
class Scatter:
    """Everything that scatters in a case, and how it is drawn."""

    inputs: tuple[Input, ...]
    draws: int
    seed: int
    deviations: dict[str, float]  # by kind
    given: tuple[str, ...]  # kinds that the case gives itself
    metals: tuple[str, ...]

    def of(self, kind: str) -> list[tuple[int, int]]:
        """Column and own number of all inputs of a kind."""
        return [(n, each.number) for n, each in enumerate(self.inputs) if each.kind == kind]


def scatter_of(case: Case, draws: int | None = None, seed: int | None = None) -> Scatter:
    """What scatters in a case: the defaults, overridden by its table [spread].

    draws, seed: instead of those. Raises CaseError with what is wrong in the table.
    """
    table, faults = case.spread, []
    deviations = {kind: value for kind, (value, _) in DEFAULTS.items()}
    whole = {"draws": DRAWS, "seed": SEED}
    for key, value in table.items():
        if key in whole:
            if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= MOST_DRAWS:
                faults.append((f"spread.{key}", f"{value!r} is not a whole number up to {MOST_DRAWS}"))
            else:
                whole[key] = value
        elif key not in DEFAULTS:
            faults.append((f"spread.{key}", f"unknown key{nearest(key, [*DEFAULTS, *whole])}"))
        elif isinstance(value, bool) or not isinstance(value, int | float) or not 0.0 <= value <= MOST:
            why = f"{value!r} is not a standard deviation: a fraction from 0 to {MOST:g}, such as 0.05"
            faults.append((f"spread.{key}", why))
        else:
            deviations[key] = float(value)
    count = whole["draws"] if draws is None else draws
    if count < 2:
        faults.append(("spread.draws", f"{count} draws tell nothing: take at least 2"))
    if faults:
        raise CaseError(faults)
    metals = tuple(dict.fromkeys(part.material for part in parts_of(case) if part.material))
    return Scatter(
        inputs=tuple(each for each in _inputs(case, deviations, metals) if each.deviation > 0.0),
        draws=count,
        seed=whole["seed"] if seed is None else seed,
        deviations=deviations,
        given=tuple(key for key in DEFAULTS if key in table),
        metals=metals,
    )


def parts_of(case: Case) -> tuple[Member | Strut, ...]:
    """Members, then struts."""
    return (*case.members, *case.struts)


def _inputs(case: Case, by: Mapping[str, float], metals: tuple[str, ...]) -> list[Input]:
    def made(kind: str, names: Mapping[int, str]) -> list[Input]:
        return [
            Input(kind=kind, name=name, number=number, deviation=by[kind]) for number, name in names.items()
        ]

    def cut_from(*kinds: Any) -> dict[int, str]:
        return {n: part.name for n, part in enumerate(parts_of(case)) if isinstance(part.shape, kinds)}

    def named(things: Any) -> dict[int, str]:
        return {n: thing.name for n, thing in enumerate(things)}

    return [
        *made("wall", cut_from(Tube, Box)),
        *made("thickness", cut_from(Flat)),
        *made("leg", named(case.welds)),
        *made("strength", dict(enumerate(metals))),
        *made("mass", named(case.masses)),
        *made("load", named(case.loads)),
    ]


def drawn(scatter: Scatter) -> Array:
    """Factors on the nominal values, (draws, inputs): normal, cut off at three standard deviations.

    A Latin hypercube: each input's range is cut into as many strips of one chance as there are draws, and
    each strip is met once (McKay, Beckman & Conover 1979). The same seed gives the same draws.
    """
    from scipy.special import ndtr, ndtri

    count = len(scatter.inputs)
    if count == 0:
        return np.ones((scatter.draws, 0))
    low = float(ndtr(-CUT))
    deviates = ndtri(low + hypercube(scatter.draws, count, scatter.seed) * (1.0 - 2.0 * low))
    return np.asarray(1.0 + deviates * np.array([each.deviation for each in scatter.inputs]))


def hypercube(draws: int, inputs: int, seed: int) -> Array:
    """A Latin hypercube (draws, inputs) in 0 .. 1: a place in every strip, the strips in any order.

    The same figures as `scipy.stats.qmc.LatinHypercube`, which takes 0.3 s to import.
    """
    random = np.random.default_rng(seed).spawn(1)[0]
    place = random.uniform(size=(draws, inputs))
    strips = np.tile(np.arange(1, draws + 1), (inputs, 1))
    for own in strips:
        random.shuffle(own)
    return np.asarray((strips.T - place) / draws)
