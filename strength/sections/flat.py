"""The flat, a solid rectangle: closed forms and the St Venant torsion series."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.properties import Properties

Array = NDArray[np.float64]

# With n up to 61 the first term left out is below 1e-9 of J (1/63^5) at any proportion.
ODD = np.arange(1.0, 62.0, 2.0)


def torsion_constant(long: Array | float, short: Array | float) -> Array:
    """St Venant torsion constant of a rectangle [mm^4]; long >= short > 0 [mm].

    J = long short^3 / 3 (1 - (192/pi^5) (short/long) sum over odd n of tanh(n pi long/(2 short))/n^5)
    Source: Timoshenko and Goodier, Theory of Elasticity, 3rd ed., section 109.

    >>> round(float(torsion_constant(1.0, 1.0)), 5)
    0.14058
    """
    slender = np.asarray(long, dtype=np.float64) / short
    terms = np.tanh(ODD * np.pi / 2.0 * slender[..., None]) / ODD**5
    found: Array = long * np.power(short, 3.0) / 3.0 * (1.0 - 192.0 / np.pi**5 / slender * terms.sum(axis=-1))
    return found


def cowper_rectangle(poisson: Array | float) -> Array:
    """Shear coefficient of a rectangle, kappa = 10 (1 + v)/(12 + 11 v), both ways alike.

    Source: Cowper, The shear coefficient in Timoshenko's beam theory, J. Appl. Mech. 33 (1966).

    >>> round(float(cowper_rectangle(0.3)), 4)
    0.8497
    """
    return np.asarray(10.0 * (1.0 + poisson) / (12.0 + 11.0 * poisson), dtype=np.float64)


def flat(width: Array | float, thickness: Array | float, poisson: Array | float) -> Properties:
    """Properties of a flat [mm]: `width` along z_m, `thickness` along y_m, in either proportion.

    `wall` is the lesser of the two.
    """
    depth = np.asarray(width, dtype=np.float64)
    across = np.asarray(thickness, dtype=np.float64)
    kappa = cowper_rectangle(poisson) + np.zeros_like(depth * across)
    area = depth * across
    return Properties(
        area=area,
        iy=area * depth**2 / 12.0,
        iz=area * across**2 / 12.0,
        torsion=torsion_constant(np.maximum(depth, across), np.minimum(depth, across)),
        kappa_y=kappa,
        kappa_z=kappa,
        modulus_y=area * depth / 6.0,
        modulus_z=area * across / 6.0,
        depth=depth,
        width=across,
        wall=np.minimum(depth, across),
    )
