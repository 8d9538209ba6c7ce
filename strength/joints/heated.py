"""Whether a place on a bar lies in a heat-affected length, and what that leaves of a metal there."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.joints.heat import HeatLength, welded_factor
from strength.values import frozen

if TYPE_CHECKING:
    from strength.case.model import Case
    from strength.library.metal import Metal

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

NEAR = 1e-6  # mm: a boundary counts as heated


@frozen(kw_only=True, eq=False)
class Heated:
    """Places of one joint: inside a heat-affected length, (designs, places); factor on welded strengths.

    covered: False where a heat-affected length there has no rule for its width.
    """

    inside: Flags
    factor: Array
    covered: Flags

    def take(self, parent: Array, welded: Array) -> Array:
        """Strengths (designs, 1) at the places: the welded one times the factor where heated."""
        return np.where(self.inside, np.minimum(parent, welded * self.factor), parent)


def heated(
    case: "Case",
    heat: tuple[HeatLength, ...],
    metal: "Metal",
    bar: int,
    low: Array,
    high: Array,
    designs: int,
) -> Heated:
    """Heat on the stretches low..high (places,) [mm from `from`] of a bar, for a metal that lies there."""
    process = {weld.name: weld.process for weld in case.welds}
    inside = np.zeros((designs, low.size), dtype=bool)
    covered = np.ones((designs, low.size), dtype=bool)
    factor = np.ones((designs, low.size))
    for length in heat:
        if length.bar != bar:
            continue
        start, end = length.start[:, None], length.end[:, None]
        meets = (end > start) & (low <= end + NEAR) & (high >= start - NEAR)
        inside |= meets
        covered &= ~meets | length.in_range[:, None]
        factor = np.where(meets, np.minimum(factor, welded_factor(metal, process[length.weld])), factor)
    return Heated(inside=inside, factor=factor, covered=covered)


def merged(parts: "list[Heated]", designs: int, places: int) -> Heated:
    """Heat from several bars at the same places."""
    inside = np.zeros((designs, places), dtype=bool)
    covered = np.ones((designs, places), dtype=bool)
    factor = np.ones((designs, places))
    for part in parts:
        inside |= part.inside
        covered &= part.covered
        factor = np.minimum(factor, part.factor)
    return Heated(inside=inside, factor=factor, covered=covered)
