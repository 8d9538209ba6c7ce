"""Straight lines and arcs in the plane of a section: what weld lines are made of."""

import itertools

import numpy as np
from numpy.typing import NDArray

from strength.arrays import in_designs, spread
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@frozen(kw_only=True, eq=False)
class Pieces:
    """Pieces of a line, each base + delta u + radius (cos, sin)(first + span u), u from 0 to 1.

    Places are (y, z) in member axes [mm]. A straight piece has radius 0, an arc has delta 0.
    base, delta: (designs, pieces, 2). radius, first: (designs, pieces) [mm, rad].
    span: (pieces,) [rad].
    ends: (pieces,) True where the ends of a straight piece are places of their own; False where
    arcs that go on from it have them already.
    """

    base: Array
    delta: Array
    radius: Array
    first: Array
    span: Array
    ends: NDArray[np.bool_]

    @property
    def curved(self) -> NDArray[np.bool_]:
        """(pieces,) True for arcs."""
        return np.asarray(self.span != 0.0)

    def length(self) -> Array:
        """Length of each piece in the plane (designs, pieces) [mm]."""
        found: Array = np.linalg.norm(self.delta, axis=-1) + self.radius * np.abs(self.span)
        return found

    def some(self, rows: Index | slice) -> "Pieces":
        """Some rows of the line."""
        return evolve(
            self,
            base=self.base[rows],
            delta=self.delta[rows],
            radius=self.radius[rows],
            first=self.first[rows],
        )

    def of_designs(self, own: Index) -> "Pieces":
        """Those in some of the designs."""
        return evolve(
            self,
            base=in_designs(self.base, own),
            delta=in_designs(self.delta, own),
            radius=in_designs(self.radius, own),
            first=in_designs(self.first, own),
        )

    def places(self, u: Array) -> tuple[Array, Array]:
        """Every piece at the same u (n,): y and z (designs, pieces, n)."""
        y, z = self.base[..., :1] + self.delta[..., :1] * u, self.base[..., 1:] + self.delta[..., 1:] * u
        if self.curved.any():
            angle = self.first[..., None] + self.span[:, None] * u
            y += self.radius[..., None] * np.cos(angle)
            z += self.radius[..., None] * np.sin(angle)
        return y, z

    def all_at(self, u: Array) -> tuple[Array, Array, Array, Array]:
        """Every piece at the same u (n,): y, z and their derivatives, each (designs, pieces, n)."""
        by_y, by_z = self.delta[..., :1], self.delta[..., 1:]
        y, z = self.base[..., :1] + by_y * u, self.base[..., 1:] + by_z * u
        dy, dz = np.repeat(by_y, u.size, axis=2), np.repeat(by_z, u.size, axis=2)
        bent = np.flatnonzero(self.curved)
        if bent.size:
            own = slice(int(bent[0]), int(bent[-1]) + 1) if bent.size == np.ptp(bent) + 1 else bent
            angle = self.first[:, own, None] + self.span[own, None] * u
            radius, span = self.radius[:, own, None], self.span[own, None]
            east, north = radius * np.cos(angle), radius * np.sin(angle)
            y[:, own] += east
            z[:, own] += north
            dy[:, own] -= north * span
            dz[:, own] += east * span
        return y, z, dy, dz

    def chosen(self, row: Index, piece: Index) -> "Chosen":
        """Pieces by their numbers, of rows (both of a shape that broadcasts to that of `piece`)."""
        row = np.minimum(row, self.base.shape[0] - 1)
        base, delta = self.base[row, piece], self.delta[row, piece]
        return Chosen(
            y=base[..., :1],
            z=base[..., 1:],
            by_y=delta[..., :1],
            by_z=delta[..., 1:],
            radius=self.radius[row, piece][..., None],
            first=self.first[row, piece][..., None],
            span=self.span[piece][..., None],
        )

    def reach(self, towards: Array) -> Array:
        """Greatest of place . towards (designs, 2) over all pieces (designs,), in closed form."""
        size = np.linalg.norm(towards, axis=-1)
        run = (np.arctan2(towards[:, 1], towards[:, 0])[:, None] - self.first) % (2.0 * np.pi)
        y, z = self.places(np.array([0.0, 1.0]))
        ends: Array = (y * towards[:, 0, None, None] + z * towards[:, 1, None, None]).max(axis=(1, 2))
        middle = np.einsum("dki,di->dk", self.base, towards) + self.radius * size[:, None]
        tops = np.where((run < self.span) & (self.radius > 0.0), middle, -np.inf).max(axis=1)
        found: Array = np.maximum(ends, tops)
        return found


