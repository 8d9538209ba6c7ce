"""Nominal stresses of a section: what each kind of force does on its own."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.box import corner_radii, torsion_and_modulus
from strength.sections.flat import torsion_constant
from strength.sections.flat_stress import torsion_peak
from strength.sections.round_stress import round_scale
from strength.sections.stress import StressMatrix
from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Nominal:
    """Stresses [MPa] of a section, arrays over whatever the forces had before their last axis.

    axial: tension positive. bending: both axes together at the worst fibre. shear: greatest from the
    transverse forces. torsion: greatest from torsion. The last three are never negative.
    """

    axial: Array
    bending: Array
    shear: Array
    torsion: Array


def nominal_round(forces: Array, area: Array, modulus: Array, m: Array) -> Nominal:
    """Of a round section; forces (..., 6), sizes (...), m = inner/outer diameter."""
    n, vy, vz, t, my, mz = np.moveaxis(forces * round_scale(area, modulus, m), -1, 0)
    return Nominal(axial=n, bending=np.hypot(my, mz), shear=np.hypot(vy, vz), torsion=np.abs(t))


def nominal_flat(forces: Array, width: Array, thickness: Array) -> Nominal:
    """Of a flat: forces (..., 6), sizes (...), `width` along z_m."""
    n, vy, vz, t, my, mz = np.moveaxis(forces, -1, 0)
    area = width * thickness
    long, short = np.maximum(width, thickness), np.minimum(width, thickness)
    return Nominal(
        axial=n / area,
        bending=6.0 / area * (np.abs(my) / width + np.abs(mz) / thickness),
        shear=1.5 * np.hypot(vy, vz) / area,
        torsion=np.abs(t) * torsion_peak(long, short) * short / torsion_constant(long, short),
    )


def nominal_box(
    forces: Array, sizes: tuple[Array, Array, Array], area: Array, iy: Array, iz: Array
) -> Nominal:
    """Of a box: forces (..., 6), sizes depth, width, wall and figures (...), as in `box_matrix`."""
    depth, width, wall = sizes
    n, vy, vz, t, my, mz = np.moveaxis(forces, -1, 0)
    b, h = width - wall, depth - wall
    radius = corner_radii(wall)[0]
    up, across = np.abs(my) / iy, np.abs(mz) / iz
    corner_y, corner_z = np.abs(vy) * b * h / (4.0 * iz), np.abs(vz) * b * h / (4.0 * iy)
    # the worst fibre stands on a corner arc, where the arc turns its back to the neutral axis
    bending = up * (depth / 2.0 - radius) + across * (width / 2.0 - radius) + radius * np.hypot(up, across)
    shear = np.maximum(
        _wall_shear(corner_z, np.abs(vz) * h**2 / (8.0 * iy), corner_y),
        _wall_shear(corner_y, np.abs(vy) * b**2 / (8.0 * iz), corner_z),
    )
    return Nominal(
        axial=n / area,
        bending=bending,
        shear=shear,
        torsion=np.abs(t) / torsion_and_modulus(depth, width, wall)[1],
    )


def _wall_shear(corner: Array, rise: Array, other: Array) -> Array:
    """Greatest of corner + rise (1 - s^2) + other s for s from 0 to 1."""
    s = np.clip(np.divide(other, 2.0 * rise, out=np.ones_like(rise + other), where=rise > 0.0), 0.0, 1.0)
    found: Array = corner + rise * (1.0 - s**2) + other * s
    return found


def nominal(matrix: StressMatrix, forces: Array) -> Nominal:
    """Of any section by its matrix; forces (designs, ..., 6)."""
    only = {
        "axial": (1.0, 0.0, 0.0, 0.0, 0.0, 0.0),
        "bending": (0.0, 0.0, 0.0, 0.0, 1.0, 1.0),
        "shear": (0.0, 1.0, 1.0, 0.0, 0.0, 0.0),
        "torsion": (0.0, 0.0, 0.0, 1.0, 0.0, 0.0),
    }
    found = {name: matrix.von_mises(forces * np.array(mask)) for name, mask in only.items()}
    return Nominal(
        axial=np.copysign(found["axial"], forces[..., 0]),
        bending=found["bending"],
        shear=found["shear"] / np.sqrt(3.0),
        torsion=found["torsion"] / np.sqrt(3.0),
    )
