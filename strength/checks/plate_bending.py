"""`plate-bending`: a flat bent out of its plane by a member welded onto its face."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Flat
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.verdict import Verdict
from strength.checks.walls import WallJoint, host_forces, wall_joints
from strength.frame.response import at_places
from strength.joints.plate import effective_width

Array = NDArray[np.float64]

KIND = "plate-bending"
SOURCE = "6 M/(b_eff t^2), b_eff after Jaramillo 1950 as in Roark (from memory); for flats: own choice"
BESIDE = 0.25  # of the width: further off the middle a load is beside a free edge, half b_eff (own choice)


def plate_bending(context: Context) -> Iterator[Verdict]:
    """Worst of four sections of the flat, with b_eff at most its width.

    At both its ends, taken as held there and loaded at the weld; and on both sides of the weld,
    taken as held there and loaded at the flat's end (own choice).
    """
    for joint in wall_joints(context):
        face, axes = joint.meeting.host.face, joint.meeting.host.axes
        if (
            isinstance(joint.meeting.host.shape, Flat)
            and face is not None
            and abs(float(face @ axes[1])) > 0.5
        ):
            yield _verdict(context, joint)


def _verdict(context: Context, joint: WallJoint) -> Verdict:
    bars, host = context.bars, joint.meeting.host
    width, thickness = bars.depth[:, host.bar, None], bars.width[:, host.bar, None]
    sections = _sections(context, joint)
    stress = []
    for moment, distance, depth in sections:
        spread = effective_width(distance, depth)[:, None]
        beside = np.abs(host.origin @ host.axes[2])[:, None] > BESIDE * width
        spread = np.where(beside, spread / 2.0, spread)
        stress.append(6.0 * moment / (np.minimum(spread, width) * thickness**2))
    demand = np.stack(stress, axis=-1) * context.factors.load()[:, None]
    where = np.argmax(demand, axis=-1)
    demand = np.max(demand, axis=-1)
    divisor = context.factors.on_yield(joint.wall.metal.kind, brittle=joint.wall.brittle)
    limit = joint.wall.yield_[:, None] / divisor
    name = joint.effect.weld.onto
    known = joint.wall.in_range[:, None] & np.ones(demand.shape, dtype=bool)
    notes = (amplified_note(context, n) for n in range(demand.shape[1]))
    why = "" if known.all() else "no rule covers what this process takes from aluminium of this thickness"
    return Verdict(
        part=joint.effect.weld.name,
        kind=KIND,
        unit="MPa",
        fails="bends",
        source=SOURCE,
        demand=demand,
        limit=limit,
        utilisation=demand / limit * joint.effect.path_factor,
        places=(
            f"from-end of {name}",
            f"to-end of {name}",
            f"{name}, from-side of the weld",
            f"{name}, to-side of the weld",
        ),
        where=where,
        in_range=known,
        notes=tuple("; ".join(part for part in (why, note) if part) for note in notes),
    )


def _sections(context: Context, joint: WallJoint) -> tuple[tuple[Array, Array, Array], ...]:
    """Moment (designs, loads) [N*mm], distance of the load and depth of plate (designs,) [mm] by section."""
    host, layout = joint.meeting.host, context.layout
    length = host.length
    low, high = joint.meeting.low, joint.meeting.high
    least = np.maximum(high - low, 1.0) / 2.0
    to_from, to_to = np.maximum(host.at, least), np.maximum(length - host.at, least)
    bar = np.full(2, host.bar, dtype=np.intp)
    ends = at_places(
        layout, context.response, bar, np.array([[0.0, length]]), np.array([1, 0], dtype=np.intp)
    )
    beside = host_forces(context, joint.meeting)
    moments = np.abs(np.concatenate([ends, beside], axis=2)[..., 5])
    whole = np.full(least.shape, length)
    return (
        (moments[..., 0], np.minimum(to_from, whole), whole),
        (moments[..., 1], np.minimum(to_to, whole), whole),
        (moments[..., 2], to_from, to_from),
        (moments[..., 3], to_to, to_to),
    )
