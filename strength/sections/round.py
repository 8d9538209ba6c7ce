"""Round sections, tube and bar: closed forms."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.properties import Properties

Array = NDArray[np.float64]


def cowper_round(m: Array, poisson: Array | float) -> Array:
    """Shear coefficient of a hollow circle; m = inner/outer diameter, 0 for a bar, 0 <= m < 1.

    kappa = 6 (1 + v) (1 + m^2)^2 / ((7 + 6 v) (1 + m^2)^2 + (20 + 12 v) m^2)
    Source: Cowper, The shear coefficient in Timoshenko's beam theory, J. Appl. Mech. 33 (1966).

    >>> round(float(cowper_round(0.0, 0.3)), 4)
    0.8864
    """
    square = np.square(m)
    once = np.square(1.0 + square)
    found: Array = (
        6.0 * (1.0 + poisson) * once / ((7.0 + 6.0 * poisson) * once + (20.0 + 12.0 * poisson) * square)
    )
    return found


def tube(od: Array | float, wall: Array | float, poisson: Array | float) -> Properties:
    """Properties of a round tube of outside diameter `od` and `wall` [mm], 0 < wall <= od/2.

    Source: any handbook of mechanics; A = pi (D^2 - d^2)/4, I = pi (D^4 - d^4)/64, J = 2 I.

    >>> round(float(tube(25.0, 2.0, 0.3).iy))
    9628
    """
    od = np.asarray(od, dtype=np.float64)
    wall = np.asarray(wall, dtype=np.float64)
    inner = od - 2.0 * wall
    # factored, so that a thin wall loses no digits
    area = np.pi * wall * (od - wall)
    inertia = area * (od**2 + inner**2) / 16.0
    kappa = cowper_round(inner / od, poisson)
    modulus = 2.0 * inertia / od
    return Properties(
        area=area,
        iy=inertia,
        iz=inertia,
        torsion=2.0 * inertia,
        kappa_y=kappa,
        kappa_z=kappa,
        modulus_y=modulus,
        modulus_z=modulus,
        depth=od,
        width=od,
        wall=wall,
    )


def bar(diameter: Array | float, poisson: Array | float) -> Properties:
    """Properties of a solid round bar [mm]: a tube whose wall is its radius; `wall` is the diameter.

    >>> round(float(bar(20.0, 0.3).area), 3)
    314.159
    """
    diameter = np.asarray(diameter, dtype=np.float64)
    whole = tube(diameter, diameter / 2.0, poisson)
    return Properties(
        area=whole.area,
        iy=whole.iy,
        iz=whole.iz,
        torsion=whole.torsion,
        kappa_y=whole.kappa_y,
        kappa_z=whole.kappa_z,
        modulus_y=whole.modulus_y,
        modulus_z=whole.modulus_z,
        depth=diameter,
        width=diameter,
        wall=diameter,
    )
