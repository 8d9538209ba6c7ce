"""Whether an outline with holes bounds one piece of metal."""

from itertools import pairwise

import numpy as np

from strength.case.faults import RefusedError
from strength.case.shape import Outline

Ring = tuple[tuple[float, float], ...]
Side = tuple[tuple[float, float], tuple[float, float]]
LEAST = 1e-6  # mm^2


def check_outline(outline: Outline) -> None:
    """Raise RefusedError for an outline without area, one that crosses itself or a hole out of place."""
    _check_ring(outline.corners, "the outline")
    for i, hole in enumerate(outline.holes):
        what = f"hole {i}"
        _check_ring(hole, what)
        if _crossing(hole, outline.corners) or not _inside(hole[0], outline.corners):
            raise RefusedError(f"{what} does not lie inside the outline")
        for j, other in enumerate(outline.holes[:i]):
            if _crossing(hole, other) or _inside(hole[0], other) or _inside(other[0], hole):
                raise RefusedError(f"{what} meets hole {j}: write the two as one")


def area(ring: Ring) -> float:
    """Area of a polygon [mm^2], positive where its corners run from y to z (anticlockwise)."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in _sides(ring)) / 2


def _check_ring(ring: Ring, what: str) -> None:
    if abs(area(ring)) < LEAST:
        raise RefusedError(f"{what} has no area: its corners lie in one line, or run there and back")
    sides = _sides(ring)
    for i, (here, there) in enumerate(sides):
        _, beyond = sides[(i + 1) % len(sides)]
        if here == there:
            raise RefusedError(f"{what} has the corner {i} twice")
        back = (beyond[0] - there[0]) * (there[0] - here[0]) + (beyond[1] - there[1]) * (there[1] - here[1])
        if back < 0.0 and _turn(here, there, beyond) == 0.0:
            raise RefusedError(f"{what} runs back on itself after its side {i}")
    for i, j in _close_pairs(sides, sides):
        neighbours = j == i + 1 or (i == 0 and j == len(sides) - 1)
        if j > i and not neighbours and _cross(*sides[i], *sides[j]):
            raise RefusedError(f"{what} crosses or touches itself between its sides {i} and {j}")


def _sides(ring: Ring) -> list[Side]:
    return [*pairwise(ring), (ring[-1], ring[0])]


def _crossing(one: Ring, other: Ring) -> bool:
    sides, others = _sides(one), _sides(other)
    return any(_cross(*sides[i], *others[j]) for i, j in _close_pairs(sides, others))


def _close_pairs(sides: list[Side], others: list[Side]) -> list[tuple[int, int]]:
    """Pairs of sides whose boxes meet: arcs drawn as chords have hundreds of sides, and few are close."""
    a, b = np.array(sides), np.array(others)
    low, high = a.min(axis=1)[:, None], a.max(axis=1)[:, None]
    meet = np.all((low <= b.max(axis=1)) & (b.min(axis=1) <= high), axis=2)
    return [(int(i), int(j)) for i, j in np.argwhere(meet)]


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> bool:
    """Whether two lines a-b and c-d meet, ends included."""
    turns = (_turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b))
    if (turns[0] > 0) != (turns[1] > 0) and (turns[2] > 0) != (turns[3] > 0) and 0.0 not in turns:
        return True
    ends = ((turns[0], a, b, c), (turns[1], a, b, d), (turns[2], c, d, a), (turns[3], c, d, b))
    return any(turn == 0.0 and _between(p, q, r) for turn, p, q, r in ends)


def _between(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _inside(at: tuple[float, float], ring: Ring) -> bool:
    within = False
    for (y0, z0), (y1, z1) in _sides(ring):
        if (z0 > at[1]) != (z1 > at[1]) and at[0] < y0 + (at[1] - z0) * (y1 - y0) / (z1 - z0):
            within = not within
    return within
