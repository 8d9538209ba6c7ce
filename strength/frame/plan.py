"""All that solving needs and that does not depend on sizes, prepared once for many designs."""

import attrs
import numpy as np

from strength.case.model import Case
from strength.frame.assembly import LARGE, Assembly, map_assembly
from strength.frame.holds import Hold, find_holds, loose_points, unit_rows
from strength.frame.links import Links, link
from strength.frame.mechanism import refuse_mechanisms, refuse_pieces
from strength.frame.reduction import Reduction, Row, groups, reduce_freedoms, stack
from strength.frame.response import Array, Flags, Index, Layout


@attrs.frozen(kw_only=True, eq=False)
class Shares:
    """How the force left over on freedoms is shared among exact segments' patterns (least norm)."""

    freedom: Index  # (columns,)
    segment: Index  # (rows,)
    pattern: Index  # (rows,)
    share: Array  # (rows, columns)


@attrs.frozen(kw_only=True, eq=False)
class Plan:
    """Freedoms, holds, exact constraints and the assembly map of one layout."""

    links: Links
    holds: tuple[Hold, ...]
    loose: Index  # points that no part touches
    reduction: Reduction
    assembly: Assembly
    shares: tuple[Shares, ...]
    rigid_motions: Array | None  # (6, freedoms) scaled, where the body flies free


@attrs.frozen(kw_only=True, eq=False)
class Constrained:
    """What holds and exact segments leave free, the rigid motions of a free body included."""

    holds: tuple[Hold, ...]
    loose: Index
    reduction: Reduction
    shares: tuple[Shares, ...]


def plan(case: Case, layout: Layout) -> Plan:
    """Prepare a frame for solving; raises MechanismError where something can move freely."""
    links = link(case, layout)
    refuse_pieces(case, layout, links)
    constrained = constrain(case, layout, links)
    reduction, motions = constrained.reduction, None
    if not case.supports:
        motions = rigid_motions(layout, links, constrained.loose)
        reduction = reduction.drop(steadiest(motions, reduction))
    assembly = map_assembly(links, reduction)
    out = Plan(
        links=links,
        holds=constrained.holds,
        loose=constrained.loose,
        reduction=reduction,
        assembly=assembly,
        shares=constrained.shares,
        rigid_motions=motions,
    )
    if reduction.unknowns <= LARGE:  # else only where the factors look doubtful: see `solve`
        refuse_mechanisms(case, layout, links, reduction, assembly)
    return out


def constrain(case: Case, layout: Layout, links: Links) -> Constrained:
    """Hold what nothing needs, and eliminate what exact segments fix."""
    holds = find_holds(case, layout, links)
    loose = loose_points(links)
    held = links.held.copy()
    held[(6 * loose[:, None] + np.arange(6)).reshape(-1)] = True
    rows = []
    for hold in holds:
        if np.count_nonzero(hold.weight) == 1:
            held[hold.freedom[np.flatnonzero(hold.weight)]] = True
        else:
            rows.append(_row(hold.freedom, hold.weight, held))
    exact = _exact_rows(links, held)
    rows += [row for _, _, row in exact]
    return Constrained(
        holds=holds,
        loose=loose,
        reduction=reduce_freedoms(held, [row for row in rows if row is not None]),
        shares=_shares(exact, held),
    )


def rigid_motions(layout: Layout, links: Links, loose: Index) -> Array:
    """The six movements of the whole as one rigid body: (6, freedoms), scaled; 0 at loose points."""
    middle = layout.points.mean(axis=0)
    arm = layout.points - middle
    out = np.zeros((6, links.freedoms))
    at = out[:, : 6 * links.points].reshape(6, links.points, 6)
    for k, axis in enumerate(np.eye(3)):
        at[k, :, k] = 1.0
        at[3 + k, :, :3] = np.cross(axis, arm) / links.reach
        at[3 + k, :, 3 + k] = 1.0
    at[:, loose] = 0.0
    return out


def _row(freedom: Index, weight: Array, held: Flags) -> Row | None:
    """A row of unit size without held freedoms; None where nothing is left of it."""
    left = ~held[freedom] & (weight != 0.0)
    size = float(np.linalg.norm(weight))
    if not np.any(left) or float(np.max(np.abs(weight[left]))) < 1e-12 * size:
        return None
    return Row(freedom=freedom[left], weight=weight[left] / size)


def _exact_rows(links: Links, held: Flags) -> list[tuple[int, int, Row | None]]:
    """Conditions of undeformable segments, with segment and pattern."""
    out: list[tuple[int, int, Row | None]] = []
    rows = unit_rows(links)
    for s in np.flatnonzero(links.exact):
        there = links.freedom[s] >= 0
        out += [
            (int(s), int(m), _row(links.freedom[s][there], rows[s, m][there], held))
            for m in np.flatnonzero(np.any(rows[s] != 0.0, axis=1))
        ]
    return out


def _shares(exact: list[tuple[int, int, Row | None]], held: Flags) -> tuple[Shares, ...]:
    label = {id(row): (s, m) for s, m, row in exact if row is not None}
    out = []
    for group in groups([row for _, _, row in exact if row is not None]):
        columns, matrix = stack(group, ~held)
        pairs = np.array([label[id(row)] for row in group], dtype=np.intp)
        out.append(
            Shares(
                freedom=columns,
                segment=pairs[:, 0],
                pattern=pairs[:, 1],
                share=np.asarray(np.linalg.pinv(matrix.T, rcond=1e-9), dtype=float),
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
