"""Stresses of boxes: shear on the middle line, sigma at the outer fibres and corner arcs."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from strength.sections.box import corner_radii, torsion_and_modulus
from strength.sections.stress import StressMatrix, stretch
from strength.values import evolve

Array = NDArray[np.float64]

STRAIGHT = 17  # points along the straight part of each wall
ARC = 13  # points round each corner
# counter-clockwise seen from +x: the wall at +y, its corner, the wall at +z, ...
TURNS = ((1.0, 1.0, True), (-1.0, 1.0, False), (-1.0, -1.0, True), (1.0, -1.0, False))
# columns of the matrix, and the force that stands in each
N, T, MY, MY_ARC, MZ, MZ_ARC = 0, 9, 10, 11, 12, 13
SOURCE = (0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 4, 4, 5, 5)


def box_matrix(depth: Array, width: Array, wall: Array, area: Array, iy: Array, iz: Array) -> StressMatrix:
    """Stress matrix of boxes (designs,) [mm]; depth along z_m.

    Middle line b x h, h along the depth. From Vz: Vz (b h/4 + h^2/8 (1 - s^2))/Iy along the walls
    parallel to z_m (s = 2 z/h), falling in a straight line to 0 at the middle of the others; Vy
    alike. Torsion by the torsion modulus. Sigma at the outer face; in the corner arcs sigma follows
    the outer arc and tau is that of the corner of the middle line.
    Source: thin-walled shear flow V Q/(I t), any handbook; torsion modulus EN 10219-2:2006, Annex B.
    """
    return evolve(unit_box(), scale=box_scale(depth, width, wall, area, iy, iz))


def box_scale(depth: Array, width: Array, wall: Array, area: Array, iy: Array, iz: Array) -> Array:
    """Scale (..., columns) of boxes (...), by which one matrix serves all their sizes.

    Points stand at a part of half the depth that is linear in the radius of the corners over it, and
    first moments are sums of b h/4, h^2/8 and these times how far the straight part of a wall
    reaches along the middle line.
    """
    b, h = width - wall, depth - wall
    outer = corner_radii(wall)[0]
    corner, reach_y, reach_z = b * h / 4.0, (width - 2.0 * outer) / b, (depth - 2.0 * outer) / h
    found = np.empty((*np.shape(area), len(SOURCE)))
    found[..., N] = 1.0 / area
    found[..., T] = 1.0 / torsion_and_modulus(depth, width, wall)[1]
    for first, inertia, side, own, other in ((1, iz, b, reach_y, reach_z), (5, iy, h, reach_z, reach_y)):
        rise = side**2 / (8.0 * inertia)
        found[..., first] = corner / inertia
        found[..., first + 1] = rise
        found[..., first + 2] = rise * own**2
        found[..., first + 3] = corner / inertia * other
    for first, inertia, side in ((MY, iy, depth), (MZ, iz, width)):
        found[..., first] = side / (2.0 * inertia)
        found[..., first + 1] = outer / inertia
    return found


@cache
def unit_box() -> StressMatrix:
    """Stress matrix of every box, for forces that are nominal stresses already.

    Flow runs counter-clockwise: +z on the wall at +y, -y on the wall at +z.
    """
    count = STRAIGHT + ARC
    lines = [
        part + at
        for turn in range(4)
        for part, at in (
            (stretch(STRAIGHT, closed=False), turn * count),
            (stretch(ARC, closed=False), turn * count + STRAIGHT),
        )
    ]
    stresses = [part for turn in TURNS for part in (_wall(*turn), _corner(*turn))]
    sigma, tau = (np.concatenate(parts) for parts in zip(*stresses, strict=True))
    reach = np.zeros((2, len(SOURCE)))
    reach[0, [N, MY, MZ]] = 1.0
    reach[1, [1, 2, 5, 6, T]] = 1.0  # at a corner and from there to the middle of a wall
    return StressMatrix(
        scale=np.ones((1, len(SOURCE))),
        sigma=sigma[None],
        tau_1=tau[None],
        tau_2=None,
        neighbours=np.concatenate(lines, axis=-1)[None],
        source=np.array(SOURCE),
        probe=np.arange(4) * count + STRAIGHT + ARC // 2,
        reach=reach,
    )


def _wall(side_y: float, side_z: float, is_web: bool) -> tuple[Array, Array]:
    """Sigma and tau (points, columns) along the straight part of a wall; a web is parallel to z_m."""
    run = np.linspace(-1.0, 1.0, STRAIGHT)
    sigma, tau = np.zeros((2, STRAIGHT, len(SOURCE)))
    sigma[:, N] = tau[:, T] = 1.0
    # from V along the wall, and from V across it
    along, across, side = (5, 1, side_y) if is_web else (1, 5, -side_z)
    tau[:, along] = tau[:, along + 1] = side
    tau[:, along + 2] = -side * run**2
    if is_web:
        sigma[:, MY], sigma[:, MY_ARC], sigma[:, MZ] = side_z * run, -side_z * run, -side_y
        tau[:, across + 3] = -side_z * run
    else:
        sigma[:, MY], sigma[:, MZ], sigma[:, MZ_ARC] = side_z, -side_y * run, side_y * run
        tau[:, across + 3] = side_y * run
    return sigma, tau


def _corner(side_y: float, side_z: float, is_web: bool) -> tuple[Array, Array]:
    """The same round the corner that follows a wall."""
    angle = np.linspace(0.0, np.pi / 2.0, ARC)
    swing = angle if is_web else np.pi / 2.0 - angle
    sigma, tau = np.zeros((2, ARC, len(SOURCE)))
    sigma[:, N] = tau[:, T] = 1.0
    sigma[:, MY], sigma[:, MY_ARC] = side_z, -side_z * (1.0 - np.sin(swing))
    sigma[:, MZ], sigma[:, MZ_ARC] = -side_y, side_y * (1.0 - np.cos(swing))
    tau[:, 1], tau[:, 5] = -side_z, side_y
    return sigma, tau
