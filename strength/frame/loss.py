"""What is lost with each part: taken away one by one, what then can move without straining the rest.

Every deformation row of every part has size 1 (see `mechanism`), so stiffness plays no part. With all rows
B, G = B^T B and the rows b of one part, what is left when they go is singular where b G^-1 b^T has the
eigenvalue 1, and G^-1 b^T v are the movements set free: a low-rank downdate, one inverse for all parts.
"""

from collections.abc import Sequence

import numpy as np

from strength.case.model import Case
from strength.case.shape import Rigid
from strength.frame.assembly import LARGE
from strength.frame.holds import Hold, find_holds, loose_points
from strength.frame.layout import part_names
from strength.frame.links import Links, link
from strength.frame.plan import Plan, rigid_motions
from strength.frame.response import Array, Index, Layout
from strength.values import frozen

FREED = 1e-8  # eigenvalues nearer to 1 set a movement free
MOVES = 1e-6  # share of a freed movement, below which a wheel stays where it is


@frozen(kw_only=True)
class Loss:
    """A part whose breaking loses something: the names of wheels, brakes (their wheels) and tows."""

    part: str
    wheels: tuple[str, ...] = ()
    brakes: tuple[str, ...] = ()
    tows: tuple[str, ...] = ()


def losses(case: Case, layout: Layout, prepared: Plan | None = None) -> tuple[Loss, ...] | None:
    """Parts that are the only path of a wheel, a brake or a tow, in the order of the case.

    A wheel is lost where its centre can move or turn against the body: the ground of a supported case, else
    the first point that carries the heaviest mass. A brake is lost where its caliper can move against its
    wheel. Rigid members are left out: they stand for metal that belongs to other parts. None for frames of
    over 1500 freedoms, which would take too long, and for those that can move as they are.
    prepared: `plan(case, layout)`, to save its cost.
    """
    if not (case.wheels or case.tows):
        return ()
    links = link(case, layout) if prepared is None else prepared.links
    if links.freedoms > LARGE:
        return None
    rows = links.rows
    holds = find_holds(case, layout, links) if prepared is None else prepared.holds
    try:
        give = np.asarray(np.linalg.inv(_whole(case, layout, links, rows, holds)), dtype=np.float64)
        give[-1, -1] = 0.0
    except np.linalg.LinAlgError:
        return None
    watched, whose = _watched(case, layout, links)
    seen = watched @ give[:-1]
    shifts = _shifts(layout, links, rows, give, seen)
    found = []
    for bar, name in enumerate(part_names(case)):
        if bar < len(case.members) and isinstance(case.members[bar].shape, Rigid):
            continue
        moving = {(int(kind), int(n)) for kind, n in whose[shifts[bar] > MOVES]} if bar in shifts else set()
        if moving:
            found.append(_loss(case, name, moving))
    return tuple(found)


def _loss(case: Case, part: str, moving: set[tuple[int, int]]) -> Loss:
    """Names for what moves: (0 wheel, 1 brake, 2 tow; its number)."""
    wheels = tuple(wheel.name for n, wheel in enumerate(case.wheels) if (0, n) in moving)
    brakes = tuple(
        wheel.name for n, wheel in enumerate(case.wheels) if (1, n) in moving and (0, n) not in moving
    )
    return Loss(
        part=part,
        wheels=wheels,
        brakes=brakes,
        tows=tuple(tow.name for n, tow in enumerate(case.tows) if (2, n) in moving),
    )


def _whole(case: Case, layout: Layout, links: Links, rows: Array, holds: Sequence[Hold]) -> Array:
    """Sum of all parts' rows, with supports, with what is held, and a free body kept from drifting.

    One row more than there are freedoms, apart from all others: it stands for hinges that are not there.
    """
    size = links.freedoms + 1
    number = np.where(links.freedom < 0, links.freedoms, links.freedom)
    own = rows.transpose(0, 2, 1) @ rows
    key = number[:, :, None] * size + number[:, None, :]
    sums = np.asarray(np.bincount(key.ravel(), own.ravel(), size * size), dtype=np.float64)
    every = sums.reshape(size, size)
    every[-1] = every[:, -1] = 0.0
    every[-1, -1] = 1.0
    whole = every[:-1, :-1]
    loose = loose_points(links)
    held = links.held.copy()
    held[(6 * loose[:, None] + np.arange(6)).ravel()] = True
    whole[held, held] += 1.0
    for hold in holds:
        whole[np.ix_(hold.freedom, hold.freedom)] += np.outer(hold.weight, hold.weight)
    if not case.supports:
        motions = rigid_motions(layout, links, loose)
        motions /= np.linalg.norm(motions, axis=1, keepdims=True)
        whole += motions.T @ motions
    return every


def _shifts(layout: Layout, links: Links, rows: Array, give: Array, seen: Array) -> dict[int, Array]:
    """How far each watched row (rows,) moves where nothing but a part strains, by bars that can be that part.

    Bars of equally many segments go together.
    """
    number = np.where(links.freedom < 0, links.freedoms, links.freedom)
    count = layout.last - layout.first + 1
    found = {}
    for k in sorted(set(count.tolist())):
        bars = np.flatnonzero(count == k)
        segment = layout.first[bars, None] + np.arange(k)
        freedom = number[segment].reshape(bars.size, 14 * k)
        part = np.zeros((bars.size, k, 6, k, 14))
        part[:, np.arange(k), :, np.arange(k)] = rows[segment].swapaxes(0, 1)
        part = part.reshape(bars.size, 6 * k, 14 * k)
        block = give[freedom[:, :, None], freedom[:, None, :]]
        values, vectors = np.linalg.eigh(part @ block @ part.swapaxes(1, 2))
        for n in np.flatnonzero(values[:, -1] > 1.0 - FREED):
            pull = part[n].T @ vectors[n][:, values[n] > 1.0 - FREED]
            size = np.linalg.norm(pull.T @ give[freedom[n]], axis=1)
            found[int(bars[n])] = np.max(np.abs(seen[:, freedom[n]] @ pull) / size, axis=1)
    return found


def _watched(case: Case, layout: Layout, links: Links) -> tuple[Array, Index]:
    """What must not move: rows over the freedoms (rows, freedoms), and whose each is (rows, 2).

    Whose: 0 a wheel's, 1 its brake's, 2 a tow's; and the number of the wheel or tow.
    """
    number = {name: n for n, name in enumerate(layout.names)}
    carried = [mass for mass in case.masses if mass.carried_by]
    heaviest = max(carried, key=lambda mass: mass.mass, default=None)
    body = None if case.supports or heaviest is None else number[heaviest.carried_by[0]]
    pairs: list[tuple[int, int, int, int | None]] = []
    for n, wheel in enumerate(case.wheels):
        pairs.append((0, n, number[wheel.centre], body))
        if wheel.caliper is not None:
            pairs.append((1, n, number[wheel.caliper], number[wheel.centre]))
    pairs += [(2, n, number[tow.at], body) for n, tow in enumerate(case.tows)]
    found, whose = [], []
    for kind, n, point, base in pairs:
        own = np.zeros((6, links.freedoms))
        own[:, 6 * point : 6 * point + 6] += np.eye(6)
        if base is not None:
            x, y, z = (layout.points[point] - layout.points[base]) / links.reach
            own[:, 6 * base : 6 * base + 6] -= np.eye(6)
            own[:3, 6 * base + 3 : 6 * base + 6] -= [[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]]
        own = own if kind == 0 else own[:3]
        found.append(own)
        whose += [(kind, n)] * own.shape[0]
    return np.concatenate(found), np.array(whose, dtype=np.intp)
