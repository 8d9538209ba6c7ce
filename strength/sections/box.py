"""Square and rectangular hollow sections, cold formed with round corners: EN 10219-2."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.properties import Properties

Array = NDArray[np.float64]

_ROUND = 12.0 - 3.0 * np.pi


def corner_radii(wall: Array | float) -> tuple[Array, Array]:
    """Outer and inner corner radius [mm] that properties are worked out with.

    2 t and t up to 6 mm, 2.5 t and 1.5 t up to 10 mm, 3 t and 2 t above (EN 10219-2:2006, Annex B).
    """
    wall = np.asarray(wall, dtype=np.float64)
    outer = np.where(wall <= 6.0, 2.0, np.where(wall <= 10.0, 2.5, 3.0)) * wall
    return outer, outer - wall


def torsion_and_modulus(depth: Array, width: Array, wall: Array) -> tuple[Array, Array]:
    """Torsion constant It [mm^4] and torsion modulus Ct [mm^3] (stress at the outer surface).

    It = t^3 h/3 + 2 K Ah, K = 2 Ah t/h, Ct = It/(t + K/t), h and Ah the length of the middle line
    and the area inside it.
    Source: EN 10219-2:2006, Annex B.
    """
    outer, inner = corner_radii(wall)
    middle = (outer + inner) / 2.0
    across = (depth - wall) + (width - wall)
    length = 2.0 * across - 2.0 * middle * (4.0 - np.pi)
    inside = (depth - wall) * (width - wall) - middle**2 * (4.0 - np.pi)
    k = 2.0 * inside * wall / length
    torsion = wall**3 * length / 3.0 + 2.0 * k * inside
    return torsion, torsion / (wall + k / wall)


def _second_moment(along: Array, across: Array, wall: Array) -> Array:
    """Second moment of area for bending that stresses the two faces `along` apart (Annex B)."""
    outer, inner = corner_radii(wall)
    found = (across * along**3 - (across - 2.0 * wall) * (along - 2.0 * wall) ** 3) / 12.0
    for radius, size, sign in ((outer, along, -4.0), (inner, along - 2.0 * wall, 4.0)):
        own = (1.0 / 3.0 - np.pi / 16.0 - 1.0 / (3.0 * _ROUND)) * radius**4
        arm = size / 2.0 - (10.0 - 3.0 * np.pi) / _ROUND * radius
        found = found + sign * (own + (1.0 - np.pi / 4.0) * radius**2 * arm**2)
    return found


def cowper_box(web: Array, flange: Array, poisson: Array | float) -> Array:
    """Shear coefficient of a thin-walled box of one wall, for shear along its webs.

    web: length of the walls along the shear, flange: of the walls across it, both on the middle
    line [mm]. With n = flange/web, and m = n for one wall thickness,
    kappa = 10 (1 + v) (1 + 3 m)^2 / ((12 + 72 m + 150 m^2 + 90 m^3) + v (11 + 66 m + 135 m^2 + 90 m^3)
            + 10 n^2 ((3 + v) m + 3 m^2))
    Source: Cowper, The shear coefficient in Timoshenko's beam theory, J. Appl. Mech. 33 (1966).

    >>> round(float(cowper_box(1.0, 1.0, 0.0)), 5)
    0.41667
    """
    m = np.asarray(flange, dtype=np.float64) / web
    below = (
        12.0
        + m * (72.0 + m * (150.0 + m * 90.0))
        + poisson * (11.0 + m * (66.0 + m * (135.0 + m * 90.0)))
        + 10.0 * m**2 * ((3.0 + poisson) * m + 3.0 * m**2)
    )
    found: Array = 10.0 * (1.0 + poisson) * (1.0 + 3.0 * m) ** 2 / below
    return found


def box(
    depth: Array | float, width: Array | float, wall: Array | float, poisson: Array | float
) -> Properties:
    """Properties of a box [mm], depth along z_m; both sides at least two outer corner radii.

    >>> round(float(box(40.0, 20.0, 2.0, 0.3).torsion) / 1e4, 2)  # cm^4, as tabled
    3.45
    """
    depth = np.asarray(depth, dtype=np.float64)
    width = np.asarray(width, dtype=np.float64)
    wall = np.asarray(wall, dtype=np.float64)
    outer, inner = corner_radii(wall)
    iy = _second_moment(depth, width, wall)
    iz = _second_moment(width, depth, wall)
    return Properties(
        area=2.0 * wall * (depth + width - 2.0 * wall) - (4.0 - np.pi) * (outer**2 - inner**2),
        iy=iy,
        iz=iz,
        torsion=torsion_and_modulus(depth, width, wall)[0],
        kappa_y=cowper_box(width - wall, depth - wall, poisson),
        kappa_z=cowper_box(depth - wall, width - wall, poisson),
        modulus_y=2.0 * iy / depth,
        modulus_z=2.0 * iz / width,
        depth=depth,
        width=width,
        wall=wall,
    )
