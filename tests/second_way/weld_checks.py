"""Rows `weld-throat` and `weld-toe`: tractions at thousands of places of each weld line."""

from math import sqrt

import numpy as np

from strength.case.shape import Bar, Box, Flat, Tube
from tests.second_way.factors import Factors
from tests.second_way.heat import SOFT_SERIES, reach, welded, width
from tests.second_way.member_checks import row
from tests.second_way.weld_pieces import tractions

QUALITY = {"good": 1.0, "ordinary": 0.8, "poor": 0.5}


class Host:
    """What a weld stands on: its metal's welded ultimate, wall and kind."""

    def __init__(self, structure, weld, part):
        """A member, a plate or nothing (then the member itself stands in)."""
        self.part = self.wall = None
        self.hollow = False
        if isinstance(weld.onto, str):
            self.part = structure.parts[weld.onto]
            self.metal, self.ultimate = self.part.metal, welded(self.part, weld)[1]
            self.hollow = isinstance(self.part.shape, (Tube, Box))
            self.wall = None if isinstance(self.part.shape, Bar) else self.part.size.wall
            if isinstance(self.part.shape, Flat):
                self.wall = self.part.shape.thickness
        elif weld.onto is not None:
            self.metal = structure.case.metals[weld.onto.material]
            line = self.metal.strength(weld.onto.thickness)
            soft = weld.process == "tig" and self.metal.series in SOFT_SERIES and not self.metal.own
            welded_value = line.ultimate if line.ultimate_welded is None else line.ultimate_welded
            self.ultimate = (0.8 if soft else 1.0) * welded_value
            self.wall = weld.onto.thickness
        else:
            self.metal, self.ultimate = part.metal, welded(part, weld)[1]


def throat(structure, weld, part, host, t, factors):
    """(demand array, limit) pairs of the throat."""
    tx, ts, tn = t
    filler = structure.case.fillers[weld.filler]
    whole = np.sqrt(tx**2 + ts**2 + tn**2)
    down = QUALITY[weld.quality] / factors.ultimate()
    if weld.process == "braze":
        return [(whole, 0.40 * filler.strength * down)]
    light = part.metal.kind == "aluminium"
    if factors.allowable:
        return [(whole, (0.48 if light else 0.60) * filler.strength * down)]
    first = np.sqrt(2 * (tx**2 + np.abs(tx * tn) + tn**2) + 3 * ts**2)
    if light:
        return [(first, min(fw(filler, m) for m in (part.metal, host.metal)) * down)]
    fu = min(welded(part, weld)[1], host.ultimate, filler.strength)
    beta = beta_w(part.metal if welded(part, weld)[1] <= host.ultimate else host.metal)  # of the weaker
    if host.hollow:
        return [(whole, fu / (sqrt(3) * beta) * down)]
    return [(first, fu / beta * down), ((np.abs(tx) + np.abs(tn)) / sqrt(2), 0.9 * fu * down)]


def fw(filler, metal):
    """EN 1999-1-1 Table 8.8; the least of the filler's row where it has none for the parent."""
    found = filler.fw(metal)
    return min(filler.by_parent.values()) if found is None else found


def tabled(structure, weld, part, host):
    """Whether Table 8.8 knows the parents (limit states, aluminium)."""
    if structure.case.basis.method == "allowable" or part.metal.kind != "aluminium":
        return True
    filler = structure.case.fillers[weld.filler]
    return all(filler.fw(m) is not None for m in (part.metal, host.metal))


def beta_w(metal):
    """EN 1993-1-8 Table 4.1 by grade."""
    if metal.own:
        return 1.0
    return {"S235": 0.80, "S275": 0.85, "S355": 0.90}.get(metal.family, 1.00)


def toe(weld, part, host, q, wide, factors):
    """(demand array, limit) pairs of the faces and walls beside the weld."""
    qx, qs, qn = q
    w = weld.leg
    own, its = (v / factors.ultimate() for v in (welded(part, weld)[1], host.ultimate))
    found = [
        (np.sqrt(qn**2 + 3 * (qx**2 + qs**2)) / w, own),
        (np.sqrt(qx**2 + 3 * (qn**2 + qs**2)) / w, its),
    ]
    if not isinstance(part.shape, Bar):
        t = part.size.wall if not isinstance(part.shape, Flat) else part.shape.thickness
        t = np.where(wide, t / 2, t)
        found.append((np.sqrt(qx**2 + 3 * qs**2) / t, own))
    if host.wall is not None:
        found.append((sqrt(3) * np.abs(qx) / host.wall, its))
    return found


def weld_rows(structure, heat):
    """Both rows of every weld under every load."""
    rows = []
    for weld in structure.case.welds:
        part, line = structure.parts[weld.member], heat.lines[weld.name]
        host = Host(structure, weld, part)
        only = part.entry.only_path if weld.only_path is None else weld.only_path
        path = 1.25 if only else 1.0
        in_range = line.steep <= 0.5 + 1e-9
        place = part.start + line.station * part.turn[0]
        for load in structure.loads:
            factors = Factors(structure.case.basis, structure.severity[load])
            forces = structure.forces_at(part.name, load, line.station)[0] * factors.effects
            q = tractions(line, part.turn.T @ forces[:3], part.turn.T @ forces[3:], place)
            t = [v / (w_throat(weld)) for v in q]
            for kind, pairs in (
                ("weld-throat", throat(structure, weld, part, host, t, factors)),
                ("weld-toe", toe(weld, part, host, q, line.wide, factors)),
            ):
                demand, limit = max(((d.max(), lim) for d, lim in pairs), key=lambda p: p[0] / p[1])
                covered = tabled if kind == "weld-throat" else known
                inside = in_range and covered(structure, weld, part, host)
                rows.append(row(weld.name, kind, load, path * demand / limit, demand, limit, in_range=inside))
    return rows


def known(structure, weld, part, host):
    """Whether what the weld takes from the metals beside it is covered by the source."""
    covered = width(part, weld)[1]
    if host.part is not None:
        return covered and width(host.part, weld)[1]
    if weld.onto is not None:
        return covered and reach(host.metal, weld.onto.thickness, None, weld)[1]
    return covered


def w_throat(weld):
    """Throat of an equal-leg fillet."""
    return weld.leg / sqrt(2)
