"""`tab-wall`: the wall of a tube or a box under a plate, box or tube welded onto it."""

from collections.abc import Iterator

from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.context import Context
from strength.checks.tab_on_box import on_box
from strength.checks.tab_on_tube import on_tube
from strength.checks.verdict import Verdict
from strength.checks.walls import wall_joints


def tab_wall(context: Context) -> Iterator[Verdict]:
    """One verdict per weld of a plate or box on a tube, or of a plate, box, tube or bar on a box."""
    for joint in wall_joints(context):
        host, shape = joint.meeting.host.shape, joint.effect.seat.shape
        if isinstance(host, Tube) and isinstance(shape, Flat | Box):
            yield on_tube(context, joint)
        elif isinstance(host, Box) and isinstance(shape, Tube | Bar | Flat | Box):
            yield on_box(context, joint)
