"""One stress matrix for drilled flats of many proportions, as sheets of one size but of many thicknesses."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.flat import torsion_constant
from strength.sections.flat_stress import TORSION, rectangle_torsion, shares
from strength.sections.net_stress import Gap, ligaments, net_matrix, spread_along
from strength.sections.stress import StressMatrix
from strength.values import evolve

Array = NDArray[np.float64]

ALIKE = 1e-12  # of a side: ligaments that end as near to each other end at the same place
SAMPLES = 8  # proportions at which the torsion field is worked out
WIDE = 0.4  # of the logarithm of the proportion: so far they foretell torsion to 1e-9 between them


def unit_net(
    width: Array, thickness: Array, in_width: list[Gap], in_thickness: list[Gap]
) -> tuple[StressMatrix, Array] | None:
    """Stress matrix for nominal stresses, and the scale (designs, columns) that makes these of forces.

    As `net_matrix`, of flats (designs,) whose holes take the same share of each side at the same place; None
    where they do not, or where proportions differ so much that one matrix would not do.
    """
    slender: Array = np.log(width / thickness)
    low, high = float(slender.min()), float(slender.max())
    if high - low > WIDE or low < 0.0 < high:
        return None
    across, along = _relative(thickness, in_thickness), _relative(width, in_width)
    if across is None or along is None:
        return None
    turn = (np.arange(SAMPLES) + 0.5) * (np.pi / SAMPLES)  # Chebyshev's points
    samples = (low + high) / 2.0 + max(high - low, ALIKE) / 2.0 * np.cos(turn)
    one = np.ones(1)
    plain = net_matrix(one, one, along, across)
    stress = [matrix[0] for matrix in (plain.tau_1, plain.tau_2) if matrix is not None]
    fields = _torsion(np.exp(samples), along, across)
    nil = np.zeros((stress[0].shape[0], SAMPLES - 1))
    for matrix, field in zip(stress, fields, strict=True):
        matrix[:, TORSION] = field[0]
    unit = evolve(
        plain,
        scale=np.ones((1, 5 + SAMPLES)),
        sigma=np.hstack([plain.sigma[0], nil])[None],
        tau_1=np.hstack([stress[0], fields[0][1:].T])[None],
        tau_2=np.hstack([stress[1], fields[1][1:].T])[None],
        source=np.array([0, 1, 2, TORSION, 4, 5] + [TORSION] * (SAMPLES - 1)),
    )
    scale = _scale(width, thickness)[:, unit.source]
    share = shares(slender, samples)
    scale[:, TORSION] *= share[:, 0]
    scale[:, 6:] *= share[:, 1:]
    return unit, scale


def _relative(side: Array, gaps: list[Gap]) -> list[Gap] | None:
    """Gaps of a side of 1; None where those of the designs differ."""
    relative = [(centre / side, breadth / side) for centre, breadth in gaps]
    if any(np.ptp(value) > ALIKE for gap in relative for value in gap):
        return None
    return [(centre[:1], breadth[:1]) for centre, breadth in relative]


def _torsion(ratio: Array, along: list[Gap], across: list[Gap]) -> tuple[Array, Array]:
    """Torsion stresses (samples, points) along y_m and z_m over T thickness/J."""
    one = np.ones(1)
    sides = (ligaments(one, across), ligaments(one, along))
    left = [(high - low).sum() for low, high in sides]
    y, z = (np.repeat(2.0 * spread_along(*side)[0], ratio.size, axis=0) for side in sides)
    # over T short/J it would have a bend at the square
    size = np.minimum(ratio, 1.0)[:, None, None] / (left[0] * left[1])
    first, second = rectangle_torsion(y, z, ratio, np.ones_like(ratio))
    return (first * size).reshape(ratio.size, -1), (second * size).reshape(ratio.size, -1)


def _scale(width: Array, thickness: Array) -> Array:
    area = width * thickness
    long, short = np.maximum(width, thickness), np.minimum(width, thickness)
    twist = thickness / torsion_constant(long, short)
    return np.stack(
        [1.0 / area, 1.0 / area, 1.0 / area, twist, 1.0 / (area * width), 1.0 / (area * thickness)], axis=-1
    )
