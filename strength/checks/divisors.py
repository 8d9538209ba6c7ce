"""By what the strengths of bars are divided, bar by bar and load by load."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case
from strength.case.shape import Bar

if TYPE_CHECKING:
    from strength.checks.factors import Factors
    from strength.sections.bars import Bars

Array = NDArray[np.float64]

BRITTLE_BELOW = 0.10  # elongation under which a metal counts as brittle (own choice)


def is_stub_axle(case: Case, number: int) -> bool:
    """True for a round bar with a wheel's centre at one of its ends."""
    return number in _stub_axles(case)


def yield_divisors(case: Case, bars: "Bars", factors: "Factors") -> Array:
    """Divisors of the yield strength, (bars, loads, designs or 1)."""
    brittle = ~(bars.elongation >= BRITTLE_BELOW)  # unknown counts as brittle
    if (brittle == brittle[:1]).all():
        brittle = brittle[:1]
    brittle[:, list(_stub_axles(case))] = True
    kinds = ["" if metal is None else metal.kind for metal in bars.metals]
    of_kind = {kind: [factors.on_yield(kind, brittle=flag) for flag in (False, True)] for kind in set(kinds)}
    tough, careful = (np.stack([of_kind[kind][n] for kind in kinds])[:, :, None] for n in (0, 1))
    return np.where(brittle.T[:, None], careful, tough)


def _stub_axles(case: Case) -> set[int]:
    centres = {wheel.centre for wheel in case.wheels}
    return {
        number
        for number, member in enumerate(case.members)
        if isinstance(member.shape, Bar) and not centres.isdisjoint((member.start, member.end))
    }
