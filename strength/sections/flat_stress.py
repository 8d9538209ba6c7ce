"""Stresses of a flat: over the whole rectangle, with St Venant torsion."""

from functools import cache, lru_cache

import numpy as np
from numpy.typing import NDArray

from strength.sections.flat import ODD, torsion_constant
from strength.sections.stress import StressMatrix, selector, stretch
from strength.values import evolve

Array = NDArray[np.float64]
Index = NDArray[np.intp]

SHORT = 21  # points across the short side
LONG = 49  # and along the long side, closer toward its ends
TORSION = 3  # its column
KEPT = 32  # proportions at most of which the stresses are held: 0.2 MiB each
EVEN = 0.4  # part of these that is spread evenly
ALMOST = 1e-9  # of a side: a step of Newton's method after which nothing is left to gain
TERMS = np.arange(1.0, 120.0, 2.0)
SIGNS = np.where(TERMS % 4.0 == 1.0, 1.0, -1.0)


def torsion_peak(long: Array | float, short: Array | float) -> Array:
    """Greatest torsion stress over T short/J: at the middle of the long side.

    k = 1 - (8/pi^2) sum over odd n of 1/(n^2 cosh(n pi long/(2 short)))
    Source: Timoshenko and Goodier, Theory of Elasticity, 3rd ed., section 109.

    >>> round(float(torsion_peak(1.0, 1.0)), 3), round(float(torsion_peak(10.0, 1.0)), 3)
    (0.675, 1.0)
    """
    slender = np.asarray(long, dtype=np.float64) / short
    decay = np.exp(-ODD * np.pi / 2.0 * slender[..., None])
    found: Array = 1.0 - 8.0 / np.pi**2 * (2.0 * decay / (1.0 + decay**2) / ODD**2).sum(axis=-1)
    return found


def torsion_field(x: Array, y: Array, slender: Array) -> tuple[Array, Array]:
    """St Venant stresses tau_x, tau_y of a rectangle, over T short/J.

    x: (..., p) along the short side and y: (..., q) along the long side, both -1 to 1 from face to
    face; slender = long/short (...). x, y and the axis of the torque are right-handed.
    Returns two arrays (..., p, q).
    Source: Timoshenko and Goodier, Theory of Elasticity, 3rd ed., section 109.
    """
    turn = TERMS * np.pi / 2.0
    far = np.abs(y)[..., None] * slender[..., None, None] * turn
    edge = slender[..., None, None] * turn
    # cosh(far)/cosh(edge) and sinh(far)/cosh(edge) without overflow
    fade = np.exp(far - edge) / (1.0 + np.exp(-2.0 * edge))
    cosh, sinh = fade * (1.0 + np.exp(-2.0 * far)), fade * (1.0 - np.exp(-2.0 * far))
    weight = 8.0 / np.pi**2 * SIGNS / TERMS**2
    sine, cosine = np.sin(x[..., None] * turn) * weight, np.cos(x[..., None] * turn) * weight
    tau_y = x[..., :, None] - sine @ cosh.swapaxes(-1, -2)
    tau_x = -(cosine @ (np.sign(y)[..., None] * sinh).swapaxes(-1, -2))
    return tau_x, tau_y


def rectangle_torsion(y: Array, z: Array, width: Array, thickness: Array) -> tuple[Array, Array]:
    """St Venant stresses along y_m and z_m, over T short/J, (designs, p, q).

    y: (designs, p) across the thickness, z: (designs, q) along the width, -1 to 1 from face to face.
    """
    along_y = np.empty((*y.shape, z.shape[-1]))
    along_z = np.empty_like(along_y)
    upright = width >= thickness
    if upright.any():
        ratio = width[upright] / thickness[upright]
        along_y[upright], along_z[upright] = torsion_field(y[upright], z[upright], ratio)
    lying = ~upright
    if lying.any():
        # z_m, -y_m and x_m are right-handed
        ratio = thickness[lying] / width[lying]
        short, long = torsion_field(z[lying], -y[lying], ratio)
        along_y[lying], along_z[lying] = -long.swapaxes(-1, -2), short.swapaxes(-1, -2)
    return along_y, along_z


