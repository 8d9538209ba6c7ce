"""`net-section` by hand."""

import numpy as np

from strength.checks.net_section import LEAST
from strength.studies.explain.plate_lines import (
    Plated,
    plated,
    write_edge,
    write_hole,
    write_pull,
    write_strength,
    write_thickness_of,
)
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, loaded, ultimate_divisor

ASKS = (
    "Does the plate tear across through the hole? The force on it must stay under 0.9 of what the metal left "
    "beside the hole carries, divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """0.9 (b - d0) t fu."""
    found = plated(subject)
    write_pull(sheet, subject, found)
    demand = _whole(sheet, subject, found)
    write_thickness_of(sheet, found)
    write_hole(sheet, found)
    _width(sheet, subject, found)
    write_strength(sheet, found)
    ultimate_divisor(sheet, subject)
    sheet.step("F_R", "0.9*(b - d_0)*t*f_u/n", "force", "what is left may carry (EN 1993-1-1 6.2.3)")
    finish(sheet, demand, "F_R", found.effect.path_factor)
    return Told(asks=ASKS, demand=demand, limit="F_R")


def _row(found: Plated) -> float:
    row = np.ravel(found.plate.row)
    return float(row[found.bolt if row.size > 1 else 0])


def _whole(sheet: Sheet, subject: Subject, found: Plated) -> str:
    """In a group the whole force passes a cut through the bolts that stand side by side."""
    if found.effect.is_single or found.plate.own_width is None:
        return "F_d"
    sheet.given("side", _row(found), "1", "holes side by side across the flat", f"{found.key}, group")
    sheet.step(
        "F_s", "max(F, hypot(F_1, F_2)/side)", "force", "the whole force passes their cut (own choice)"
    )
    sheet.step("F_ds", loaded(sheet, subject, "F_s"), "force", "what the part beside one hole must carry")
    return "F_ds"


def _width(sheet: Sheet, subject: Subject, found: Plated) -> None:
    if found.plate.own_width is None:
        write_edge(sheet, found)
        formula, what = "2*e", "width that counts: the edge distance on both sides"
    else:
        bar = found.effect.end.bar
        width = float(np.ravel(found.plate.own_width)[0])
        sheet.given("b_0", width, "length", "width of the flat itself", subject.key(bar, "section"))
        formula, what = "b_0", "width that counts: the flat's own"
        if _row(found) > 1.0:
            if "side" not in sheet:
                sheet.given("side", _row(found), "1", "holes side by side", f"{found.key}, group")
            formula, what = "b_0/side", "width for each of the holes side by side"
    sheet.step("b", f"max({formula}, {1.0 + LEAST:g}*d_0)", "length", what)
