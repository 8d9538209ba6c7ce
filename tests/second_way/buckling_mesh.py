"""Critical multiplier of a frame: every segment cut fine, dense matrices, one generalised eigenproblem."""

from itertools import pairwise

import numpy as np
from scipy.linalg import eigh, null_space

from strength.case.shape import Bare
from tests.second_way.space_frame import stiffness

CUTS = 6
WEAK = 1e-9
NODES, WEIGHTS = np.polynomial.legendre.leggauss(4)


def geometric(length, soft):
    """12 x 12 geometric stiffness of a beam under unit tension, from the shapes that shear allows it.

    soft: 12 E I / (kappa G A L^2) for bending along y and along z.
    """
    k = np.zeros((12, 12))
    x = (1 + NODES) / 2
    for v, r, sign, phi in ((1, 5, 1.0, soft[0]), (2, 4, -1.0, soft[1])):
        slopes = np.array(
            [
                (6 * x**2 - 6 * x - phi) / length,
                sign * (1 - 4 * x + 3 * x**2 + phi / 2 * (1 - 2 * x)),
                (6 * x - 6 * x**2 + phi) / length,
                sign * (3 * x**2 - 2 * x + phi / 2 * (2 * x - 1)),
            ]
        ) / (1 + phi)
        where = [v, r, v + 6, r + 6]
        k[np.ix_(where, where)] += length / 2 * (slopes * WEIGHTS) @ slopes.T
    return k


def string(length):
    """12 x 12 of a straight hinged or rigid link under unit tension."""
    k = np.zeros((12, 12))
    for v in (1, 2):
        k[np.ix_([v, v + 6], [v, v + 6])] += np.array([[1, -1], [-1, 1]]) / length
    return k


