"""The few loads of a weld that may govern it, picked from a first look at few places of its line."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from strength.arrays import last_maxima
from strength.joints.contest import Contest
from strength.joints.forms import Forms
from strength.joints.samples import Frames
from strength.joints.weld_line import PER_PIECE, PER_SHORT, PER_STEEP
from strength.values import frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]

# Of the greatest height seen: one load's greatest height is not twice the best of it that is seen. A convex
# form is seen whole at the ends of sides; on a quarter of a circle, seen at its ends and middle, what turns
# twice as fast as the line loses 15 % at most, and only a part of the form turns faster on a gentle saddle.
SEEN = 0.5
# Places of a curved piece, by how many are for a close look.
LOOKS = {PER_PIECE: 3, PER_SHORT: 2, PER_STEEP: 9}


@frozen(kw_only=True, eq=False)
class Shortlist:
    """Loads that stay in contest.

    load: (rows, sets, kept) numbers within each set of rivals. height: (rows, loads) what is seen of all
    loads, of the highest form, for each group of forms.
    """

    load: Index
    rivals: int
    height: list[Array]

    @property
    def number(self) -> Index:
        """Of the loads kept among all: (rows, sets x kept)."""
        rows, sets, kept = self.load.shape
        first = (np.arange(sets) * self.rivals)[:, None]
        return (self.load + first).reshape(rows, sets * kept)

    def forms(self, group: Forms) -> Forms:
        """The forms for the loads kept."""
        if group.scales.ndim == 2:
            return group
        sizes = None if group.sizes is None else self.taken(group.sizes)
        return Forms(forms=group.forms, scales=self.taken(group.scales), sizes=sizes)

    def contest(self, contest: Contest) -> Contest:
        """The contest of the loads kept."""
        rows, sets, kept = self.load.shape
        factor = np.broadcast_to(
            contest.factor.reshape(len(contest.factor), -1, self.rivals), (rows, sets, self.rivals)
        )
        return Contest(
            rivals=kept, factor=np.take_along_axis(factor, self.load, axis=2).reshape(rows, sets * kept)
        )

    def taken(self, values: Array) -> Array:
        """The loads kept of values (rows, loads, n)."""
        rows, sets, kept = self.load.shape
        own = values.reshape(rows, sets, self.rivals, -1)
        return np.take_along_axis(own, self.load[..., None], axis=2).reshape(rows, sets * kept, -1)


def shortlisted(frames: Frames, force: Array, groups: Sequence[Forms], contest: Contest) -> Shortlist | None:
    """Loads that may govern any of the groups, of pulls (rows, loads, 6); None where these are not few."""
    samples = frames.few(LOOKS[frames.steps]).under(force)
    height = [np.maximum(last_maxima(samples.heights(group)).max(axis=1), 0.0) for group in groups]
    rows = force.shape[0]
    by = contest.factor.reshape(len(contest.factor), -1, contest.rivals)
    ranked = np.zeros((rows, height[0].shape[1] // contest.rivals, contest.rivals))
    for each in height:
        own = each.reshape(ranked.shape) * by
        best = own.max(axis=2, keepdims=True)
        np.maximum(ranked, own / np.where(best > 0.0, best, 1.0), out=ranked)
    kept = max(1, int((ranked >= SEEN).sum(axis=2).max()))
    if 2 * kept > contest.rivals:
        return None
    load = np.argpartition(-ranked, kept - 1, axis=2)[..., :kept]
    return Shortlist(load=np.sort(load, axis=2), rivals=contest.rivals, height=height)
