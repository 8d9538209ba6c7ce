"""How much of a manoeuvre the vehicle bears before it tips."""

import math
from itertools import combinations, pairwise

import numpy as np
from numpy.typing import NDArray

from strength.units import GRAVITY
from strength.values import frozen
from strength.vehicle.edges import first_below, first_below_linear, hull_edges
from strength.vehicle.ground import Ground, Weights
from strength.vehicle.least import least_squares_loads
from strength.vehicle.motion import specific_force

Array = NDArray[np.float64]

_ROUNDING = 1e-13  # of the vehicle's size: what counts as on the edge


@frozen(kw_only=True)
class Manoeuvre:
    """Full accelerations [mm/s^2], the vertical load in multiples of g, the greatest lean [rad].

    tow_takes: the hitch takes all of X, because no wheel brakes or drives.
    """

    forward: float
    cornering: float
    vertical: float
    leaning: float = 0.0
    tow_takes: bool = False


def bearable(ground: Ground, weights: Weights, manoeuvre: Manoeuvre) -> float:
    """Largest s in [0, 1] so that for every s' <= s the accelerations s'(a_x, a_y) can be balanced.

    Balanced: a set Z >= 0 exists both on the banked road (body axes, structure as drawn) and on
    the flat road (contacts y/cos p, masses turned by p about the contacts' plane at y = 0). That is
    so while the resultant of weight and inertia meets the road inside the outline of the
    contacts. Own choice; without lean it is the classic tipping limit (Gillespie, Fundamentals of Vehicle
    Dynamics, ch. 9, from memory).
    """
    if manoeuvre.forward == 0.0 and manoeuvre.cornering == 0.0:
        return 1.0
    if ground.has_tow:
        return _bearable_towed(ground, weights, manoeuvre)
    edges = hull_edges(ground.x, ground.y)
    slack = _ROUNDING * weights.total * GRAVITY * _size(ground, weights)
    swing = abs(manoeuvre.cornering) / GRAVITY
    turned = min(manoeuvre.leaning, math.atan(swing))
    if turned > 0.0:
        lost = first_below(lambda p: _leaning_curves(edges, weights, manoeuvre, p), turned, slack)
        if lost is not None:
            return min(1.0, math.tan(lost) / swing)
    full = min(1.0, math.tan(turned) / swing) if turned > 0.0 else 0.0
    lean = math.copysign(turned, manoeuvre.cornering)
    start = _fixed_lean(edges, weights, manoeuvre, lean, full)
    stop = _fixed_lean(edges, weights, manoeuvre, lean, 1.0)
    if (start < -slack).any():
        return full
    return full + (1.0 - full) * first_below_linear(start, stop, slack)


def _size(ground: Ground, weights: Weights) -> float:
    heights = max(abs(weights.x), abs(weights.y), abs(weights.h)) / weights.total if weights.total else 0.0
    return max(1.0, float(np.max(np.abs([ground.x, ground.y]))), heights)


def _fixed_lean(edges: Array, weights: Weights, m: Manoeuvre, lean: float, share: float) -> Array:
    """Distance to each edge x weight, banked road then flat road, at one lean: linear in `share`."""
    ax, ay, down = share * m.forward, share * m.cornering, m.vertical * GRAVITY
    banked = weights.wanted(specific_force(ax, ay, m.vertical, lean))
    c, s = math.cos(lean), math.sin(lean)
    high = weights.h * c - weights.y * s
    side = weights.y * c + weights.h * s
    # contacts y/cos p: the outline keeps its drawn place when all y are multiplied by cos p
    flat = np.array(
        [weights.total * down, weights.x * down - high * ax, c * (side * down - high * ay)],
    )
    return np.concatenate([edges @ banked, edges @ flat])


