"""`frame-buckling`: how far each load is from making the whole frame buckle."""

from collections.abc import Iterator

import numpy as np

from strength.checks.context import Context
from strength.checks.verdict import Array, Verdict

LEAST = 3.0  # EN 1993-1-1:2005 5.2.2(6): amplified first-order moments are good down to 3
ENOUGH = 10.0  # EN 1993-1-1:2005 5.2.1(3): from 10 on, first-order moments are good as they are
PART = "frame"


def amplification(alpha: Array) -> Array:
    """Factor on all bending moments, 1 / (1 - 1 / alpha) where 3 <= alpha < 10, else 1.

    alpha: elastic critical multiplier after its factor. EN 1993-1-1:2005 5.2.1 to 5.2.2.
    """
    safe = np.maximum(alpha, LEAST)
    return np.where((alpha >= LEAST) & (alpha < ENOUGH), 1.0 / (1.0 - 1.0 / safe), 1.0)


def frame_buckling(context: Context) -> Iterator[Verdict]:
    """One row per load with compression somewhere: u = 3 / alpha."""
    alpha = context.alpha
    applies = np.asarray(np.isfinite(alpha).any(axis=0))
    if not applies.any():
        return
    notes = tuple(_note(float(a), float(f)) for a, f in zip(alpha[0], context.amplified[0], strict=True))
    used = LEAST / alpha
    yield Verdict(
        part=PART,
        kind="frame-buckling",
        unit="1",
        fails="buckles",
        source="EN 1993-1-1:2005 5.2.1 and 5.2.2; elastic critical multiplier of the frame",
        demand=used,
        limit=np.ones_like(used),
        utilisation=used,
        places=("whole frame",),
        applies=applies,
        notes=notes,
    )


def _note(alpha: float, factor: float) -> str:
    if factor == 1.0:
        return f"critical multiplier {alpha:.3g} after its factor"
    return f"critical multiplier {alpha:.3g} after its factor; bending moments x {factor:.3g}"
