"""Heat-affected lengths along parts, and the welds that count for a part."""

import numpy as np

from tests.second_way.weld_pieces import host_face, weld_line

SOFT_SERIES = ("6xxx", "7xxx")


class Heat:
    """Zones by part: list of (from, to, yield, ultimate, in range)."""

    def __init__(self, structure):
        """Every weld heats its member, and its host where that is a member."""
        self.zones = {name: [] for name in structure.parts}
        self.welded_at = {name: [] for name in structure.parts}  # places, for stability
        self.lines = {}
        for weld in structure.case.welds:
            part = structure.parts[weld.member]
            line = self.lines[weld.name] = weld_line(structure, weld)
            low = high = line.station
            if line.saddle:
                along = (line.nodes - part.start) @ part.turn[0]
                low, high = along.min(), along.max()
            self._heat(part, weld, low, high)
            self.welded_at[part.name].append((line.station, line.station, weld))
            if isinstance(weld.onto, str):
                host = structure.parts[weld.onto]
                along = (footprint(structure, weld, part, host, line) - host.start) @ host.turn[0]
                self._heat(host, weld, along.min(), along.max())
                self.welded_at[host.name].append((along.min(), along.max(), weld))

    def _heat(self, part, weld, low, high):
        if not part.is_plain:
            return
        b, inside = width(part, weld)
        if not b:
            return
        yield_, ultimate = welded(part, weld)
        self.zones[part.name].append((low - b, high + b, yield_, ultimate, inside))

    def strengths(self, part, x):
        """Yield, ultimate and range at a place of a part."""
        found = [(part.row.yield_, part.row.ultimate, True)]
        found += [z[2:] for z in self.zones[part.name] if z[0] - 1e-9 <= x <= z[1] + 1e-9]
        return min(f[0] for f in found), min(f[1] for f in found), all(f[2] for f in found)


def footprint(structure, weld, part, host, line):
    """Where a weld's line stands on its host: slid along the member to the face of a box or flat."""
    face = host_face(structure, weld, part)
    if face is None:
        return line.nodes
    half = host.size.width if abs(face @ host.turn[1]) > 0.7 else host.size.depth
    far = (half / 2 - (line.nodes - host.start) @ face) / (part.turn[0] @ face)
    return line.nodes + far[:, None] * part.turn[0]


def width(part, weld):
    """Half length b [mm] of the heat-affected length and whether its source covers it; 0: none."""
    return reach(part.metal, part.thick, part.row, weld)


def reach(metal, t, row, weld):
    """The same for a metal of thickness t; row: its strengths."""
    if metal.kind != "aluminium":
        if row is None:
            return 0.0, True
        lower = (row.yield_welded or np.inf) < row.yield_ or (row.ultimate_welded or np.inf) < row.ultimate
        return (25.0 if lower else 0.0), True
    if weld.process == "mig":
        return next(b for top, b in ((6, 20.0), (12, 30.0), (25, 35.0), (np.inf, 40.0)) if t <= top), True
    if weld.process == "tig" and t <= 6:
        return 30.0, True
    return 40.0, False


def welded(part, weld):
    """Yield and ultimate beside a weld."""
    soft = 0.8 if weld.process == "tig" and part.metal.series in SOFT_SERIES and not part.metal.own else 1.0
    row = part.row
    yield_ = row.yield_ if row.yield_welded is None else row.yield_welded
    ultimate = row.ultimate if row.ultimate_welded is None else row.ultimate_welded
    return soft * yield_, soft * ultimate
