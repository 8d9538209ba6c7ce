"""What of sleeves and clamps no check looks at."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.case.model import NotChecked
from strength.checks.clamps import inner_forces
from strength.checks.context import Context
from strength.checks.joint_rows import LITTLE, figure
from strength.checks.sleeves import SleeveEffect, sleeve_effects
from strength.joints.fastener import fastener

Array = NDArray[np.float64]


def unchecked_sleeves(context: Context) -> Iterator[NotChecked]:
    """Pull and torque that no bolt or weld holds; the bolt's holes; pull and bending in clamps."""
    for effect in sleeve_effects(context):
        sleeve = effect.sleeve
        if sleeve.bolt is not None:
            why = "the bolt's edge distances are not known: bearing and tear-out in the tubes' walls"
            yield NotChecked(part=sleeve.name, kind="bearing", why=why)
        elif _slides(effect) and not _welded(context, effect):
            why = f"{_loads(effect.pull, effect.torque)}: no bolt or weld is given that holds it"
            yield NotChecked(part=sleeve.name, kind="sleeve", why=why)
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


def _slides(effect: SleeveEffect) -> bool:
    size = float(effect.tubes[0].outside.max())
    every = (effect.pull * size, effect.torque, effect.shear * size, effect.moment)
    least = LITTLE * max(float(part.max(initial=0.0)) for part in every)
    return bool((effect.pull * size).max() > least or effect.torque.max() > least)


def _welded(context: Context, effect: SleeveEffect) -> bool:
    sleeve = effect.sleeve
    return any((weld.member, weld.end) == (sleeve.member, sleeve.end) for weld in context.case.welds)


def _loads(pull: Array, torque: Array) -> str:
    return f"pull or push up to {figure(pull.max())} N, torque up to {figure(torque.max() / 1000.0)} N*m"
