"""`stability`: compression and bending over a buckling length."""

from collections.abc import Iterator
from functools import partial

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.shape import Bar, Box, Outline, Tube
from strength.checks.buckling_lengths import BucklingLength, buckling_lengths
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.resistances import Resistances, interaction, resistances
from strength.checks.verdict import Late, Verdict
from strength.checks.welded import WeldOn, welds_on
from strength.checks.yielding import path_factors
from strength.sections.bars import Bars
from strength.values import frozen

Array = NDArray[np.float64]

SLENDER_BOX = 3.0  # depth over width beyond which a box may twist: out of range (own choice)
ROUNDING = 1e-9  # of the forces in a part: a compression that is not there
SOURCE = "EN 1993-1-1 6.3.1, EN 1999-1-1 6.3.1; with bending own simplification of 6.3.3, Cm = 1"


@frozen(kw_only=True, eq=False)
class Pressed:
    """Bars with their buckling lengths; n, my, mz, demand: (bars, loads, designs), with load factor.

    n: greatest compression, never negative; my, mz: greatest magnitudes of moments, of round bars my
    of both together and mz 0.
    """

    numbers: list[int]
    lengths: list[BucklingLength]
    n: Array
    my: Array
    mz: Array
    strength: Array  # (bars, designs)
    carries: Resistances
    demand: Array


def stability(context: Context) -> Iterator[Verdict]:
    """Buckling with bending, a row for each member and strut with a section."""
    lengths = buckling_lengths(context.case, context.layout, context.bars)
    if not lengths:
        return
    pressed = _pressed(context, lengths)
    use = pressed.demand * path_factors(context.case)[pressed.numbers, None, None]
    for n, number in enumerate(pressed.numbers):
        covered = in_range(context.bars, number)
        yield Late(
            context.bars.names[number],
            "stability",
            use[n].T,
            partial(_whole, context, pressed, n, use[n].T),
            in_range=None if covered.all() else spread(covered[:, None], use.shape[:0:-1]),
        )


def _pressed(context: Context, found: dict[int, BucklingLength]) -> Pressed:
    bars, stations = context.bars, context.stations
    numbers = sorted(found)
    lengths = [found[number] for number in numbers]
    axial, *_, my, mz = stations.inner
    is_round = np.array([isinstance(shape, Tube | Bar) for shape in bars.shapes], dtype=bool)[stations.bar]
    about_y, about_z = np.square(my), np.square(mz)
    about_y[is_round] += about_z[is_round]
    about_z[is_round] = 0.0
    worst = [_along(stations.worst(effect), numbers, lengths) for effect in (-axial, about_y, about_z)]
    n, my, mz = np.maximum(worst[0], 0.0), np.sqrt(worst[1]), np.sqrt(worst[2])
    for effect in (n, my, mz):
        effect *= context.factors.load()[:, None]
    strength = _strengths(bars, numbers, lengths, welds_on(context))
    carries = resistances(bars, numbers, lengths, strength)
    kinds = ["" if metal is None else metal.kind for metal in (bars.metals[number] for number in numbers)]
    divisor = np.array([context.factors.on_stability(kind) for kind in kinds])[:, :, None]
    demand = divisor * interaction(carries, n, my, mz, context.factors.buckling()[:, None])
    return Pressed(
        numbers=numbers,
        lengths=lengths,
        n=n,
        my=my,
        mz=mz,
        strength=strength,
        carries=carries,
        demand=demand,
    )


def _along(worst: Array, numbers: list[int], lengths: list[BucklingLength]) -> Array:
    """The greatest along the buckling lengths of some bars, out of that of every bar (bars, ...)."""
    found = worst[numbers]
    for n, whole in enumerate(lengths):
        if len(whole.links) > 1:
            found[n] = worst[[link.bar for link in whole.links]].max(axis=0)
    return found


