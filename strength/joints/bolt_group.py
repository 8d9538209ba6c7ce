"""Forces on each bolt of a joint, from the force and moment that come to its end point."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross
from strength.joints.end_force import along_and_across, resolved, size
from strength.values import frozen

Array = NDArray[np.float64]

ALONE = 1e-9  # of the greatest: a second moment below it carries nothing


@frozen(kw_only=True, eq=False)
class BoltForces:
    """Magnitudes on each bolt, (designs, loads, bolts) [N, N*mm]; no load factor.

    across: through all shear planes together. along: pull or push along the axis. bending: the moment
    across a single bolt, which its planes or its bending must carry; 0 in a group.
    about_axis, about_line: (designs, loads) moments that nothing here carries: about a single bolt's
    own axis, and about the line in which all bolts of a group stand.
    """

    across: Array
    along: Array
    bending: Array
    about_axis: Array
    about_line: Array


def singles(
    forces: Sequence[Array], moments: Sequence[Array], axes: Sequence[Array]
) -> tuple[BoltForces, ...]:
    """Single bolts: forces and moments (designs, loads, 3) at their places, axes unit vectors (3,)."""
    if not axes:
        return ()
    along, across = resolved(forces, axes)
    about, bending = resolved(moments, axes)
    nothing = np.zeros(along.shape[:0:-1])
    return tuple(
        BoltForces(
            across=across[n].T[..., None],
            along=along[n].T[..., None],
            bending=bending[n].T[..., None],
            about_axis=about[n].T,
            about_line=nothing,
        )
        for n in range(len(axes))
    )


def grouped(force: Array, moment: Array, axis: Array, places: Array) -> BoltForces:
    """Equal bolts at places (bolts, 3) [mm] from the point that the moment is taken about.

    V_i = F_p/n + (M.a / sum r^2)(a x r_i), T_i = F_a/n + t.r_i with S t = a x M across, moments about
    the centroid, r the places across the axis from it, S = sum r r^T: the linear field that gives
    the moments back. What S cannot carry is `about_line`.
    """
    shear, pull, about, lost = _of_unit(axis, places)
    both = np.concatenate([force, moment], axis=-1)
    across = both @ shear.reshape(6, -1)
    return BoltForces(
        across=size(across.reshape(*across.shape[:-1], -1, 3)),
        along=np.abs(both @ pull),
        bending=np.zeros((*force.shape[:-1], len(places))),
        about_axis=np.abs(both @ about),
        about_line=size(both @ lost),
    )


def _of_unit(axis: Array, places: Array) -> tuple[Array, Array, Array, Array]:
    """What unit forces and moments, six in all, put on a group.

    Force across each bolt (6, bolts, 3) and along it (6, bolts), moment about the axis (6,) and about
    the line of the bolts (6, 3) that nothing carries.
    """
    count = places.shape[0]
    centre = places.mean(axis=0)
    _, arm = along_and_across(places - centre, axis)
    force, moment = np.eye(6)[:, :3], np.eye(6)[:, 3:]
    moment = moment - cross(centre, force)
    along, across = along_and_across(force, axis)
    about, bending = along_and_across(moment, axis)
    polar = float(np.sum(arm**2))
    tiny = ALONE * max(float(np.sum(places**2)), 1e-300)
    turning = cross(axis, arm) / polar if polar > tiny else np.zeros_like(arm)
    second = arm.T @ arm
    inverse = np.linalg.pinv(second, rcond=ALONE, hermitian=True) if polar > tiny else np.zeros((3, 3))
    field = cross(axis, bending) @ inverse
    return (
        across[:, None] / count + about[:, None, None] * turning,
        along[:, None] / count + field @ arm.T,
        np.zeros_like(about) if polar > tiny else about,
        bending - cross(field @ second, axis),
    )
