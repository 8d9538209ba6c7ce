"""Three views of the structure as SVG: what stands badly is thick, dashed its own way and numbered."""

from collections.abc import Sequence
from html import escape

import numpy as np
from numpy.typing import NDArray

from strength.report.document import plain
from strength.report.outline import Stroke
from strength.report.standing import Standing
from strength.report.words import STANDING_WORDS
from strength.values import frozen

Array = NDArray[np.float64]

WIDTH = 1000.0
GAP, EDGE, TITLE = 60.0, 24.0, 22.0
TALLEST = 420.0  # of one view
TAG = 9.0  # radius of a numbered tag
# standing -> colour, width, dashes; None: not checked
LOOKS: dict[Standing | None, tuple[str, float, str]] = {
    Standing.OVER: ("#b3001b", 6.0, ""),
    Standing.RANGE: ("#6f2da8", 4.5, "1.5 6"),
    Standing.THIN: ("#a86200", 4.5, "11 5"),
    Standing.WITHIN: ("#2d5f73", 3.0, ""),
    None: ("#8a8a8a", 2.0, "4 4"),
}
# corners of a joint's mark; the others are a ring
SHAPES: dict[Standing | None, tuple[tuple[float, float], ...]] = {
    Standing.OVER: ((-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)),
    Standing.RANGE: ((0.0, -7.0), (7.0, 0.0), (0.0, 7.0), (-7.0, 0.0)),
    Standing.THIN: ((0.0, -6.5), (6.0, 4.5), (-6.0, 4.5)),
}
# title, body axis across, body axis up; across to the right, up upward
FACES = (
    ("from the right", 0, 2),
    ("from the front", 1, 2),
    ("from above, front to the right", 0, 1),
)


@frozen(eq=False)
class Face:
    """One view: its title, which body axes it shows, and where it stands on the sheet."""

    title: str
    across: int
    up: int
    left: float
    top: float
    scale: float
    corner: Array  # (3,) least of the structure
    height: float

    def place(self, points: Array) -> Array:
        """Places (n, 3) on the sheet (n, 2)."""
        x = self.left + (points[:, self.across] - self.corner[self.across]) * self.scale
        y = self.top + self.height - (points[:, self.up] - self.corner[self.up]) * self.scale
        return np.stack([x, y], axis=1)


def views(strokes: Sequence[Stroke]) -> tuple[str, float]:
    """SVG elements of the three views and the height they take; WIDTH wide."""
    if not strokes:
        return "", 0.0
    faces, height = _faces(np.concatenate([stroke.places for stroke in strokes]))
    return "\n".join(_face(face, strokes) for face in faces), height


def _faces(points: Array) -> tuple[list[Face], float]:
    """Where the views stand: side and front beside each other, the top view below."""
    corner, size = points.min(axis=0), np.ptp(points, axis=0)
    across = float(size[0] + size[1]) or 1.0
    tall = float(max(size[1], size[2])) or 1.0
    scale = min((WIDTH - 2.0 * EDGE - GAP) / across, TALLEST / tall)
    length, breadth, rise = (float(v) * scale for v in size)
    spare = max(WIDTH - 2.0 * EDGE - GAP - length - breadth, 0.0) / 2.0
    left, top = EDGE + spare, TITLE + EDGE
    below = top + rise + GAP
    spots = ((left, top, rise), (left + length + GAP, top, rise), (left, below, breadth))
    faces = [
        Face(title, a, u, x, y, scale, corner, height)
        for (title, a, u), (x, y, height) in zip(FACES, spots, strict=True)
    ]
    return faces, below + breadth + EDGE


def _face(face: Face, strokes: Sequence[Stroke]) -> str:
    """One view with its title, its lines and its tags."""
    parts = [f'<text x="{face.left:.1f}" y="{face.top - 14.0:.1f}" class="face">{escape(face.title)}</text>']
    taken: list[tuple[float, float]] = []
    tags = []
    for stroke in strokes:
        spots = face.place(stroke.places)
        parts.append(_stroke(stroke, spots))
        if stroke.tag:
            tags.append(_tag(stroke, spots.mean(axis=0), taken))
    return "<g>" + "".join(parts + tags) + "</g>"


def _stroke(stroke: Stroke, spots: Array) -> str:
    """One line or mark, with its name and utilisation to be read on pointing at it."""
    colour, width, dashes = LOOKS[stroke.standing]
    told = plain(stroke.name)
    if stroke.utilisation is not None and stroke.standing is not None:
        told += f": utilisation {stroke.utilisation:.2f}, {STANDING_WORDS[stroke.standing]}"
    elif stroke.kind != "wheel":
        told += ": not checked"
    title = f"<title>{escape(told)}</title>"
    if stroke.kind == "joint":
        return _mark(stroke, spots[0], title)
    path = "M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in spots)
    if stroke.kind == "wheel":
        return f'<path d="{path}" fill="none" stroke="#c4c4c4" stroke-width="1.5">{title}</path>'
    width = 1.5 if stroke.kind == "rigid" else width * (0.7 if stroke.kind == "strut" else 1.0)
    dash = f' stroke-dasharray="{dashes}"' if dashes else ""
    return (
        f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width:.1f}" '
        f'stroke-linecap="round"{dash}>{title}</path>'
    )


def _mark(stroke: Stroke, spot: Array, title: str) -> str:
    """A joint: square over the limit, diamond out of range, triangle thin, else a small ring."""
    x, y = spot
    colour = LOOKS[stroke.standing][0]
    if stroke.standing in SHAPES:
        path = "L".join(f"{x + a:.1f} {y + b:.1f}" for a, b in SHAPES[stroke.standing])
        return f'<path d="M{path}z" fill="{colour}" stroke="#fff">{title}</path>'
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2.6" fill="#fff" stroke="{colour}">{title}</circle>'


def _tag(stroke: Stroke, spot: Array, taken: list[tuple[float, float]]) -> str:
    """The number of one of the worst parts, beside it and clear of other tags."""
    x, y = float(spot[0]), float(spot[1])
    ways = [(0, -1), (1, -0.6), (-1, -0.6), (1, 0.6), (-1, 0.6), (0, 1)]
    spots = [(x + far * a, y + far * b) for far in (20.0, 34.0, 50.0, 70.0) for a, b in ways]
    clear = (
        (a, b)
        for a, b in spots
        if TAG < a < WIDTH - TAG and all(np.hypot(a - c, b - d) > 2.2 * TAG for c, d in taken)
    )
    a, b = next(clear, spots[0])
    taken.append((a, b))
    colour = LOOKS[stroke.standing][0]
    return (
        f'<path d="M{x:.1f} {y:.1f}L{a:.1f} {b:.1f}" stroke="{colour}"/>'
        f'<circle cx="{a:.1f}" cy="{b:.1f}" r="{TAG}" fill="#fff" stroke="{colour}" stroke-width="1.5"/>'
        f'<text x="{a:.1f}" y="{b + 4.0:.1f}" class="tag" fill="{colour}">{stroke.tag}</text>'
    )
