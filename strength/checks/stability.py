"""`stability`: compression and bending over a buckling length."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.shape import Bar, Box, Flat, Outline, Tube
from strength.checks.buckling_lengths import BucklingLength, buckling_lengths
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.perry import CURVES, TWISTING, chi
from strength.checks.verdict import Verdict
from strength.checks.welded import WeldOn, welds_on
from strength.checks.yielding import path_factor
from strength.sections.bars import Bars
from strength.values import frozen

Array = NDArray[np.float64]

MOST = 100.0  # own choice: the greatest moment magnifier that is written out
SLENDER_BOX = 3.0  # depth over width beyond which a box may twist: out of range (own choice)
ROUNDING = 1e-9  # of the forces in a part: a compression that is not there
SOURCE = "EN 1993-1-1 6.3.1, EN 1999-1-1 6.3.1; with bending own simplification of 6.3.3, Cm = 1"


@frozen(kw_only=True, eq=False)
class Resistance:
    """What a buckling length can carry, (designs,); characteristic."""

    crush: Array  # chi_min A f [N]
    euler_y: Array  # Ncr for bending about y_m [N]
    euler_z: Array
    moment_y: Array  # chi_LT W f [N*mm]
    moment_z: Array
    chi: Array  # the lesser of both axes
    chi_lt: Array


def resistance(bars: Bars, number: int, whole: BucklingLength, strength: Array) -> Resistance:
    """Resistances of a bar over its buckling length, with f = strength (designs,) [MPa]."""
    metal = bars.metals[number]
    kind, curve = ("steel", "c") if metal is None else (metal.kind, metal.buckling_curve)
    area, iy, iz = bars.area[:, number], bars.iy[:, number], bars.iz[:, number]
    youngs, span = bars.youngs[:, number], whole.factor * whole.length
    euler_y, euler_z = (np.pi**2 * youngs * inertia / span**2 for inertia in (iy, iz))
    # the weakest axis of an outline may lie askew
    weakest = (iy + iz) / 2.0 - np.hypot((iy - iz) / 2.0, spread(bars.iyz, bars.iy.shape)[:, number])
    found = chi(np.sqrt(area * strength * span**2 / (np.pi**2 * youngs * weakest)), *CURVES[curve])
    modulus_y, modulus_z = bars.modulus_y[:, number], bars.modulus_z[:, number]
    lateral, strong_y = np.ones_like(area), iy >= iz
    if isinstance(bars.shapes[number], Flat):
        stiff = youngs * np.minimum(iy, iz) * bars.shear[:, number] * bars.torsion[:, number]
        critical = np.pi * np.sqrt(stiff) / span
        bending = np.where(strong_y, modulus_y, modulus_z) * strength
        lateral = chi(np.sqrt(bending / critical), *TWISTING["aluminium" if kind == "aluminium" else "steel"])
    return Resistance(
        crush=found * area * strength,
        euler_y=euler_y,
        euler_z=euler_z,
        moment_y=np.where(strong_y, lateral, 1.0) * modulus_y * strength,
        moment_z=np.where(strong_y, 1.0, lateral) * modulus_z * strength,
        chi=found,
        chi_lt=lateral,
    )


def magnifier(pressed: Array, euler: Array) -> Array:
    """1/(1 - n N/Ncr), at most 100; pressed: n N >= 0 and Ncr [N]."""
    left = 1.0 - pressed / euler
    return 1.0 / np.maximum(left, 1.0 / MOST)


def interaction(
    carries: Resistance, n: Array, my: Array, mz: Array, factor: Array, *, is_round: bool
) -> Array:
    """N/(chi A f) + ky My/(chi_LT Wy f) + kz Mz/(Wz f), (designs, loads), before any divisor.

    n >= 0 compression [N], my, mz >= 0 [N*mm]; for a round section `my` is the greatest of both
    axes together and mz goes unused. factor: on N in the magnifiers.
    """
    moment_y, moment_z = carries.moment_y[:, None], carries.moment_z[:, None]
    found = n / carries.crush[:, None] + magnifier(factor * n, carries.euler_y[:, None]) * my / moment_y
    if is_round:
        return found
    return found + magnifier(factor * n, carries.euler_z[:, None]) * mz / moment_z


def stability(context: Context) -> Iterator[Verdict]:
    """Buckling with bending, a row for each member and strut with a section."""
    lengths = buckling_lengths(context.case, context.layout, context.bars)
    welds = welds_on(context)
    for number in sorted(lengths):
        yield _verdict(context, number, lengths[number], welds)


def buckling_strength(bars: Bars, number: int, whole: BucklingLength, welds: tuple[WeldOn, ...]) -> Array:
    """Yield f (designs,) [MPa]: welded where a weld lies further from an end than the least width."""
    found = bars.yield_[:, number]
    least = np.minimum(bars.depth[:, number], bars.width[:, number])
    own = {link.bar for link in whole.links}
    for weld in welds:
        if weld.bar in own:
            at = whole.place(weld.bar, weld.at)
            welded = bars.yield_welded[:, number] * weld.factor
            inside = np.minimum(at, whole.length - at) > least
            found = np.where(inside, np.minimum(found, welded), found)
    return found


def in_range(bars: Bars, number: int) -> NDArray[np.bool_]:
    """False (designs,) for boxes deeper than three times their width and for open outlines."""
    shape = bars.shapes[number]
    depth, width = bars.depth[:, number], bars.width[:, number]
    if isinstance(shape, Box):
        return np.asarray(np.maximum(depth, width) <= SLENDER_BOX * np.minimum(depth, width))
    return np.full(depth.shape, not isinstance(shape, Outline) or bool(shape.holes))


def _verdict(context: Context, number: int, whole: BucklingLength, welds: tuple[WeldOn, ...]) -> Verdict:
    bars, stations = context.bars, context.stations
    own = np.concatenate(
        [np.arange(*stations.of(link.bar).indices(stations.bar.size)) for link in whole.links]
    )
    forces = stations.forces[:, :, own] * context.factors.load()[:, None, None]
    n = np.maximum(0.0, -forces[..., 0].min(axis=-1))
    is_round = isinstance(bars.shapes[number], Tube | Bar)
    bending = np.hypot(forces[..., 4], forces[..., 5]) if is_round else np.abs(forces[..., 4])
    my, mz = bending.max(axis=-1), np.abs(forces[..., 5]).max(axis=-1)
    strength = buckling_strength(bars, number, whole, welds)
    carries = resistance(bars, number, whole, strength)
    metal = bars.metals[number]
    divisor = context.factors.on_stability("" if metal is None else metal.kind)
    demand = divisor * interaction(carries, n, my, mz, context.factors.buckling(), is_round=is_round)
    note = _note(bars, number, whole, carries, strength)
    # with nothing that presses along it and nothing that tips it over, a part can only bend
    greatest = np.abs(forces[0, ..., 0]).max(axis=-1) + np.abs(forces[0, ..., 1:3]).max(axis=(-1, -2))
    unpressed = (n[0] <= ROUNDING * greatest) & (carries.chi_lt[0] >= 1.0)
    return Verdict(
        part=bars.names[number],
        kind="stability",
        unit="1",
        fails=tuple("bends" if alone else "buckles" for alone in unpressed),
        source=SOURCE,
        demand=demand,
        limit=np.ones_like(demand),
        utilisation=demand * path_factor(context.case, number),
        places=(f"between {whole.start} and {whole.end}",),
        in_range=spread(in_range(bars, number)[:, None], demand.shape),
        notes=tuple(
            "; ".join(
                part
                for part in (
                    "nothing presses along it: bending alone" if unpressed[load] else note,
                    amplified_note(context, load),
                )
                if part
            )
            for load in range(demand.shape[1])
        ),
    )


def _note(bars: Bars, number: int, whole: BucklingLength, carries: Resistance, strength: Array) -> str:
    parts = [f"buckling length {whole.factor:g} x {whole.length:.0f} mm, chi {carries.chi[0]:.2f}"]
    if carries.chi_lt[0] < 1.0:
        parts.append(f"chi_LT {carries.chi_lt[0]:.2f}")
    if len(whole.links) > 1:
        parts.append("with " + ", ".join(bars.names[link.bar] for link in whole.links if link.bar != number))
    if strength[0] < bars.yield_[0, number]:
        parts.append("welded strength")
    return "; ".join(parts)
