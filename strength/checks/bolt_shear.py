"""`bolt-shear`: the force across one shear plane."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.checks.bolt_columns import late_at_holes
from strength.checks.bolts import BoltEffect, bolt_effects
from strength.checks.context import Context
from strength.checks.verdict import Verdict

KIND = "bolt-shear"
SOURCE = "EN 1993-1-8:2005 Table 3.4; stainless as EN 1999-1-1 Table 8.5"
PIN = "EN 1993-1-8:2005 Table 3.10"
SHOULDER = "EN 1993-1-8:2005 Table 3.4 on the shoulder; strength of ISO 7379 screws"


def shear_limit(context: Context, effect: BoltEffect) -> NDArray[np.float64]:
    """alpha_v fub A over its divisor, (loads, 1) [N]."""
    found: NDArray[np.float64] = effect.fastener.shear / context.factors.on_ultimate()[:, None]
    return found


def shear_demand(context: Context, effect: BoltEffect) -> NDArray[np.float64]:
    """Force on each shear plane times load factor, (designs, loads, bolts) [N]."""
    return effect.shear * context.factors.load()[:, None]


def bolt_shear(context: Context) -> Iterator[Verdict]:
    """One verdict per bolt joint, at its worst bolt."""
    effects = bolt_effects(context)
    return late_at_holes(context, KIND, effects, lambda e: e.shear, lambda e: e.fastener.shear, _whole)


def _whole(context: Context, effect: BoltEffect) -> Verdict:
    size = effect.bolt.size
    source = {"pin": PIN, "shoulder": SHOULDER}.get(size.kind, SOURCE)
    in_thread = size.kind != "pin" and effect.bolt.thread_in_shear
    note = f"per plane, of {effect.bolt.shear_planes}; {'thread' if in_thread else 'shank'} in the plane"
    demand, limit = shear_demand(context, effect), shear_limit(context, effect)
    return effect.at_bolts(context, KIND, "N", demand, limit, source, note=note)
