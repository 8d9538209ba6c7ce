"""What bars carry over their buckling lengths, and what a compression with bending uses of it."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import spread
from strength.case.shape import Flat
from strength.checks.buckling_lengths import BucklingLength
from strength.checks.perry import CURVES, TWISTING, chi
from strength.sections.bars import Bars
from strength.values import frozen

Array = NDArray[np.float64]

MOST = 100.0  # own choice: the greatest moment magnifier that is written out


@frozen(kw_only=True, eq=False)
class Resistances:
    """What buckling lengths can carry, (lengths, designs); characteristic."""

    crush: Array  # chi_min A f [N]
    euler_y: Array  # Ncr for bending about y_m [N]
    euler_z: Array
    moment_y: Array  # chi_LT W f [N*mm]
    moment_z: Array
    chi: Array  # the lesser of both axes
    chi_lt: Array


def resistances(
    bars: Bars, numbers: list[int], lengths: list[BucklingLength], strength: Array
) -> Resistances:
    """Resistances of bars over their buckling lengths, with f = strength (lengths, designs) [MPa]."""
    metals = [bars.metals[number] for number in numbers]
    curves = ["c" if metal is None else metal.buckling_curve for metal in metals]
    twisting = ["aluminium" if metal and metal.kind == "aluminium" else "steel" for metal in metals]
    area, iy, iz, youngs = (figure.T[numbers] for figure in (bars.area, bars.iy, bars.iz, bars.youngs))
    span = np.array([[whole.factor * whole.length] for whole in lengths]).reshape(-1, 1)
    euler_y, euler_z = (np.pi**2 * youngs * inertia / span**2 for inertia in (iy, iz))
    # the weakest axis of an outline may lie askew
    weakest = (iy + iz) / 2.0 - np.hypot((iy - iz) / 2.0, spread(bars.iyz, bars.iy.shape).T[numbers])
    slenderness = np.sqrt(area * strength * span**2 / (np.pi**2 * youngs * weakest))
    found = chi(slenderness, *_columns([CURVES[curve] for curve in curves]))
    modulus_y, modulus_z = bars.modulus_y.T[numbers], bars.modulus_z.T[numbers]
    lateral, strong_y = np.ones_like(area), iy >= iz
    flats = np.array([isinstance(bars.shapes[number], Flat) for number in numbers], dtype=bool)
    if flats.any():
        stiff = youngs * np.minimum(iy, iz) * bars.shear.T[numbers] * bars.torsion.T[numbers]
        critical = np.pi * np.sqrt(stiff[flats]) / span[flats]
        bending = (np.where(strong_y, modulus_y, modulus_z) * strength)[flats]
        own = [TWISTING[kind] for kind, is_flat in zip(twisting, flats, strict=True) if is_flat]
        lateral[flats] = chi(np.sqrt(bending / critical), *_columns(own))
    return Resistances(
        crush=found * area * strength,
        euler_y=euler_y,
        euler_z=euler_z,
        moment_y=np.where(strong_y, lateral, 1.0) * modulus_y * strength,
        moment_z=np.where(strong_y, 1.0, lateral) * modulus_z * strength,
        chi=found,
        chi_lt=lateral,
    )


def _columns(pairs: list[tuple[float, float]]) -> tuple[Array, Array]:
    """First and second of pairs, (pairs, 1) each."""
    found = np.array(pairs).reshape(-1, 2)
    return found[:, :1], found[:, 1:]


def magnifier(pressed: Array, euler: Array) -> Array:
    """1/(1 - n N/Ncr), at most 100; pressed: n N >= 0 and Ncr [N]."""
    left = 1.0 - pressed / euler
    return 1.0 / np.maximum(left, 1.0 / MOST)


def interaction(carries: Resistances, n: Array, my: Array, mz: Array, factor: Array) -> Array:
    """N/(chi A f) + ky My/(chi_LT Wy f) + kz Mz/(Wz f), (lengths, loads, designs), before any divisor.

    n >= 0 compression [N], my, mz >= 0 [N*mm]; for a round section `my` is the greatest of both
    axes together and mz is 0. factor: (loads, 1) on N in the magnifiers.
    """
    pressed = factor * n
    found: Array = n / carries.crush[:, None]
    for moment, euler, carried in (
        (my, carries.euler_y, carries.moment_y),
        (mz, carries.euler_z, carries.moment_z),
    ):
        found += magnifier(pressed, euler[:, None]) * moment / carried[:, None]
    return found
