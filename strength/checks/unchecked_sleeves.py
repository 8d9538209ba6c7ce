"""What of sleeves no check looks at."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import NotChecked
from strength.checks.context import Context
from strength.checks.joint_rows import LITTLE, figure

if TYPE_CHECKING:
    from strength.checks.sleeves import SleeveEffect

Array = NDArray[np.float64]


def unchecked_sleeves(context: Context) -> Iterator[NotChecked]:
    """Pull and torque that no bolt or weld holds; the holes of the bolt."""
    if not context.case.sleeves:
        return
    from strength.checks.sleeves import sleeve_effects

    for effect in sleeve_effects(context):
        sleeve = effect.sleeve
        if sleeve.slot is not None:
            why = "its slotted length, where the outer tube is open, and the slot's end"
            yield NotChecked(part=sleeve.name, kind="sleeve", why=why)
        if sleeve.bolt is not None:
            why = "the bolt's edge distances are not known: bearing and tear-out in the tubes' walls"
            yield NotChecked(part=sleeve.name, kind="bearing", why=why)
        elif _slides(effect) and not _welded(context, effect):
            why = f"{_loads(effect.pull, effect.torque)}: no bolt or weld is given that holds it"
            yield NotChecked(part=sleeve.name, kind="sleeve", why=why)


def _slides(effect: "SleeveEffect") -> bool:
    size = float(effect.tubes[0].outside.max())
    every = (effect.pull * size, effect.torque, effect.shear * size, effect.moment)
    least = LITTLE * max(float(part.max(initial=0.0)) for part in every)
    return bool((effect.pull * size).max() > least or effect.torque.max() > least)


def _welded(context: Context, effect: "SleeveEffect") -> bool:
    sleeve = effect.sleeve
    return any((weld.member, weld.end) == (sleeve.member, sleeve.end) for weld in context.case.welds)


def _loads(pull: Array, torque: Array) -> str:
    return f"pull or push up to {figure(pull.max())} N, torque up to {figure(torque.max() / 1000.0)} N*m"
