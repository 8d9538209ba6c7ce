"""Welds as lines: length, centroid and spread, and the frame at any place of a line.

Places and directions are in the welded member's axes, from the middle of the weld plane [mm].
"""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import cross, distinct, spread
from strength.joints.pieces import Index, Pieces
from strength.joints.quadrature import nodes_for, nodes_needed
from strength.joints.saddle import STEEP, Cylinder
from strength.values import frozen

Array = NDArray[np.float64]
PER_PIECE = 9  # of a quarter of a circle
PER_SHORT = 5  # of the sides and small corners of boxes and flats
PER_STEEP = 25
TURN = 0.3
NEAR_END = 1e-5
EQUAL = 0.999999  # reach from which tubes count as equal


@frozen(kw_only=True, eq=False)
class WeldLine:
    """The line of one weld in all designs, or of several welds of one make-up behind one another.

    length: (designs,) [mm]. centroid: (designs, 3) [mm]. spread: (designs, 3, 3), the integral of
    q^2 1 - q q^T along the line about the centroid [mm^3]. reach: (designs,) of a saddle, the greatest
    distance from the host's axis over its radius.
    """

    pieces: Pieces
    cylinder: Cylinder | None
    length: Array
    centroid: Array
    spread: Array
    reach: Array

    def some(self, rows: slice) -> "WeldLine":
        """Some rows of the line."""
        return WeldLine(
            pieces=self.pieces.some(rows),
            cylinder=None if self.cylinder is None else self.cylinder.some(rows),
            length=self.length[rows],
            centroid=self.centroid[rows],
            spread=self.spread[rows],
            reach=self.reach[rows],
        )

    @property
    def curved(self) -> NDArray[np.bool_]:
        """(pieces,) True where the piece is not a straight line in space."""
        return self.pieces.curved if self.cylinder is None else np.ones(self.pieces.span.size, dtype=bool)

    @property
    def steep(self) -> bool:
        """Whether a saddle turns so fast that it needs a closer look."""
        return self.cylinder is not None and bool(np.any(self.reach > STEEP))

    @property
    def per_piece(self) -> int:
        """Places of a curved piece that are looked at to begin with."""
        return PER_STEEP if self.steep else self.per_gentle_piece

    @property
    def per_gentle_piece(self) -> int:
        """The same where nothing turns fast."""
        return PER_PIECE if self.pieces.curved.all() else PER_SHORT

    def all_at(self, u: Array) -> tuple[Array, Array]:
        """Place and frame of all pieces at u (n,): (designs, pieces, n, 3) and (..., 3, 3).

        Rows of a frame: x (the member's axis made normal to the line), s (along the line),
        n = s cross x.
        """
        place, run = in_space(self.cylinder, *self.pieces.all_at(u))
        return place, frame(run)

    def spaced(self, v: Array, row: Index) -> Array:
        """Places u for v (..., n) from 0 to 1 on rows (...): on a steep saddle closer toward a piece's ends.

        A saddle of reach k turns within some sqrt(1 - k) of a piece's end, which tanh stretches out. Kept off
        the very ends where two tubes are as good as equal, and their saddle has no tangent there.
        """
        if not self.steep:
            return v
        reach = self.reach[row][..., None]
        off = np.where(reach > EQUAL, NEAR_END, 0.0)
        stretch = -0.5 * np.log(TURN * np.sqrt(1.0 - np.minimum(reach, EQUAL)))
        u = 0.5 + 0.5 * np.tanh(stretch * (2.0 * v - 1.0)) / np.tanh(stretch)
        return np.where(reach > STEEP, off + (1.0 - 2.0 * off) * u, v)


def in_space(cylinder: Cylinder | None, y: Array, z: Array, dy: Array, dz: Array) -> tuple[Array, Array]:
    """Places and derivatives (...) in the section's plane, lifted onto the host's surface (..., 3)."""
    if cylinder is None:
        x = dx = np.zeros_like(y)
    else:
        x, dx = cylinder.lift(y, z, dy, dz)
    return np.stack([x, y, z], axis=-1), np.stack([dx, dy, dz], axis=-1)


def frame(run: Array) -> Array:
    """Rows x, s, n at places where the line runs along `run` (..., 3).

    >>> (frame(np.array([0.0, 0.0, 2.0])) + 0.0).tolist()
    [[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, 1.0, 0.0]]
    """
    size = np.linalg.norm(run, axis=-1, keepdims=True)
    s = run / np.where(size > 0.0, size, 1.0)
    x = -s[..., :1] * s
    x[..., 0] += 1.0
    tall = np.linalg.norm(x, axis=-1, keepdims=True)
    x = x / np.where(tall > 0.0, tall, 1.0)
    return np.stack([x, s, cross(s, x)], axis=-2)


