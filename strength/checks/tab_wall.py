"""`tab-wall`: the wall of a tube or a box under a plate, box or tube welded onto it."""

from collections.abc import Iterator

from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.context import Context
from strength.checks.standing import MakeUp, make_up
from strength.checks.tab_on_box import on_box
from strength.checks.tab_on_tube import on_tube
from strength.checks.verdict import Verdict
from strength.checks.walls import WallJoint, wall_joints


def tab_wall(context: Context) -> Iterator[Verdict]:
    """One verdict per weld of a plate or box on a tube, or of a plate, box, tube or bar on a box."""
    every = wall_joints(context)
    alike: dict[tuple[bool, MakeUp], list[WallJoint]] = {}
    for joint in every:
        host, shape = joint.meeting.host.shape, joint.effect.seat.shape
        on_round = isinstance(host, Tube) and isinstance(shape, Flat | Box)
        if on_round or (isinstance(host, Box) and isinstance(shape, Tube | Bar | Flat | Box)):
            alike.setdefault((on_round, make_up(joint)), []).append(joint)
    found: dict[WallJoint, Verdict] = {}
    for (on_round, own), joints in alike.items():
        told = (on_tube if on_round else on_box)(context, joints, own)
        found.update(zip(joints, told, strict=True))
    yield from (found[joint] for joint in every if joint in found)
