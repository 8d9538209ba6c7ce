"""Rows of bolts and pins, from the end force of the part they carry."""

from math import hypot, pi
from types import SimpleNamespace

import numpy as np

from strength.case.shape import Flat
from strength.library.bolt import find_bolt_class
from strength.library.screws import shoulder_screw
from strength.library.threads import thread
from tests.second_way.factors import Factors
from tests.second_way.member_checks import row

PLASTIC = 1.5


def bolt_forces(structure, bolt, load):
    """Per bolt: shear per plane, force on the carried plate, pull; and F_p, M_p of a single bolt."""
    part = structure.parts[bolt.member]
    force, moment = structure.end_forces(part.name, load, bolt.end)
    a = np.array(bolt.axis) / np.linalg.norm(bolt.axis)
    planes = bolt.shear_planes
    if not bolt.group:
        fp = np.linalg.norm(force - (force @ a) * a)
        mp = np.linalg.norm(moment - (moment @ a) * a)
        pull = abs(force @ a)
        v = fp
        if planes == 2:
            v = fp / 2
            if bolt.plates:
                b, outer = grip(bolt)
                v += mp / (outer + b + 2 * bolt.gap)
        return [SimpleNamespace(v=v, carried=fp, pull=pull)], fp, mp
    places = np.array(bolt.group, dtype=float)
    middle = places.mean(axis=0)
    moment = moment - np.cross(middle, force)
    arms = places - middle
    flat = arms - np.outer(arms @ a, a)
    n = len(arms)
    across = force - (force @ a) * a
    spin = (moment @ a) / (flat**2).sum() if n > 1 else 0.0
    # pull of each bolt: T = F_a/n + a . (w x r), with sum r x (T a) = the moment across the axis
    inertia = sum(np.outer(np.cross(r, a), np.cross(r, a)) for r in flat)
    w = np.linalg.pinv(inertia, rcond=1e-9, hermitian=True) @ (moment - (moment @ a) * a)
    found = []
    for r in flat:
        v = np.linalg.norm(across / n + spin * np.cross(a, r))
        pull = abs(force @ a / n + np.cross(r, a) @ w)
        found.append(SimpleNamespace(v=v / planes, carried=v, pull=pull))
    return found, None, 0.0


def grip(bolt):
    """Thickness of the carried plate and of each plate that holds it."""
    b = bolt.plates[0].thickness
    return b, bolt.plates[1].thickness if len(bolt.plates) > 1 else b / 2


class Screw:
    """Areas and strengths of a bolt or pin."""

    def __init__(self, bolt):
        """Thread figures where it has a thread."""
        self.grade = find_bolt_class(bolt.grade, bolt.size.diameter)
        self.d = bolt.size.diameter
        self.is_pin = bolt.size.kind == "pin"
        self.threaded = bolt.size.kind == "thread" and bolt.thread_in_shear
        shank = pi / 4 * self.d**2
        self.thread = thread(bolt.size.text) if bolt.size.kind == "thread" else None
        if self.threaded:
            self.shear = self.grade.shear_thread * self.grade.ultimate * self.thread.stress_area
            self.core = self.thread.root
        else:
            self.shear = 0.6 * self.grade.ultimate * shank
            self.core = self.d
        self.pull = 0.0
        if self.thread is not None:
            self.pull = 0.9 * self.grade.ultimate * self.thread.stress_area
        if bolt.size.kind == "shoulder":  # ISO 7379: its own strength, the neck carries the pull
            screw = shoulder_screw(self.d)
            self.shear, self.pull = 0.6 * screw.ultimate * shank, 0.9 * screw.ultimate * screw.neck_area
            self.thread = thread(screw.thread)
        self.kind = "stainless" if self.grade.stainless else "steel"
        self.bending = PLASTIC * pi / 32 * self.core**3 * self.grade.yield_


def plates_of(structure, heat, bolt):
    """Plates with fu and fy, welded where they lie inside a heat-affected length."""
    found = []
    for k, plate in enumerate(bolt.plates):
        metal = structure.case.metals[plate.material]
        line = metal.strength(plate.thickness)
        fu, fy, inside = line.ultimate, line.yield_, True
        if k == 0:
            part = structure.parts[bolt.member]
            x = 0.0 if bolt.end == "from" else part.length
            if part.is_plain and part.entry.material == plate.material:
                y, u, inside = heat.strengths(part, x)
                fu, fy = min(fu, u), min(fy, y)
        found.append((plate, fu, fy, line, inside))
    return found


def own_width(structure, bolt):
    """Width of a flat that the bolt goes through by its thickness, or None."""
    part = structure.parts[bolt.member]
    if not isinstance(part.shape, Flat):
        return None
    a = np.array(bolt.axis) / np.linalg.norm(bolt.axis)
    return part.shape.width if abs(a @ part.turn[1]) > np.cos(np.radians(45)) else None


