"""`weld-throat` and `weld-toe` of all welds at once, where only utilisations are asked for."""

import numpy as np
from numpy.typing import NDArray

from strength.checks.context import Context
from strength.checks.uses import Uses
from strength.checks.weld_groups import Judged
from strength.checks.weld_throat import KIND as THROAT
from strength.checks.weld_throat import special
from strength.checks.weld_toe import KIND as TOE
from strength.checks.welds import weld_effects
from strength.joints.fillet import QUALITY
from strength.joints.peak import Peak

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


def throat_uses(context: Context) -> Uses:
    """As `weld_throat`."""
    known = context.factors.method != "limit-state"
    effects = weld_effects(context)
    covered = [known or effect.known for effect in effects]
    found = _uses(context, THROAT, [QUALITY[effect.weld.quality] for effect in effects], covered)
    for n, effect in enumerate(effects):
        verdict = special(context, effect)
        if verdict is not None:
            one = Uses.of([verdict], designs=found.use.shape[2], loads=found.use.shape[1])
            found.use[n], found.covered[n] = one.use[0], one.covered[0]
    return found


def toe_uses(context: Context) -> Uses:
    """As `weld_toe`."""
    effects = weld_effects(context)
    return _uses(context, TOE, [1.0] * len(effects), [effect.heat_known for effect in effects])


def _uses(context: Context, kind: str, quality: list[float], covered: "list[bool] | list[Flags]") -> Uses:
    effects = weld_effects(context)
    designs, loads = context.bars.wall.shape[0], len(context.load_names)
    use = np.empty((len(effects), designs, loads))
    square = np.empty((len(effects), designs), dtype=bool)
    for judged in dict.fromkeys(effect.judged for effect in effects):
        own = list(judged.group.welds)
        use[own] = _peak(judged, kind).use.reshape(len(own), -1, loads)
        square[own] = judged.square.reshape(len(own), -1)
    by = np.array([effect.path_factor / good for effect, good in zip(effects, quality, strict=True)])
    use *= by.reshape(-1, 1, 1) * (context.factors.load() * context.factors.on_ultimate())
    return Uses(
        names=tuple((effect.weld.name, kind) for effect in effects),
        use=np.swapaxes(use, 1, 2),
        covered=square & np.stack([np.broadcast_to(each, designs) for each in covered])
        if effects
        else square,
    )


def _peak(judged: Judged, kind: str) -> Peak:
    return judged.throats if kind == THROAT else judged.toes
