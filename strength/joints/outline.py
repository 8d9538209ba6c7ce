"""The line that a pattern draws: round the section, along two sides, or given line by line."""

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Weld
from strength.case.shape import Bar, Box, Flat, Outline, Shape, Tube
from strength.errors import CaseError
from strength.joints.pieces import Pieces, arcs, straight, together
from strength.sections.box import corner_radii
from strength.values import evolve

Array = NDArray[np.float64]

QUARTERS: Array = np.linspace(0.0, 1.5 * np.pi, 4)
APART = 0.01  # mm: an end nearer than this to another line is not free (own choice)


def pattern(weld: Weld, shape: Shape | None, depth: Array, width: Array, wall: Array) -> Pieces:
    """Pieces of a weld's line in the plane of the member's section; sizes (designs,) [mm].

    Closed outlines run counter-clockwise as seen against x_m, so that (tangent x x_m) points
    outward. Raises CaseError where the section has no such line.
    """
    if weld.pattern == "lines":
        return straight(np.array(weld.lines, dtype=float).reshape(1, -1, 4))
    found = None
    if weld.pattern == "sides":
        found = _sides(shape, depth, width, wall)
    elif weld.pattern == "around":
        found = _around(shape, depth, width, wall)
    if found is None:
        raise CaseError([(weld.path or weld.name, f"{weld.name}: {_why(weld, shape)}")])
    return found


def shortened(pieces: Pieces, by: Array) -> Pieces:
    """Straight lines cut back by `by` (designs or 1,) [mm] at each free end; one left without length stays.

    A free end lies on no other line. Own choice after EN 1993-1-8 4.5.1, which takes a throat off
    each end of a weld that is not run round or full at its ends.
    """
    if pieces.curved.any():
        return pieces
    start, end = pieces.base, pieces.base + pieces.delta
    length = pieces.length()
    free_start, free_end = _free(start, start, end), _free(end, start, end)
    by = by[:, None]
    left = np.maximum(length - by * (free_start.astype(float) + free_end), 0.0)
    along = pieces.delta / np.where(length > 0.0, length, 1.0)[..., None]
    base = start + along * (by * free_start)[..., None]
    return straight(np.concatenate([base, base + along * left[..., None]], axis=-1))


def _free(point: Array, start: Array, end: Array) -> NDArray[np.bool_]:
    """(designs, lines) True where the point of line i lies on no line j other than i."""
    run = end - start
    size = np.maximum(np.sum(run**2, axis=-1), 1e-30)
    off = point[:, :, None] - start[:, None]
    t = np.clip(np.sum(off * run[:, None], axis=-1) / size[:, None], 0.0, 1.0)
    away = np.linalg.norm(off - t[..., None] * run[:, None], axis=-1)
    own = np.arange(point.shape[1])
    away[:, own, own] = np.inf
    return np.asarray(np.min(away, axis=-1) > APART)


def _around(shape: Shape | None, depth: Array, width: Array, wall: Array) -> Pieces | None:
    if isinstance(shape, Tube | Bar):
        return arcs(
            np.zeros((depth.size, 4, 2)),
            np.repeat(depth[:, None] / 2.0, 4, axis=1),
            QUARTERS,
            np.full(4, np.pi / 2.0),
        )
    if isinstance(shape, Flat):
        return _closed(_corners(width / 2.0, depth / 2.0))
    if isinstance(shape, Outline):
        return _closed(_outline(shape))
    if isinstance(shape, Box):
        radius = corner_radii(wall)[0]
        centre = _corners(width / 2.0 - radius, depth / 2.0 - radius)
        first = centre + radius[:, None, None] * _turn(QUARTERS)
        last = centre + radius[:, None, None] * _turn(QUARTERS + np.pi / 2.0)
        lines = straight(np.concatenate([last, np.roll(first, -1, axis=1)], axis=-1))
        corner = arcs(centre, np.repeat(radius[:, None], 4, axis=1), QUARTERS, np.full(4, np.pi / 2.0))
        return evolve(together(lines, corner), ends=np.zeros(8, dtype=bool))
    return None


def _sides(shape: Shape | None, depth: Array, width: Array, wall: Array) -> Pieces | None:
    """Two lines along `up`: the right one upward, the left one downward, so that normals point out."""
    if isinstance(shape, Box):
        half = depth / 2.0 - corner_radii(wall)[0]
    elif isinstance(shape, Flat):
        half = depth / 2.0
    else:
        return None
    y = width / 2.0
    return straight(
        np.stack([np.stack([y, -half, y, half], -1), np.stack([-y, half, -y, -half], -1)], axis=1)
    )


def _corners(y: Array, z: Array) -> Array:
    """Corners (designs, 4, 2), counter-clockwise from (+, +)."""
    return np.stack(
        [np.stack([y, z], -1), np.stack([-y, z], -1), np.stack([-y, -z], -1), np.stack([y, -z], -1)], 1
    )


def _turn(angle: Array) -> Array:
    return np.stack([np.cos(angle), np.sin(angle)], axis=-1)


def _closed(corners: Array) -> Pieces:
    return straight(np.concatenate([corners, np.roll(corners, -1, axis=1)], axis=-1))


def _outline(shape: Outline) -> Array:
    """Corners (1, corners, 2) about the section's centroid, counter-clockwise."""
    outer = np.array(shape.corners, dtype=float)
    area, moment = _area(outer)
    total, first = abs(area), moment * np.sign(area)
    for hole in shape.holes:
        inner, of_inner = _area(np.array(hole, dtype=float))
        total, first = total - abs(inner), first - of_inner * np.sign(inner)
    found: Array = (outer if area > 0.0 else outer[::-1])[None] - first / total
    return found


def _area(corners: Array) -> tuple[float, Array]:
    """Signed area and first moment of a polygon."""
    after = np.roll(corners, -1, axis=0)
    cross = corners[:, 0] * after[:, 1] - after[:, 0] * corners[:, 1]
    return float(cross.sum()) / 2.0, ((corners + after) * cross[:, None]).sum(axis=0) / 6.0


def _why(weld: Weld, shape: Shape | None) -> str:
    kind = "no section" if shape is None else type(shape).__name__.lower()
    if weld.pattern == "sides" and isinstance(shape, Tube | Bar):
        return f"a {kind} has no two sides to weld along; use pattern around, or give lines"
    if weld.pattern in ("sides", "around"):
        return f"pattern {weld.pattern} needs a section with an outline, not {kind}; give lines"
    return f"unknown pattern {weld.pattern!r}: use around, sides or lines"
