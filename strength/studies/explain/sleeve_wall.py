"""`sleeve-wall` by hand."""

from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.sleeve_lines import sleeve_of, write_middle, write_overlap, write_tubes
from strength.studies.explain.subject import Subject, finish, loaded

ASKS = (
    "Does the couple that carries bending through the sleeve crush a wall? Its greater force must stay under "
    "what the weaker wall carries, divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """V/2 + 1.5 M/s against 24 fy t^2."""
    effect = sleeve_of(subject)
    write_middle(sheet, subject, effect, "1245")
    write_overlap(sheet, effect)
    sheet.step("V", "hypot(V_y, V_z)", "force", "shear at mid-overlap")
    sheet.step("M", "hypot(M_y, M_z)", "moment", "bending at mid-overlap")
    formula = loaded(sheet, subject, "V/2 + 1.5*M/s")
    sheet.step("F_d", formula, "force", "greater of the two forces, two thirds of the overlap apart")
    for mark, tube in zip("12", effect.tubes, strict=True):
        sheet.given(f"t_{mark}", tube.wall[0], "length", f"wall of the {tube.word}", "case: its section")
    write_tubes(sheet, subject, effect)
    formula = "24*min(f_1*t_1^2, f_2*t_2^2)/n"
    sheet.step("F_R", formula, "force", "what the weaker wall carries (EN 1993-1-8 Table 7.3, beta = 1)")
    finish(sheet, "F_d", "F_R", effect.path_factor)
    return Told(asks=ASKS, demand="F_d", limit="F_R")
