"""Parts that carry the same in many designs: worked out once for each kind of designs."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from strength.frame.response import Layout, Response
    from strength.sections.bars import Bars

Flags = NDArray[np.bool_]

MANY = 3  # designs to each kind, at least, for kinds to be worth telling apart (own choice)


def still_bars(bars: "Bars", layout: "Layout", response: "Response") -> Flags:
    """Bars that are the same in all designs, and carry the same in those of a kind (bars,)."""
    alike = response.alike
    if alike is None or MANY * alike.first.size > alike.kind.size:
        return np.zeros(len(bars.names), dtype=bool)
    found = bars.alike.copy()
    found[layout.bar[~alike.still]] = False
    return found