def _leaning_curves(edges: Array, weights: Weights, m: Manoeuvre, p: Array) -> Array:
    """As `_fixed_lean`, times cos p, while the body leans freely: tan p = s |a_y|/g; p (n,) >= 0.

    Written out so that each is a trigonometric polynomial of p.
    """
    c, s = np.cos(p), np.sin(p)
    side = math.copysign(1.0, m.cornering)
    rate = m.forward * GRAVITY / abs(m.cornering)  # s a_x = rate tan p
    v = m.vertical
    banked = weights.wanted(
        np.stack([-rate * s, side * (v - 1.0) * GRAVITY * s * c, -GRAVITY * (s * s + v * c * c)], axis=-1)
    )
    down = v * GRAVITY
    flat = np.stack(
        [
            weights.total * down * c,
            weights.x * down * c - rate * (weights.h * s * c - side * weights.y * s * s),
            down * (weights.y * c**3 + side * weights.h * s * c * c)
            - side * GRAVITY * (weights.h * s * c * c - side * weights.y * s * s * c),
        ],
        axis=-1,
    )
    return np.concatenate([banked @ edges.T, flat @ edges.T], axis=1)


def _bearable_towed(ground: Ground, weights: Weights, m: Manoeuvre) -> float:
    """The same with a hitch, upright. What the hitch gives may be of either sign.

    Seen from the hitch the resultant must lie in the sector of the wheels. Which wheel bounds the
    sector changes only where two directions fall together; directions are linear in s, so all such
    s are roots of quadratics, and between two neighbours one look decides.
    """
    if m.vertical == 0.0 and m.cornering != 0.0:
        return 0.0  # no weight, so no side force by share
    at_rest, at_full = (_directions(ground, weights, m, s) for s in (0.0, 1.0))
    growth = at_full - at_rest
    events = {0.0, 1.0}
    for i, j in combinations(range(len(at_rest)), 2):
        quadratic = [
            _cross(growth[i], growth[j]),
            _cross(at_rest[i], growth[j]) + _cross(growth[i], at_rest[j]),
            _cross(at_rest[i], at_rest[j]),
        ]
        events.update(r for r in _roots(*quadratic) if 0.0 < r < 1.0)
    ordered = sorted(events)
    for low, high in pairwise(ordered):
        if high - low > 1e-12 and not _held(ground, weights, m, 0.5 * (low + high)):
            return low
    return 1.0


def side_ratio(f: Array) -> float:
    """Y/Z, alike for all contacts: the resultant's own."""
    return float(f[1] / f[2]) if f[2] != 0.0 else 0.0


def wanted_at(ground: Ground, weights: Weights, f: Array, *, tow_takes: bool) -> Array:
    """What the Z must give against f (3,), with the hitch's X at its own height: (3,) [N, N*mm]."""
    wanted = weights.wanted(f)
    if tow_takes:
        wanted = wanted + np.array([0.0, -ground.tow_height * weights.total * f[0], 0.0])
    return wanted


def _held(ground: Ground, weights: Weights, m: Manoeuvre, share: float) -> bool:
    f = specific_force(share * m.forward, share * m.cornering, m.vertical, 0.0)
    wanted = wanted_at(ground, weights, f, tow_takes=m.tow_takes)
    columns = ground.columns(side_ratio(f))
    return bool(least_squares_loads(columns, len(ground.wheels), wanted[None])[1][0])


def _directions(ground: Ground, weights: Weights, m: Manoeuvre, share: float) -> Array:
    """From the hitch to each wheel [mm], and last to the resultant times the weight; linear in `share`."""
    f = specific_force(share * m.forward, share * m.cornering, m.vertical, 0.0)
    wanted = wanted_at(ground, weights, f, tow_takes=m.tow_takes)
    spots = ground.columns(side_ratio(f))[1:].T
    return np.vstack([spots[:-1] - spots[-1], wanted[1:] - wanted[0] * spots[-1]])


def _cross(a: Array, b: Array) -> float:
    return float(a[0] * b[1] - a[1] * b[0])


def _roots(a: float, b: float, c: float) -> list[float]:
    """Real roots of a s^2 + b s + c, without cancellation (Press et al., Numerical Recipes, 5.6)."""
    inside = b * b - 4.0 * a * c
    if inside < 0.0:
        return []
    q = -0.5 * (b + math.copysign(math.sqrt(inside), b))
    return [r for r in ((q / a) if a else None, (c / q) if q else None) if r is not None and math.isfinite(r)]
