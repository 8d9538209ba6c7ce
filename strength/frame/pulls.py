"""What segments take from the freedoms at their ends, summed point by point."""

import numpy as np

from strength.arrays import few
from strength.frame.links import Links
from strength.frame.response import Array, Index
from strength.values import frozen


@frozen(kw_only=True, eq=False)
class Meeting:
    """Points at which equally many segments' ends meet."""

    point: Index  # (own,)
    segment: Index  # (own, ends) numbers among those summed
    vec: Array  # (own, ends x 6, 6): a unit of each pattern on the point's freedoms


@frozen(kw_only=True, eq=False)
class Pulls:
    """Map from the pattern forces of some segments to the forces on all freedoms."""

    points: int
    freedoms: int
    segment: Index  # those summed
    meetings: tuple[Meeting, ...]
    hinge: Index  # (hinges,) freedoms, each of one segment
    hinged: Index  # (hinges,) numbers among those summed
    hinge_vec: Array  # (hinges, 6)

    def summed(self, pattern_force: Array) -> Array:
        """Forces (freedoms, designs, loads) N of pattern forces (own segments, 6, designs, loads)."""
        tail = pattern_force.shape[2:]
        flat = pattern_force.reshape(*pattern_force.shape[:2], -1)
        out = np.zeros((self.freedoms, flat.shape[2]))
        at = out[: 6 * self.points].reshape(self.points, 6, -1)
        for met in self.meetings:
            for some in few(met.point.size, met.vec.shape[1] * flat.shape[2]):
                ends = flat[met.segment[some]].reshape(-1, met.vec.shape[1], flat.shape[2])
                at[met.point[some]] = met.vec[some].transpose(0, 2, 1) @ ends
        if self.hinge.size:
            out[self.hinge] = np.einsum("hp,hpc->hc", self.hinge_vec, flat[self.hinged])
        return out.reshape(self.freedoms, *tail)


def plan_pulls(links: Links, segment: Index) -> Pulls:
    """Prepare the sum over some segments."""
    point = links.freedom[segment][:, [0, 6]].reshape(-1) // 6  # start, end, start, end...
    vec = links.vec[:, :6, :12].reshape(-1, 6, 2, 6)
    order = np.argsort(point, kind="stable")
    count = np.bincount(point, minlength=links.points)
    first = np.cumsum(count) - count
    meetings = []
    for ends in range(1, int(count.max(initial=0)) + 1):
        points = np.flatnonzero(count == ends)
        if points.size:
            end = order[first[points, None] + np.arange(ends)]
            units = vec[segment[end // 2], :, end % 2].reshape(points.size, 6 * ends, 6)
            meetings.append(Meeting(point=points, segment=end // 2, vec=units))
    number, side = np.nonzero(links.freedom[segment, 12:] >= 0)
    return Pulls(
        points=links.points,
        freedoms=links.freedoms,
        segment=segment,
        meetings=tuple(meetings),
        hinge=links.freedom[segment[number], 12 + side],
        hinged=number,
        hinge_vec=links.vec[segment[number], :6, 12 + side],
    )
