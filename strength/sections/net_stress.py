"""Stresses of a flat where holes are drilled through it: the net section."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.flat import torsion_constant
from strength.sections.flat_stress import grid_neighbours, rectangle_torsion
from strength.sections.stress import StressMatrix, stretch

Array = NDArray[np.float64]
Index = NDArray[np.intp]

COUNT = 17  # points along each ligament
Gap = tuple[Array, Array]  # centre and breadth of what is taken away (designs,) [mm]


def ligaments(side: Array, gaps: list[Gap]) -> tuple[Array, Array]:
    """What is left of a side after gaps: lower and upper ends (designs, ligaments) [mm].

    Places count from the middle of the side; a gap past an edge is cut off there, gaps that overlap
    leave a ligament of no breadth.
    """
    half = side[:, None] / 2.0
    gaps = sorted(gaps, key=lambda gap: float(gap[0][0]))
    none = np.empty((side.size, 0))
    starts = np.stack([c - b / 2.0 for c, b in gaps], axis=-1) if gaps else none
    ends = np.stack([c + b / 2.0 for c, b in gaps], axis=-1) if gaps else none
    low = np.clip(np.concatenate([-half, ends], axis=-1), -half, half)
    low = np.maximum.accumulate(low, axis=-1)
    high = np.clip(np.concatenate([starts, half], axis=-1), -half, half)
    return low, np.maximum(low, high)


def _moments(low: Array, high: Array) -> tuple[Array, Array, Array]:
    """Length, centroid and second moment about it of a row of ligaments."""
    length = (high - low).sum(axis=-1)
    centre = (high**2 - low**2).sum(axis=-1) / (2.0 * length)
    about = ((high - centre[:, None]) ** 3 - (low - centre[:, None]) ** 3).sum(axis=-1) / 3.0
    return length, centre, about


def spread_along(low: Array, high: Array) -> tuple[Array, Array]:
    """Points along all ligaments (designs, points), and where each stands in its own, -1 to 1."""
    own = np.linspace(-1.0, 1.0, COUNT)
    places = (low + high)[..., None] / 2.0 + (high - low)[..., None] / 2.0 * own
    designs = low.shape[0]
    return places.reshape(designs, -1), np.tile(own, low.shape[1])


def _ends(count: int) -> Index:
    """Numbers of the ends and middles of so many ligaments."""
    own = np.array([0, COUNT // 2, COUNT - 1])
    return (own + np.arange(count)[:, None] * COUNT).ravel()


def _lines(count: int) -> Index:
    one = stretch(COUNT, closed=False)
    return np.concatenate([one + n * COUNT for n in range(count)], axis=-1)


def net_matrix(width: Array, thickness: Array, in_width: list[Gap], in_thickness: list[Gap]) -> StressMatrix:
    """Stress matrix of flats (designs,) [mm] less holes, nominal.

    in_width: what holes through the thickness take out of the width (along z_m); in_thickness: what
    holes through the width take out of the thickness (along y_m). Area and moduli less the holes, about
    the centroid of what is left, the forces acting where they did; transverse shear a parabola
    over each ligament, 1.5 V/(net area) at its middle; torsion that of the whole section over
    1 - (hole diameters)/(side they are in) (own choice).
    """
    low_z, high_z = ligaments(width, in_width)
    low_y, high_y = ligaments(thickness, in_thickness)
    left_z, centre_z, about_z = _moments(low_z, high_z)
    left_y, centre_y, about_y = _moments(low_y, high_y)
    area, iy, iz = left_z * left_y, left_y * about_z, left_z * about_y
    z, own_z = spread_along(low_z, high_z)
    y, own_y = spread_along(low_y, high_y)
    points = (width.shape[0], y.shape[1] * z.shape[1])
    torsion = rectangle_torsion(2.0 * y / thickness[:, None], 2.0 * z / width[:, None], width, thickness)
    long, short = np.maximum(width, thickness), np.minimum(width, thickness)
    twist = short / torsion_constant(long, short) * (width / left_z) * (thickness / left_y)
    torsion_y, torsion_z = (twist[:, None] * part.reshape(points) for part in torsion)
    arm_y = np.repeat(y - centre_y[:, None], z.shape[1], axis=-1)
    arm_z = np.tile(z - centre_z[:, None], y.shape[1])
    bend_y, bend_z = arm_z / iy[:, None], -arm_y / iz[:, None]
    # N acts at the middle of the whole section: it bends what is left
    pull = 1.0 / area[:, None] - centre_z[:, None] * bend_y + centre_y[:, None] * bend_z
    cut_y = 1.5 / area[:, None] * np.repeat(1.0 - own_y**2, z.shape[1])
    cut_z = 1.5 / area[:, None] * np.tile(1.0 - own_z**2, y.shape[1])
    nil = np.zeros(points)
    return StressMatrix(
        scale=np.ones((1, 6)),
        sigma=np.stack([pull, nil, nil, nil, bend_y, bend_z], axis=-1),
        tau_1=np.stack([nil, cut_y, nil, torsion_y, nil, nil], axis=-1),
        tau_2=np.stack([nil, nil, cut_z, torsion_z, nil, nil], axis=-1),
        neighbours=grid_neighbours(_lines(low_y.shape[1]), _lines(low_z.shape[1])),
        probe=(_ends(low_y.shape[1])[:, None] * z.shape[1] + _ends(low_z.shape[1])).ravel(),
    )
