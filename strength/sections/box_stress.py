"""Stresses of boxes: shear on the middle line, sigma at the outer fibres and corner arcs."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.box import corner_radii, torsion_and_modulus
from strength.sections.stress import StressMatrix, stretch

Array = NDArray[np.float64]

STRAIGHT = 17  # points along the straight part of each wall
ARC = 13  # points round each corner


def box_matrix(depth: Array, width: Array, wall: Array, area: Array, iy: Array, iz: Array) -> StressMatrix:
    """Stress matrix of boxes (designs,) [mm]; depth along z_m.

    Middle line b x h, h along the depth. From Vz: Vz (b h/4 + h^2/8 (1 - s^2))/Iy along the walls
    parallel to z_m (s = 2 z/h), falling in a straight line to 0 at the middle of the others; Vy
    alike. Torsion by the torsion modulus. Sigma at the outer face; in the corner arcs sigma follows
    the outer arc and tau is that of the corner of the middle line.
    Source: thin-walled shear flow V Q/(I t), any handbook; torsion modulus EN 10219-2:2006, Annex B.
    """
    b, h = width - wall, depth - wall
    outer = corner_radii(wall)[0]
    stop_y, stop_z = (width / 2.0 - outer)[:, None], (depth / 2.0 - outer)[:, None]
    outer, half_y, half_z = outer[:, None], width[:, None] / 2.0, depth[:, None] / 2.0
    b, h = b[:, None], h[:, None]
    run, angle = np.linspace(-1.0, 1.0, STRAIGHT), np.linspace(0.0, np.pi / 2.0, ARC)
    runs = []
    # counter-clockwise seen from +x: the wall at +y, its corner, the wall at +z, ...
    for side_y, side_z, web in ((1.0, 1.0, True), (-1.0, 1.0, False), (-1.0, -1.0, True), (1.0, -1.0, False)):
        if web:
            z = side_z * stop_z * run
            runs.append((side_y * half_y + 0.0 * z, z, 0.0 * z + side_y, 2.0 * z / h, 0.0 * z + 1.0))
            swing = angle
        else:
            y = side_y * stop_y * run
            runs.append((y, side_z * half_z + 0.0 * y, 2.0 * y / b, 0.0 * y + side_z, 0.0 * y))
            swing = np.pi / 2.0 - angle
        y, z = side_y * (stop_y + outer * np.cos(swing)), side_z * (stop_z + outer * np.sin(swing))
        runs.append((y, z, 0.0 * y + side_y, 0.0 * y + side_z, 0.0 * y))
    y, z, s_y, s_z, on_web = (np.concatenate(parts, axis=-1) for parts in zip(*runs, strict=True))
    # flow runs counter-clockwise: +z on the wall at +y, -y on the wall at +z; s: -1 to 1 on the middle line
    from_vz = np.where(
        on_web > 0.0, np.sign(y) * (b * h / 4.0 + h**2 / 8.0 * (1.0 - s_z**2)), s_y * b * h / 4.0
    )
    from_vy = np.where(
        on_web > 0.0, -s_z * b * h / 4.0, -np.sign(z) * (b * h / 4.0 + b**2 / 8.0 * (1.0 - s_y**2))
    )
    torsion = torsion_and_modulus(depth, width, wall)[1]
    nil = np.zeros_like(y)
    count = STRAIGHT + ARC
    walls, arcs = stretch(STRAIGHT, closed=False), stretch(ARC, closed=False)
    lines = [
        part + at
        for turn in range(4)
        for part, at in ((walls, turn * count), (arcs, turn * count + STRAIGHT))
    ]
    return StressMatrix(
        scale=np.stack(
            [1.0 / area, 1.0 / iz, 1.0 / iy, 1.0 / torsion, depth / (2.0 * iy), width / (2.0 * iz)], axis=-1
        ),
        sigma=np.stack([nil + 1.0, nil, nil, nil, z / half_z, -y / half_y], axis=-1),
        tau_1=np.stack([nil, from_vy, from_vz, nil + 1.0, nil, nil], axis=-1),
        tau_2=None,
        neighbours=np.concatenate(lines, axis=-1)[None],
        probe=np.concatenate(
            [turn * count + np.array([STRAIGHT // 2, STRAIGHT, STRAIGHT + ARC // 2]) for turn in range(4)]
        ),
    )