def measured(pieces: Pieces, cylinder: Cylinder | None = None, reach: Array | None = None) -> WeldLine:
    """A line with its length, centroid and spread: closed forms in a plane, quadrature on a saddle.

    reach: of the saddle where it is known.
    """
    if cylinder is None:
        length, first, second = _in_plane(pieces)
        reach = np.zeros(length.size)
    else:
        reach = cylinder.reach(pieces) if reach is None else reach
        length, first, second = _on_cylinder(pieces, cylinder, reach)
    centroid = first / np.where(length > 0.0, length, 1.0)[:, None]
    about = second - length[:, None, None] * centroid[:, :, None] * centroid[:, None]
    spread = np.trace(about, axis1=1, axis2=2)[:, None, None] * np.eye(3) - about
    return WeldLine(
        pieces=pieces, cylinder=cylinder, length=length, centroid=centroid, spread=spread, reach=reach
    )


def _in_plane(pieces: Pieces) -> tuple[Array, Array, Array]:
    """Length, first and second moments (designs, 3, 3) of lines and arcs in the plane x = 0."""
    base, delta, radius = pieces.base, pieces.delta, pieces.radius
    a, b = pieces.first, pieces.first + pieces.span
    sense = np.sign(pieces.span)
    half = spread(pieces.span / 2.0, a.shape)
    turn = np.stack([np.sin(b) - np.sin(a), np.cos(a) - np.cos(b)], axis=-1) * sense[:, None]
    twice = (np.sin(2.0 * b) - np.sin(2.0 * a)) / 4.0
    mixed = (np.sin(b) ** 2 - np.sin(a) ** 2) / 2.0
    square = np.stack([half + twice, mixed, mixed, half - twice], axis=-1).reshape(*a.shape, 2, 2)
    square = square * sense[:, None, None]
    run, bend = np.linalg.norm(delta, axis=-1), radius * np.abs(pieces.span)
    own = run + bend
    first = run[..., None] * (base + delta / 2.0) + bend[..., None] * base + (radius**2)[..., None] * turn
    cross = base[..., None] * (run[..., None] * delta / 2.0 + (radius**2)[..., None] * turn)[..., None, :]
    second = (
        own[..., None, None] * base[..., None] * base[..., None, :]
        + cross
        + np.swapaxes(cross, -1, -2)
        + run[..., None, None] * delta[..., None] * delta[..., None, :] / 3.0
        + (radius**3)[..., None, None] * square
    )
    designs = base.shape[0]
    flat, deep = np.zeros((designs, 3)), np.zeros((designs, 3, 3))
    flat[:, 1:], deep[:, 1:, 1:] = first.sum(axis=1), second.sum(axis=1)
    return own.sum(axis=1), flat, deep


def _on_cylinder(pieces: Pieces, cylinder: Cylinder, reach: Array) -> tuple[Array, Array, Array]:
    """The same by quadrature, each row with as many nodes as it needs."""
    size = nodes_needed(reach)
    needs = distinct(size)
    if needs.size == 1:
        return _moments(pieces, cylinder, float(reach.max()))
    length, first, second = np.empty(reach.size), np.empty((reach.size, 3)), np.empty((reach.size, 3, 3))
    for need in needs.tolist():
        own = np.flatnonzero(size == need)
        found = _moments(pieces.some(own), cylinder.some(own), float(reach[own].max()))
        length[own], first[own], second[own] = found
    return length, first, second


def _moments(pieces: Pieces, cylinder: Cylinder, reach: float) -> tuple[Array, Array, Array]:
    nodes, weights = nodes_for(reach)
    y, z, dy, dz = pieces.all_at(nodes)
    x, dx = cylinder.lift(y, z, dy, dz)
    step = np.sqrt(dx * dx + dy * dy + dz * dz)
    step *= weights
    rows = step.shape[0]
    place = np.stack([np.ones_like(x), x, y, z], axis=1).reshape(rows, 4, -1)
    found = (place * step.reshape(rows, 1, -1)) @ np.swapaxes(place, 1, 2)  # of 1, x, y, z by 1, x, y, z
    return found[:, 0, 0], found[:, 0, 1:], found[:, 1:, 1:]


def worst_face_angle(line: WeldLine, host_face: Array) -> Array:
    """|cosine| of the angle between the two welded faces where it is furthest from square: (designs,).

    host_face: (designs, 3) outward normal of a flat host face, 0 where it is not known (then 0
    is found); a round host's own normal is taken at each place.
    """
    grid = np.linspace(0.0, 1.0, line.per_gentle_piece)
    u = line.spaced(grid, np.argmax(line.reach, keepdims=True)).reshape(-1)
    y, z, dy, dz = line.pieces.all_at(u)
    size = np.hypot(dy, dz)
    if line.cylinder is None:
        ny, nz = (host_face[:, None, None, n] for n in (1, 2))
    else:
        ny, nz = line.cylinder.outward(y, z)
    cosine = (dz * ny - dy * nz) / np.where(size > 0.0, size, 1.0)
    return np.asarray(np.abs(cosine).max(axis=(1, 2)))