def nodes(rate: Array, count: int) -> Array:
    """`count` (odd) places -1 to 1 along a side, (..., count): closest at the ends, where torsion turns.

    Distances s from the end solve EVEN s + (1 - EVEN)(1 - exp(-s rate)) = equal steps.
    """
    rate = rate[..., None]
    steps = np.linspace(0.0, 1.0, count // 2 + 1) * (EVEN + (1.0 - EVEN) * -np.expm1(-rate))
    from_end = np.zeros(steps.shape)
    for _ in range(14):  # Newton's method, from the left on a concave curve: it cannot overshoot
        missing = steps - EVEN * from_end + (1.0 - EVEN) * np.expm1(-rate * from_end)
        missing /= EVEN + (1.0 - EVEN) * rate * np.exp(-rate * from_end)
        from_end += missing
        if missing.max() < ALMOST:  # each step squares what is left
            break
    return np.concatenate([from_end - 1.0, 1.0 - from_end[..., -2::-1]], axis=-1)


def grid_neighbours(short: Index, long: Index) -> Index:
    """Neighbours on a grid (2, 2, p q) out of those along its two directions, (2, p) and (2, q)."""
    p, q = short.shape[1], long.shape[1]
    number = np.arange(p * q).reshape(p, q)
    return np.stack([number[short, :].reshape(2, -1), number[:, long].swapaxes(0, 1).reshape(2, -1)])


def flat_matrix(width: Array, thickness: Array) -> StressMatrix:
    """Stress matrix of flats (designs,) [mm]: `width` along z_m, `thickness` along y_m.

    Torsion by the St Venant series, transverse shear as parabolas, 1.5 (V/A)(1 - (2 z/width)^2).
    """
    unit, scale = unit_flat(width, thickness)
    return evolve(unit, scale=scale)


def unit_flat(width: Array, thickness: Array) -> tuple[StressMatrix, Array]:
    """The same for nominal stresses, and the scale (designs, columns) that makes these of forces."""
    slender: Array = np.log(width / thickness)
    samples = _samples(float(slender.min()), float(slender.max()))
    found = _unit_flat(tuple(samples.tolist()))
    return found, _scale(width, thickness)[:, found.source] * _weights(slender, samples)


def _scale(width: Array, thickness: Array) -> Array:
    area = width * thickness
    long, short = np.maximum(width, thickness), np.minimum(width, thickness)
    return np.stack(
        [
            1.0 / area,
            1.5 / area,
            1.5 / area,
            thickness / torsion_constant(long, short),
            6.0 / (area * width),
            6.0 / (area * thickness),
        ],
        axis=-1,
    )


def _weights(slender: Array, samples: Array) -> Array:
    """Share of each design in the columns: of torsion, in the sampled proportions."""
    share = shares(slender, samples)
    found = np.ones((slender.size, 5 + samples.size))
    found[:, TORSION], found[:, 6:] = share[:, 0], share[:, 1:]
    return found


@lru_cache(maxsize=KEPT)
def _unit_flat(logarithms: tuple[float, ...]) -> StressMatrix:
    """Stress matrix of flats of such proportions, for forces that are nominal stresses already."""
    samples = np.array(logarithms)
    narrowest, widest = float(np.exp(-samples.min())), float(np.exp(samples.max()))
    count_y = SHORT if samples.min() >= 0.0 else LONG
    count_z = LONG if samples.max() >= 0.0 else SHORT
    y, z = _side(max(1.0, narrowest), count_y), _side(max(1.0, widest), count_z)
    eta, zeta = np.repeat(y[0], count_z), np.tile(z[0], count_y)
    ratio, one = np.exp(samples), np.ones_like(samples)
    # torsion stresses over T thickness/J: smooth across the square, where short and long change over
    torsion = [
        (part * np.minimum(ratio, 1.0)[:, None, None]).reshape(samples.size, -1)
        for part in rectangle_torsion(
            np.repeat(y, samples.size, 0), np.repeat(z, samples.size, 0), ratio, one
        )
    ]
    points = eta.size
    nil = np.zeros((points, samples.size - 1))
    return StressMatrix(
        scale=np.ones((1, 5 + samples.size)),
        sigma=np.hstack([selector((0, 1.0), (4, zeta), (5, -eta), points=points), nil])[None],
        tau_1=np.hstack([selector((1, 1.0 - eta**2), (3, torsion[0][0]), points=points), torsion[0][1:].T])[
            None
        ],
        tau_2=np.hstack([selector((2, 1.0 - zeta**2), (3, torsion[1][0]), points=points), torsion[1][1:].T])[
            None
        ],
        neighbours=_neighbours(count_y, count_z),
        source=np.array([0, 1, 2, TORSION, 4, 5] + [TORSION] * (samples.size - 1)),
        has_corners=True,
    )


@lru_cache(maxsize=KEPT)
def _side(rate: float, count: int) -> Array:
    return nodes(np.array([rate]), count)


@cache
def _neighbours(count_y: int, count_z: int) -> Index:
    return grid_neighbours(stretch(count_y, closed=False), stretch(count_z, closed=False))


def _samples(low: float, high: float) -> Array:
    """Proportions, as logarithms, at which the torsion field is worked out: Chebyshev's points."""
    if high - low < 1e-9:
        return np.array([(low + high) / 2.0])
    count = 3 + int(np.ceil(3.0 * (high - low)))
    turn = (np.arange(count, dtype=np.float64) + 0.5) * (np.pi / count)
    return (low + high) / 2.0 + (high - low) / 2.0 * np.cos(turn)


def shares(slender: Array, samples: Array) -> Array:
    """Lagrange's weights (designs, samples) of the samples in each design's proportions."""
    apart = slender[:, None, None] - samples
    between = samples[:, None] - samples
    np.fill_diagonal(between, 1.0)
    diagonal = np.arange(samples.size)
    apart = np.repeat(apart, samples.size, axis=1)
    apart[:, diagonal, diagonal] = 1.0
    return np.asarray(np.prod(apart / between, axis=-1), dtype=np.float64)
