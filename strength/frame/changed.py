"""Many designs that differ in a few segments, all worked out from one frame, exactly.

K is a sum of (stiffness x constant matrix), so such designs are changes of low rank of one frame: that which
has the least of every stiffness. Each pattern whose stiffness varies pushes on that frame as one more load;
how hard it pushes in each design follows from a small system, and the rest is a sum of loads (Woodbury 1950,
from memory). From the least, since nothing is then taken away and no small system is near to singular.
"""

import numpy as np

from strength.arrays import greatest
from strength.case.model import Case
from strength.errors import SolveError
from strength.frame.assembly import LARGE
from strength.frame.balance import BALANCED, LEAST, check_balance, refuse, unheld
from strength.frame.links import Links
from strength.frame.plan import Plan
from strength.frame.recovery import Recovered, displacements, reactions
from strength.frame.response import Alike, Array, Index, Layout, Response
from strength.values import frozen

MANY = 12  # designs from which it is quicker than every design by itself
FEW = 36  # patterns that vary, at most
RANGE = 1e6  # of a stiffness: as far as trials held it to 1e-12
STILL = 1e-12  # of the greatest force or moment in the frame: a change that is round-off


@frozen(kw_only=True, eq=False)
class Change:
    """How designs differ from the softest frame.

    softest: (1, segments, 6) the least of each stiffness. segment, pattern: (varied,) whose stiffness varies.
    gain: (designs, varied) its gain over the least. unit: (varied,) how great a push of each pattern is in
    `loads`. loads: (freedoms, 1, loads and varied) those of the designs, then the pushes; scaled.
    """

    softest: Array
    segment: Index
    pattern: Index
    gain: Array
    unit: Array
    loads: Array

    @property
    def count(self) -> int:
        """How many loads the designs have."""
        return int(self.loads.shape[2] - self.segment.size)

    def respond(
        self, case: Case, layout: Layout, ready: Plan, base: Recovered, gauge: Array | None
    ) -> Response:
        """The response of all designs from that of the softest frame, as `recover` gives it for `loads`.

        Raises SolveError where a design is out of balance.
        """
        moves, pattern_force, left = base
        check_balance(layout, ready, self.loads, base)
        own = pattern_force[self.segment, self.pattern, 0]  # (varied, loads and varied)
        stretch = self._stretches(own)
        push = stretch * self.gain.T[:, :, None] / self.unit[:, None, None]  # (varied, designs, loads)
        self._refuse(ready, left, push)
        forces, alike = self._forces(ready.links, pattern_force, push)
        return Response(
            displaced=lambda: displacements(ready, self._summed(moves, push), gauge),
            forces=forces,
            reactions=self._reactions(case, ready.links, left, push),
            alike=alike,
        )

    def _stretches(self, own: Array) -> Array:
        """Deformation of each pattern that varies (varied, designs, loads).

        own: (varied, loads and varied) what it carries in the softest frame.
        """
        root = np.sqrt(self.softest[0, self.segment, self.pattern])
        strain = own / root[:, None]  # times the root: all of one size
        free, shared = strain[:, : self.count], strain[:, self.count :] / self.unit * root
        gain = self.gain / root**2
        system = shared * gain[:, None] + np.eye(root.size)
        found = np.linalg.solve(system, np.broadcast_to(free, (gain.shape[0], *free.shape)))
        wrong = np.abs(system @ found - free).max(axis=(0, 1), initial=0.0)
        if not np.all(wrong <= BALANCED * np.abs(free).max(axis=0, initial=0.0)):
            raise SolveError("a change of the frame is not solved to 1e-9")
        return np.asarray(found.transpose(1, 0, 2) / root[:, None, None])

    def _refuse(self, ready: Plan, left: Array, push: Array) -> None:
        """Raise SolveError where what is left over at some free point may be too much in a design."""
        rest = greatest(left[unheld(ready)])[0]
        added = np.tensordot(rest[self.count :], np.abs(push), axes=1)
        scale = np.maximum(greatest(self.loads[..., : self.count]), LEAST)
        refuse(rest[: self.count] + added, scale, "a point")

    def _summed(self, columns: Array, push: Array) -> Array:
        """Of all designs (n, designs, loads), from the softest frame's columns (n, 1, loads and varied)."""
        flat = columns[:, 0]
        return np.asarray(flat[:, None, : self.count] - np.tensordot(flat[:, self.count :], push, axes=1))

    def _reactions(self, case: Case, links: Links, left: Array, push: Array) -> Array:
        """Of all designs, (designs, loads, supports, 6): they are sums as well."""
        own = reactions(case, links, left)[0]  # (loads and varied, supports, 6)
        return np.asarray(own[: self.count] - np.tensordot(push, own[self.count :], axes=(0, 0)))

    def _forces(self, links: Links, pattern_force: Array, push: Array) -> tuple[Array, Alike]:
        """Forces (designs, loads, segments, 2, 6), and which segments carry the same in all designs."""
        segments = links.pattern.shape[0]
        internal = links.pattern[:, :, :6] @ pattern_force[:, :, 0]
        free, change = internal[..., : self.count], internal[..., self.count :]
        # what a pattern pushes with, its own segment takes beside its share in the softest frame
        every = np.arange(self.segment.size)
        change[self.segment, :, every] -= links.pattern[self.segment, :, self.pattern] * self.unit[:, None]
        most = np.abs(change) @ np.abs(push).max(axis=(1, 2), initial=0.0)
        by_kind = (segments, 2, 2, 3)  # forces and moments at both ends
        most = most.reshape(by_kind).max(axis=(1, 3))
        size = np.abs(free).max(axis=2, initial=0.0).reshape(by_kind).max(axis=(0, 1, 3))
        still = np.all(most <= STILL * size, axis=1)
        designs, loads = push.shape[1:]
        found = np.empty((segments, 12, designs, loads))
        found[still] = free[still][:, :, None]
        moved = np.flatnonzero(~still)
        flat, pushes = found.reshape(segments, 12, -1), push.reshape(push.shape[0], designs * loads)
        for n in moved.tolist():
            own = found[n]
            np.matmul(change[n], pushes, out=flat[n])
            np.subtract(free[n][:, None], own, out=own)
        return found.reshape(segments, 2, 6, designs, loads).transpose(3, 4, 0, 1, 2), Alike(
            still=still, first=np.zeros(1, dtype=np.intp), kind=np.zeros(designs, dtype=np.intp)
        )


def changed(ready: Plan, coefficient: Array, forces: Array) -> Change | None:
    """Designs as changes of one frame, where that is quicker and as exact; None elsewhere.

    coefficient: (designs, segments, 6). forces: scaled loads (freedoms, designs or 1, loads).
    """
    designs = coefficient.shape[0]
    if designs < MANY or forces.shape[1] > 1 or ready.reduction.unknowns > LARGE:
        return None
    least, most = coefficient.min(axis=0), coefficient.max(axis=0)
    segment, pattern = np.nonzero(most > least)
    if segment.size > FEW or np.any(most > RANGE * least):
        return None
    links = ready.links
    push = np.zeros((links.freedoms, segment.size))
    at = links.freedom[segment]
    there = at >= 0
    column, side = np.nonzero(there)
    push[at[column, side], column] = links.vec[segment[column], pattern[column], side]
    unit = 1.0 / np.abs(push).max(axis=0, initial=0.0)
    return Change(
        softest=least[None],
        segment=segment,
        pattern=pattern,
        gain=coefficient[:, segment, pattern] - least[segment, pattern],
        unit=unit,
        loads=np.concatenate([forces[:, 0], push * unit], axis=1)[:, None],
    )