def holes_beside(structure, bolt, n):
    """How many holes of a group stand side by side across the member at the place of bolt n."""
    if not bolt.group:
        return 1
    along = np.array(bolt.group) @ structure.parts[bolt.member].turn[0]
    return int((np.abs(along - along[n]) < bolt.plates[0].hole).sum())


def bearing_limit(factors, screw, plate, fu, fy, bolt, pin_yield):
    """Characteristic bearing resistance and its divisor."""
    d, t = screw.d, plate.thickness
    if screw.is_pin:
        return 1.5 * d * t * min(fy, pin_yield), None
    if factors.allowable:
        r = 2.4 * d * t * fu * min(1, screw.grade.ultimate / fu)
    else:
        k1 = min(2.5, 2.8 * plate.edge / plate.hole - 1.7)
        r = k1 * d * t * fu * min(1, screw.grade.ultimate / fu, plate.edge / (3 * plate.hole))
    if len(bolt.group) <= 1 and bolt.shear_planes == 1:
        r = min(r, 1.5 * d * t * fu)
    return r, factors.ultimate()


def bolt_rows(structure, heat):
    """All rows of all bolts under all loads."""
    rows = []
    for bolt in structure.case.bolts:
        part = structure.parts[bolt.member]
        only = part.entry.only_path if bolt.only_path is None else bolt.only_path
        path = 1.25 if only else 1.0
        screw = Screw(bolt)
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            found = one(structure, heat, bolt, screw, load, factors)
            for kind, pairs in found.items():
                unit = "1" if kind in ("bolt-combined", "bolt-bending") else "N"
                demand, limit, inside = max(pairs, key=lambda p: p[0] / p[1])
                rows.append(row(bolt.name, kind, load, path * demand / limit, demand, limit, unit, inside))
    return rows


def one(structure, heat, bolt, screw, load, factors):
    """Kind -> [(demand, limit, in range)] of one bolt under one load."""
    bolts, fp, mp = bolt_forces(structure, bolt, load)
    up, down = factors.effects, factors.ultimate()
    found = {}

    def put(kind, demand, limit, inside=True):
        found.setdefault(kind, []).append((demand, limit, inside))

    in_code = screw.grade.in_code
    v_r = screw.shear / down
    for b in bolts:
        put("bolt-shear", b.v * up, v_r, in_code)
        if not screw.is_pin:
            t_r = screw.pull / down
            put("bolt-tension", b.pull * up, t_r, in_code)
            put("bolt-combined", b.v * up / v_r + b.pull * up / (1.4 * t_r), 1.0, in_code)
        if screw.is_pin or bolt.gap > 0:
            m_r = screw.bending / factors.yielding(screw.kind, screw.grade.brittle)
            m = bending(bolt, b.carried if fp is None else fp, mp)
            if m is not None:
                put("bolt-bending", hypot(m * up / m_r, b.v * up / v_r), 1.0, in_code)
    plates = plates_of(structure, heat, bolt)
    close = all(p.edge >= 1.2 * p.hole - 1e-9 for p in bolt.plates)  # EN 1993-1-8 Table 3.3
    for b in bolts:
        for k, (plate, fu, fy, line, inside) in enumerate(plates):
            force = (b.carried if k == 0 else b.v) * up
            r, by = bearing_limit(factors, screw, plate, fu, fy, bolt, screw.grade.yield_)
            if by is None:
                metal = structure.case.metals[plate.material]
                brittle = line.elongation is None or line.elongation < 0.10 or screw.grade.brittle
                by = factors.yielding(metal.kind, brittle)
            put("bearing", force, r / by, inside)
            put(
                "tear-out",
                force,
                1.2 * (plate.edge - plate.hole / 2) * plate.thickness * fu / down,
                inside and close,
            )
            wide = own_width(structure, bolt) if k == 0 else None
            net = 2 * plate.edge - plate.hole
            if wide is not None:  # holes side by side share the width
                beside = holes_beside(structure, bolt, bolts.index(b))
                net = wide / beside - plate.hole
            put("net-section", force, 0.9 * net * plate.thickness * fu / down, inside)
            if not screw.is_pin and (k == len(plates) - 1 or bolt.shear_planes == 1):
                r = 0.6 * pi * screw.thread.head_mean * plate.thickness * fu / down
                put("pull-through", b.pull * up, r, inside)
    return found


def bending(bolt, fp, mp):
    """Bending moment of a pin or of a bolt across a gap; None where the plates are not known."""
    if not bolt.plates:
        return None
    b, a = grip(bolt)
    c = bolt.gap
    if bolt.shear_planes == 2:
        return fp * (b + 4 * c + 2 * a) / 8 + mp * (c + a / 2) / (a + b + 2 * c)
    return fp * (c + b / 2) + mp