class Mesh:
    """Unknowns: six per point, six per cut, three per released end."""

    def __init__(self, structure):
        """Number everything and gather elements and constraints."""
        self.structure, self.case = structure, structure.case
        self.number = {name: 6 * k for k, name in enumerate(structure.at)}
        self.count = 6 * len(self.number)
        self.elements = []  # (where, elastic, geometric for N = 1, part, interval)
        self.constraints = []
        for part in structure.parts.values():
            if part.is_member:
                self._member(part)
            else:
                self._strut(part)
        for support in self.case.supports:
            for d in range(6):
                if support.hold[d]:
                    self.constraints.append({self.number[support.at] + d: 1.0})
        if not self.case.supports:
            self._floating()

    def _fresh(self, n):
        self.count += n
        return list(range(self.count - n, self.count))

    def _member(self, part):
        entry = part.entry
        for k, ((a, start), (b, end)) in enumerate(zip(part.stops, part.stops[1:], strict=False)):
            first = self._end(start, entry.from_end if k == 0 else "fixed", entry.hinge_axis)
            last = self._end(end, entry.to_end if k == len(part.stops) - 2 else "fixed", entry.hinge_axis)
            if part.is_rigid:
                self._rigid(part, k, first, last, b - a)
                continue
            nodes = [first, *(self._fresh(6) for _ in range(CUTS - 1)), last]
            step = (b - a) / CUTS
            figures = self._figures(part)
            e, g, _, iy, iz, _, ay, az = figures
            soft = [12 * e * i / (g * a * step**2) for i, a in ((iz, ay), (iy, az))]
            whole = np.kron(np.eye(4), part.turn)
            elastic = whole.T @ stiffness(step, *figures) @ whole
            pressed = whole.T @ geometric(step, soft) @ whole
            for here, there in pairwise(nodes):
                self.elements.append((here + there, elastic, pressed, part, k))

    def _figures(self, part):
        shape, metal = part.shape, part.metal
        if isinstance(shape, Bare):
            a, iy, iz, j, ky, kz = shape.area, shape.iy, shape.iz, shape.torsion, np.inf, np.inf
        else:
            q = part.size
            a, iy, iz, j, ky, kz = q.area, q.iy, q.iz, q.j, q.kappa_y, q.kappa_z
        if not self.case.basis.shear_flexible:
            ky = kz = np.inf
        return metal.modulus, metal.shear_modulus, a, iy, iz, j, ky * a, kz * a

    def _end(self, point, kind, hinge):
        base = self.number[point]
        own = [base + d for d in range(6)]
        if kind == "fixed":
            return own
        free = self._fresh(3)
        if kind == "hinge":
            for b in null_space(np.array([hinge], dtype=float)).T:
                self.constraints.append(
                    {free[k]: b[k] for k in range(3)} | {own[3 + k]: -b[k] for k in range(3)}
                )
        return own[:3] + free

    def _rigid(self, part, k, first, last, length):
        run = part.turn[0] * length
        for d in range(3):
            row = {last[d]: 1.0, first[d]: -1.0}
            for r in range(3):
                row[first[3 + r]] = -np.cross(np.eye(3)[r], run)[d]
            self.constraints.append(row)
            self.constraints.append({last[3 + d]: 1.0, first[3 + d]: -1.0})
        whole = np.kron(np.eye(4), part.turn)
        self.elements.append((first + last, np.zeros((12, 12)), whole.T @ string(length) @ whole, part, k))

    def _strut(self, part):
        entry = part.entry
        where = [self.number[p] + d for p in (entry.start, entry.end) for d in range(6)]
        whole = np.kron(np.eye(4), part.turn)
        elastic = np.zeros((12, 12))
        if entry.shape is not None:
            area = entry.shape.area if isinstance(entry.shape, Bare) else part.size.area
            stiff = part.metal.modulus * area / part.length
            elastic[np.ix_([0, 6], [0, 6])] = stiff * np.array([[1, -1], [-1, 1]])
        else:  # given by its stiffness, or by nothing: held at its length
            e = part.turn[0]
            row = {where[6 + d]: e[d] for d in range(3)} | {where[d]: -e[d] for d in range(3)}
            self.constraints.append(row)
        self.elements.append(
            (where, whole.T @ elastic @ whole, whole.T @ string(part.length) @ whole, part, 0)
        )

    def _floating(self):
        """Sums of m u and of m r x u are nought; gyration^2 m turn with them where that leaves a turn free.

        A mass moves as its points' work says: the transpose of how they share its force and moment.
        """
        self.gauge = self._momentum(0.0)
        size = np.linalg.svd(self.gauge[:3], compute_uv=False)[0], 1e3 * np.abs(self.gauge[:3]).max()
        if np.linalg.matrix_rank(self.gauge / np.repeat(size, 3)[:, None], tol=1e-6) < 6:
            self.gauge = self._momentum(1.0)

    def _momentum(self, gyration):
        """The six sums as rows; `gyration` 1 or 0: whether turning masses count."""
        total = sum(m.mass for m in self.case.masses)
        middle = sum(m.mass * np.array(m.at) for m in self.case.masses) / total
        rows = np.zeros((6, self.count))
        for mass in self.case.masses:
            spots = [self.structure.at[n] for n in mass.carried_by]
            centre = np.mean(spots, axis=0)
            arms = [s - centre for s in spots]
            s = sum((q @ q) * np.eye(3) - np.outer(q, q) for q in arms)
            back = np.linalg.pinv(s, rcond=1e-9, hermitian=True)
            for way in np.eye(6):
                moment = np.cross(np.array(mass.at) - centre, way[:3]) + way[3:]
                turn = back @ moment
                effect = np.concatenate([way[:3], np.cross(np.array(mass.at) - middle, way[:3])])
                effect[3:] += gyration * mass.gyration**2 * way[3:]
                for name, q in zip(mass.carried_by, arms, strict=True):
                    share = np.concatenate(
                        [way[:3] / len(arms) + np.cross(turn, q), (moment - s @ turn) / len(arms)]
                    )
                    base = self.number[name]
                    rows[:, base : base + 6] += mass.mass * np.outer(effect, share)
        return rows

    def multipliers(self):
        """Lowest positive multiplier by load; inf where nothing buckles."""
        n = self.count
        c = np.zeros((len(self.constraints), n))
        for k, row in enumerate(self.constraints):
            for key, value in row.items():
                c[k, key] = value
        turns = np.ones(n)
        turns[[i for base in self.number.values() for i in range(base + 3, base + 6)]] = 0.02
        for where, *_ in self.elements:
            turns[where[3:6] + where[9:12]] = 0.02
        if not self.case.supports:
            c = np.vstack([c, self.gauge[:, :n]])
        c = c * turns
        c /= np.linalg.norm(c, axis=1)[:, None] if len(c) else 1.0
        free = null_space(c, rcond=1e-10) if len(c) else np.eye(n)
        elastic = np.zeros((n, n))
        for where, k, *_ in self.elements:
            elastic[np.ix_(where, where)] += k
        elastic = free.T @ (turns[:, None] * elastic * turns) @ free
        size, modes = np.linalg.eigh(elastic)
        keep = size > WEAK * size[-1]
        root = modes[:, keep] / np.sqrt(size[keep])
        found = {}
        for load in self.structure.loads:
            g = np.zeros((n, n))
            for where, _, k, part, interval in self.elements:
                force = self.structure.plain_intervals(part.name, load)[interval][2][0]
                g[np.ix_(where, where)] += force * k
            g = root.T @ (free.T @ (turns[:, None] * g * turns) @ free) @ root
            most = eigh(-(g + g.T) / 2, eigvals_only=True, subset_by_index=[len(g) - 1, len(g) - 1])[0]
            found[load] = 1 / most if most > 1e-12 else np.inf
        return found
