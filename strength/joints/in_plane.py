"""Welds loaded in their own plane: what part of their ultimate strength a force and a moment take."""

import numpy as np
from numpy.typing import NDArray

from strength.errors import SolveError
from strength.joints.traction import Pull
from strength.joints.ultimate import turning_centre
from strength.joints.weld_line import WeldLine
from strength.values import frozen

Array = NDArray[np.float64]

PIECES = 120  # of each line
IN_PLANE = 0.02  # of the line method's greatest force per length: more out of the plane is too much (choice)
# Arms beyond these, in radii of gyration of the line, are judged at these: all force, or all moment.
LEAST_ARM, GREATEST_ARM = 3e-3, 1000.0
ROUNDING = 1e-9  # a force, or a moment, that is so little of the other is what rounding leaves of none


@frozen(kw_only=True, eq=False)
class InPlane:
    """A weld group by the instantaneous centre; (designs, loads).

    use: of its nominal strength. force: in the plane [N]. arm: of the force's line from the line's
    centroid [mm], inf where there is only a moment. covered: False where the force leaves the plane or
    no centre was found; `use` is nan there. centre: (..., 2) about which it turns as it parts, in member
    axes from the middle of the weld plane [mm]; nan where none was looked for or found. direction: (..., 2)
    of the force; along z where there is only a moment. held: the arm that is judged [mm], + where the force
    turns from y to z about the centroid.
    """

    use: Array
    force: Array
    arm: Array
    covered: NDArray[np.bool_]
    centre: Array
    direction: Array
    held: Array


def out_of_plane(line: WeldLine, pull: Pull) -> Array:
    """Greatest force per length along the member over the greatest whole one: (designs, loads)."""
    place, _ = line.all_at(np.linspace(0.0, 1.0, PIECES))
    q = pull.at((place - line.centroid[:, None, None])[:, None])
    whole = np.linalg.norm(q, axis=-1).max(axis=(2, 3))
    found: Array = np.abs(q[..., 0]).max(axis=(2, 3)) / np.where(whole > 0.0, whole, 1.0)
    return found


def in_plane(line: WeldLine, pull: Pull, leg: Array, strength: float) -> InPlane:
    """Force over the nominal force that parts the group, leg (designs or 1,) [mm], strength [MPa].

    The force and the moment about x go through the centroid of a line in the plane x = 0; pull says
    them by the force per length they make: F = q L, M = spin S.
    """
    shape = np.broadcast_shapes(pull.direct.shape[:2], (line.length.size, 1))
    force = np.broadcast_to(pull.direct * line.length[:, None, None], (*shape, 3))[..., 1:]
    moment = np.broadcast_to(pull.spin[..., 0] * line.spread[:, None, 0, 0], shape)
    size = np.linalg.norm(force, axis=-1)
    radius = np.broadcast_to(np.sqrt(line.spread[:, 0, 0] / line.length), shape[:1])
    turning = np.abs(moment) / radius[:, None]
    size = np.where(size > ROUNDING * turning, size, 0.0)
    moment = np.where(turning > ROUNDING * size, moment, 0.0)
    legs = np.broadcast_to(leg, shape[:1])
    arm = np.abs(moment) / np.where(size > 0.0, size, 1.0)
    arm = np.where(size > 0.0, arm, np.where(np.abs(moment) > 0.0, np.inf, 0.0))
    direction = np.where(size[..., None] > 0.0, force, [0.0, 1.0])
    direction = direction / np.linalg.norm(direction, axis=-1, keepdims=True)
    held = np.clip(arm, LEAST_ARM * radius[:, None], GREATEST_ARM * radius[:, None])
    held = np.copysign(held, moment)
    covered = out_of_plane(line, pull) <= IN_PLANE
    use, centre = np.full(shape, np.nan), np.full((*shape, 2), np.nan)
    for d in range(shape[0]):
        pieces = short_pieces(line, min(d, line.length.size - 1))
        for n in range(shape[1]):
            if not covered[d, n]:
                continue
            if size[d, n] == 0.0 and moment[d, n] == 0.0:
                use[d, n] = 0.0
                continue
            way = direction[d, n]
            off = np.array([way[1], -way[0]]) * held[d, n]
            centroid = line.centroid[min(d, line.length.size - 1), 1:]
            try:
                centre[d, n], most = turning_centre(
                    *pieces, at=centroid + off, direction=way, leg=float(legs[d]), strength=strength
                )
            except SolveError:
                covered[d, n] = False
                continue
            far = arm[d, n] > abs(held[d, n])
            use[d, n] = abs(moment[d, n]) / (most * abs(held[d, n])) if far else size[d, n] / most
    return InPlane(
        use=use, force=size, arm=arm, covered=covered, centre=centre, direction=direction, held=held
    )


def short_pieces(line: WeldLine, design: int) -> tuple[Array, Array, Array]:
    """Middles (n, 2), unit directions (n, 2) and lengths (n,) of short pieces of one design's line."""
    u = (np.arange(PIECES) + 0.5) / PIECES
    y, z, dy, dz = (part[design].reshape(-1) for part in line.pieces.all_at(u))
    place, along = np.stack([y, z], axis=-1), np.stack([dy, dz], axis=-1)
    size = np.linalg.norm(along, axis=-1)
    kept = size > 0.0
    return place[kept], along[kept] / size[kept, None], size[kept] / PIECES
