"""The true line where a member's outline meets a round host: the saddle of the two outer surfaces."""

import attrs
import numpy as np
from numpy.typing import NDArray

from strength.joints.pieces import Pieces

Array = NDArray[np.float64]


@attrs.frozen(kw_only=True, eq=False)
class Cylinder:
    """A round host seen in the welded member's axes, from the middle of the weld plane.

    through: a place on its axis [mm], direction: unit vector along it, radius: (designs,) [mm].
    into: +1 where the welded member stands toward +x of it, else -1.
    """

    through: Array
    direction: Array
    radius: Array
    into: float

    @property
    def across(self) -> Array:
        """Unit vector square to both axes; 0 where they are parallel."""
        found = np.array([0.0, -self.direction[2], self.direction[1]])
        size = float(np.linalg.norm(found))
        return found / size if size > 1e-9 else np.zeros(3)

    @property
    def turned(self) -> tuple[float, ...]:
        """Angles in the section where a circle comes nearest to missing the host, and halfway."""
        across = self.across
        start = float(np.arctan2(across[2], across[1]))
        return tuple(start + n * np.pi / 2.0 for n in range(4))

    def misses(self, pieces: Pieces) -> NDArray[np.bool_]:
        """(designs,) True where some of the outline passes beside the host."""
        across = self.across
        if not across.any():
            return np.ones(self.radius.size, dtype=bool)
        place, _ = pieces.all_at(np.array([0.0, 1.0]))
        off = (place @ across[1:] - across @ self.through).reshape(place.shape[0], -1)
        return np.asarray(np.any(np.abs(off) > self.radius[:, None] * (1.0 + 1e-9), axis=1))

    def lift(self, place: Array, along: Array) -> tuple[Array, Array]:
        """Height x of the host's surface over places (designs, ..., 2), and its derivative.

        along: derivative of place. With a = 1 - hx^2 and the distance tau of the ray from the axis,
        x = -b/a +- sqrt(a (R^2 - tau^2))/a, the root on the member's side.
        """
        h, across = self.direction, self.across
        a = float(h[1] ** 2 + h[2] ** 2)
        radius = self.radius.reshape(-1, *([1] * (place.ndim - 2)))
        off = _spatial(place) - self.through
        run = _spatial(along)
        tau = off @ across
        root = np.sqrt(np.maximum(a * (radius - tau) * (radius + tau), 0.0))
        b = off[..., 0] - (off @ h) * h[0]
        x = (-b + self.into * root) / a
        slope = -(run @ h) * h[0]
        steep = a * tau * (run @ across)
        safe = np.where(root > 0.0, root, 1.0)
        rise = np.where(root > 0.0, steep / safe, 0.0)
        return x, (-slope - self.into * rise) / a

    def outward(self, place: Array) -> Array:
        """Outward normal of the host at places (designs, ..., 3) on it."""
        off = place - self.through
        off = off - (off @ self.direction)[..., None] * self.direction
        found: Array = off / np.linalg.norm(off, axis=-1, keepdims=True)
        return found


def _spatial(place: Array) -> Array:
    return np.concatenate([np.zeros_like(place[..., :1]), place], axis=-1)
