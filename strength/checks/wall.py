"""`wall`: the wall of a tube or box must be thick enough not to dent before the part yields."""

from collections.abc import Iterator
from functools import partial

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Box, Tube
from strength.checks.context import Context
from strength.checks.verdict import Late, Verdict
from strength.checks.welded import welds_on
from strength.checks.yielding import path_factor
from strength.sections.bars import Bars

Array = NDArray[np.float64]

NOTHING = 1e-6  # MPa: stresses under it are what rounding leaves
SOURCES = {
    "steel": "EN 1993-1-1:2005 Table 5.2, class 3",
    "stainless": "EN 1993-1-4:2006 Table 5.2, class 3",
    "aluminium": "EN 1999-1-1:2007 Table 6.2, class 3",
}
ALUMINIUM = {("A", False): 22.0, ("A", True): 18.0, ("B", False): 18.0, ("B", True): 15.0}


def wall_ratio(bars: Bars, number: int, *, welded: bool) -> Array:
    """Slenderness of the wall over its limit, (designs,); parent yield throughout.

    Steel: round D/t to 90 e^2, box (side - 3 t)/t to 42 e, e^2 = 235/fy. Stainless: 90 e^2 and 37 e,
    e^2 = (235/fy)(E/210 GPa). Aluminium: box (side - 2 t)/t, round 3 sqrt(D/t), to 22 e (class A),
    18 e (A welded, B), 15 e (B welded), e^2 = 250/fo. The greater side counts.
    """
    metal = bars.metals[number]
    kind, curve = ("steel", "c") if metal is None else (metal.kind, metal.buckling_curve)
    side = np.maximum(bars.depth[:, number], bars.width[:, number])
    thin = side / bars.wall[:, number]
    is_round = isinstance(bars.shapes[number], Tube)
    strength = bars.yield_[:, number]
    if kind == "aluminium":
        ratio = 3.0 * np.sqrt(thin) if is_round else thin - 2.0
        found: Array = ratio / (ALUMINIUM["A" if curve == "A" else "B", welded] * np.sqrt(250.0 / strength))
        return found
    square = 235.0 / strength
    box_limit = 42.0
    if kind == "stainless":
        square = square * bars.youngs[:, number] / 210e3
        box_limit = 37.0
    return thin / (90.0 * square) if is_round else (thin - 3.0) / (box_limit * np.sqrt(square))


def wall(context: Context) -> Iterator[Verdict]:
    """Wall slenderness of tubes and boxes, a row for each load with compression or bending in the part."""
    bars = context.bars
    welded = {weld.bar for weld in welds_on(context)}
    for number, shape in enumerate(bars.shapes):
        if not isinstance(shape, Tube | Box) or bars.metals[number] is None:
            continue
        asked = _asked(context, number)
        applies = np.asarray(asked.any(axis=1))
        if applies.any():
            ratio = wall_ratio(bars, number, welded=number in welded)
            demand = np.where(asked.T, ratio[:, None], 0.0)
            use = demand * path_factor(context.case, number)
            whole = partial(_whole, context, number, demand, use, applies)
            yield Late(bars.names[number], "wall", use, whole, applies=applies)


def _asked(context: Context, number: int) -> NDArray[np.bool_]:
    """Where there is compression or bending in a bar, (loads, designs)."""
    bars, own = context.bars, context.stations.of(number)
    found = np.zeros(context.stations.inner.shape[2:], dtype=bool)
    for station in range(own.start, own.stop):  # mostly the first tells
        axial, *_, my, mz = context.stations.inner[:, station]
        found |= -axial > NOTHING * bars.area[:, number]
        bent = np.abs(my) / bars.modulus_y[:, number] + np.abs(mz) / bars.modulus_z[:, number]
        found |= bent > NOTHING
        if found.all():
            break
    return found


def _whole(context: Context, number: int, demand: Array, use: Array, applies: NDArray[np.bool_]) -> Verdict:
    metal = context.bars.metals[number]
    return Verdict(
        part=context.bars.names[number],
        kind="wall",
        unit="1",
        fails="buckles",
        source=SOURCES.get("" if metal is None else metal.kind, SOURCES["steel"]),
        demand=demand,
        limit=np.ones_like(demand),
        utilisation=use,
        places=("along the whole part",),
        applies=applies,
    )
