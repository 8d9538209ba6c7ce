"""Rows of studs, rod ends, sleeves and clamps."""

from math import pi

import attrs
import numpy as np

from strength.case.shape import Tube
from strength.library.bolt import find_bolt_class
from strength.library.threads import thread
from tests.second_way.factors import Factors
from tests.second_way.member_checks import row
from tests.second_way.structure import Part


def path_of(structure, joint):
    """1.25 for an only path: the joint's own word, else its member's."""
    part = structure.parts[joint.member]
    return 1.25 if (part.entry.only_path if joint.only_path is None else joint.only_path) else 1.0


def tapped(structure, heat, stud):
    """Metal, yield, ultimate and range of what a stud is screwed into."""
    part = structure.parts[stud.member]
    name = stud.into or part.entry.material
    metal = structure.case.metals[name]
    if not part.is_plain or name != part.entry.material:
        line = metal.strength(min(stud.engaged, max(r.up_to for r in metal.rows)))
        return metal, line.yield_, line.ultimate, True
    y, u, inside = heat.strengths(part, 0.0 if stud.end == "from" else part.length)
    return metal, y, u, inside


def bore_of(structure, stud, a):
    """Axis that the axial rating goes by: of the bolt through a rod end's eye, else of the stud."""
    part = structure.parts[stud.member]
    if abs(a @ part.turn[0]) > np.cos(np.radians(45)):
        for bolt in structure.case.bolts:
            if bolt.member == stud.member and bolt.end == stud.end:
                return np.array(bolt.axis) / np.linalg.norm(bolt.axis)
    return a


def stud_rows(structure, heat):
    """All rows of all studs."""
    rows = []
    for stud in structure.case.studs:
        part, path = structure.parts[stud.member], path_of(structure, stud)
        screw, grade = thread(stud.size.text), find_bolt_class(stud.grade, stud.size.diameter)
        a = part.turn[0] if stud.axis is None else np.array(stud.axis) / np.linalg.norm(stud.axis)
        metal, fy, fu, inside = tapped(structure, heat, stud)
        d, e = screw.diameter, stud.engaged
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            force, moment = structure.end_forces(part.name, load, stud.end)
            fa, fp = abs(force @ a), np.linalg.norm(force - (force @ a) * a)
            mp = np.linalg.norm(moment - (moment @ a) * a)
            up = factors.effects
            kind = "stainless" if grade.stainless else "steel"
            m = fp * stud.reach + mp
            demand = up * (32 * m / (pi * screw.root**3) + fa / screw.stress_area)
            limit = grade.yield_ / factors.yielding(kind, True)
            rows.append(row(stud.name, "stud-bending", load, path * demand / limit, demand, limit))
            demand = up * (fp * (6 * stud.reach + 4 * e) + 6 * mp) / (d * e * e)
            limit = fy / factors.yielding(metal.kind, True)
            rows.append(
                row(stud.name, "stud-rocking", load, path * demand / limit, demand, limit, in_range=inside)
            )
            limit = 0.6 * (e - screw.pitch) * min(screw.strip_nut * fu, screw.strip_bolt * grade.ultimate)
            limit /= factors.ultimate()
            rows.append(
                row(
                    stud.name,
                    "thread-strip",
                    load,
                    path * fa * up / limit,
                    fa * up,
                    limit,
                    "N",
                    inside,
                )
            )
            if stud.rating_radial is not None and stud.rating_axial is not None:
                bore = bore_of(structure, stud, a)
                u = np.linalg.norm(force - (force @ bore) * bore) / (stud.rating_radial / 5)
                u += abs(force @ bore) / (stud.rating_axial / 5)
                rows.append(row(stud.name, "rod-end", load, path * u, u, 1.0, "1"))
    return rows


def sleeve_rows(structure, heat):
    """Bearing and wall of each sleeve."""
    rows = []
    for sleeve in structure.case.sleeves:
        inner, path = structure.parts[sleeve.member], path_of(structure, sleeve)
        if isinstance(sleeve.outer, str):
            outer = structure.parts[sleeve.outer]
        else:
            entry = attrs.evolve(inner.entry, shape=sleeve.outer)
            outer = Part(structure.case, entry, structure.at)
        d, s = inner.shape.od if isinstance(inner.shape, Tube) else inner.size.depth, sleeve.overlap
        x = s / 2 if sleeve.end == "from" else inner.length - s / 2
        fy = min(inner.row.yield_, outer.row.yield_)
        wall = min(p.row.yield_ * p.size.wall**2 for p in (inner, outer))
        kinds = {inner.metal.kind, outer.metal.kind}
        brittle = inner.is_brittle or outer.is_brittle
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            f = structure.forces_at(inner.name, load, x)[0] * factors.effects
            v, m = np.hypot(f[1], f[2]), np.hypot(f[4], f[5])
            by = max(factors.yielding(k, brittle) for k in kinds)
            demand = v / (d * s) + 6 * m / (d * s * s)
            rows.append(row(sleeve.name, "sleeve-bearing", load, path * demand * by / fy, demand, fy / by))
            demand = v / 2 + 1.5 * m / s
            limit = 24 * wall / by
            rows.append(row(sleeve.name, "sleeve-wall", load, path * demand / limit, demand, limit, "N"))
            if sleeve.bolt is not None:  # pull and torque on the bolt across the tube, two planes
                end = structure.intervals(inner.name, load)
                f = (end[0][2] if sleeve.end == "from" else end[-1][3]) * factors.effects
                demand = np.hypot(f[0], 2 * f[3] / d) / 2
                grade = find_bolt_class(sleeve.grade, sleeve.bolt.diameter)
                limit = grade.shear_thread * grade.ultimate * thread(sleeve.bolt.text).stress_area
                limit /= factors.ultimate()
                rows.append(row(sleeve.name, "bolt-shear", load, path * demand / limit, demand, limit, "N"))
    return rows


def clamp_rows(structure, heat):
    """Slip of each clamp."""
    rows = []
    for clamp in structure.case.clamps:
        part, path = structure.parts[clamp.member], path_of(structure, clamp)
        grade = find_bolt_class(clamp.grade, clamp.bolt.diameter)
        preload = 0.7 * grade.ultimate * thread(clamp.bolt.text).stress_area
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            intervals = structure.intervals(part.name, load)
            f = intervals[0][2] if clamp.end == "from" else intervals[-1][3]
            demand = abs(f[3]) * factors.effects
            limit = clamp.friction * clamp.bolt_count * preload * clamp.diameter / factors.ultimate()
            known = clamp.grade in ("8.8", "10.9")  # classes for preload, EN 1993-1-8 3.1.2
            rows.append(
                row(clamp.name, "clamp-slip", load, path * demand / limit, demand, limit, "N*mm", known)
            )
    return rows
