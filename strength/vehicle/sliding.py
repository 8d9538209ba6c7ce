"""Where the first wheel asks for more than its grip."""

import math

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.units import GRAVITY
from strength.vehicle.ground import Ground, Weights
from strength.vehicle.least import least_squares_loads
from strength.vehicle.motion import lean_angle, specific_force
from strength.vehicle.tipping import side_ratio

Array = NDArray[np.float64]

MOST = 6.0  # g; beyond it there is no limit to speak of (own choice)

_GRID = 257
_FINEST = 1e-13  # g


def corner_slide(
    case: Case, stand: Ground, load: Weights, sign: float, *, leaning: float, tips: float | None
) -> float | None:
    """Cornering [g] at which a wheel first slides; tips [g]; None: over 6 g or no wheel carries.

    Side forces are in proportion to Z, so on the road S/N = a_y/g at every wheel, lean or not: a
    wheel slides where that passes its grip, if it still carries something there.
    """
    grips = np.array([w.grip for w in case.wheels])
    most = MOST if tips is None else tips

    def loads(a: Array) -> Array:
        """Z (n, wheels) at cornering a (n,) [g], beyond tipping as it was there."""
        rows = []
        for lateral in sign * np.minimum(a, most) * GRAVITY:
            f = specific_force(0.0, float(lateral), 1.0, lean_angle(leaning, float(lateral)))
            wanted = load.wanted(f)[None]
            z, _held = least_squares_loads(stand.columns(side_ratio(f)), grips.size, wanted, 1e-9)
            rows.append(z[0, : grips.size])
        return np.array(rows)

    def over(a: Array) -> NDArray[np.bool_]:
        slid: NDArray[np.bool_] = np.any((loads(a) > 0.0) & (a[:, None] > grips * (1.0 + 1e-12)), axis=1)
        return slid

    low = float(grips.min())
    found = next(
        (g for g in sorted(set(grips.tolist())) if (loads(np.array([g]))[0, grips <= g] > 0.0).any()), None
    )
    if found is None:
        return None
    # a wheel that had lifted before its grip was asked for may touch again: look between
    grid = np.linspace(low, min(found, most), 65)[1:-1] if found > low else np.zeros(0)
    touching = np.flatnonzero(over(grid)) if grid.size else np.zeros(0, dtype=np.intp)
    if touching.size:
        found, low = float(grid[touching[0]]), float(grid[touching[0] - 1]) if touching[0] else low
        while found - low > _FINEST:
            middle = 0.5 * (low + found)
            low, found = (low, middle) if over(np.array([middle]))[0] else (middle, found)
    return found if found < MOST else None


def brake_slide(
    case: Case, stand: Ground, load: Weights, *, slope: float, tips: float | None
) -> float | None:
    """Straight braking [g] at which a braked wheel first slides; slope [rad] down; None: over 6 g.

    X is in proportion to Z, so X/Z is alike for all braked wheels: M (a + g sin)/sum Z. The least
    grip among those that carry decides. Beyond tipping the loads stay as they were there.
    """
    grips = np.array([w.grip if w.braked else math.inf for w in case.wheels])
    if not np.isfinite(grips).any():
        return None

    def worth(a: Array) -> Array:
        """What the grip gives [g] with the wheel loads at deceleration a [g]."""
        z = _braked_loads(stand, load, a, slope)
        carried = np.where(np.isfinite(grips), z, 0.0).sum(axis=1)
        least = np.where((z > 0.0) & np.isfinite(grips), grips, np.inf).min(axis=1)
        hold = np.where(np.isfinite(least), least, 0.0) * carried
        given: Array = hold / (load.total * GRAVITY) - math.sin(slope)
        return given

    low, high = 0.0, MOST if tips is None else tips
    grid = np.linspace(low, high, _GRID)
    given = worth(grid)
    over = grid > given
    if over[0] or not over.any():
        slide = max(0.0, float(given[0 if over[0] else -1]))
        return slide if slide < MOST else None
    while high - low > _FINEST:
        first = int(np.argmax(over))
        low, high = float(grid[first - 1]), float(grid[first])
        grid = np.linspace(low, high, _GRID)
        over = grid > worth(grid)
        over[0], over[-1] = False, True
    return low


def _braked_loads(stand: Ground, load: Weights, a: Array, slope: float) -> Array:
    """Z (decelerations, wheels) [N] in straight braking a [g], the wheels alone taking X."""
    along = (a + math.sin(slope)) * GRAVITY
    f = np.stack([along, np.zeros_like(a), np.full_like(a, -math.cos(slope) * GRAVITY)], axis=-1)
    z, _held = least_squares_loads(stand.columns(0.0), len(stand.wheels), load.wanted(f), 1e-9)
    return z[:, : len(stand.wheels)]
