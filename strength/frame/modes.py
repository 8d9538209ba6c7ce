"""The natural deformations of a straight segment and the stiffness that resists each.

A segment's end forces are sums of six self-balanced patterns: tension, torsion and, in each plane of
bending, an even and an odd pair of end moments. Each pattern has one stiffness and one deformation,
e = vec . u, so the stiffness of a whole frame is a sum of (coefficient x constant matrix) and nothing
is rotated per design. Two further patterns, the sway of the chord in each plane, serve the geometric
stiffness. Timoshenko beam: Przemieniecki, Theory of Matrix Structural Analysis, section 5.6 (from
memory); splitting into natural deformations: Argyris.
"""

import numpy as np

from strength.frame.response import Array, Flags

TENSION, TORSION, EVEN_Y, ODD_Y, EVEN_Z, ODD_Z, SWAY_Y, SWAY_Z = range(8)


# Axis that each pattern's forces, then its moments, lie along; none: it has none.
ALONG: tuple[tuple[int | None, int | None], ...] = (
    (0, None),
    (None, 0),
    (None, 1),
    (2, 1),
    (None, 2),
    (1, 2),
    (1, None),
    (2, None),
)


def patterns(length: Array, ball_start: Flags, ball_end: Flags) -> Array:
    """Internal forces of a unit of each pattern: (segments, 12, 8), segments last in memory.

    Rows: N Vy Vz T My Mz at the start, then at the end [N or N*mm]. Tension and sway are unit
    forces, the others unit moments. Where one end is a ball, the odd pattern is the moment at the
    other end alone; patterns that an end cannot carry are zero.
    """
    both = ~ball_start & ~ball_end
    only_end = ball_start & ~ball_end
    only_start = ~ball_start & ball_end
    out = np.zeros((8, 2, 6, length.size))
    out[TENSION, :, 0] = 1.0
    out[TORSION, :, 3] = both
    for shear, moment, even, odd, sign in ((2, 4, EVEN_Y, ODD_Y, 1.0), (1, 5, EVEN_Z, ODD_Z, -1.0)):
        out[even, :, moment] = both
        out[odd, 0, moment] = -1.0 * (both | only_start)
        out[odd, 1, moment] = 1.0 * (both | only_end)
        out[odd, :, shear] = sign * (out[odd, 1, moment] - out[odd, 0, moment]) / length
    out[SWAY_Y, :, 1] = 1.0
    out[SWAY_Z, :, 2] = 1.0
    return out.reshape(8, 12, -1).transpose(2, 1, 0)


def vectors(axes: Array, pattern: Array) -> Array:
    """The patterns as forces on the segment's ends in body axes: (segments, 8, 12), segments last in memory.

    axes: (segments, 3, 3), those that the patterns are in. Columns: force and moment at the start, force
    and moment at the end. The same numbers read as e = vec . (u, rotation at start, u, rotation at end)
    give the deformation that belongs to it.
    """
    part = pattern.transpose(2, 1, 0).reshape(8, 4, 3, -1)  # force, moment at the start, then at the end
    along = np.ascontiguousarray(axes.transpose(1, 2, 0))
    out = np.zeros(part.shape)
    for p, used in enumerate(ALONG):
        for end in (0, 1):
            for kind, axis in enumerate(used):
                if axis is not None:
                    # at the start the segment's own end force is minus the internal one
                    size = part[p, 2 * end + kind, axis] * (1.0 if end else -1.0)
                    np.multiply(size, along[axis], out=out[p, 2 * end + kind])
    return out.reshape(8, 12, -1).transpose(2, 0, 1)


def turn_axes(axes: Array, turn: Array) -> Array:
    """Axes (segments, 3, 3) turned by `turn` [rad] (segments,) about x_m."""
    c, s = np.cos(turn)[:, None], np.sin(turn)[:, None]
    x, y, z = axes[:, 0], axes[:, 1], axes[:, 2]
    return np.stack([x, c * y + s * z, c * z - s * y], axis=1)


def turn_back(pattern: Array, turn: Array) -> Array:
    """Patterns (segments, 12, 8) given in turned axes, in the axes before."""
    c, s = np.cos(turn)[:, None, None], np.sin(turn)[:, None, None]
    part = pattern.reshape(-1, 4, 3, 8)
    along_y, along_z = part[:, :, 1], part[:, :, 2]
    out = np.stack([part[:, :, 0], c * along_y - s * along_z, s * along_y + c * along_z], axis=2)
    return out.reshape(-1, 12, 8)


def coefficients(
    length: Array, one_ball: Flags, no_ball: Flags, rigidity: tuple[Array, Array, Array, Array, Array, Array]
) -> Array:
    """Stiffness of the first six patterns: (designs, segments, 6) [N/mm, N*mm].

    rigidity: EA, GJ, EIy, EIz [N, N*mm^2] and GA in shear for Vy, Vz [N], each (designs, segments).
    phi = 12 EI / (GA L^2); odd: 3 EI / (L (1 + phi)), with one ball end 3 EI / (L (1 + phi / 4)).
    """
    ea, gj, ei_y, ei_z, ga_y, ga_z = rigidity
    out = np.zeros((*np.broadcast_shapes(ea.shape, gj.shape, ei_y.shape, ei_z.shape), 6))
    out[..., TENSION] = ea / length
    out[..., TORSION] = np.where(no_ball, gj / length, 0.0)
    for even, odd, ei, ga in ((EVEN_Y, ODD_Y, ei_y, ga_z), (EVEN_Z, ODD_Z, ei_z, ga_y)):
        phi = 12.0 * ei / (ga * length**2)
        out[..., even] = np.where(no_ball, ei / length, 0.0)
        odd_part = 3.0 * ei / (length * (1.0 + np.where(no_ball, phi, 0.25 * phi)))
        out[..., odd] = np.where(no_ball | one_ball, odd_part, 0.0)
    return out


def turning(vec: Array, end: int) -> Array:
    """The moment part of vectors (..., 12) at the start (0) or the end (1): (..., 3)."""
    return vec[..., 3 + 6 * end : 6 + 6 * end]


def torsion_free(axis: Array, direction: Array) -> Flags:
    """Where a hinge about `axis` lets a part turn about its own line, `direction`; unit vectors (n, 3)."""
    return np.asarray(np.abs(np.abs(np.einsum("ni,ni->n", axis, direction)) - 1.0) < 1e-12)
