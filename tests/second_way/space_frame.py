"""Space frame a second way, by flexibilities and multipliers.

The stiffness is the inverse of a cantilever's flexibility, released ends are unknowns of their own,
every constraint has a multiplier, and one minimum-norm solve does the rest.
Straight Timoshenko members; mm, N, N*mm.
"""

import numpy as np

from strength.case.shape import Rigid


def axes(start, end, up):
    """Rows x_m, y_m, z_m of a member."""
    x = (end - start) / np.linalg.norm(end - start)
    if up is None:
        up = (0, 0, 1) if abs(x[2]) < np.cos(np.radians(8)) else (1, 0, 0)
    z = np.array(up, dtype=float) - np.dot(up, x) * x
    z /= np.linalg.norm(z)
    return np.array([x, np.cross(z, x), z])


def stiffness(length, e, g, a, iy, iz, j, ay, az):
    """12 x 12 local stiffness: invert the flexibility of the tip, then carry to the root by statics."""
    f = np.zeros((6, 6))
    f[0, 0] = length / (e * a)
    f[3, 3] = length / (g * j)
    for shear_area, i, v, m, sign in ((ay, iz, 1, 5, 1.0), (az, iy, 2, 4, -1.0)):
        f[v, v] = length**3 / (3 * e * i) + length / (g * shear_area)
        f[v, m] = f[m, v] = sign * length**2 / (2 * e * i)
        f[m, m] = length / (e * i)
    tip = np.linalg.inv(f)
    carry = np.eye(6)
    carry[5, 1], carry[4, 2] = length, -length
    k = np.zeros((12, 12))
    k[6:, 6:] = tip
    k[:6, 6:] = -carry @ tip
    k[6:, :6] = (-carry @ tip).T
    k[:6, :6] = carry @ tip @ carry.T
    return k


