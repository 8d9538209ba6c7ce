"""Rows `tab-wall`: plates and hollow sections on a tube or box, EN 1993-1-8:2005 Tables 7.3, 7.10-7.14.

T and Y joints: plates and boxes on tubes; tubes, boxes and plates on boxes.
"""

from math import pi, sqrt

import numpy as np

from strength.case.shape import Bar, Box, Flat, Tube
from tests.second_way.factors import Factors
from tests.second_way.hollow_joints import Meeting, interaction
from tests.second_way.member_checks import row
from tests.second_way.weld_pieces import host_face

ROOT3 = sqrt(3)


def extents(j):
    """Size of the brace along the chord and across it, and the thickness of a plate."""
    shape, c = j.brace.shape, j.chord.turn[0]
    if isinstance(shape, Tube):
        return shape.od, shape.od, shape.wall
    if isinstance(shape, Bar):
        return shape.diameter, shape.diameter, shape.diameter
    along_y, along_z = abs(j.brace.turn[1] @ c), abs(j.brace.turn[2] @ c)
    q = j.brace.size
    thick = shape.thickness if isinstance(shape, Flat) else shape.wall
    return (q.depth, q.width, thick) if along_z > along_y else (q.width, q.depth, thick)


def on_tube(j, fy, n_p, h, b, t):
    """(N, Mip, Mop) of the chord face, and of punching, where stresses add up: sigma t <= shear."""
    d0, t0 = j.chord.shape.od, j.chord.shape.wall
    kp = 1 - 0.3 * n_p * (1 + n_p) if n_p > 0 else 1.0
    unit = kp * fy * t0**2
    q = j.brace.size
    if isinstance(j.brace.shape, Flat):
        if h > b:  # along the chord
            n = 5 * unit * (1 + 0.25 * h / d0)
            face = n, h * n, n * t / 2
        else:
            n = unit * across_factor(j, b / d0)
            face = n, n * t / 2, 0.5 * b * n
        shear = 2 * t0 * fy / ROOT3 / t
    else:
        n = unit * across_factor(j, b / d0) * (1 + 0.25 * h / d0)
        face = n, h * n, 0.5 * b * n
        shear = t0 * fy / ROOT3 / t
    moduli = (q.wy, q.wz) if abs(j.brace.turn[2] @ j.chord.turn[0]) > 0.7 else (q.wz, q.wy)
    return face, (shear * q.area, shear * moduli[0], shear * moduli[1])


def across_factor(j, beta):
    """Table 7.3: T joints, and the lesser of T and X where a member stands opposite."""
    found = 4 + 20 * beta**2
    return min(found, 5 / (1 - 0.81 * beta)) if j.is_opposed() else found


def on_box(j, fy, n_p, h, b, t, face_normal, pressed):
    """(N, Mip, Mop) of a face of a box; `pressed`: the brace pushes on it."""
    shape = j.chord.shape
    level = abs(face_normal @ j.chord.turn[2]) > 0.7
    b0, h0 = (shape.width, shape.depth) if level else (shape.depth, shape.width)
    w = Wall(fy, b0, h0, shape.wall, j.sine, n_p, b / b0, h / b0)
    w.wall_fails = fy if not pressed else fy * j.side_chi(h0, fy)
    if not isinstance(j.brace.shape, Flat):
        part = pi / 4 if j.brace.is_round else 1.0
        n, ip, op = hollow(w, j, h, b)
        return part * n, part * ip, part * op
    if h > b:
        n = min(1.0, 1.3 * (1 - n_p)) * fy * shape.wall**2 * (2 * h / b0 + 4 * sqrt(1 - t / b0))
        return n, h * n, n * t / 2
    n = across(w, j, b, t)
    return n, n * t / 2, 0.5 * b * n


class Wall:
    """A box's face: yield, sizes, angle, chord stress ratio and the brace's ratios."""

    def __init__(self, fy, b0, h0, t0, sine, n_p, beta, eta):
        """Keep them, and k_n."""
        self.fy, self.b0, self.h0, self.t0, self.sine = fy, b0, h0, t0, sine
        self.beta, self.eta = beta, eta
        self.kn = min(1.0, 1.3 - 0.4 * n_p / beta) if n_p > 0 else 1.0
        self.wall_fails = fy

    def effective(self, j, wide, thick):
        """Effective width of a brace's side."""
        fy1 = min(j.brace.row.yield_, j.brace_yield)
        return min(wide, 10 * self.t0 / self.b0 * self.fy * self.t0 / (fy1 * thick) * wide), fy1


