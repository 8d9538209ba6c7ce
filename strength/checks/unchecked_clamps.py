"""What of clamps no check looks at."""

from collections.abc import Iterator

import numpy as np

from strength.case.model import NotChecked
from strength.checks.clamps import inner_forces
from strength.checks.context import Context
from strength.checks.joint_rows import LITTLE
from strength.joints.fastener import fastener


def unchecked_clamps(context: Context) -> Iterator[NotChecked]:
    """Pull and bending in clamps; what gives no clamping force."""
    for clamp in context.case.clamps:
        torque, pull, moment = inner_forces(context, clamp)
        if fastener(clamp.bolt, clamp.grade, thread_in_shear=False).tension_area is None:
            why = f"{clamp.bolt.text!r} gives no clamping force that is known"
            yield NotChecked(part=clamp.name, kind="clamp-slip", why=why)
        size = clamp.diameter
        least = LITTLE * float(np.max([pull.max() * size, moment.max(), torque.max()], initial=0.0))
        if pull.max() * size > least or moment.max() > least:
            yield NotChecked(
                part=clamp.name, kind="clamp", why="the pull along its tube and bending in the clamp"
            )
