"""The JSON record of a summary: what scripts read. Units inside: mm, N, N*mm, MPa, kg, rad."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from strength.case.source import fingerprint
from strength.report.cautions import CAUTIONS
from strength.report.only_paths import is_marked, worst_margin
from strength.report.program import NAME, version

if TYPE_CHECKING:
    from strength.checks.verdict import Row
    from strength.run import Outcome
    from strength.vehicle.sheet import Balanced

FORMAT = 1
UNITS = {"length": "mm", "force": "N", "moment": "N*mm", "stress": "MPa", "mass": "kg", "angle": "rad"}
FORCES = ("N", "Vy", "Vz", "T", "My", "Mz")


def summary_record(outcome: "Outcome") -> dict[str, Any]:
    """The whole record of a summary, keys in their fixed order."""
    case = outcome.case
    rows = outcome.rows
    worst = max(rows, key=lambda row: row.utilisation, default=None)
    return {
        "format": FORMAT,
        "title": case.title,
        "program": {"name": NAME, "version": version()},
        "input_sha256": fingerprint(case.data),
        "units": dict(UNITS),
        "cautions": list(CAUTIONS),
        "assumed": [{"part": a.part, "key": a.key, "value": a.value} for a in case.assumed],
        "read_as": [{"part": read.part, "text": read.text} for read in outcome.read_as],
        "loads": [load_record(load) for load in outcome.loads],
        "wheel_movement": [
            {
                "name": wheel.name,
                "load": wheel.load,
                "moved": _plain(wheel.moved),
                "toe": _number(wheel.toe),
                "camber": _number(wheel.camber),
            }
            for wheel in outcome.movement
        ],
        "points": _points(outcome),
        "supports": _supports(outcome),
        "members": _members(outcome),
        "stresses": [
            {
                "member": s.member,
                "load": s.load,
                "where": s.where,
                "axial": _number(s.axial),
                "bending": _number(s.bending),
                "shear": _number(s.shear),
                "torsion": _number(s.torsion),
                "von_mises": _number(s.von_mises),
            }
            for s in outcome.stresses
        ],
        "struts": _struts(outcome),
        "checks": [_check(row) for row in rows],
        "not_checked": [{"part": s.part, "kind": s.kind, "why": s.why} for s in outcome.not_checked],
        "warnings": [{"part": w.part, "text": w.text} for w in outcome.warnings],
        "worst": None if worst is None else {"id": worst.id, "utilisation": _number(worst.utilisation)},
        "only_paths": [
            {
                "part": loss.part,
                "wheels": list(loss.wheels),
                "brakes": list(loss.brakes),
                "tows": list(loss.tows),
                "margin": worst_margin(loss.part, rows),
                "only_path": is_marked(case, loss.part),
            }
            for loss in outcome.losses or ()
        ],
    }


def load_record(load: "Balanced") -> dict[str, Any]:
    """One load of the sheet: what it is scaled to and what the road does to each wheel."""
    return {
        "name": load.name,
        "severity": load.severity,
        "lean": _number(load.lean),
        "scaled_to": _number(load.scaled_to),
        "notes": list(load.notes),
        "wheels": [
            {"name": w.name, "force": _plain(w.force), "slides": bool(w.slides), "lifts": bool(w.lifts)}
            for w in load.wheels
        ],
        "tows": [{"name": t.name, "force": _plain(t.force)} for t in load.tows],
    }


def _points(outcome: "Outcome") -> list[dict[str, Any]]:
    """Displacements of every point under every load."""
    moved = outcome.response.displacements[0]
    return [
        {"name": name, "load": load.name, "displacement": _plain(moved[n, p])}
        for n, load in enumerate(outcome.loads)
        for p, name in enumerate(outcome.layout.names)
    ]


def _supports(outcome: "Outcome") -> list[dict[str, Any]]:
    """Reactions of every support on the structure under every load."""
    reactions = outcome.response.reactions[0]
    return [
        {"at": support.name, "load": load.name, "reaction": _plain(reactions[n, s])}
        for n, load in enumerate(outcome.loads)
        for s, support in enumerate(outcome.case.supports)
    ]


def _members(outcome: "Outcome") -> list[dict[str, Any]]:
    """Internal forces at both ends of every member under every load."""
    layout, forces = outcome.layout, outcome.response.forces[0]
    found = []
    for n, load in enumerate(outcome.loads):
        for b, member in enumerate(outcome.case.members):
            ends = (("from", forces[n, layout.first[b], 0]), ("to", forces[n, layout.last[b], 1]))
            for end, values in ends:
                row: dict[str, Any] = {"name": member.name, "load": load.name, "end": end}
                row.update(zip(FORCES, _plain(values), strict=True))
                found.append(row)
    return found


def _struts(outcome: "Outcome") -> list[dict[str, Any]]:
    """Axial force of every strut under every load, tension positive."""
    layout, forces = outcome.layout, outcome.response.forces[0]
    count = len(outcome.case.members)
    return [
        {"name": strut.name, "load": load.name, "N": _number(forces[n, layout.first[count + s], 0, 0])}
        for n, load in enumerate(outcome.loads)
        for s, strut in enumerate(outcome.case.struts)
    ]


def _check(row: "Row") -> dict[str, Any]:
    """One row: a part, a kind of check and a load."""
    return {
        "id": row.id,
        "part": row.part,
        "kind": row.kind,
        "load": row.load,
        "where": row.where,
        "demand": _number(row.demand),
        "limit": _number(row.limit),
        "unit": row.unit,
        "utilisation": _number(row.utilisation),
        "margin": None if row.margin is None else _number(row.margin),
        "in_range": bool(row.in_range),
        "fails": row.fails,
        "source": row.source,
        "note": row.note,
    }


def _number(value: float) -> float:
    """A plain float; minus nought becomes nought."""
    return float(value) + 0.0


def _plain(values: Iterable[float]) -> list[float]:
    """A vector as a list of plain floats."""
    return [_number(v) for v in values]
