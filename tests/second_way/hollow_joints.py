"""Rows of walls that tubes and plates are welded onto: EN 1993-1-8:2005 Tables 7.2, 7.3, 7.5, 7.10-7.14."""

from math import pi, sqrt

import numpy as np

from strength.case.shape import Box, Tube
from tests.second_way.factors import Factors
from tests.second_way.heat import welded
from tests.second_way.member_checks import row
from tests.second_way.sizes import Size
from tests.second_way.stability_checks import CURVES, perry

ROOT3 = sqrt(3)


def interaction(n, ip, op):
    """The u for which n/u + op/u + (ip/u)^2 = 1."""
    a, b = n + op, ip**2
    return (a + sqrt(a * a + 4 * b)) / 2


def plastic_modulus(h, b, t, size):
    """Twice the static moment of the upper half of a box with its rounded corners."""

    def half(h, b, r):
        z = np.linspace(0, h / 2, 40001)
        over = np.maximum(z - (h / 2 - r), 0.0)
        wide = b - 2 * (r - np.sqrt(np.maximum(r * r - over**2, 0.0)))
        return np.trapezoid(wide * z, z)

    return 2 * (half(h, b, size.outer) - half(h - 2 * t, b - 2 * t, size.inner))


class Meeting:
    """A brace on a chord: angle, and the brace's N, M in plane and M out of plane at the weld."""

    def __init__(self, structure, heat, weld):
        """Geometry."""
        self.structure, self.weld = structure, weld
        self.brace, self.chord = structure.parts[weld.member], structure.parts[weld.onto]
        self.line = heat.lines[weld.name]
        b, c = self.brace.turn[0], self.chord.turn[0]
        self.sine = float(np.linalg.norm(np.cross(b, c)))
        self.normal = np.cross(b, c) / self.sine
        end = self.brace.start if weld.end == "from" else self.brace.end
        self.at = float((end - self.chord.start) @ c)
        self.fy = min(self.chord.row.yield_, welded(self.chord, weld)[0])

    def is_opposed(self):
        """Whether another member stands on the other side of the chord, at the same place."""
        c = self.chord.turn[0]
        for weld in self.structure.case.welds:
            if weld.name == self.weld.name or weld.onto != self.weld.onto:
                continue
            other = self.structure.parts[weld.member]
            ways = [
                p.turn[0] * (1 if w.end == "from" else -1)
                for p, w in ((self.brace, self.weld), (other, weld))
            ]
            ways = [(v - (v @ c) * c) / np.linalg.norm(v - (v @ c) * c) for v in ways]
            end = other.start if weld.end == "from" else other.end
            if ways[0] @ ways[1] < -0.7 and abs((end - self.chord.start) @ c - self.at) < 1.0:
                return True
        return False

    def side_chi(self, h0, fy):
        """Reduction of a box's side wall that a brace presses (Table 7.11), cold-formed: curve c."""
        slender = 3.46 * (h0 / self.chord.shape.wall - 2) * sqrt(1 / self.sine)
        slender /= pi * sqrt(self.chord.metal.modulus / fy)
        return perry(slender, *CURVES[self.chord.metal.buckling_curve])

    @property
    def brace_yield(self):
        """Yield of the brace beside the weld."""
        return welded(self.brace, self.weld)[0]

    def plastic(self):
        """Plastic moduli of a box brace, in plane and out of plane, for a tube those of the box around it."""
        s = self.brace.shape
        h, b = (s.od, s.od) if isinstance(s, Tube) else (s.depth, s.width)
        size = Size(Box(depth=h, width=b, wall=s.wall), 0.3)
        y, z = (plastic_modulus(p, q, s.wall, size) for p, q in ((h, b), (b, h)))
        return (y, z) if abs(self.brace.turn[2] @ self.chord.turn[0]) > 0.7 else (z, y)

    def forces(self, load):
        """|N|, |M in plane|, |M out of plane| of the brace."""
        f = self.structure.forces_at(self.brace.name, load, self.line.station)[0]
        m = self.brace.turn.T @ np.array([0, f[4], f[5]])
        ip = m @ self.normal
        return abs(f[0]), abs(ip), float(np.linalg.norm(m - ip * self.normal)), f[0]

    def chord_stress(self, load):
        """Greater compression of the chord on either side of the joint, at its outermost fibre."""
        q = self.chord.size
        found = []
        for f in self.structure.forces_at(self.chord.name, load, self.at):
            if self.chord.is_round:
                found.append(-f[0] / q.area + np.hypot(f[4], f[5]) / q.wy)
            else:
                found.append(-f[0] / q.area + abs(f[4]) / q.wy + abs(f[5]) / q.wz)
        return max(0.0, *found)


def round_rows(structure, heat):
    """Rows `chord-wall` and `chord-punching`."""
    rows = []
    for weld in structure.case.welds:
        if not isinstance(weld.onto, str):
            continue
        j = Meeting(structure, heat, weld)
        if not (isinstance(j.chord.shape, Tube) and j.brace.is_round):
            continue
        d0, t0, d1 = j.chord.shape.od, j.chord.shape.wall, j.brace.size.depth
        beta, gamma, s = d1 / d0, d0 / (2 * t0), j.sine
        fy = j.fy * (0.9 if j.fy > 355 else 1.0)
        only = j.brace.entry.only_path if weld.only_path is None else weld.only_path
        path = 1.25 if only else 1.0
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            by = factors.yielding(j.chord.metal.kind, j.chord.is_brittle, fifth=True)
            up = factors.effects
            n_p = j.chord_stress(load) * up * by / j.fy
            kp = 1 - 0.3 * n_p * (1 + n_p)
            n, ip, op = (v * up for v in j.forces(load)[:3])
            if kp > 0:
                factor = gamma**0.2 * (2.8 + 14.2 * beta**2)
                if j.is_opposed():
                    factor = min(factor, 5.2 / (1 - 0.81 * beta))
                face = (
                    kp * fy * t0**2 / s * factor,
                    4.85 * fy * t0**2 * d1 / s * sqrt(gamma) * beta * kp,
                    fy * t0**2 * d1 / s * 2.7 / (1 - 0.81 * beta) * kp,
                )
                u = interaction(*(v * by / r for v, r in zip((n, ip, op), face, strict=True)))
                rows.append(row(weld.name, "chord-wall", load, path * u, u, 1.0, "1", fussy=True))
            if d1 > d0 - 2 * t0 + 1e-9:
                continue
            punch = (
                fy / ROOT3 * t0 * pi * d1 * (1 + s) / (2 * s * s),
                fy * t0 * d1**2 / ROOT3 * (1 + 3 * s) / (4 * s * s),
                fy * t0 * d1**2 / ROOT3 * (3 + s) / (4 * s * s),
            )
            u = interaction(*(v * by / r for v, r in zip((n, ip, op), punch, strict=True)))
            rows.append(row(weld.name, "chord-punching", load, path * u, u, 1.0, "1", fussy=True))
    return rows
