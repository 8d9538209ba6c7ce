"""`bolt-bending`: pins, and bolts across a gap, bent between their plates."""

from collections.abc import Iterator

import numpy as np

from strength.checks.bolt_shear import shear_demand, shear_limit
from strength.checks.bolts import BoltEffect, bolt_effects
from strength.checks.context import Context
from strength.checks.verdict import Verdict
from strength.joints.bolt_bending import bending_one_plane, bending_two_planes

SOURCE = "EN 1993-1-8:2005 Table 3.10, moment of its Figure 3.11; one plane and gap own choice"


def is_bent(effect: BoltEffect) -> bool:
    """True for pins and for bolts across a gap."""
    return effect.fastener.is_pin or effect.bolt.gap > 0.0


def bolt_bending(context: Context) -> Iterator[Verdict]:
    """sqrt((M/M_R)^2 + (V/V_R)^2) with M_R = 1.5 W fy; needs the plates."""
    for effect in bolt_effects(context):
        if not is_bent(effect) or effect.thickness is None:
            continue
        carried, cheek = effect.thickness
        across, moment, gap = effect.forces.across, effect.forces.bending, effect.bolt.gap
        if effect.two_planes:
            bent = bending_two_planes(across, moment, carried, cheek, gap)
        else:
            bent = bending_one_plane(across, moment, carried, gap)
        own = effect.fastener
        divisor = context.factors.on_yield(own.kind, brittle=own.grade.brittle)
        limit = own.bending / divisor[:, None]
        shear = shear_demand(context, effect) / shear_limit(context, effect)
        demand = np.hypot(bent * context.factors.load()[:, None] / limit, shear)
        what = "root" if own.bending_diameter < own.diameter else "shank"
        note = f"bends on its {what}, {own.bending_diameter:.4g} mm, carries {own.bending / 1000.0:.4g} N*m"
        yield effect.at_bolts(context, "bolt-bending", "1", demand, 1.0, SOURCE, note=note, fails="bends")
