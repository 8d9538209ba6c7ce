"""`tear-out` by hand."""

from strength.studies.explain.plate_lines import (
    plated,
    write_edge,
    write_hole,
    write_pull,
    write_strength,
    write_thickness_of,
)
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, ultimate_divisor

ASKS = (
    "Does the bolt tear a strip out to the edge? The force on the hole must stay under what the metal "
    "between hole and edge carries, divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """1.2 (e - d0/2) t fu."""
    found = plated(subject)
    write_pull(sheet, subject, found)
    write_thickness_of(sheet, found)
    write_edge(sheet, found)
    write_hole(sheet, found)
    write_strength(sheet, found)
    ultimate_divisor(sheet, subject)
    sheet.step("F_R", "1.2*(e - d_0/2)*t*f_u/n", "force", "what the strips carry (AISC 360-16 J3.10)")
    finish(sheet, "F_d", "F_R", found.effect.path_factor)
    return Told(asks=ASKS, demand="F_d", limit="F_R")
