"""`plate-bending` of a lug: a flat held along one welded edge, its load entering at a point."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Bolt, Case, Member, Stud
from strength.case.shape import Flat
from strength.checks.context import Context
from strength.checks.notes import amplified_note
from strength.checks.strips import free_length
from strength.checks.verdict import Verdict
from strength.checks.yielding import path_factor, yield_divisor
from strength.frame.response import at_places
from strength.joints.plate import lug_width

Array = NDArray[np.float64]

SOURCE = (
    "N/A + My/Wy + 6 Mz/(b_eff t^2), b_eff after Jaramillo 1950 as in Roark (from memory), own choice near 1"
)
STUBBY = (
    2.0  # widths of free length: in longer lugs b_eff is within 3 % of the width, and `yielding` says it all
)
LEAST = 0.25  # widths: in shorter lugs b_eff was not compared with plate elements


def lug_bending(context: Context) -> Iterator[Verdict]:
    """A row for each short flat welded at one end and pulled, pushed or bent at a point of the other."""
    for number, member in enumerate(context.case.members):
        end = welded_end(context.case, member)
        if end and isinstance(member.shape, Flat):
            free = free_length(context.case, member, float(context.layout.bar_length[number]))
            if 0.0 < free <= STUBBY * float(context.bars.depth[0, number]):
                yield _verdict(context, number, end, free)


def welded_end(case: Case, member: Member) -> str:
    """The one welded end, where a bolt, stud, strut or hand force enters at the other; else empty."""
    welded = {weld.end for weld in case.welds if weld.member == member.name}
    if len(welded) != 1:
        return ""
    (end,) = welded
    other, place = ("to", member.end) if end == "from" else ("from", member.start)
    joints: tuple[Bolt | Stud, ...] = (*case.bolts, *case.studs)
    entering = any(joint.member == member.name and joint.end == other for joint in joints)
    entering = entering or any(place in (strut.start, strut.end) for strut in case.struts)
    entering = entering or any(force.at == place for load in case.loads for force in load.forces)
    return end if entering else ""


def _verdict(context: Context, number: int, end: str, free: float) -> Verdict:
    bars, layout, member = context.bars, context.layout, context.case.members[number]
    length = float(layout.bar_length[number])
    inset = max(weld.inset for weld in context.case.welds if weld.member == member.name)
    place = inset if end == "from" else length - inset
    forces = at_places(
        layout, context.response, np.array([number]), np.array([[place]]), np.array([0 if end == "to" else 1])
    )[:, :, 0]
    width, thickness = bars.depth[:, number, None], bars.width[:, number, None]
    spread = lug_width(np.array([free]), width[:, 0])[:, None]
    axial = np.abs(forces[..., 0]) / (width * thickness)
    edgewise = 6.0 * np.abs(forces[..., 4]) / (thickness * width**2)
    flatwise = 6.0 * np.abs(forces[..., 5]) / (spread * thickness**2)
    demand = (axial + edgewise + flatwise) * context.factors.load()
    stations = context.stations
    own = stations.of(number)
    near = np.abs(stations.place[:, own] - place) <= 1e-6
    strength = np.where(near, stations.yield_[:, own], np.inf).min(axis=1)
    limit = strength[:, None] / yield_divisor(context, number)
    covered = (free >= LEAST * width[:, 0]) & ~stations.uncovered[:, number]
    ratio = free / float(width[0, 0])
    note = f"load {ratio:.2f} widths from the weld, b_eff {float(spread[0, 0]):.0f} mm"
    if ratio < LEAST:
        note += f": compared with plates down to {LEAST:g} widths only"
    return Verdict(
        part=member.name,
        kind="plate-bending",
        unit="MPa",
        fails="bends",
        source=SOURCE,
        demand=demand,
        limit=limit,
        utilisation=demand / limit * path_factor(context.case, number),
        places=(f"along its weld at {member.start if end == 'from' else member.end}",),
        in_range=np.broadcast_to(covered[:, None], demand.shape),
        notes=tuple(
            "; ".join(part for part in (note, amplified_note(context, load)) if part)
            for load in range(demand.shape[1])
        ),
    )
