"""Ultimate strength of fillet welds loaded in their plane, by the instantaneous centre of rotation.

What the elastic line method leaves out: welds across the force are stronger and stiffer, and the
group yields before it parts. Elastic figures are safe by a factor of about 2 beside it. Units as
the caller likes: lengths in one unit, strength per area of that unit.
"""

import numpy as np
from numpy.typing import NDArray

from strength.errors import SolveError

Array = NDArray[np.float64]

THROAT = 0.707  # of the leg, as the source has it
SHEAR = 0.60  # of the filler's strength
STEPS = 60
CLOSE = 1e-10


def directional(angle: Array) -> Array:
    """Strength over that along the weld: 1 + 0.5 sin^1.5, angle of the force to the weld [rad].

    Source: AISC 360-10 equation J2-5.

    >>> directional(np.radians([0.0, 60.0, 90.0])).round(4).tolist()
    [1.0, 1.403, 1.5]
    """
    found: Array = 1.0 + 0.5 * np.abs(np.sin(angle)) ** 1.5
    return found


def deformation_at_most(angle: Array, leg: float) -> tuple[Array, Array]:
    """Deformation at the greatest strength and at rupture, 0.209 (t + 2)^-0.32 and 1.087 (t + 6)^-0.65 legs.

    t: angle of the force to the weld in degrees; rupture at most 0.17 legs.
    Source: Lesik and Kennedy 1990, in AISC 360-10 equations J2-8 and J2-9.
    """
    degrees = np.degrees(np.abs(angle))
    strongest = 0.209 * (degrees + 2.0) ** -0.32 * leg
    rupture = np.minimum(1.087 * (degrees + 6.0) ** -0.65, 0.17) * leg
    return strongest, rupture


def ultimate_force(
    middles: Array, along: Array, lengths: Array, *, at: Array, direction: Array, leg: float, strength: float
) -> float:
    """Nominal force that parts a weld group in its plane; arguments and errors as in `turning_centre`."""
    return turning_centre(middles, along, lengths, at=at, direction=direction, leg=leg, strength=strength)[1]


def turning_centre(
    middles: Array, along: Array, lengths: Array, *, at: Array, direction: Array, leg: float, strength: float
) -> tuple[Array, float]:
    """Centre (2,) about which a weld group turns as it parts in its plane, and the nominal force then.

    middles: (pieces, 2) of short pieces of weld, along: (pieces, 2) unit vectors, lengths: (pieces,).
    at, direction: a place on the force's line and its unit vector (2,); the line must pass the
    centroid. Every piece turns about one centre, the piece nearest its rupture decides, and the
    centre is where all forces balance.
    Source: AISC 360-10 J2.4(b); AISC Steel Construction Manual, part 8.
    Raises SolveError where no centre is found.
    """
    centroid = (middles * lengths[:, None]).sum(axis=0) / lengths.sum()
    normal = np.array([-direction[1], direction[0]])
    arm = float((at - centroid) @ normal)
    polar = float((((middles - centroid) ** 2).sum(axis=1) * lengths).sum())
    if abs(arm) * lengths.sum() < 1e-6 * np.sqrt(polar * lengths.sum()):
        raise SolveError("the force passes through the weld's centroid: nothing turns")
    group = (middles, along, lengths)
    elastic = -polar / (lengths.sum() * arm) * normal
    starts = [centroid + part * elastic for part in np.geomspace(0.02, 1.5, 40)]
    lefts = [_unbalance(group, start, at, direction, leg, strength) for start in starts]
    # farther out the balance is lost only slowly: begin where it is best already
    centre = starts[int(np.argmin([np.linalg.norm(left) / abs(force) for left, force in lefts]))]
    for _ in range(STEPS):
        left, force = _unbalance(group, centre, at, direction, leg, strength)
        if np.linalg.norm(left) < CLOSE * abs(force):
            return centre, abs(force)
        step = 1e-6 * np.sqrt(polar / lengths.sum())
        jacobian = np.stack(
            [
                (_unbalance(group, centre + step * axis, at, direction, leg, strength)[0] - left) / step
                for axis in np.eye(2)
            ],
            axis=1,
        )
        move = -np.linalg.lstsq(jacobian, left)[0]
        centre = _improved(group, centre, move, at, direction, leg, strength)
    left, force = _unbalance(group, centre, at, direction, leg, strength)
    if np.linalg.norm(left) < 1e-6 * abs(force):
        return centre, abs(force)
    raise SolveError("no centre was found about which the weld's forces balance")


def _improved(
    group: tuple[Array, Array, Array],
    centre: Array,
    move: Array,
    at: Array,
    direction: Array,
    leg: float,
    strength: float,
) -> Array:
    """The longest of ever shorter steps that lessens the unbalance."""
    start = np.linalg.norm(_unbalance(group, centre, at, direction, leg, strength)[0])
    for _ in range(30):
        found: Array = centre + move
        if np.linalg.norm(_unbalance(group, found, at, direction, leg, strength)[0]) < start:
            return found
        move = move / 2.0
    return found


def _unbalance(
    group: tuple[Array, Array, Array], centre: Array, at: Array, direction: Array, leg: float, strength: float
) -> tuple[Array, float]:
    """Force left over when the group turns about `centre`, and the load whose moment balances it."""
    middles, along, lengths = group
    off = middles - centre
    radius = np.maximum(np.linalg.norm(off, axis=1), 1e-12)
    pull = np.stack([-off[:, 1], off[:, 0]], axis=1) / radius[:, None]
    angle = np.arccos(np.clip(np.abs((pull * along).sum(axis=1)), 0.0, 1.0))
    strongest, rupture = deformation_at_most(angle, leg)
    part = radius * np.min(rupture / radius) / strongest
    shape = np.maximum(part * (1.9 - 0.9 * part), 0.0) ** 0.3
    each = SHEAR * strength * THROAT * leg * lengths * directional(angle) * shape
    moment = float((each * radius).sum())
    lever = (at[0] - centre[0]) * direction[1] - (at[1] - centre[1]) * direction[0]
    load = moment / lever
    return (each[:, None] * pull).sum(axis=0) - load * direction, load
