"""Everything a check may look at, gathered once per run."""

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.checks.divisors import yield_divisors
from strength.joints.seat import seats
from strength.values import frozen

if TYPE_CHECKING:
    from strength.case.model import Case
    from strength.checks.factors import Factors
    from strength.checks.stations import Stations
    from strength.frame.response import Layout, Response
    from strength.joints.draw import Lines
    from strength.joints.heat import HeatLength
    from strength.joints.seat import Seat
    from strength.sections.bars import Bars
    from strength.vehicle.sheet import Balanced

Array = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Context:
    """Inputs of every check. Load effects here are without the load factor."""

    case: "Case"
    loads: "tuple[Balanced, ...]"
    layout: "Layout"
    bars: "Bars"
    response: "Response"  # bending moments already amplified where frame buckling asks for it
    stations: "Stations"
    factors: "Factors"
    alpha: Array  # (designs, loads) critical multiplier of the frame over its factor; inf: none
    amplified: Array  # (designs, loads) factor on bending moments, 1 where none
    heat: "tuple[HeatLength, ...] | None" = None  # None: not kept, worked out where asked for
    lines: "Lines | None" = None  # of the welds; None likewise
    # only the greatest utilisation of each part and kind over the loads is asked for: others may be lower
    brief: bool = False

    @cached_property
    def load_names(self) -> tuple[str, ...]:
        """Names of all loads in order."""
        return tuple(load.name for load in self.loads)

    @cached_property
    def on_yield(self) -> Array:
        """Divisors of the yield strength of bars, (bars, loads, designs or 1)."""
        return yield_divisors(self.case, self.bars, self.factors)

    @cached_property
    def seats(self) -> "tuple[Seat, ...]":
        """Where each weld of the case sits, in order."""
        return seats(self.case, self.layout, self.bars) if self.lines is None else self.lines.seats

    @cached_property
    def raised(self) -> list[float]:
        """The factor on bending moments of the first design, by load."""
        factors: list[float] = self.amplified[0].tolist()
        return factors
