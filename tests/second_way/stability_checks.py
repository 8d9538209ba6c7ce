"""Rows `stability` and `wall`."""

from math import pi, sqrt

import numpy as np

from strength.case.shape import Bar, Box, Flat, Tube
from tests.second_way.factors import Factors
from tests.second_way.heat import welded
from tests.second_way.member_checks import greatest, row

CURVES = {
    "a0": (0.13, 0.2),
    "a": (0.21, 0.2),
    "b": (0.34, 0.2),
    "c": (0.49, 0.2),
    "d": (0.76, 0.2),
    "A": (0.20, 0.10),
    "B": (0.32, 0.0),
}


def perry(slenderness, alpha, plateau):
    """Reduction factor chi."""
    if slenderness <= plateau:
        return 1.0
    phi = 0.5 * (1 + alpha * (slenderness - plateau) + slenderness**2)
    return min(1.0, 1 / (phi + sqrt(phi**2 - slenderness**2)))


def attached(structure, point):
    """Parts at a point: (part, where on it)."""
    found = []
    for part in structure.parts.values():
        for k, (_, name) in enumerate(part.stops):
            if name == point:
                last = len(part.stops) - 1
                found.append((part, "from" if k == 0 else "to" if k == last else "via"))
    return found


def other_end(part, point):
    """The other end point of a part."""
    return part.entry.end if part.entry.start == point else part.entry.start


def continues(structure, part, point):
    """The member that carries on in line through a point, or None."""
    if not part.is_member:
        return None
    here = attached(structure, point)
    members = [(p, w) for p, w in here if p.is_member]
    if len(members) != 2 or any(w == "via" for _, w in members):
        return None
    if any(s.at == point for s in structure.case.supports):
        return None
    other = next((p for p, _ in members if p is not part), None)
    if other is None or other.shape != part.shape or other.entry.material != part.entry.material:
        return None
    for p, w in members:
        if (p.entry.from_end if w == "from" else p.entry.to_end) != "fixed":
            return None
    if part.entry.up != other.entry.up and not np.allclose(abs(part.turn[2] @ other.turn[2]), 1, atol=1e-9):
        return None
    away = [1.0 if w == "from" else -1.0 for _, w in members]
    turns = [p.turn[0] * a for (p, _), a in zip(members, away, strict=True)]
    if np.degrees(np.arccos(np.clip(-turns[0] @ turns[1], -1, 1))) > 1.0:
        return None
    return other


def chain(structure, part):
    """Parts of one buckling length, and its two end points."""
    parts, ends = [part], []
    for way in (part.entry.start, part.entry.end):
        now, point = part, way
        while True:
            more = continues(structure, now, point)
            if more is None or more in parts:
                break
            parts.append(more)
            now, point = more, other_end(more, point)
        ends.append(point)
    return parts, ends


def weld_distances(structure, heat, parts, ends):
    """Welds on a buckling length with the distance of each from its nearest end."""
    at = [structure.at[e] for e in ends]
    found = []
    for part in parts:
        for low, high, weld in heat.welded_at[part.name]:
            places = [part.start + x * part.turn[0] for x in (low, high)]
            # the middle of a footprint is where the weld stands
            middle = (places[0] + places[1]) / 2
            found.append((min(np.linalg.norm(middle - a) for a in at), part, weld))
    return found


def stability_rows(structure, heat):
    """Every part under every load."""
    rows = []
    for part in structure.parts.values():
        if not part.is_plain:
            continue
        parts, ends = chain(structure, part)
        lonely = any(
            not [p for p, _ in attached(structure, e) if p not in parts]
            and not any(s.at == e for s in structure.case.supports)
            for e in ends
        )
        given = [p.entry.buckling_factor for p in parts]
        k = max((2.0 if lonely else 1.0) if g is None else g for g in given)
        length = k * sum(p.length for p in parts)
        q, metal, shape = part.size, part.metal, part.shape
        f = part.row.yield_
        for distance, p, weld in weld_distances(structure, heat, parts, ends):
            if distance > min(q.depth, q.width):
                f = min(f, welded(p, weld)[0])
        alpha, plateau = CURVES[metal.buckling_curve]
        critical = [pi**2 * metal.modulus * i / length**2 for i in (q.iy, q.iz)]
        chi = [perry(sqrt(q.area * f / c), alpha, plateau) for c in critical]
        chi_lt, strong = 1.0, 0 if q.iy >= q.iz else 1
        if isinstance(shape, Flat):
            mcr = pi * sqrt(metal.modulus * min(q.iy, q.iz) * metal.shear_modulus * q.j) / length
            curve = (0.20, 0.4) if metal.kind == "aluminium" else (0.76, 0.2)
            chi_lt = perry(sqrt((q.wy, q.wz)[strong] * f / mcr), *curve)
        in_range = not (isinstance(shape, Box) and shape.depth > 3 * shape.width + 1e-9)
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            lists = [greatest(structure, p.name, load) for p in parts]
            n, my, mz, both = (factors.effects * max(v[j] for v in lists) for j in range(4))
            grow = []
            for c in critical:
                pushed = factors.on_critical * n
                grow.append(100.0 if pushed >= c else min(100.0, 1 / (1 - pushed / c)))
            total = n / (min(chi) * q.area * f)
            if part.is_round:
                total += max(grow) * both / (q.wy * f)
            else:
                down = [1.0, 1.0]
                down[strong] = chi_lt
                total += grow[0] * my / (down[0] * q.wy * f) + grow[1] * mz / (down[1] * q.wz * f)
            total *= factors.stability(metal.kind)
            path = 1.25 if part.entry.only_path else 1.0
            rows.append(row(part.name, "stability", load, path * total, total, 1.0, "1", in_range))
    return rows


def wall_ratio(part, is_welded):
    """Ratio over limit, or None where the check says nothing."""
    shape, metal = part.shape, part.metal
    f = part.row.yield_
    if metal.kind == "aluminium":
        e = sqrt(250 / f)
        best = metal.buckling_curve == "A"
        limit = (18 if is_welded else 22) * e if best else (15 if is_welded else 18) * e
        if isinstance(shape, Tube):
            return 3 * sqrt(shape.od / shape.wall) / limit
        return (max(shape.depth, shape.width) - 2 * shape.wall) / shape.wall / limit
    e2 = 235 / f
    if metal.kind == "stainless":
        e2 *= metal.modulus / 210e3
    if isinstance(shape, Tube):
        return shape.od / shape.wall / (90 * e2)
    top = 37 if metal.kind == "stainless" else 42
    return (max(shape.depth, shape.width) - 3 * shape.wall) / shape.wall / (top * sqrt(e2))


def wall_rows(structure, heat):
    """Tubes and boxes that are pressed or bent."""
    rows = []
    for part in structure.parts.values():
        if not isinstance(part.shape, (Tube, Box)) or isinstance(part.shape, Bar):
            continue
        u = wall_ratio(part, bool(heat.welded_at[part.name]))
        path = 1.25 if part.entry.only_path else 1.0
        for load in structure.loads:
            push, _, _, bend = greatest(structure, part.name, load)
            rows.append(row(part.name, "wall", load, path * u, u, 1.0, "1", push=push, bend=bend))
    return rows
