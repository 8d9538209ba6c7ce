"""`thread-strip` by hand."""

from strength.joints.stud import LEAST_HELD, STRIP
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.stud_lines import (
    grade_origin,
    stud_of,
    tapped_origin,
    write_engaged,
    write_stud,
)
from strength.studies.explain.subject import Subject, finish, loaded, ultimate_divisor

ASKS = (
    "Is the thread stripped, of the stud or of what it screws into? The force along the stud must stay under "
    "the shear strength of the weaker thread, divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """0.6 (s - pitch) min(A_Sn fu, A_Ss fub)."""
    effect = stud_of(subject)
    thread = effect.thread
    write_stud(sheet, subject, effect, moments=False)
    sheet.step("F_d", loaded(sheet, subject, "P"), "force", "what the thread must carry")
    write_engaged(sheet, effect)
    limits = f"limits of ISO 965-1, 6g and 6H, {thread.name}"
    for symbol, value, what, origin in (
        ("pitch", thread.pitch, "pitch", f"ISO 724, {thread.name}"),
        ("d_min", thread.major_min, "least outside diameter of the stud", limits),
        ("d_2min", thread.pitch_min, "least pitch diameter of the stud", limits),
        ("D_2max", thread.nut_pitch_max, "greatest pitch diameter of the tapped thread", limits),
        ("D_1max", thread.nut_minor_max, "greatest minor diameter of the tapped thread", limits),
    ):
        sheet.given(symbol, value, "length", what, origin)
    held = f"max(s - pitch, {LEAST_HELD:g}*pitch)"
    sheet.step("h", held, "length", "length that holds: the first pitch is taken to carry nothing")
    formula = "pi*d_min*(1/2 + (d_min - D_2max)/(sqrt(3)*pitch))"
    sheet.step("A_Sn", formula, "length", "area per length of the tapped thread (FED-STD-H28/2, from memory)")
    formula = "pi*D_1max*(1/2 + (d_2min - D_1max)/(sqrt(3)*pitch))"
    sheet.step("A_Ss", formula, "length", "area per length of the stud's thread (FED-STD-H28/2, from memory)")
    value = float(effect.into.ultimate[0, 0])
    sheet.given("f_u", value, "stress", "tensile strength of the tapped metal", tapped_origin(effect))
    sheet.given("f_ub", effect.grade.ultimate, "stress", "tensile strength of the stud", grade_origin(effect))
    ultimate_divisor(sheet, subject)
    sheet.step("F_R", f"{STRIP:g}*h*min(A_Sn*f_u, A_Ss*f_ub)/n", "force", "what the weaker thread may carry")
    finish(sheet, "F_d", "F_R", effect.path_factor)
    return Told(asks=ASKS, demand="F_d", limit="F_R")
