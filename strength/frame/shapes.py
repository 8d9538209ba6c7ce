"""Upper bounds of critical multipliers from a growing set of buckling shapes.

Ritz's method on the exact, load-dependent stiffness: whatever shapes are tried, the multiplier found is
never below the true one. Shapes are Lanczos's (1950, J. Res. Natl. Bur. Stand. 45:255, from memory): what
an axial load softens in one, softened by the frame's own flexibility, is the next. The load is that looked
at last, so that the frame near its fall shows how it falls; in between, what is out of balance in the
lowest combination is a shape too (nonlinear Arnoldi; Voss 2004, BIT 44:387, from memory). A dozen or two
are plenty. All items, each a load of some design, go in step until they have settled, and none changes
another's figures.
"""

import numpy as np

from strength.arrays import distinct, rows_of
from strength.frame.proof import BucklingPlan
from strength.frame.response import Array, Index
from strength.frame.search import SETTLED, Search
from strength.frame.softening import Softening
from strength.frame.trials import Trials

STRETCHES = (2, 4, *[2] * 16)  # shapes from one look at the multiplier to the next
ROOM = 6  # more shapes for which memory is taken at a time
STEP = 1e-4  # relative step for slopes


def upper_bounds(ready: BucklingPlan, softening: Softening, here: Index, push: Array) -> Array:
    """Multipliers (items,) not below the true ones, of compressions (items, segments) N; inf: none found.

    here: the design of each item, in rising order.
    """
    out = np.empty(here.size)
    item = np.arange(here.size)  # that has not settled
    pole = softening.limit(here, push)
    chosen = distinct(here)
    rest = softening.under(chosen, np.zeros((chosen.size, push.shape[1])))
    trials = Trials.of(ready, rest, np.searchsorted(chosen, here), ROOM)
    search = Search.begin(pole, np.where(np.isfinite(pole), pole, 1.0) * STEP)
    now, slope = _stiffness(softening, here, push, search)
    pull = np.tile(scattered(ready.assembly.unknowns), (item.size, 1))
    n = 0
    for stretch in STRETCHES:
        pull, movement, size = trials.moved(pull)
        settled = search.near & ~search.rests & (size < SETTLED)
        left = ~(settled | search.rests)
        if not left.all():
            out[item] = np.where(settled, search.at, search.found)
            item, here, push, search = item[left], here[left], push[left], rows_of(search, left)
            now, slope, pull, movement, size = (each[left] for each in (now, slope, pull, movement, size))
        if not item.size:
            break
        if item.size < left.size or n + stretch > trials.room:
            trials = trials.some(left, n, n + ROOM)
        trials.add(n, pull, movement, size)
        for k in range(n + 1, n + stretch):
            trials.add(k, *trials.moved(trials.pull(trials.stiff - now, trials.held[:, k - 1])))
        n += stretch
        lowest, height = trials.lowest(n, now)
        if n == stretch:  # next to no load all shapes are alike, so that the lowest is none yet
            search = search.first(height)
            now, slope = _stiffness(softening, here, push, search)
            pull = trials.pull(trials.stiff - now, trials.held[:, n - 1])
            continue
        search = search.after(height, np.einsum("lp,lp,lp->l", lowest, slope, lowest))
        pull = trials.pull(now, lowest)
        now, slope = _stiffness(softening, here, push, search)
    out[item] = search.found
    return out


def _stiffness(softening: Softening, here: Index, push: Array, search: Search) -> tuple[Array, Array]:
    """Stiffness at the multipliers looked at, and how it grows with them: (items, patterns)."""
    step = -STEP * np.minimum(search.at, np.where(np.isfinite(search.pole), search.pole - search.at, np.inf))
    at = np.append(search.at, search.at + step)
    pair = softening.under(np.tile(here, 2), at[:, None] * np.tile(push, (2, 1)))
    now, other = pair.reshape(2, here.size, -1)
    return now, (other - now) / step[:, None]


def scattered(rows: int) -> Array:
    """Forces without order, so that no buckling shape is at right angles to them: (rows,) in +-1/2.

    Fractional parts of n^2 sqrt(2), which have no period (Weyl); numpy's random numbers take 10 ms to load.
    """
    number = np.arange(1.0, rows + 1.0)
    return np.asarray(number**2 * np.sqrt(2.0) % 1.0 - 0.5)
