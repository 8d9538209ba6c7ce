"""What the road does to the wheels in each load, and what the vehicle can stand: plain values."""

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

Array = NDArray[np.float64]


@frozen(kw_only=True)
class WheelForce:
    """Force of the road on one wheel [N], body axes, acting where the tyre touches the ground.

    `slides`: the balance asks for more than the grip. `lifts`: the road carries nothing here.
    """

    name: str
    force: tuple[float, float, float]
    slides: bool = False
    lifts: bool = False


@frozen(kw_only=True)
class TowForce:
    """Force of the tractor on the hitch [N], body axes."""

    name: str
    force: tuple[float, float, float]


@frozen(kw_only=True)
class Balanced:
    """One load in balance. `lean` rad, left positive; `scaled_to` 1 or where it tips."""

    name: str
    severity: str
    lean: float
    scaled_to: float
    braking: float  # mm/s^2, after scaling
    driving: float
    cornering: float  # signed, left turn positive
    vertical: float  # multiple of g
    notes: tuple[str, ...]
    wheels: tuple[WheelForce, ...]
    tows: tuple[TowForce, ...] = ()


@frozen(kw_only=True)
class Limit:
    """One limit of the whole vehicle; None: over 6 g, or never.

    what: "corner left", "corner right", "brake", "brake, 10 % descent", "side slope left" (its left
    side low), "side slope right". tips_at, slides_at [g]. speed: ("5 m", m/s) at the lower of both.
    angle [rad] of a side slope on which it neither tips nor slides; `governs` says which comes first.
    """

    what: str
    with_payload: bool
    tips_at: float | None = None
    slides_at: float | None = None
    speed: tuple[tuple[str, float | None], ...] = ()
    angle: float | None = None
    governs: str = ""  # tips | slides | "" where neither comes


@frozen(kw_only=True, eq=False)
class Pushes:
    """Loads as they reach the structure.

    forces: (loads, points, 6) [N, N*mm] at `case.points`, body axes; balanced where it flies free.
    gauge: (6, points, 6), the six conditions `sum(gauge * u) = 0` that fix the displacements of a
    body that flies free (sum m u = 0, sum m r x u = 0); None with supports.
    notes: per load, what to tell (a struck load out of balance, ...). warnings: (part, text).
    """

    forces: Array
    gauge: Array | None
    notes: tuple[tuple[str, ...], ...]
    warnings: tuple[tuple[str, str], ...] = ()
