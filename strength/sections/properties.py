"""What a section is worth: the numbers every shape comes down to."""

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Properties:
    """Properties of one section, each a float or an array over designs; mm, mm^2, mm^3, mm^4.

    z_m lies along the depth, y_m along the width. `kappa_y`, `kappa_z` are the shear coefficients
    for Vy and Vz (shear area over area; inf: stiff in shear). `wall` is the wall, the thickness or
    the diameter: what strength and heat-affected widths go by.
    """

    area: Array
    iy: Array
    iz: Array
    torsion: Array
    kappa_y: Array
    kappa_z: Array
    modulus_y: Array
    modulus_z: Array
    depth: Array
    width: Array
    wall: Array
