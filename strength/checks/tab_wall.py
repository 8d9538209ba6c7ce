"""`tab-wall`: the wall of a tube or a box under a plate, box or tube welded onto it."""

from collections.abc import Iterator

from strength.checks.context import Context
from strength.checks.tab_on_box import on_box
from strength.checks.tab_on_tube import on_tube
from strength.checks.verdict import Verdict
from strength.checks.wall_columns import columns_alike
from strength.checks.walls import WallJoint, wall_joints


def tab_wall(context: Context) -> Iterator[Verdict]:
    """One verdict per weld of a plate or box on a tube, or of a plate, box, tube or bar on a box."""
    found: dict[WallJoint, Verdict] = {}
    for own, columns in columns_alike(context).items():
        if not own.is_chord:
            told = (on_tube if own.on_tube else on_box)(context, columns, own)
            found.update(zip(columns.joints, told, strict=True))
    yield from (found[joint] for joint in wall_joints(context) if joint in found)
