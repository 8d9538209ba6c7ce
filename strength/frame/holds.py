"""Turning that nothing resists and nothing needs: found, held, and refused where a load asks for it."""

from collections.abc import Iterator, Sequence

import numpy as np

from strength.arrays import others
from strength.case.model import Case
from strength.errors import MechanismError
from strength.frame.assembly import runs
from strength.frame.links import Links
from strength.frame.modes import torsion_free, turning
from strength.frame.response import Array, Index, Layout
from strength.values import frozen

SLACK = 1e-12  # squared size of a direction in which nothing resists, beside one in which parts do
EXACTLY = 1e-9  # deformation of unit rows by a unit movement, below which there is none
AT_REST = 1e-9  # moment beside the load's greatest force or moment, below which there is none


@frozen(kw_only=True, eq=False)
class Hold:
    """A movement that is held: `weight` over `freedom`, a unit vector in scaled freedoms."""

    what: str  # a point's or a member's name
    freedom: Index
    weight: Array
    axis: Array  # (3,) about which it turns
    lever: float  # mm, moment about the axis per unit of work on the unit vector
    spin: bool = False  # of a member about its own line


def loose_points(links: Links) -> Index:
    """Points that no part touches."""
    return others(links.points, links.freedom[:, [0, 6]] // 6)


def find_holds(case: Case, layout: Layout, links: Links) -> tuple[Hold, ...]:
    """Free turning of points, of hinges and of members about their own line."""
    return (*_points(case, links), *_hinges(case, layout, links), *_spins(case, layout, links))


def refuse_loaded(holds: Sequence[Hold], scaled_forces: Array, names: Sequence[str]) -> None:
    """Raise MechanismError where a load works on a movement that is held.

    scaled_forces: (freedoms, ..., loads) N; names of the loads.
    """
    if not holds:
        return
    scale = np.max(np.abs(scaled_forces), axis=tuple(range(scaled_forces.ndim - 1)), initial=0.0)
    for hold in holds:
        work = np.tensordot(hold.weight, scaled_forces[hold.freedom], axes=1)
        work = np.max(np.abs(work), axis=tuple(range(work.ndim - 1)), initial=0.0)
        bad = np.flatnonzero(work > AT_REST * scale)
        if bad.size:
            load = int(bad[np.argmax(work[bad])])
            about = "its own line" if hold.spin else about_axis(hold.axis)
            raise MechanismError(
                hold.what,
                f"load {names[load]!r} puts a moment of {work[load] * hold.lever / 1000.0:.4g} N*m on it "
                f"about {about}, and no part there resists turning",
            )


def about_axis(axis: Array) -> str:
    """An axis in a builder's words.

    >>> about_axis(np.array([0.0, 1.0, 0.0]))
    'the crosswise (y) axis'
    """
    k = int(np.argmax(np.abs(axis)))
    if abs(axis[k]) > 1.0 - 1e-6:
        return f"the {('fore-and-aft (x)', 'crosswise (y)', 'upright (z)')[k]} axis"
    return "the axis ({:.3g}, {:.3g}, {:.3g})".format(*(axis / axis[k]))


def _gram(links: Links) -> Array:
    """3 x 3 resistance to turning of each point (points, 3, 3), hinges let go."""
    out = np.zeros((links.points, 3, 3))
    for side in (0, 1):
        part = turning(links.rows[..., :12], side)
        own = part.transpose(0, 2, 1) @ part
        hinged = np.flatnonzero(np.any(links.hinge[:, side] != 0.0, axis=1))
        if hinged.size:
            axis = links.hinge[hinged, side]
            push = np.einsum("sij,sj->si", own[hinged], axis)
            stiff = np.einsum("si,si->s", push, axis)
            loose = stiff < SLACK
            own[hinged] -= push[:, :, None] * push[:, None, :] / np.where(loose, np.inf, stiff)[:, None, None]
        order, begin = runs(links.freedom[:, 6 * side] // 6)
        if order.size:
            at = links.freedom[order[begin], 6 * side] // 6
            out[at] += np.add.reduceat(own[order], begin, axis=0)
    held = links.held[: 6 * links.points].reshape(-1, 6)[:, 3:]
    out[:, [0, 1, 2], [0, 1, 2]] += held
    return out


def _points(case: Case, links: Links) -> Iterator[Hold]:
    # A segment without a ball or a hinge resists turning of its points about every axis, by half its rows.
    firm = ~np.any(links.ball | links.hinged, axis=1)
    doubtful = np.ones(links.points, dtype=bool)
    doubtful[links.freedom[firm][:, [0, 6]] // 6] = False
    doubtful[loose_points(links)] = False
    doubtful = np.flatnonzero(doubtful)
    if not doubtful.size:
        return
    gram = _gram(links)
    sizes, directions = np.linalg.eigh(gram[doubtful])
    for p, size, direction in zip(doubtful.tolist(), sizes, directions, strict=True):
        free = direction[:, size < SLACK]
        if free.shape[1] == 0:
            continue
        if free.shape[1] == 3:
            free = np.eye(3)
        for axis in free.T:
            weight = np.where(np.abs(axis) < 1e-15, 0.0, axis)
            yield Hold(
                what=case.points[p].name,
                freedom=6 * p + np.arange(3, 6),
                weight=weight,
                axis=axis,
                lever=links.reach,
            )


def _hinges(case: Case, layout: Layout, links: Links) -> Iterator[Hold]:
    for side in (0, 1):
        number = links.freedom[:, 12 + side]
        hinged = np.flatnonzero(number >= 0)
        stiff = np.linalg.norm(links.rows[hinged, :, 12 + side], axis=1) if hinged.size else hinged
        for s in hinged[stiff < EXACTLY].tolist():
            yield Hold(
                what=case.members[layout.bar[s]].name,
                freedom=number[s : s + 1],
                weight=np.ones(1),
                axis=layout.axes[s, 0],
                lever=links.reach,
                spin=True,
            )


def _spins(case: Case, layout: Layout, links: Links) -> Iterator[Hold]:
    """Members that are free of torsion at both ends, with points or hinges that can turn along."""
    count = len(case.members)
    firsts, lasts = layout.first[:count], layout.last[:count]
    bases = layout.points[layout.start[firsts]]
    lines = (layout.points[layout.end[lasts]] - bases) / layout.bar_length[:count, None]
    free_start = links.ball[firsts, 0] | torsion_free(links.hinge[firsts, 0], lines)
    free_end = links.ball[lasts, 1] | torsion_free(links.hinge[lasts, 1], lines)
    nothing_between = (firsts == lasts) & (links.ball[firsts, 0] | links.ball[lasts, 1])
    for b in np.flatnonzero(free_start & free_end & ~nothing_between):
        first, last, base, line = int(firsts[b]), int(lasts[b]), bases[b], lines[b]
        move = np.zeros(links.freedoms)
        for p in layout.end[first:last]:
            move[6 * p : 6 * p + 3] = np.cross(line, layout.points[p] - base)
            move[6 * p + 3 : 6 * p + 6] = line * links.reach
        for s, side in ((first, 0), (last, 1)):
            if links.freedom[s, 12 + side] >= 0:
                move[links.freedom[s, 12 + side]] = links.reach * float(links.hinge[s, side] @ line)
        lever = float(np.linalg.norm(move))
        move /= lever
        strain = np.einsum("smf,sf->sm", links.rows, np.where(links.freedom >= 0, move[links.freedom], 0.0))
        if np.max(np.abs(strain)) < EXACTLY and not np.any(move[links.held]):
            number = np.flatnonzero(move)
            yield Hold(
                what=case.members[b].name,
                freedom=number,
                weight=move[number],
                axis=line,
                lever=lever,
                spin=True,
            )
