"""What studies keep of verdicts: utilisations of rows of many designs, as arrays."""

import numpy as np
from numpy.typing import NDArray

from strength.checks.verdict import Verdict
from strength.values import frozen

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


@frozen(kw_only=True, eq=False)
class Uses:
    """Rows of a kind or more.

    names: part and kind of each. use: (rows, loads, designs), -inf where there is no row for a load.
    covered: (rows, designs), True where all loads that have the row are in its source's range.
    """

    names: tuple[tuple[str, str], ...]
    use: Array
    covered: Flags

    @staticmethod
    def of(verdicts: list[Verdict], designs: int, loads: int) -> "Uses":
        """What verdicts tell."""
        use = np.empty((len(verdicts), loads, designs))
        covered = np.ones((len(verdicts), designs), dtype=bool)
        for n, verdict in enumerate(verdicts):
            use[n] = verdict.utilisation.T
            if verdict.applies is not None:
                use[n, ~verdict.applies] = -np.inf
            if verdict.in_range is not None:
                told = verdict.in_range if verdict.applies is None else verdict.in_range | ~verdict.applies
                covered[n] = told.all(axis=1)
        return Uses(names=tuple((one.part, one.kind) for one in verdicts), use=use, covered=covered)


def joined(parts: list[Uses]) -> Uses:
    """Rows behind one another."""
    return Uses(
        names=tuple(name for part in parts for name in part.names),
        use=np.concatenate([part.use for part in parts]),
        covered=np.concatenate([part.covered for part in parts]),
    )
