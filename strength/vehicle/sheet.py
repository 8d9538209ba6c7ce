"""What the road does to the wheels in each load: the values that `balance` returns."""

import attrs
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@attrs.frozen(kw_only=True)
class WheelForce:
    """Force of the road on one wheel [N], body axes; `at_ground` the contact [mm]."""

    name: str
    force: tuple[float, float, float]
    slides: bool = False
    lifts: bool = False


@attrs.frozen(kw_only=True)
class TowForce:
    """Force of the tractor on the hitch [N], body axes."""

    name: str
    force: tuple[float, float, float]


@attrs.frozen(kw_only=True)
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


@attrs.frozen(kw_only=True)
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
