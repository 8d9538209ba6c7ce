"""The true line where a member's outline meets a round host: the saddle of the two outer surfaces."""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from strength.arrays import in_designs, spread
from strength.joints.pieces import Pieces
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

STEEP = 0.8  # reach from which a saddle turns fast, and is looked at more closely
WHOLE = 1.0 + 1e-9  # greatest reach of a member that does not miss its host


@frozen(kw_only=True, eq=False)
class Cylinder:
    """A round host seen in the welded member's axes, from the middle of the weld plane.

    through: (designs, 3) a place on its axis [mm], direction: (designs, 3) unit vector along it,
    radius: (designs,) [mm]. into: (designs,) +1 where the welded member stands toward +x of it,
    else -1.
    """

    through: Array
    direction: Array
    radius: Array
    into: Array

    def some(self, rows: Index | slice) -> "Cylinder":
        """Some rows of it."""
        return Cylinder(
            through=self.through[rows],
            direction=self.direction[rows],
            radius=self.radius[rows],
            into=self.into[rows],
        )

    def of_designs(self, own: Index) -> "Cylinder":
        """That in some of the designs."""
        return Cylinder(
            through=in_designs(self.through, own),
            direction=in_designs(self.direction, own),
            radius=in_designs(self.radius, own),
            into=in_designs(self.into, own),
        )

    @cached_property
    def across(self) -> Array:
        """Unit vector square to both axes (designs, 3); 0 where they are parallel."""
        h = self.direction
        found = np.stack([np.zeros(h.shape[0]), -h[:, 2], h[:, 1]], axis=-1)
        size = np.linalg.norm(found, axis=-1, keepdims=True)
        return np.where(size > 1e-9, found / np.maximum(size, 1e-9), 0.0)

    @property
    def turned(self) -> tuple[float, ...]:
        """Angles in the section where a circle comes nearest to missing the host, and halfway."""
        across = self.across[0]
        start = float(np.arctan2(across[2], across[1]))
        return tuple(start + n * np.pi / 2.0 for n in range(4))

    def reach(self, pieces: Pieces) -> Array:
        """Greatest distance of an outline, cut at `turned`, from the host's axis over its radius (designs,).

        inf where the member runs along the host.
        """
        across = self.across
        y, z = pieces.places(np.array([0.0, 1.0]))
        off = y * across[:, 1, None, None] + z * across[:, 2, None, None]
        off = off - np.sum(across * self.through, axis=-1)[:, None, None]
        found = np.abs(off).max(axis=(1, 2)) / self.radius
        return np.where(np.any(across, axis=-1), found, np.inf)

    def lift(self, y: Array, z: Array, dy: Array, dz: Array) -> tuple[Array, Array]:
        """Height x of the host's surface over places y, z (designs, ...), and its derivative.

        dy, dz: derivatives of the place. With a = 1 - hx^2 and the distance tau of the ray from the
        axis, x = -b/a +- sqrt(a (R^2 - tau^2))/a, the root on the member's side.
        """
        height, tau, root = self._root(y, z)
        wide = [1] * (y.ndim - 1)
        (_, ay, az), (_, my, mz) = (values.T.reshape(3, -1, *wide) for values in (self.across, self._slope))
        safe = np.where(root > 0.0, root, np.inf)
        rise = tau * (dy * ay + dz * az)
        rise /= safe
        return height, dy * my + dz * mz - self.into.reshape(-1, *wide) * rise

    def height(self, y: Array, z: Array) -> Array:
        """Height x of the host's surface over places y, z (designs, ...)."""
        return self._root(y, z)[0]

    @cached_property
    def _slope(self) -> Array:
        """Rise of the host's middle line over the section's plane (designs, 3), hx (hx, hy, hz)/a."""
        h = self.direction
        return h[:, :1] * h / (h[:, 1] ** 2 + h[:, 2] ** 2)[:, None]

    def _root(self, y: Array, z: Array) -> tuple[Array, Array, Array]:
        """x, tau and sqrt(a (R^2 - tau^2))."""
        wide = [1] * (y.ndim - 1)
        (_, ay, az), (_, my, mz), (px, py, pz) = (
            values.T.reshape(3, -1, *wide) for values in (self.across, self._slope, self.through)
        )
        h = self.direction
        square = (h[:, 1] ** 2 + h[:, 2] ** 2).reshape(-1, *wide)
        tau = y * ay
        tau += z * az
        tau -= py * ay + pz * az
        radius = self.radius.reshape(-1, *wide)
        root = (radius - tau) * (radius + tau)
        np.maximum(root, 0.0, out=root)
        root *= square
        np.sqrt(root, out=root)
        x = y * my
        x += z * mz
        x += px - py * my - pz * mz
        x += (self.into.reshape(-1, *wide) / square) * root
        return x, tau, root

    def outward(self, y: Array, z: Array) -> tuple[Array, Array]:
        """The host's outward normal, its y and z, over places y, z (designs, ...)."""
        _, tau, root = self._root(y, z)
        wide = [1] * (y.ndim - 1)
        (_, ay, az), (_, my, mz) = (values.T.reshape(3, -1, *wide) for values in (self.across, self._slope))
        rise = self.into.reshape(-1, *wide) * root
        radius = self.radius.reshape(-1, *wide)
        return (tau * ay - rise * my) / radius, (tau * az - rise * mz) / radius


def stacked(parts: tuple[Cylinder, ...], designs: int) -> Cylinder:
    """Hosts behind one another along the first axis, `designs` rows each."""

    def rows(name: str) -> Array:
        arrays = [getattr(part, name) for part in parts]
        return np.concatenate([spread(a[:designs], (designs, *a.shape[1:])) for a in arrays])

    return Cylinder(
        through=rows("through"), direction=rows("direction"), radius=rows("radius"), into=rows("into")
    )
