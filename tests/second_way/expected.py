"""All rows of a case, worked out a second way from its record's forces."""

import attrs

from tests.second_way.bolt_checks import bolt_rows
from tests.second_way.buckling_mesh import Mesh
from tests.second_way.factors import Factors
from tests.second_way.heat import Heat
from tests.second_way.hollow_joints import round_rows
from tests.second_way.member_checks import row, stress_rows
from tests.second_way.stability_checks import stability_rows, wall_rows
from tests.second_way.structure import Structure
from tests.second_way.stud_checks import clamp_rows, sleeve_rows, stud_rows
from tests.second_way.tab_joints import tab_rows
from tests.second_way.weld_checks import weld_rows

LIMIT = 3.0  # least critical multiplier
FORCE = 1e-3  # N, N*mm: below it nothing presses or bends


@attrs.frozen
class Expected:
    """Rows by id, and the parts of the worst stress by (part, load)."""

    rows: dict
    stresses: dict


def buckling_rows(structure):
    """Rows of frame-buckling; sets the multipliers from which bending is amplified."""
    rows = []
    for load, alpha in Mesh(structure).multipliers().items():
        factors = Factors(structure.case.basis, structure.severity[load])
        alpha /= factors.on_critical if factors.allowable else factors.effects
        if alpha < float("inf"):
            structure.alpha[load] = alpha
            u = LIMIT / alpha
            rows.append(row("frame", "frame-buckling", load, u, u, 1.0, "1"))
    return rows


def told_multipliers(structure):
    """The record's own multipliers, for a frame too large for a dense mesh."""
    for told in structure.record["checks"]:
        if told["kind"] == "frame-buckling" and told["utilisation"] > 0:
            structure.alpha[told["load"]] = LIMIT / told["utilisation"]
    return []


def expected(case, record, meshed=True):
    """Every row of the kinds known here."""
    structure = Structure(case, record)
    rows = buckling_rows(structure) if meshed else told_multipliers(structure)
    told = {c["load"]: c["utilisation"] for c in record["checks"] if c["kind"] == "frame-buckling"}
    for load, alpha in structure.alpha.items():  # their own figure, so that other rows compare to rounding
        near = 5e-3 if alpha < 1e3 else 5e-2  # modes of lengths shorter than their section is deep
        assert abs(told[load] * alpha / LIMIT - 1) < near, (load, told[load], LIMIT / alpha)
        structure.alpha[load] = LIMIT / told[load]
    heat = Heat(structure)
    stresses, shown = stress_rows(structure, heat)
    rows += stresses + stability_rows(structure, heat)
    rows += [r for r in wall_rows(structure, heat) if r.push > FORCE or r.bend > FORCE]
    rows += weld_rows(structure, heat) + bolt_rows(structure, heat) + stud_rows(structure, heat)
    rows += sleeve_rows(structure, heat) + clamp_rows(structure, heat)
    rows += round_rows(structure, heat) + tab_rows(structure, heat)
    return Expected(rows={r.id: r for r in rows}, stresses=shown)
