"""`frame-buckling` by hand: from the critical multiplier on."""

from strength.checks.frame_buckling import ENOUGH, LEAST
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, loaded, stability_divisor

ASKS = (
    "Does the frame buckle as a whole? The load, multiplied until the frame has no stiffness left against "
    "swaying, must leave a multiple of at least 3 after its factor; from 10 on nothing more is needed, "
    "between the two all bending moments are raised."
)
ORIGIN = (
    "frame: the least multiplier of this load at which stiffness and geometric stiffness together are "
    "singular, to 0.5 %; this one number no pocket calculator finds"
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Utilisation 3/alpha."""
    context, load = subject.context, subject.load
    factors = context.factors
    divisor = float((factors.load() if subject.limit_state else factors.buckling())[load])
    alpha = float(context.alpha[0, load])
    if alpha == float("inf"):
        sheet.say("Nothing in the frame is pressed in this load: it cannot buckle.")
        sheet.given("u_0", 0.0, "1", "3 over the multiplier, which is without end", "nothing is pressed")
    else:
        sheet.given("alpha_cr", alpha * divisor, "1", "critical multiplier of the load", ORIGIN)
        if subject.limit_state:
            loaded(sheet, subject, "alpha_cr")
            sheet.step("alpha", "alpha_cr/gamma_F", "1", "what is left after the load factor")
        else:
            stability_divisor(sheet, subject, "")
            sheet.step("alpha", "alpha_cr/n", "1", "what is left after the buckling factor")
        sheet.step("u_0", f"{LEAST:g}/alpha", "1", "the least allowed over it (EN 1993-1-1 5.2.2(6))")
        if LEAST <= alpha < ENOUGH:
            sheet.step("k_frame", "1/(1 - 1/alpha)", "1", "raises all bending moments of this load")
    finish(sheet, "u_0", "", 1.0)
    return Told(asks=ASKS, demand="u_0")
