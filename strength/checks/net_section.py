"""`net-section`: what is left of a plate beside its holes."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.checks.bolt_columns import by_hole, late_at_plates, plate_columns
from strength.checks.bolts import BoltEffect
from strength.checks.context import Context
from strength.checks.plate_rows import at_plates
from strength.checks.verdict import Verdict
from strength.joints.bearing import net_section as resistance
from strength.joints.end_force import along_and_across, size

Array = NDArray[np.float64]

KIND = "net-section"
SOURCE = "EN 1993-1-1:2005 6.2.3"
LEAST = 0.01  # of the hole: what is written as left where nothing is


def net_section(context: Context) -> Iterator[Verdict]:
    """0.9 (2 edge - hole) t fu, or by the own width of a flat bolted through its thickness.

    A group in a flat: k bolts side by side share the width, and the whole force passes the cut through
    them (own choice), so that 0.9 (width/k - hole) t fu stands against the greater of V_i and F_p/k.
    """
    own = plate_columns(context)
    if own is None:
        return iter(())
    kept = np.maximum(own.width, (1.0 + LEAST) * own.hole)
    limit = resistance(own.thickness, own.ultimate, kept, own.hole)
    pull = by_hole([_pull(effect, n) for effect in own.effects for n in range(len(effect.plates))])
    return late_at_plates(context, KIND, own, pull, limit, _whole, outside=own.width <= own.hole)


def _whole(context: Context, effect: BoltEffect) -> Verdict:
    by = context.factors.on_ultimate()[:, None]
    pulls, limits, full = [], [], ""
    for n, plate in enumerate(effect.plates):
        width = 2.0 * plate.entry.edge if plate.own_width is None else plate.own_width / plate.row
        if np.any(np.asarray(width) <= plate.entry.hole):
            full = f"{plate.word}: its holes leave nothing of its width"
        kept = np.maximum(width, (1.0 + LEAST) * plate.entry.hole)
        limits.append(resistance(plate.thickness, plate.ultimate, kept, plate.entry.hole)[:, None] / by)
        pulls.append(_pull(effect, n))
    wide = effect.plates[0].own_width is not None
    note = f"carried plate by the own width of {effect.bolt.member}" if wide else ""
    if wide and effect.plates[0].row.max() > 1:
        note += f", {effect.plates[0].row.max():.0f} holes side by side"
    return at_plates(context, effect, KIND, pulls, limits, SOURCE, outside=full, note=note)


def _pull(effect: BoltEffect, number: int) -> Array:
    plate = effect.plates[number]
    if effect.is_single or plate.own_width is None:
        return effect.pull_on(number)
    whole = size(along_and_across(effect.end.force, np.array(effect.bolt.axis))[1])
    return np.maximum(effect.pull_on(number), whole[..., None] / plate.row)
