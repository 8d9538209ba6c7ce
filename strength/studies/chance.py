"""What counts of many draws: quantiles, the chance of exceeding, and which input matters."""

import numpy as np
from numpy.typing import NDArray

from strength.studies.screened import ROUNDING
from strength.values import frozen

Array = NDArray[np.float64]

QUANTILES = (0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99)
CONFIDENCE = 0.95


@frozen(kw_only=True)
class Chance:
    """Of the worst utilisation: quantiles, and the chance that it is over 1.

    quantiles: share of draws -> what this share stays under. over: draws with something over its limit.
    chance: that share; low, high: its confidence interval.
    """

    quantiles: dict[float, float]
    over: int
    chance: float
    low: float
    high: float


def chance_of(worst: Array) -> Chance:
    """Quantiles, and the share of draws over 1 with its exact binomial interval (Clopper & Pearson 1934)."""
    counted = np.where(np.isnan(worst), np.inf, worst)
    over = int(np.count_nonzero(counted > 1.0 + ROUNDING))
    low, high = interval(over, counted.size)
    ordered = np.sort(counted)
    return Chance(
        quantiles={
            share: float(ordered[min(int(np.ceil(share * ordered.size)) - 1, ordered.size - 1)])
            for share in QUANTILES
        },
        over=over,
        chance=over / counted.size,
        low=low,
        high=high,
    )


def interval(over: int, draws: int) -> tuple[float, float]:
    """Exact binomial interval of a share, by the beta distribution (Clopper & Pearson 1934)."""
    from scipy.special import betaincinv

    tail = (1.0 - CONFIDENCE) / 2.0
    low = float(betaincinv(over, draws - over + 1, tail)) if over else 0.0
    high = float(betaincinv(over + 1, draws - over, 1.0 - tail)) if over < draws else 1.0
    return low, high


def rank_correlations(inputs: Array, worst: Array) -> tuple[float, ...]:
    """Rank correlation of each input (draws, inputs) with the worst utilisation (draws,) (Spearman 1904).

    Of the draws that could be computed; () where these are too few or all alike.
    """
    known = np.isfinite(worst)
    if np.count_nonzero(known) < 3 or np.ptp(worst[known]) == 0.0:
        return ()
    y = ranks(worst[known])
    return tuple(float(np.corrcoef(ranks(own), y)[0, 1]) for own in inputs[known].T)


def ranks(values: Array) -> Array:
    """Ranks of values, equal ones sharing the mean of theirs."""
    _, own, count = np.unique(values, return_inverse=True, return_counts=True)
    return np.asarray((np.cumsum(count) - 0.5 * (count - 1.0))[own])
