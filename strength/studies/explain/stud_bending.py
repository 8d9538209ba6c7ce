"""`stud-bending` by hand."""

from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.stud_lines import grade_origin, stud_of, write_reach, write_stud
from strength.studies.explain.subject import Subject, finish, loaded, yield_divisor

ASKS = (
    "Does the stud bend where it enters the metal? Bending over the reach and the pull must stay under its "
    "yield strength divided by its factor, at least 1.67."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """32 M/(pi d3^3) + F/As."""
    effect = stud_of(subject)
    thread = effect.thread
    write_stud(sheet, subject, effect)
    write_reach(sheet, effect)
    sheet.step("M", "F_p*r + M_p", "moment", "bending at the face")
    origin = f"ISO 898-1, {thread.name}"
    sheet.given(
        "d_2", thread.pitch_diameter, "length", "pitch diameter of the thread", f"ISO 724, {thread.name}"
    )
    sheet.given("d_3", thread.root, "length", "root diameter of the thread", origin)
    sheet.step("A_s", "pi/4*((d_2 + d_3)/2)^2", "area", "stress area of the thread (ISO 898-1)")
    sheet.step("sigma_b", "32*M/(pi*d_3^3)", "stress", "bending of the root")
    sheet.step("sigma", loaded(sheet, subject, "sigma_b + P/A_s"), "stress", "bending and pull")
    sheet.given("f_y", effect.grade.yield_, "stress", "yield strength of the stud", grade_origin(effect))
    yield_divisor(sheet, subject, effect.kind, brittle="a stud")
    sheet.step("limit", "f_y/n", "stress", "what the stress may reach")
    finish(sheet, "sigma", "limit", effect.path_factor)
    return Told(asks=ASKS, demand="sigma", limit="limit")
