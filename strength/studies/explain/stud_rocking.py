"""`stud-rocking` by hand."""

from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.stud_lines import (
    stud_of,
    tapped_origin,
    write_engaged,
    write_reach,
    write_stud,
)
from strength.studies.explain.subject import Subject, finish, loaded, yield_divisor

ASKS = (
    "Does the stud rock loose in its thread? A stiff pin pushed sideways presses most at the mouth of its "
    "bore; that pressure must stay under the yield strength of the tapped metal divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """(F_p (6 r + 4 s) + 6 M_p)/(d s^2)."""
    effect = stud_of(subject)
    write_stud(sheet, subject, effect)
    write_reach(sheet, effect)
    write_engaged(sheet, effect)
    sheet.given(
        "d", effect.thread.diameter, "length", "diameter of the thread", f"ISO 724, {effect.thread.name}"
    )
    formula = "(F_p*(6*r + 4*s) + 6*M_p)/(d*s^2)"
    sheet.step(
        "p", loaded(sheet, subject, formula), "stress", "pressure at the mouth (Roloff/Matek, from memory)"
    )
    value = float(effect.into.yield_[0, 0])
    sheet.given("f_y", value, "stress", "yield strength of the tapped metal", tapped_origin(effect))
    yield_divisor(sheet, subject, effect.into.metal.kind, brittle="a stud's seat")
    sheet.step("limit", "f_y/n", "stress", "what the pressure may reach")
    finish(sheet, "p", "limit", effect.path_factor)
    return Told(asks=ASKS, demand="p", limit="limit")
