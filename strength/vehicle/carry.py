"""How a mass is shared among the points that carry it."""

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Mass, Vector
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

_CUT_OFF = 1e-9  # of the greatest stiffness of the point group


@frozen(kw_only=True, eq=False)
class Carried:
    """A mass and the constant matrix that shares what it gives.

    points: (K,) point numbers. share: (K, 6, 6), from force and moment at the mass's place to
    force and moment at each point. at: (3,) [mm].
    """

    name: str
    mass: float  # t
    inertia: float  # t*mm^2 about its own centre, alike for all axes
    at: Array
    points: Index
    share: Array


def skew(v: Array) -> Array:
    """The matrix (..., 3, 3) that makes v x u of u; v (..., 3)."""
    out = np.zeros((*v.shape, 3))
    out[..., 0, 1], out[..., 0, 2] = -v[..., 2], v[..., 1]
    out[..., 1, 0], out[..., 1, 2] = v[..., 2], -v[..., 0]
    out[..., 2, 0], out[..., 2, 1] = -v[..., 1], v[..., 0]
    return out


def carried(mass: Mass, places: dict[str, Vector], numbers: dict[str, int]) -> Carried:
    """The sharing rule of one mass.

    K points with centroid r0, q_k = r_k - r0; M = (r - r0) x F + the mass's own moment;
    S = sum (q^2 1 - q q^T); t = S^+ M (cut-off 1e-9 of its largest); F_k = F/K + t x q_k, and each
    point takes (M - S t)/K. The elastic-centre rule of bolt groups in three dimensions; what no
    couple of forces can carry is taken as moments. Own choice.
    """
    r = np.array([places[p] for p in mass.carried_by], dtype=float)
    count = len(r)
    middle = r.mean(axis=0)
    q = skew(r - middle)
    group = -np.sum(q @ q, axis=0)  # sum (q^2 1 - q q^T)
    turn, left = _pseudo_inverse(group)
    moment = np.hstack([skew(np.asarray(mass.at, dtype=float) - middle), np.eye(3)])  # (3, 6): F, G to M
    share = np.zeros((count, 6, 6))
    share[:, :3, :3] = np.eye(3) / count
    share[:, :3] -= q @ (turn @ moment)  # t x q = -q x t
    share[:, 3:] = left @ moment / count  # M - S t
    share[np.abs(share) < 1e-14 * max(1.0, float(np.abs(moment).max()))] = 0.0  # rounding is no moment
    tonnes = mass.mass / 1000.0
    return Carried(
        name=mass.name,
        mass=tonnes,
        inertia=tonnes * mass.gyration**2,
        at=np.asarray(mass.at, dtype=float),
        points=np.array([numbers[p] for p in mass.carried_by], dtype=np.intp),
        share=share,
    )


def _pseudo_inverse(group: Array) -> tuple[Array, Array]:
    """S^+, and the projection 1 - S S^+ onto the directions that S cannot carry, exactly 0 if none."""
    value, axes = np.linalg.eigh(group)
    live = value > _CUT_OFF * value[-1]
    carries, cannot = axes[:, live], axes[:, ~live]
    return (carries / value[live]) @ carries.T, cannot @ cannot.T


def shared(part: Carried, given: Array) -> Array:
    """Force and moment given by a mass (loads, 6) to what its points take: (loads, K, 6)."""
    out: Array = np.einsum("kij,lj->lki", part.share, given)
    return out
