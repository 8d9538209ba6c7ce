"""`bolt-tension` and `bolt-combined`: the pull along bolts, alone and with shear."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.checks.bolt_columns import late_at_holes
from strength.checks.bolt_shear import shear_demand, shear_limit
from strength.checks.bolts import BoltEffect, bolt_effects
from strength.checks.context import Context
from strength.checks.verdict import Verdict

Array = NDArray[np.float64]

SOURCE = "EN 1993-1-8:2005 Table 3.4"
NECK = "EN 1993-1-8:2005 Table 3.4 on the neck; strength of ISO 7379 screws"
PRELOAD = 0.75  # of the proof stress: Shigley, recommended for reused bolts (from memory)


def bolt_tension(context: Context) -> Iterator[Verdict]:
    """0.9 fub As, As the neck of a shoulder screw; pins have no such row."""
    return late_at_holes(
        context, "bolt-tension", _pulled(context), lambda e: e.forces.along, _strength, _alone
    )


def bolt_combined(context: Context) -> Iterator[Verdict]:
    """V/V_R + T/(1.4 T_R), each resistance over its divisor."""

    def share(effect: BoltEffect) -> Array:
        return effect.shear / effect.fastener.shear + effect.forces.along / (1.4 * _strength(effect))

    return late_at_holes(context, "bolt-combined", _pulled(context), share, lambda _: 1.0, _with_shear)


def _pulled(context: Context) -> list[BoltEffect]:
    return [effect for effect in bolt_effects(context) if effect.fastener.tension is not None]


def _strength(effect: BoltEffect) -> float:
    """0.9 fub As [N]; of bolts that can be pulled."""
    return np.nan if effect.fastener.tension is None else effect.fastener.tension


def _alone(context: Context, effect: BoltEffect) -> Verdict:
    demand = effect.forces.along * context.factors.load()[:, None]
    limit = _strength(effect) / context.factors.on_ultimate()[:, None]
    source = NECK if effect.bolt.size.kind == "shoulder" else SOURCE
    return effect.at_bolts(context, "bolt-tension", "N", demand, limit, source, note=tightening(effect))


def _with_shear(context: Context, effect: BoltEffect) -> Verdict:
    shear = shear_demand(context, effect) / shear_limit(context, effect)
    pull = effect.forces.along * context.factors.load()[:, None]
    limit = _strength(effect) / context.factors.on_ultimate()[:, None]
    return effect.at_bolts(context, "bolt-combined", "1", shear + pull / (1.4 * limit), 1.0, SOURCE)


def tightening(effect: BoltEffect) -> str:
    """Tightening torque and the preload it gives, as information."""
    own = effect.fastener
    if own.thread is None or own.size.kind != "thread" or own.grade.name not in own.thread.torque:
        return ""
    text = f"tighten to about {own.thread.torque[own.grade.name]:g} N*m, lightly oiled"
    if own.grade.proof is not None:
        preload = PRELOAD * own.grade.proof * own.thread.stress_area / 1000.0
        text += f": preload about {preload:.3g} kN, give or take a quarter"
    return text
