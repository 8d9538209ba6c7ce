"""The same frames by calfem-python's elements and textbook transformations, without our code.

Releases are separate rotations of the member's end, rigid members slave their second point, struts
are bar or spring elements. The geometric matrix is that of cubic elements under axial force
(Przemieniecki, Theory of Matrix Structural Analysis, section 15.3; from memory).
"""

import calfem.core as cfc
import numpy as np
from scipy.linalg import eigh, null_space

from strength.case.shape import Rigid


class Frame:
    """Stiffness and constraints of a case with Euler-Bernoulli members cut into `cuts` pieces."""

    def __init__(self, case, sizes, cuts=1, struts_hold=False):
        self.names = {p.name: n for n, p in enumerate(case.points)}
        self.places = [np.array(p.at) for p in case.points]
        self.count = 6 * len(self.places)
        self.pieces = []  # freedoms, ends, size, z axis, part name
        self.rows = []  # constraint rows as {freedom: weight}
        for m in case.members:
            self._member(m, sizes.get(m.name), cuts)
        for s in case.struts:
            self._strut(s, sizes[s.name], struts_hold)
        self.held = [6 * self.names[s.at] + k for s in case.supports for k in range(6) if s.hold[k]]

    def _new(self, number):
        out = list(range(self.count, self.count + number))
        self.count += number
        return out

    def _member(self, m, size, cuts):
        a, b = self.names[m.start], self.names[m.end]
        start, end = self.places[a], self.places[b]
        if isinstance(m.shape, Rigid):
            arm = end - start
            for k in range(3):
                row = {6 * b + k: 1.0, 6 * a + k: -1.0}
                for j in range(3):
                    row[6 * a + 3 + j] = -float(np.cross(np.eye(3)[j], arm)[k])
                self.rows.append(row)
                self.rows.append({6 * b + 3 + k: 1.0, 6 * a + 3 + k: -1.0})
            freedoms = [6 * p + k for p in (a, b) for k in range(3)]
            self.pieces.append((freedoms, (start, end), None, None, m.name))
            return
        line = (end - start) / np.linalg.norm(end - start)
        up = np.array(m.up, dtype=float)
        z = up - (up @ line) * line
        chain = [self._end(m, a, m.from_end)]
        chain += [self._new(6) for _ in range(cuts - 1)]
        chain.append(self._end(m, b, m.to_end))
        for n in range(cuts):
            ends = (start + (end - start) * n / cuts, start + (end - start) * (n + 1) / cuts)
            self.pieces.append((chain[n] + chain[n + 1], ends, size, z / np.linalg.norm(z), m.name))

    def _end(self, m, point, kind):
        own = list(range(6 * point, 6 * point + 6))
        if kind == "fixed":
            return own
        free = self._new(3)
        if kind == "hinge":
            axis = np.array(m.hinge_axis, dtype=float)
            for across in null_space(axis[None]).T:
                row = {own[3 + k]: float(across[k]) for k in range(3)}
                row |= {free[k]: -float(across[k]) for k in range(3)}
                self.rows.append(row)
        return own[:3] + free

    def _strut(self, s, size, hold):
        a, b = self.names[s.start], self.names[s.end]
        line = self.places[b] - self.places[a]
        length = np.linalg.norm(line)
        freedoms = [6 * a, 6 * a + 1, 6 * a + 2, 6 * b, 6 * b + 1, 6 * b + 2]
        direction = np.concatenate([-line, line]) / length
        if s.shape is None and (s.stiffness is None or hold):
            self.rows.append(dict(zip(freedoms, direction.tolist(), strict=True)))
            self.pieces.append((freedoms, (self.places[a], self.places[b]), None, None, s.name))
            return
        if s.stiffness is not None:
            spring = cfc.spring1e(s.stiffness)
            two = np.zeros((2, 6))
            two[0, :3] = two[1, 3:] = line / length
            matrix = two.T @ spring @ two
        else:
            (x1, y1, z1), (x2, y2, z2) = self.places[a], self.places[b]
            matrix = cfc.bar3e([x1, x2], [y1, y2], [z1, z2], [size.youngs, size.area])
        self.pieces.append((freedoms, (self.places[a], self.places[b]), matrix, None, s.name))

    def element(self, piece):
        """Element stiffness in body axes."""
        _, ends, size, z, _ = piece
        if z is None:
            return np.zeros((6, 6)) if size is None else size
        ex, ey, ez = (list(pair) for pair in zip(*ends, strict=True))
        ep = [size.youngs, size.shear, size.area, size.iy, size.iz, size.torsion]
        return cfc.beam3e(ex, ey, ez, z, ep)

    def stiffness(self):
        """Assembled stiffness (count, count)."""
        out = np.zeros((self.count, self.count))
        for piece in self.pieces:
            out[np.ix_(piece[0], piece[0])] += self.element(piece)
        return out

    def geometric(self, axial):
        """Assembled geometric stiffness for axial forces by part name, tension positive."""
        out = np.zeros((self.count, self.count))
        for freedoms, ends, _, z, name in self.pieces:
            line = np.array(ends[1]) - np.array(ends[0])
            length = np.linalg.norm(line)
            x = line / length
            if z is None:
                across = np.eye(3) - np.outer(x, x)
                own = np.kron(np.array([[1, -1], [-1, 1]]), across) / length
            else:
                own = _cubic(np.cross(z, x), z, length)
            out[np.ix_(freedoms, freedoms)] += axial[name] * own
        return out

    def basis(self):
        """Columns: all movements that supports and constraints allow."""
        rows = np.zeros((len(self.rows) + len(self.held), self.count))
        for n, row in enumerate(self.rows):
            for freedom, weight in row.items():
                rows[n, freedom] = weight
        for n, freedom in enumerate(self.held):
            rows[len(self.rows) + n, freedom] = 1.0
        return null_space(rows / np.linalg.norm(rows, axis=1, keepdims=True))

    def solve(self, force):
        """Displacements of all freedoms for loads (points, 6)."""
        full = np.zeros(self.count)
        full[: force.size] = force.reshape(-1)
        free = self.basis()
        return free @ np.linalg.solve(free.T @ self.stiffness() @ free, free.T @ full)

    def end_forces(self, piece, moved):
        """Forces on the two ends of a beam piece in member axes (2, 6)."""
        freedoms, ends, _, z, _ = piece
        line = np.array(ends[1]) - np.array(ends[0])
        x = line / np.linalg.norm(line)
        axes = np.stack([x, np.cross(z, x), z])
        body = self.element(piece) @ moved[freedoms]
        return (body.reshape(4, 3) @ axes.T).reshape(2, 6)

    def multiplier(self, axial):
        """Least positive multiplier of the geometric stiffness."""
        free = self.basis()
        stiff, soft = free.T @ self.stiffness() @ free, free.T @ self.geometric(axial) @ free
        last = stiff.shape[0] - 1
        return 1.0 / eigh(-soft, stiff, eigvals_only=True, subset_by_index=[last, last])[0]


def _cubic(y, z, h):
    """Geometric matrix of a cubic element per unit tension, body axes (12, 12)."""
    plane = (
        np.array(
            [
                [6 / 5, h / 10, -6 / 5, h / 10],
                [h / 10, 2 * h * h / 15, -h / 10, -h * h / 30],
                [-6 / 5, -h / 10, 6 / 5, -h / 10],
                [h / 10, -h * h / 30, -h / 10, 2 * h * h / 15],
            ]
        )
        / h
    )
    zero = np.zeros(3)
    out = np.zeros((12, 12))
    for shift, turn in ((y, z), (z, -y)):
        rows = np.stack(
            [
                np.concatenate([shift, zero, zero, zero]),
                np.concatenate([zero, turn, zero, zero]),
                np.concatenate([zero, zero, shift, zero]),
                np.concatenate([zero, zero, zero, turn]),
            ]
        )
        out += rows.T @ plane @ rows
    return out
