"""`bolt-shear` of the bolt across a sleeve, by hand."""

from strength.joints.fastener import fastener
from strength.studies.explain.fastener_lines import write_shear
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.sleeve_lines import sleeve_of, write_inner, write_middle
from strength.studies.explain.subject import Subject, finish, loaded, ultimate_divisor

ASKS = (
    "Is the bolt across the sleeve cut through? Pull and torque are shared by both sides of the tube; the "
    "force on one side must stay under the bolt's shear strength there, divided by the bolt factor."
)


def explain_sleeve_bolt(subject: Subject, sheet: Sheet) -> Told:
    """sqrt((N/2)^2 + (T/d)^2)."""
    effect = sleeve_of(subject)
    sleeve = effect.sleeve
    if sleeve.bolt is None:
        raise TypeError(f"{sleeve.name} has no bolt")
    write_middle(sheet, subject, effect, "03")
    write_inner(sheet, effect)
    formula = loaded(sheet, subject, "hypot(N/2, T/d)")
    sheet.step("V_d", formula, "force", "on each side of the inner tube (own choice)")
    own = fastener(sleeve.bolt, sleeve.grade, thread_in_shear=sleeve.bolt.kind == "thread")
    write_shear(sheet, own, sleeve.path, sleeve.name)
    ultimate_divisor(sheet, subject)
    sheet.step("V_R", "alpha_v*f_ub*A_v/n", "force", "what a plane may carry")
    finish(sheet, "V_d", "V_R", effect.path_factor)
    return Told(asks=ASKS, demand="V_d", limit="V_R")