@frozen(kw_only=True, eq=False)
class Chosen:
    """Pieces of any lines, each (..., 1): base y, z, delta by_y, by_z, and the arcs of `Pieces`."""

    y: Array
    z: Array
    by_y: Array
    by_z: Array
    radius: Array
    first: Array
    span: Array

    def some(self, own: Index) -> "Chosen":
        """Some of them, by numbers along the first axis."""
        return Chosen(
            y=self.y[own],
            z=self.z[own],
            by_y=self.by_y[own],
            by_z=self.by_z[own],
            radius=self.radius[own],
            first=self.first[own],
            span=self.span[own],
        )

    def places(self, u: Array) -> tuple[Array, Array]:
        """At u (..., n): y and z (..., n)."""
        angle = self.first + self.span * u
        y, z = self.by_y * u, self.by_z * u
        y += self.y
        z += self.z
        y += self.radius * np.cos(angle)
        z += self.radius * np.sin(angle)
        return y, z

    def at(self, u: Array) -> tuple[Array, Array, Array, Array]:
        """At u (..., n): y, z and their derivatives, each (..., n)."""
        angle = self.first + self.span * u
        east, north = self.radius * np.cos(angle), self.radius * np.sin(angle)
        return (
            self.y + self.by_y * u + east,
            self.z + self.by_z * u + north,
            self.by_y - north * self.span,
            self.by_z + east * self.span,
        )


def straight(lines: Array) -> Pieces:
    """Straight pieces from (designs, pieces, 4), each y1 z1 y2 z2 [mm]."""
    designs, count = lines.shape[:2]
    return Pieces(
        base=lines[..., :2],
        delta=lines[..., 2:] - lines[..., :2],
        radius=np.zeros((designs, count)),
        first=np.zeros((designs, count)),
        span=np.zeros(count),
        ends=np.ones(count, dtype=bool),
    )


def arcs(centre: Array, radius: Array, first: Array, span: Array) -> Pieces:
    """Arcs: centre (designs, pieces, 2), radius (designs, pieces) [mm].

    first, span: (pieces,) [rad], from y toward z.
    """
    return Pieces(
        base=centre,
        delta=np.zeros_like(centre),
        radius=radius,
        first=spread(first, radius.shape),
        span=span,
        ends=np.zeros(first.size, dtype=bool),
    )


def together(*parts: Pieces) -> Pieces:
    """All pieces of several sets as one."""
    return Pieces(
        base=np.concatenate([part.base for part in parts], axis=1),
        delta=np.concatenate([part.delta for part in parts], axis=1),
        radius=np.concatenate([part.radius for part in parts], axis=1),
        first=np.concatenate([part.first for part in parts], axis=1),
        span=np.concatenate([part.span for part in parts]),
        ends=np.concatenate([part.ends for part in parts]),
    )


def split_at(pieces: Pieces, angles: tuple[float, ...]) -> Pieces:
    """The same line with its arcs cut where their angle is one of `angles` (modulo a turn).

    Its arcs begin at the same angles in all designs.
    """
    starts: list[float] = []
    spans: list[float] = []
    number: list[int] = []
    for n, (start, span) in enumerate(zip(pieces.first[0].tolist(), pieces.span.tolist(), strict=True)):
        cuts = [(angle - start) % (2.0 * np.pi) for angle in angles]
        bounds = [0.0, *sorted(cut for cut in cuts if 1e-9 < cut < span - 1e-9), span]
        for a, b in itertools.pairwise(bounds):
            starts.append(start + a)
            spans.append(b - a)
            number.append(n)
    own = np.array(number, dtype=np.intp)
    return Pieces(
        base=pieces.base[:, own],
        delta=pieces.delta[:, own],
        radius=pieces.radius[:, own],
        first=np.broadcast_to(np.array(starts), (pieces.base.shape[0], own.size)),
        span=np.array(spans),
        ends=pieces.ends[own],
    )


def stacked(parts: tuple[Pieces, ...], designs: int) -> Pieces:
    """Lines of the same make-up behind one another along the first axis, `designs` rows each."""

    def rows(name: str) -> Array:
        arrays = [getattr(part, name) for part in parts]
        return np.concatenate([spread(a[:designs], (designs, *a.shape[1:])) for a in arrays])

    return Pieces(
        base=rows("base"),
        delta=rows("delta"),
        radius=rows("radius"),
        first=rows("first"),
        span=parts[0].span,
        ends=parts[0].ends,
    )
