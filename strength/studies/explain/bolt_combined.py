"""`bolt-combined` by hand: shear and pull together."""

from strength.studies.explain.bolt_forces import bolt_number, bolt_of, write_bolt
from strength.studies.explain.bolt_shear import write_shear_side
from strength.studies.explain.bolt_tension import write_tension_side
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish

ASKS = (
    "Does the bolt part under shear and pull together? Shear over its limit plus pull over 1.4 times its "
    "limit must stay under 1."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """V/V_R + T/(1.4 T_R)."""
    effect = bolt_of(subject)
    write_bolt(sheet, subject, effect, bolt_number(effect, subject.row.where))
    write_shear_side(sheet, subject, effect)
    write_tension_side(sheet, subject, effect)
    sheet.step("u_0", "V_d/V_R + T_d/(1.4*T_R)", "1", "both together (EN 1993-1-8 Table 3.4)")
    finish(sheet, "u_0", "", effect.path_factor)
    return Told(asks=ASKS, demand="u_0")