class Model:
    """Unknowns: six per point, then three more per released member end."""

    def __init__(self, case, bars):
        """Assemble the first design."""
        self.case, self.bars = case, bars
        self.at = {p.name: np.array(p.at, dtype=float) for p in case.points}
        self.number = {p.name: k for k, p in enumerate(case.points)}
        self.size = 6 * len(case.points)
        self.pieces, self.constraints, self.energies = [], [], []
        for n, member in enumerate(case.members):
            self._member(n, member)
        for n, strut in enumerate(case.struts):
            self._strut(len(case.members) + n, strut)
        for n, support in enumerate(case.supports):
            for d in range(6):
                if support.hold[d]:
                    row = {6 * self.number[support.at] + d: 1.0}
                    self.constraints.append((row, ("support", n, d)))

    def _rotation(self, point, kind, hinge):
        """Unknown numbers of the rotation of a member's end at a point."""
        own = [6 * self.number[point] + 3 + k for k in range(3)]
        if kind == "fixed":
            return own
        extra = [self.size + k for k in range(3)]
        self.size += 3
        if kind == "hinge":
            a = np.array(hinge) / np.linalg.norm(hinge)
            first = np.cross(a, [1, 0, 0] if abs(a[0]) < 0.9 else [0, 1, 0])
            first /= np.linalg.norm(first)
            for b in (first, np.cross(a, first)):
                row = {extra[k]: b[k] for k in range(3)} | {own[k]: -b[k] for k in range(3)}
                self.constraints.append((row, ("hinge",)))
        return extra

    def _member(self, n, member):
        stops = [member.start, *member.via, member.end]
        for k in range(len(stops) - 1):
            a, b = stops[k], stops[k + 1]
            kind_a = member.from_end if k == 0 else "fixed"
            kind_b = member.to_end if k == len(stops) - 2 else "fixed"
            rot_a = self._rotation(a, kind_a, member.hinge_axis)
            rot_b = self._rotation(b, kind_b, member.hinge_axis)
            where = [6 * self.number[a] + d for d in range(3)] + rot_a
            where += [6 * self.number[b] + d for d in range(3)] + rot_b
            turn = axes(self.at[a], self.at[b], member.up)
            run = self.at[b] - self.at[a]
            length = np.linalg.norm(run)
            whole = np.kron(np.eye(4), turn)
            if isinstance(member.shape, Rigid):
                self._rigid(n, k, where, run, turn)
                continue
            q = self.bars
            local = stiffness(
                length,
                *(v[0, n] for v in (q.youngs, q.shear, q.area, q.iy, q.iz, q.torsion, q.shear_y, q.shear_z)),
            )
            self.pieces.append((n, k, where, whole.T @ local @ whole, turn))

    def _rigid(self, n, k, where, run, turn):
        for d in range(3):
            row = {where[6 + d]: 1.0, where[d]: -1.0}
            unit = np.eye(3)[d]
            for r in range(3):
                row[where[3 + r]] = row.get(where[3 + r], 0.0) - np.dot(np.cross(np.eye(3)[r], run), unit)
            self.constraints.append((row, ("rigid", n, k, d, turn)))
        for r in range(3):
            self.constraints.append(({where[9 + r]: 1.0, where[3 + r]: -1.0}, ("rigid", n, k, 3 + r, turn)))

    def _strut(self, n, strut):
        a, b = strut.start, strut.end
        run = self.at[b] - self.at[a]
        e = run / np.linalg.norm(run)
        row = {6 * self.number[b] + d: e[d] for d in range(3)}
        row |= {6 * self.number[a] + d: -e[d] for d in range(3)}
        if strut.stiffness is None and strut.shape is None:
            self.constraints.append((row, ("strut", n)))
            return
        k = strut.stiffness
        if k is None:
            k = self.bars.youngs[0, n] * self.bars.area[0, n] / np.linalg.norm(run)
        self.energies.append((n, k, row))

    def is_determinate(self):
        """Whether every constraint has one force only: no closed loop of stiff parts."""
        c = np.zeros((len(self.constraints), self.size))
        for n, (row, _) in enumerate(self.constraints):
            for key, value in row.items():
                c[n, key] = value * (0.01 if key % 6 > 2 or key >= 6 * len(self.at) else 1.0)
        return np.linalg.matrix_rank(c, tol=1e-9 * np.linalg.norm(c)) == len(self.constraints)

    def solve(self, forces):
        """Point displacements (points, 6), internal forces {(bar, piece): (2, 6)}, reactions."""
        m = len(self.constraints)
        k = np.zeros((self.size, self.size))
        for _, _, where, whole, _ in self.pieces:
            k[np.ix_(where, where)] += whole
        for _, stiff, row in self.energies:
            keys, values = list(row), np.array(list(row.values()))
            k[np.ix_(keys, keys)] += stiff * np.outer(values, values)
        c = np.zeros((m, self.size))
        for n, (row, _) in enumerate(self.constraints):
            for key, value in row.items():
                c[n, key] = value
        right = np.zeros(self.size + m)
        right[: forces.size] = forces.ravel()
        # One scale for lengths, one for forces, so that the minimum norm drops true null motions only.
        turns = np.ones(self.size)
        for p in range(len(self.case.points)):
            turns[6 * p + 3 : 6 * p + 6] = 0.02
        turns[6 * len(self.case.points) :] = 0.02
        ks = turns[:, None] * k * turns
        size = np.abs(ks).max() if ks.any() else 1.0
        cs = c * turns
        cs /= np.linalg.norm(cs, axis=1, keepdims=True) if m else 1.0
        whole = np.block([[ks / size, cs.T], [cs, np.zeros((m, m))]])
        scaled = right.copy()
        scaled[: self.size] *= turns / size
        u, s, vt = np.linalg.svd(whole, hermitian=True)
        keep = s > 1e-11 * s[0]
        inverse = (vt[keep].T / s[keep]) @ u[:, keep].T
        answer = inverse @ scaled
        for _ in range(3):  # iterative refinement
            answer += inverse @ (scaled - whole @ answer)
        left = np.abs(whole @ answer - scaled).max()
        moves = answer[: self.size] * turns
        norms = np.linalg.norm(c * turns, axis=1) if m else np.ones(0)
        multipliers = answer[self.size :] * size / norms
        return moves, multipliers, left / max(np.abs(scaled).max(), 1e-300)

    def results(self, forces):
        """Translations of points, internal forces by (bar, piece), reactions (supports, 6)."""
        moves, multipliers, left = self.solve(forces)
        inner = {}
        for n, k, where, whole, turn in self.pieces:
            end = whole @ moves[where]
            end = (np.kron(np.eye(4), turn) @ end).reshape(2, 6)
            inner[n, k] = np.array([-end[0], end[1]])
        for n, stiff, row in self.energies:
            stretch = sum(v * moves[q] for q, v in row.items())
            inner[n, 0] = np.array([[stiff * stretch, 0, 0, 0, 0, 0]] * 2)
        reactions = np.zeros((len(self.case.supports), 6))
        rigid = {}
        for (_, tag), force in zip(self.constraints, multipliers, strict=True):
            if tag[0] == "support":
                reactions[tag[1], tag[2]] = -force
            elif tag[0] == "strut":
                inner[tag[1], 0] = np.array([[force, 0, 0, 0, 0, 0]] * 2)
            elif tag[0] == "rigid":
                rigid.setdefault((tag[1], tag[2]), (np.zeros(6), tag[4]))[0][tag[3]] = force
        for (n, k), (at_end, turn) in rigid.items():
            member = self.case.members[n]
            stops = [member.start, *member.via, member.end]
            run = self.at[stops[k + 1]] - self.at[stops[k]]
            force, moment = at_end[:3], at_end[3:]
            start = np.concatenate([force, moment + np.cross(run, force)])
            inner[n, k] = np.array([np.kron(np.eye(2), turn) @ start, np.kron(np.eye(2), turn) @ at_end])
        points = moves[: 6 * len(self.case.points)].reshape(-1, 6)
        return points, inner, reactions, left