def face_n(w, beta, eta):
    """Yielding of the face under N."""
    unit = w.kn * w.fy * w.t0**2
    return unit / ((1 - beta) * w.sine) * (2 * eta / w.sine + 4 * sqrt(1 - beta))


def hollow(w, j, h, b):
    """Tables 7.11 and 7.14 for T and Y joints."""
    fy, t0, t1 = w.fy, w.t0, j.brace.size.wall
    if w.beta <= 0.85:
        unit = w.kn * fy * t0**2
        ip = unit * h * (1 / (2 * w.eta) + 2 / sqrt(1 - w.beta) + w.eta / (1 - w.beta))
        op = unit * (h * (1 + w.beta) / (2 * (1 - w.beta)) + sqrt(2 * w.b0 * b * (1 + w.beta) / (1 - w.beta)))
        return face_n(w, w.beta, w.eta), ip, op
    side = w.kn * w.wall_fails * t0 / w.sine * (2 * h / w.sine + 10 * t0)
    share = (w.beta - 0.85) / 0.15
    beff, fy1 = w.effective(j, b, t1)
    n = min(
        (1 - share) * face_n(w, 0.85, w.eta) + share * side,
        fy1 * t1 * (2 * h - 4 * t1 + 2 * beff),
    )
    if w.beta <= 1 - 2 * t0 / w.b0:
        bep = min(b, 10 * t0 / w.b0 * b)
        n = min(n, fy * t0 / (ROOT3 * w.sine) * (2 * h / w.sine + 2 * bep))
    plastic = j.plastic()
    ip = min(
        0.5 * fy * t0 * (h + 5 * t0) ** 2,
        fy1 * (plastic[0] - (1 - beff / b) * b * (h - t1) * t1),
    )
    op = min(
        fy * t0 * (w.b0 - t0) * (h + 5 * t0),
        2 * fy * t0 * (h * t0 + sqrt(w.b0 * w.h0 * t0 * (w.b0 + w.h0))),
        fy1 * (plastic[1] - 0.5 * (1 - beff / b) ** 2 * b**2 * t1),
    )
    return n, ip, op


def across(w, j, b, t):
    """Table 7.13: a plate across the face."""
    beff, fy1 = w.effective(j, b, t)
    n = min(fy1 * t * beff, w.kn * w.fy * w.t0**2 * (2 + 2.8 * w.beta) / sqrt(1 - 0.9 * w.beta))
    if w.beta > 1 - 2 * w.t0 / w.b0:
        n = min(n, w.kn * w.wall_fails * w.t0 * (2 * t + 10 * w.t0))
    else:
        bep = min(b, 10 * w.t0 / w.b0 * b)
        n = min(n, w.fy * w.t0 / ROOT3 * (2 * t + 2 * bep))
    return n


def tab_rows(structure, heat):
    """Every weld onto a tube or box that is not round on round."""
    rows = []
    for weld in structure.case.welds:
        host = structure.parts[weld.onto] if isinstance(weld.onto, str) else None
        if host is None or not isinstance(host.shape, (Tube, Box)):
            continue
        j = Meeting(structure, heat, weld)
        if isinstance(host.shape, Tube) and j.brace.is_round:
            continue
        fy = j.fy * (0.9 if j.fy > 355 else 1.0)
        only = j.brace.entry.only_path if weld.only_path is None else weld.only_path
        path = 1.25 if only else 1.0
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            by = factors.yielding(host.metal.kind, host.is_brittle, fifth=True)
            n_p = j.chord_stress(load) * factors.effects * by / j.fy
            forces = np.array(j.forces(load)[:3]) * factors.effects * by
            if isinstance(host.shape, Tube):
                face, punched = on_tube(j, fy, n_p, *extents(j))
                u = max(interaction(*(forces / np.array(face))), float((forces / np.array(punched)).sum()))
            else:
                face = on_box(
                    j, fy, n_p, *extents(j), host_face(structure, weld, j.brace), j.forces(load)[3] < 0
                )
                u = interaction(*(forces / np.array(face)))
            rows.append(row(weld.name, "tab-wall", load, path * u, u, 1.0, "1", fussy=True))
    return rows
