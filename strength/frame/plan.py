"""All that solving needs and that does not depend on sizes, prepared once for many designs."""

from collections.abc import Iterator, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from strength.arrays import cross
from strength.case.model import Case
from strength.frame.assembly import LARGE, Assembly, map_assembly
from strength.frame.blocks import Blocks, part
from strength.frame.fronts import Fronts, plan_fronts
from strength.frame.holds import Hold, find_holds, loose_points
from strength.frame.links import Links, link
from strength.frame.mechanism import refuse_mechanisms, refuse_pieces
from strength.frame.pulls import Pulls, plan_pulls
from strength.frame.reduction import Conditions, Reduction, alike, groups, reduce_freedoms, stack
from strength.frame.response import Array, Flags, Index, Layout
from strength.values import frozen

if TYPE_CHECKING:
    from strength.frame.envelope import Envelope

Exact = tuple[int, Index, Conditions]  # an undeformable segment, its patterns and what they say


@frozen(kw_only=True, eq=False)
class Shares:
    """How the force left over on freedoms is shared among exact segments' patterns (least norm)."""

    freedom: Index  # (columns,)
    segment: Index  # (rows,)
    pattern: Index  # (rows,)
    share: Array  # (rows, columns)


@frozen(kw_only=True, eq=False)
class Plan:
    """Freedoms, holds, exact constraints and the assembly map of one layout."""

    links: Links
    holds: tuple[Hold, ...]
    loose: Index  # points that no part touches
    reduction: Reduction
    assembly: Assembly
    shares: tuple[Shares, ...]
    pulls: Pulls  # of all segments
    exact_pulls: Pulls  # of the exact ones
    rigid_motions: Array | None  # (6, freedoms) scaled, where the body flies free

    @cached_property
    def fronts(self) -> Fronts:
        """The order of elimination of a small frame, planned when first asked for."""
        return plan_fronts(self.assembly)

    @cached_property
    def blocks(self) -> Blocks:
        """The blocks of a small frame."""
        return part(self.assembly, self.fronts)

    @cached_property
    def envelope(self) -> "Envelope":
        """Where the matrix of a large frame stands, planned when first asked for."""
        from strength.frame.envelope import narrow

        return narrow(self.assembly)


def plan(case: Case, layout: Layout) -> Plan:
    """Prepare a frame for solving; raises MechanismError where something can move freely."""
    links = link(case, layout)
    refuse_pieces(case, layout, links)
    out = planned(case, layout, links)
    if out.reduction.unknowns <= LARGE:  # else only where the factors look doubtful: see `solve`
        refuse_mechanisms(case, layout, links, out.reduction, out.assembly)
    return out


def planned(case: Case, layout: Layout, links: Links) -> Plan:
    """The plan of segments so joined, whether or not something can move freely."""
    holds, loose = find_holds(case, layout, links), loose_points(links)
    reduction, exact = constrain(links, holds, loose)
    motions = None
    if not case.supports:
        motions = rigid_motions(layout, links, loose)
        reduction = reduction.drop(steadiest(motions, reduction))
    return Plan(
        links=links,
        holds=holds,
        loose=loose,
        reduction=reduction,
        assembly=map_assembly(links, reduction),
        shares=_shares(exact),
        pulls=plan_pulls(links, np.arange(layout.bar.size)),
        exact_pulls=plan_pulls(links, np.flatnonzero(links.exact)),
        rigid_motions=motions,
    )


def constrain(links: Links, holds: Sequence[Hold], loose: Index) -> tuple[Reduction, list[Exact]]:
    """Hold what nothing needs, and eliminate what exact segments fix; and what these say."""
    held = links.held.copy()
    held[(6 * loose[:, None] + np.arange(6)).reshape(-1)] = True
    loose_ends = []
    for hold in holds:
        if np.count_nonzero(hold.weight) == 1:
            held[hold.freedom[np.flatnonzero(hold.weight)]] = True
        else:
            loose_ends.append((hold.freedom, hold.weight[None]))
    exact = [each for each in _exact(links, held) if each[2].weight.shape[0]]
    conditions = [own for _, _, own in exact]
    conditions += [
        own for freedom, weight in loose_ends if (own := _left(freedom, weight, held)[1]).weight.size
    ]
    return reduce_freedoms(held, conditions), exact


def rigid_motions(layout: Layout, links: Links, loose: Index) -> Array:
    """The six movements of the whole as one rigid body: (6, freedoms), scaled; 0 at loose points."""
    middle = layout.points.mean(axis=0)
    arm = layout.points - middle
    out = np.zeros((6, links.freedoms))
    at = out[:, : 6 * links.points].reshape(6, links.points, 6)
    for k, axis in enumerate(np.eye(3)):
        at[k, :, k] = 1.0
        at[3 + k, :, :3] = cross(axis, arm) / links.reach
        at[3 + k, :, 3 + k] = 1.0
    at[:, loose] = 0.0
    return out


def _left(freedom: Index, weight: Array, held: Flags) -> tuple[Index, Conditions]:
    """Which rows of size 1 still say something without held freedoms, and those rows."""
    free = ~held[freedom]
    rows = np.flatnonzero(np.max(np.abs(weight[:, free]), axis=1, initial=0.0) > 1e-12)
    return rows, Conditions(freedom=freedom[free], weight=weight[np.ix_(rows, np.flatnonzero(free))])


def _exact(links: Links, held: Flags) -> Iterator[Exact]:
    for s in np.flatnonzero(links.exact):
        there = links.freedom[s] >= 0
        yield int(s), *_left(links.freedom[s][there], links.rows[s][:, there], held)


def _shares(exact: Sequence[Exact]) -> tuple[Shares, ...]:
    together = groups([own for _, _, own in exact])
    stacked = [stack([exact[n][2] for n in group]) for group in together]
    matrices = [matrix.T for _, matrix in stacked]
    share: dict[int, Array] = {}
    for numbers in alike(matrices):
        found = np.linalg.pinv(np.stack([matrices[n] for n in numbers]), rcond=1e-9)
        share |= zip(numbers, found, strict=True)
    out = []
    for n, (group, (columns, _)) in enumerate(zip(together, stacked, strict=True)):
        patterns = [exact[m][1] for m in group]
        out.append(
            Shares(
                freedom=columns,
                segment=np.repeat([exact[m][0] for m in group], [own.size for own in patterns]),
                pattern=np.concatenate(patterns),
                share=share[n],
            )
        )
    return tuple(out)


def steadiest(motions: Array, reduction: Reduction) -> Index:
    """Six unknowns that, held, stop the rigid motions best (complete pivoting)."""
    work = np.zeros((6, reduction.unknowns))
    free = np.flatnonzero(reduction.place >= 0)
    work[:, reduction.place[free]] = motions[:, free]
    chosen = []
    for _ in range(6):
        size = np.abs(work)
        r, c = np.unravel_index(int(np.argmax(size)), size.shape)
        if size[r, c] < 1e-9:
            break
        pivot = work[r] / work[r, c]
        work -= np.outer(work[:, c], pivot)
        work[r] = 0.0
        chosen.append(int(c))
    return np.array(chosen, dtype=np.intp)
