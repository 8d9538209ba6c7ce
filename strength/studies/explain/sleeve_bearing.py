"""`sleeve-bearing` by hand."""

from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.sleeve_lines import (
    sleeve_of,
    write_inner,
    write_middle,
    write_overlap,
    write_tubes,
)
from strength.studies.explain.subject import Subject, finish, loaded

ASKS = (
    "Does the inner tube dent the mouth of the sleeve? The pressure there must stay under the lesser yield "
    "strength of both tubes divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """V/(d s) + 6 M/(d s^2)."""
    effect = sleeve_of(subject)
    write_middle(sheet, subject, effect, "1245")
    write_inner(sheet, effect)
    write_overlap(sheet, effect)
    sheet.step("V", "hypot(V_y, V_z)", "force", "shear at mid-overlap")
    sheet.step("M", "hypot(M_y, M_z)", "moment", "bending at mid-overlap")
    formula = loaded(sheet, subject, "V/(d*s) + 6*M/(d*s^2)")
    sheet.step("p", formula, "stress", "pressure at the mouth (Roloff/Matek, from memory)")
    write_tubes(sheet, subject, effect)
    sheet.step("limit", "min(f_1, f_2)/n", "stress", "what the pressure may reach")
    finish(sheet, "p", "limit", effect.path_factor)
    return Told(asks=ASKS, demand="p", limit="limit")
