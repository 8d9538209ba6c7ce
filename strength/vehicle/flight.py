"""A structure without supports flies free: its inertia balances every load."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross
from strength.errors import BalanceError
from strength.values import frozen
from strength.vehicle.carry import Carried, skew

Array = NDArray[np.float64]

_NOTHING = 1e-9  # relative: no inertia, no moment


@frozen(kw_only=True, eq=False)
class Body:
    """Mass [t], mass centre [mm], the parts' places from it, inertia [t*mm^2] about it."""

    mass: float
    centre: Array
    arms: Array  # (parts, 3)
    inertia: Array  # (3, 3)


def body(parts: list[Carried]) -> Body:
    """Sum m, its centre, and I = sum m (r^2 1 - r r^T + gyration^2 1)."""
    m = np.array([p.mass for p in parts])
    at = np.array([p.at for p in parts])
    centre = m @ at / m.sum()
    arms = at - centre
    inertia = -np.einsum("j,jab->ab", m, skew(arms) @ skew(arms)) + np.eye(3) * sum(p.inertia for p in parts)
    return Body(mass=float(m.sum()), centre=centre, arms=arms, inertia=inertia)


def accelerations(whole: Body, points: Array, forces: Array, names: tuple[str, ...]) -> tuple[Array, Array]:
    """Acceleration a (loads, 3) [mm/s^2] of the mass centre and turning w (loads, 3) [rad/s^2].

    forces: (loads, points, 6) at points (points, 3). a = R / sum m; I w = Q.
    BalanceError: a moment about a direction without inertia.
    """
    arms = points - whole.centre
    push, twist = forces[..., :3], forces[..., 3:]
    resultant = push.sum(axis=1)
    turning = (cross(arms, push) + twist).sum(axis=1)
    moments = np.linalg.norm(arms, axis=1) * np.linalg.norm(push, axis=2) + np.linalg.norm(twist, axis=2)
    inertia, axes = np.linalg.eigh(whole.inertia)
    along = turning @ axes
    size = whole.mass * max(1.0, float(np.max(np.sum(arms * arms, axis=1))))
    empty = inertia <= _NOTHING * max(float(inertia[-1]), _NOTHING * size)
    for load, axis in zip(
        *np.nonzero(empty & (np.abs(along) > _NOTHING * moments.sum(axis=1)[:, None])), strict=True
    ):
        x, y, z = axes[:, axis]
        raise BalanceError(
            names[load],
            f"turns the structure about the direction ({x:.3g} {y:.3g} {z:.3g}), about which the masses have "
            f"no inertia: give a mass its `gyration`, or place the masses as they are",
        )
    spin = np.where(empty, 0.0, along / np.where(empty, 1.0, inertia))
    return resultant / whole.mass, spin @ axes.T


def inertia_of(part: Carried, arm: Array, a: Array, w: Array) -> Array:
    """What a mass gives (loads, 6): -m (a + w x r) and -m gyration^2 w. Gravity is inside a."""
    return np.hstack([-part.mass * (a + cross(w, arm)), -part.inertia * w])


def gauge(parts: list[Carried], whole: Body, points: int) -> Array:
    """Six conditions on the displacements u (points, 6) of a body that flies free: (6, points, 6).

    sum m u = 0, sum m r x u = 0 over the masses, per kg. A mass moves as its points do, by the
    transposed sharing rule: its force does the same work as what its points take. About an axis on
    which all masses lie that says nothing: there their own turning counts.
    """
    out = np.zeros((6, points, 6))
    lean = -np.einsum("j,jab->ab", [p.mass for p in parts], skew(whole.arms) @ skew(whole.arms))
    value, axes = np.linalg.eigh(lean)
    loose = axes[:, value <= _NOTHING * max(float(value[-1]), _NOTHING)]
    keep = loose @ loose.T  # onto the directions without any
    reach = float(np.max(np.sum(whole.arms**2, axis=1))) or 1.0
    for part, arm in zip(parts, whole.arms, strict=True):
        moved = part.share.transpose(2, 0, 1)  # (6 of the mass, K, 6 of the point)
        rows = np.concatenate([moved[:3], np.einsum("ab,bkc->akc", skew(arm), moved[:3])])
        rows[3:] += reach * np.einsum("ab,bkc->akc", keep, moved[3:])
        for k, point in enumerate(part.points):
            out[:, point] += 1000.0 * part.mass * rows[:, k]
    return out
