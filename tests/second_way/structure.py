"""A case with the forces of its record: axes, sizes, strengths, and internal forces anywhere by statics."""

from types import SimpleNamespace

import attrs
import numpy as np

from strength.case.model import Member
from strength.case.shape import Bar, Bare, Box, Flat, Outline, Rigid, Tube
from strength.library.tolerance import wall_tolerance
from tests.second_way import wheel_loads
from tests.second_way.sizes import Size
from tests.second_way.space_frame import axes

FORCES = ("N", "Vy", "Vz", "T", "My", "Mz")


class Part:
    """A member or strut with all that belongs to it."""

    def __init__(self, case, entry, at):
        """Geometry, size and metal of one entry."""
        self.entry, self.name = entry, entry.name
        self.is_member = isinstance(entry, Member)
        self.start, self.end = at[entry.start], at[entry.end]
        self.length = float(np.linalg.norm(self.end - self.start))
        self.turn = axes(self.start, self.end, entry.up)
        self.metal = case.metals.get(entry.material)
        self.shape = entry.shape
        if case.basis.wall == "minimum" and isinstance(self.shape, (Tube, Box)):
            less = wall_tolerance(self.metal, self.shape.wall).minus
            self.shape = attrs.evolve(self.shape, wall=self.shape.wall - less)
        self.is_plain = isinstance(self.shape, (Tube, Bar, Box, Flat))
        self.is_checked = self.is_plain or isinstance(self.shape, Outline)
        self.is_rigid = isinstance(self.shape, Rigid)
        self.is_bare = isinstance(self.shape, Bare)
        self.stops = [(0.0, entry.start)]
        if self.is_member:
            self.stops += [(float((at[v] - self.start) @ self.turn[0]), v) for v in entry.via]
        self.stops.append((self.length, entry.end))
        if self.is_plain:
            self.size = Size(self.shape, self.metal.poisson)
            nominal = entry.shape
            self.thick = {
                Tube: lambda: nominal.wall,
                Box: lambda: nominal.wall,
                Flat: lambda: nominal.thickness,
                Bar: lambda: nominal.diameter,
            }[type(self.shape)]()
            outside = {Tube: "od", Bar: "diameter"}.get(type(self.shape))
            self.row = self.metal.strength(self.thick, getattr(nominal, outside) if outside else None)

    @property
    def is_round(self):
        """Tube or bar."""
        return isinstance(self.shape, (Tube, Bar))

    @property
    def is_brittle(self):
        """Elongation under 10 % or unknown."""
        return self.row.elongation is None or self.row.elongation < 0.10


class Structure:
    """All parts of a case, and the internal forces in every interval between points."""

    def __init__(self, case, record):
        """case: as read; record: as `strength summary --json` writes it."""
        self.case, self.record = case, record
        self.at = {p.name: np.array(p.at, dtype=float) for p in case.points}
        self.parts = {e.name: Part(case, e, self.at) for e in (*case.members, *case.struts)}
        self.loads = [load["name"] for load in record["loads"]]
        self.severity = {load["name"]: load["severity"] for load in record["loads"]}
        self.alpha = {}  # critical multipliers by load, each over its factor; set when known
        self._forces = {}
        for n, name in enumerate(self.loads):
            self._solve(n, name)

    def _solve(self, n, name):
        case = self.case
        told, load = self.record["loads"][n], case.loads[n]
        s = told["scaled_to"]
        balanced = SimpleNamespace(
            name=load.name,
            wheels=[SimpleNamespace(**w) for w in told["wheels"]],
            tows=[SimpleNamespace(**t) for t in told.get("tows", ())],
            braking=load.braking * s,
            driving=load.driving * s,
            cornering=load.cornering * s,
            lean=told["lean"],
        )
        pushed = wheel_loads.loads_on_points(case, balanced) if case.points else np.zeros((0, 6))
        on = {p.name: pushed[k].copy() for k, p in enumerate(case.points)}
        for row in self.record["supports"]:
            if row["load"] == name:
                place = next(s for s in case.supports if s.name == row["at"]).at
                on[place] += row["reaction"]
        ends = {}
        for row in self.record["members"]:
            if row["load"] == name:
                ends[row["name"], row["end"]] = np.array([row[f] for f in FORCES])
        for row in self.record["struts"]:
            if row["load"] == name:
                for end in ("from", "to"):
                    ends[row["name"], end] = np.array([row["N"], 0, 0, 0, 0, 0.0])
        for part in self.parts.values():  # what the parts' ends do to the points
            whole = np.kron(np.eye(2), part.turn)
            on[part.entry.start] += whole.T @ ends[part.name, "from"]
            on[part.entry.end] -= whole.T @ ends[part.name, "to"]
        greatest = max(np.abs(f).max() for f in ends.values())
        for part in self.parts.values():
            whole = np.kron(np.eye(2), part.turn)
            now, found = ends[part.name, "from"], []
            for (a, _), (b, point) in zip(part.stops, part.stops[1:], strict=False):
                after = now.copy()  # M(x + d) = M(x) - d e_x x V
                after[3:] -= np.cross([b - a, 0, 0], now[:3])
                found.append((a, b, now, after))
                now = after - whole @ on[point]
            miss = np.abs(found[-1][3] - ends[part.name, "to"])
            assert miss.max() <= 1e-7 * greatest, (part.name, name, miss)
            self._forces[part.name, name] = found

    def intervals(self, part, load):
        """Rows (a, b, forces at a, forces at b) along the part, bending amplified where asked for."""
        grow = np.array([1, 1, 1, 1, self.amplified(load), self.amplified(load)])
        return [(a, b, f * grow, g * grow) for a, b, f, g in self._forces[part, load]]

    def plain_intervals(self, part, load):
        """The same without amplification."""
        return self._forces[part, load]

    def amplified(self, load):
        """Factor on bending moments, from the critical multiplier set by `set_alpha`."""
        alpha = self.alpha.get(load, np.inf)
        return 1 / (1 - 1 / alpha) if 3 <= alpha < 10 else 1.0

    def forces_at(self, part, load, x):
        """Forces at a place, one or two sets (both sides of a via point)."""
        length = self.parts[part].length
        found = []
        for a, b, f, g in self.intervals(part, load):
            if a - 1e-9 * length <= x <= b + 1e-9 * length:
                share = (x - a) / (b - a)
                found.append((1 - share) * f + share * g)
        return found

    def end_forces(self, part, load, end):
        """What the rest does to the part at an end: force and moment in body axes."""
        a = self.intervals(part, load)
        f = -a[0][2] if end == "from" else a[-1][3]
        turn = self.parts[part].turn
        return turn.T @ f[:3], turn.T @ f[3:]
