"""What is lost with each part: taken away one by one, what then can move without straining the rest."""

import numpy as np

from strength.case.model import Case
from strength.case.shape import Rigid
from strength.frame.alone import shifts
from strength.frame.assembly import LARGE
from strength.frame.layout import part_names
from strength.frame.plan import Plan, plan, planned, rigid_motions
from strength.frame.response import Array, Index, Layout
from strength.values import evolve, frozen

MOVES = 1e-6  # of what a part strains, below which a wheel stays where it is


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
    ready = plan(case, layout) if prepared is None else prepared
    if ready.links.freedoms > LARGE:
        return None
    ready = _giving(case, layout, ready)
    watched, whose = _watched(case, layout, ready)
    solid = [isinstance(member.shape, Rigid) for member in case.members]
    bars = [bar for bar in range(layout.first.size) if bar >= len(solid) or not solid[bar]]
    parts = [np.arange(layout.first[bar], layout.last[bar] + 1) for bar in bars]
    try:
        moving = shifts(ready, parts, watched) > MOVES
    except np.linalg.LinAlgError:
        return None
    names = part_names(case)
    return tuple(
        _loss(case, names[bar], set(map(tuple, whose[own].tolist())))
        for bar, own in zip(bars, moving, strict=True)
        if own.any()
    )


def _giving(case: Case, layout: Layout, ready: Plan) -> Plan:
    """The plan with struts that hold their length as parts that strain: they can be lost like others."""
    exact = ready.links.exact.copy()
    exact[layout.first[len(case.members) :]] = False
    if np.array_equal(exact, ready.links.exact):
        return ready
    return planned(case, layout, evolve(ready.links, exact=exact))


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


def _watched(case: Case, layout: Layout, ready: Plan) -> tuple[Array, Index]:
    """What must not move: rows over the freedoms (freedoms, rows), and whose each is (rows, 2).

    Whose: 0 a wheel's, 1 its brake's, 2 a tow's; and the number of the wheel or tow.
    """
    links = ready.links
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
    every = np.concatenate(found)
    if not case.supports and body is None:  # nothing to move against: what of it moves the whole is no loss
        motions = rigid_motions(layout, links, ready.loose)
        motions = np.linalg.qr(motions.T)[0]
        every -= (every @ motions) @ motions.T
    return every.T, np.array(whose, dtype=np.intp)
