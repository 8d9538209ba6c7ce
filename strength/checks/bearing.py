"""`bearing`: bolts and pins pressing on the edge of their holes."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from strength.checks.bolt_columns import PlateColumns, late_at_plates, plate_columns
from strength.checks.bolts import BoltEffect
from strength.checks.context import Context
from strength.checks.plate_rows import at_plates, near_edge
from strength.checks.verdict import Verdict
from strength.joints.bearing import (
    LEAST_EDGE,
    bearing_allowable,
    bearing_limit_state,
    bearing_pin,
    bearing_single_lap,
)
from strength.joints.bolted_plate import BoltedPlate

Array = NDArray[np.float64]

KIND = "bearing"
ALLOWABLE = "AISC 360-16 J3.10"
LIMIT_STATE = "EN 1993-1-8:2005 Table 3.4"
LAP = "; one bolt in single shear, EN 1993-1-8:2005 3.6.1(10)"
PIN = "EN 1993-1-8:2005 Table 3.10"


def bearing(context: Context) -> Iterator[Verdict]:
    """One verdict per joint with plates. Edges that are too near put `tear-out` out of range."""
    own = plate_columns(context)
    if own is None:
        return
    found = late_at_plates(context, KIND, own, own.pull, _resistance(context, own), _whole)
    for verdict, effect in zip(found, own.effects, strict=True):
        yield _whole(context, effect) if effect.fastener.is_pin else verdict


def _resistance(context: Context, own: PlateColumns) -> Array:
    """Characteristic bearing resistance at all holes but those of pins, (columns, designs) [N]."""
    if context.factors.method == "limit-state":
        found = bearing_limit_state(own.diameter, own.thickness, own.ultimate, own.own, own.edge, own.hole)
    else:
        found = bearing_allowable(own.diameter, own.thickness, own.ultimate, own.own)
    lap = bearing_single_lap(own.diameter, own.thickness, own.ultimate)
    return np.where(own.is_lap, np.minimum(found, lap), found)


def _whole(context: Context, effect: BoltEffect) -> Verdict:
    limit_state = context.factors.method == "limit-state"
    pulls = [effect.pull_on(n) for n in range(len(effect.plates))]
    if effect.fastener.is_pin:
        limits = [pin_limit(context, effect, plate) for plate in effect.plates]
        return at_plates(context, effect, KIND, pulls, limits, PIN)
    lap = effect.is_single and not effect.two_planes
    by = context.factors.on_ultimate()[:, None]
    limits = [_of(effect, plate, lap=lap, limit_state=limit_state)[:, None] / by for plate in effect.plates]
    source = (LIMIT_STATE if limit_state else ALLOWABLE) + (LAP if lap else "")
    note = near_edge(effect, LEAST_EDGE) if limit_state else ""
    return at_plates(context, effect, KIND, pulls, limits, source, note=note)


def _of(effect: BoltEffect, plate: BoltedPlate, *, lap: bool, limit_state: bool) -> Array:
    """Characteristic bearing resistance of a plate, (designs, bolts) [N]."""
    own, entry = effect.fastener, plate.entry
    if limit_state:
        found = bearing_limit_state(
            own.diameter, plate.thickness, plate.ultimate, own.ultimate, entry.edge, entry.hole
        )
    else:
        found = bearing_allowable(own.diameter, plate.thickness, plate.ultimate, own.ultimate)
    if lap:
        found = np.minimum(found, bearing_single_lap(own.diameter, plate.thickness, plate.ultimate))
    return found


def pin_limit(context: Context, effect: BoltEffect, plate: BoltedPlate) -> Array:
    """1.5 t d fy, the lesser yield over the greater divisor of pin and plate; (designs, loads, bolts) [N]."""
    own, factors = effect.fastener, context.factors
    tough, careful = (factors.on_yield(plate.metal.kind, brittle=flag) for flag in (False, True))
    by = np.maximum(
        np.where(plate.brittle, careful, tough), factors.on_yield(own.kind, brittle=own.grade.brittle)
    )
    strength = np.minimum(plate.yield_, own.yield_)
    return bearing_pin(own.diameter, plate.thickness, strength)[:, None] / by[:, :, None]