def buckling_strength(bars: Bars, number: int, whole: BucklingLength, welds: tuple[WeldOn, ...]) -> Array:
    """Yield f (designs,) [MPa]: welded where a weld lies further from an end than the least width."""
    found: Array = _strengths(bars, [number], [whole], welds)[0]
    return found


def _strengths(
    bars: Bars, numbers: list[int], lengths: list[BucklingLength], welds: tuple[WeldOn, ...]
) -> Array:
    """The same of several bars (bars, designs)."""
    found = bars.yield_.T[numbers]
    on: dict[int, list[WeldOn]] = {}
    for weld in welds:
        on.setdefault(weld.bar, []).append(weld)
    for n, (number, whole) in enumerate(zip(numbers, lengths, strict=True)):
        for weld in (weld for link in whole.links for weld in on.get(link.bar, ())):
            welded = bars.yield_welded[:, number] * weld.factor
            if not (welded < found[n]).any():
                continue
            least = np.minimum(bars.depth[:, number], bars.width[:, number])
            at = whole.place(weld.bar, weld.at)
            inside = np.minimum(at, whole.length - at) > least
            found[n] = np.where(inside, np.minimum(found[n], welded), found[n])
    return found


def in_range(bars: Bars, number: int) -> NDArray[np.bool_]:
    """False (designs,) for boxes deeper than three times their width and for open outlines."""
    shape = bars.shapes[number]
    depth, width = bars.depth[:, number], bars.width[:, number]
    if isinstance(shape, Box):
        return np.asarray(np.maximum(depth, width) <= SLENDER_BOX * np.minimum(depth, width))
    return np.full(depth.shape, not isinstance(shape, Outline) or bool(shape.holes))


def _whole(context: Context, pressed: Pressed, n: int, use: Array) -> Verdict:
    bars, number, whole = context.bars, pressed.numbers[n], pressed.lengths[n]
    demand = pressed.demand[n].T
    # with nothing that presses along it and nothing that tips it over, a part can only bend
    unpressed = pressed.n[n, :, 0] <= ROUNDING * _greatest(context, whole)
    unpressed &= pressed.carries.chi_lt[n, 0] >= 1.0
    note = _note(bars, pressed, n)
    notes = [
        ("nothing presses along it: bending alone" if alone else note, amplified_note(context, load))
        for load, alone in enumerate(unpressed.tolist())
    ]
    return Verdict(
        part=bars.names[number],
        kind="stability",
        unit="1",
        fails=tuple("bends" if alone else "buckles" for alone in unpressed.tolist()),
        source=SOURCE,
        demand=demand,
        limit=np.ones_like(demand),
        utilisation=use,
        places=(f"between {whole.start} and {whole.end}",),
        in_range=spread(in_range(bars, number)[:, None], demand.shape),
        notes=tuple("; ".join(part for part in parts if part) for parts in notes),
    )


def _greatest(context: Context, whole: BucklingLength) -> Array:
    """Greatest force along a buckling length and across it, added up (loads,) [N], of the first design."""
    own = [context.stations.inner[:3, context.stations.of(link.bar), :, 0] for link in whole.links]
    along, *across = np.abs(np.concatenate(own, axis=1)).max(axis=1)
    found: Array = (along + np.maximum(*across)) * context.factors.load()
    return found


def _note(bars: Bars, pressed: Pressed, n: int) -> str:
    number, whole, carries = pressed.numbers[n], pressed.lengths[n], pressed.carries
    parts = [f"buckling length {whole.factor:g} x {whole.length:.0f} mm, chi {carries.chi[n, 0]:.2f}"]
    if carries.chi_lt[n, 0] < 1.0:
        parts.append(f"chi_LT {carries.chi_lt[n, 0]:.2f}")
    if len(whole.links) > 1:
        parts.append("with " + ", ".join(bars.names[link.bar] for link in whole.links if link.bar != number))
    if pressed.strength[n, 0] < bars.yield_[0, number]:
        parts.append("welded strength")
    return "; ".join(parts)
