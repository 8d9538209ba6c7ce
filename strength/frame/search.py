"""Where the least height of a frame's shapes falls to nothing as its load grows, all items in step."""

import numpy as np

from strength.frame.response import Array, Flags, Index
from strength.values import evolve, frozen

SETTLED = 3e-6  # height beside that without load, and force left over: see `shapes`
FAR = -10.0  # height so far past the fall that its slope is of no use
CALM = 3  # looks in a row at which it stood at its bound: no shape is looked for any more
BELOW = 1.0 - 1e-9  # of the pole, as near as is looked
STEEP = -0.5  # fall times multiplier: -1 in a line, less where it speeds up, and no shape that fell has more
NOTHING = 1e-12  # softening that is round-off
FIRST = 0.98  # of the pole, as near as is looked at first


@frozen(kw_only=True, eq=False)
class Search:
    """Multipliers looked at next, and what the looks before have shown; all (items,)."""

    pole: Array  # multiplier at which a segment buckles by itself; inf: never
    small: Array  # a multiplier next to none
    at: Array
    stood: Array  # the greatest that stood, with the shapes there were
    high: Array  # the least that fell, or the pole
    near: Flags  # whether the height was next to nothing
    fell: Flags  # whether it has fallen already
    calm: Index  # looks in a row at which it stood at its bound

    @classmethod
    def begin(cls, pole: Array, small: Array) -> "Search":
        """That which looks at small multipliers."""
        nothing = np.zeros(pole.size, dtype=bool)
        return cls(
            pole=pole,
            small=small,
            at=small,
            stood=np.zeros(pole.size),
            high=BELOW * pole,
            near=nothing,
            fell=nothing,
            calm=np.zeros(pole.size, dtype=np.intp),
        )

    def first(self, height: Array) -> "Search":
        """With heights at the small multipliers, where they fall in a line.

        The first guess is the sum of line and pole by reciprocals, as in Rankine's formula for struts (from
        memory), which is beyond neither.
        """
        soft = np.maximum(1.0 - height, NOTHING)
        at = 1.0 / (soft / self.small + 1.0 / self.pole)
        at = np.where(np.isfinite(self.pole) | (soft > NOTHING), at, self.small)
        return evolve(self, at=np.minimum(at, FIRST * self.pole))

    @property
    def rests(self) -> Flags:
        """Whether it stood at its bound often enough."""
        return np.asarray(self.calm >= CALM)

    @property
    def found(self) -> Array:
        """Multipliers not below the true ones where no shape has settled, inf: none found."""
        return np.where(self.high >= BELOW * self.pole, self.pole, self.high)

    def after(self, height: Array, fall: Array) -> "Search":
        """With heights at the multipliers looked at, and how they fall there.

        1 / (1 - height) falls almost in a line of `at`, since the softening 1 - height grows in a line at
        first and without end at the pole. So the tangent to `at` times it is taken down to `at`.
        """
        at = self.at
        over = height < 0.0
        high = np.where(over, np.minimum(self.high, at), self.high)
        # Where it stood with fewer shapes it may not stand now: where it falls just above, look lower.
        stood = np.where(over, np.where(at - self.stood > 0.02 * at, self.stood, 0.5 * at), at)
        fell = self.fell | over
        soft = 1.0 - height
        falls = (soft > 0.0) & (fall < 0.0)
        soft, growth = np.where(falls, soft, 1.0), np.where(falls, -fall, 0.0)
        slope = (1.0 - at * growth / soft) / soft - 1.0
        falls &= slope < 0.0
        tangent = at - at * (1.0 / soft - 1.0) / np.where(falls, slope, -1.0)
        closer = np.where(at < 0.9 * self.pole, 0.1 * at + 0.9 * self.pole, high)
        beyond = np.where(fell, 0.5 * (at + high), closer)
        new = np.where(falls & (tangent > 0.0) & (tangent < high), tangent, beyond)
        new = np.where(over & (height < FAR), 0.5 * (stood + at), new)
        new = np.where(np.isfinite(new), new, self.small)
        return evolve(
            self,
            at=new,
            stood=stood,
            high=high,
            near=(np.abs(height) < SETTLED) & (at * fall < STEEP),
            fell=fell,
            calm=np.where((height > 0.0) & (at >= high), self.calm + 1, 0),
        )
