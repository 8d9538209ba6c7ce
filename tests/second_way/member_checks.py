"""Rows `yielding` and `rupture`: every station of every part, every point of its section."""

from types import SimpleNamespace

import numpy as np

from strength.case.shape import Bar
from strength.library.threads import thread
from tests.second_way.factors import Factors
from tests.second_way.sizes import net_points, parts, points_of, von_mises


def row(part, kind, load, utilisation, demand, limit, unit="MPa", in_range=True, **more):
    """One expected row. `fussy`: its source has further limits than are looked at here."""
    more.setdefault("fussy", False)
    return SimpleNamespace(
        id=f"{part}/{kind}/{load}",
        kind=kind,
        utilisation=utilisation,
        demand=demand,
        limit=limit,
        unit=unit,
        in_range=in_range,
        **more,
    )


def stations(structure, heat, part):
    """Places along a part with the points of the section there."""
    case, nu = structure.case, part.metal.poisson
    whole = points_of(part.shape, nu)
    found = [(x, whole) for x, _ in part.stops]
    for low, high, *_ in heat.zones[part.name]:
        found += [(low, whole), (high, whole)]
    for weld in case.welds:
        if weld.member == part.name:
            found.append((from_start(part, weld), whole))
    for step in case.shoulders:
        if step.member == part.name:
            core = Bar(thread(step.root.removeprefix("thread")).root) if step.root else part.shape
            found.append((from_start(part, step), points_of(core, nu)))
    for hole in case.holes:
        if hole.member == part.name:
            found.append((hole.along * part.length, net_points(part.shape, hole)))
    holes = {h.along * part.length for h in case.holes if h.member == part.name}
    return [(x, p, x in holes and p is not whole) for x, p in found if -1e-9 <= x <= part.length + 1e-9]


def from_start(part, joint):
    """Place of a joint's inset along the part."""
    return joint.inset if joint.end == "from" else part.length - joint.inset


def is_stub(structure, part):
    """A stub axle: a bar with a step in it, or with a wheel on its end."""
    ends = (part.entry.start, part.entry.end)
    carries = any(w.centre in ends for w in structure.case.wheels)
    return isinstance(part.shape, Bar) and (
        carries or any(s.member == part.name for s in structure.case.shoulders)
    )


def stress_rows(structure, heat):
    """Rows of yielding and rupture, and the parts of the stress at the worst place of yielding."""
    rows, shown = [], {}
    for part in structure.parts.values():
        if not part.is_plain:
            continue
        places = stations(structure, heat, part)
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            brittle = part.is_brittle or is_stub(structure, part)
            path = 1.25 if part.entry.only_path else 1.0
            tried = {"yielding": [], "rupture": []}
            known = all(zone[4] for zone in heat.zones[part.name])  # a width that no rule gives: anywhere
            for x, points, drilled in places:
                yield_, ultimate, _ = heat.strengths(part, x)
                for forces in structure.forces_at(part.name, load, x):
                    vm = von_mises(points, forces) * factors.effects
                    limit = yield_ / factors.yielding(part.metal.kind, brittle)
                    tried["yielding"].append((vm / limit, vm, limit, points, forces))
                    limit = ultimate * (0.9 if drilled else 1.0) / factors.ultimate()
                    tried["rupture"].append((vm / limit, vm, limit, points, forces))
            for kind, all_of in tried.items():
                u, vm, limit, points, forces = max(all_of, key=lambda t: t[0])
                rows.append(row(part.name, kind, load, path * u, vm, limit, in_range=known))
                if kind == "yielding":
                    shown[part.name, load] = (*parts(points, forces), vm / factors.effects)
    return rows, shown


def greatest(structure, part, load):
    """Greatest compression and greatest |My|, |Mz|, hypot along a part, and whether any force bends it."""
    ends = np.array([f for _, _, *both in structure.intervals(part, load) for f in both])
    return (
        max(0.0, -ends[:, 0].min()),
        np.abs(ends[:, 4]).max(),
        np.abs(ends[:, 5]).max(),
        np.hypot(ends[:, 4], ends[:, 5]).max(),
    )
