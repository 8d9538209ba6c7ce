"""`clamp-slip`: a split clamp turning on its tube or bar."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.joint_rows import bar_number, joint_path_factor, worst_place
from strength.checks.verdict import Verdict
from strength.joints.clamp import PRELOADED, preload, slip_torque
from strength.joints.end_force import end_force
from strength.joints.fastener import fastener

if TYPE_CHECKING:
    from strength.case.model import Clamp

Array = NDArray[np.float64]

SOURCE = "friction of the preload of EN 1993-1-8:2005 3.6.1(2), both halves of the clamp (own choice)"


def clamp_slip(context: Context) -> Iterator[Verdict]:
    """Torque against friction x bolts x 0.7 fub As x diameter; out of range but for 8.8 and 10.9."""
    for clamp in context.case.clamps:
        own = fastener(clamp.bolt, clamp.grade, thread_in_shear=False)
        if own.tension_area is None:
            continue
        bar = bar_number(context, clamp.member)
        force = preload(own)
        held = slip_torque(force, clamp.bolt_count, clamp.friction, clamp.diameter)
        notes = [f"preload {force / 1000.0:.3g} kN in each {clamp.bolt.text}"]
        if own.thread is not None and clamp.bolt.kind == "thread" and clamp.grade in own.thread.torque:
            notes.append(f"tighten to about {own.thread.torque[clamp.grade]:g} N*m, lightly oiled")
        if clamp.grade not in PRELOADED:
            notes.append(f"class {clamp.grade} is not one for preload in EN 1993-1-8 (8.8 and 10.9)")
        torque, _, _ = inner_forces(context, clamp)
        yield worst_place(
            context,
            part=clamp.name,
            kind="clamp-slip",
            unit="N*mm",
            fails="slips",
            source=SOURCE,
            demand=(torque * context.factors.load())[..., None],
            limit=held / context.factors.on_ultimate()[:, None],
            path_factor=joint_path_factor(context, bar, clamp.only_path),
            places=(f"at the `{clamp.end}` end of {clamp.member}",),
            in_range=clamp.grade in PRELOADED,
            note="; ".join(notes),
            amplified=False,
        )


def inner_forces(context: Context, clamp: "Clamp") -> tuple[Array, Array, Array]:
    """Torque, pull along the tube and bending moment at a clamp, magnitudes (designs, loads)."""
    end = end_force(context.layout, context.response, bar_number(context, clamp.member), clamp.end)
    force, moment = end.force @ end.axes.T, end.moment @ end.axes.T
    return np.abs(moment[..., 0]), np.abs(force[..., 0]), np.hypot(moment[..., 1], moment[..., 2])
