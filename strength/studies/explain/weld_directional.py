"""`weld-throat` by hand of a weld that counts in which way the force crosses it."""

from strength.checks.welds import WeldEffect
from strength.joints.directional import directional_peak
from strength.joints.fillet import WELD_STRESS
from strength.joints.traction import pull
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish
from strength.studies.explain.weld_line import place_of, write_at, write_through
from strength.studies.explain.weld_strength import write_quality, write_share
from strength.studies.explain.weld_throat import write_throat

ASKS = (
    "Does the weld itself tear? The forces through it are spread along its line (a uniform part, and a part "
    "that turns about the line's centroid); the stress on its throat must stay under what the filler "
    "carries, raised by the angle at which the force crosses the weld there, divided by the weld factor and "
    "lowered by the quality."
)
SOURCE = "AISC 360-16 J2.4"
PLACE = "The worst place is where stress over strength is greatest, not the stress alone."


def explain_directional(subject: Subject, sheet: Sheet, effect: WeldEffect, number: int) -> Told:
    """|t| against 0.60 (1 + 0.5 sin^1.5) of the filler's strength."""
    weld = effect.weld
    line, forces = write_through(sheet, subject, effect, number)
    through = pull(line, forces, [weld], ("",))
    peak = directional_peak(line, through)
    write_at(sheet, line, place_of(line, through, peak.place[0, 0], peak.parts[0, 0]))
    sheet.say(PLACE)
    write_throat(sheet, subject, effect)
    sheet.step("stress", "sqrt(t_x^2 + t_s^2 + t_n^2)", "stress", f"on the throat: {SOURCE}")
    if sheet["stress"] > 0.0:
        sheet.step("sine", "hypot(t_x, t_n)/stress", "1", "sine of the force's angle to the weld")
    else:
        sheet.given("sine", 0.0, "1", "sine of the force's angle to the weld", "none: nothing pulls")
    sheet.step("k_theta", "1 + 0.5*sine^1.5", "1", f"what the angle adds ({SOURCE}, equation J2-5)")
    kind = subject.context.case.fillers[weld.filler].kind
    strength = write_share(sheet, subject, weld, WELD_STRESS[kind], SOURCE)
    write_quality(sheet, subject, weld)
    sheet.step("limit", f"{strength}*k_theta*k_Q/n", "stress", "what the stress may reach")
    finish(sheet, "stress", "limit", effect.path_factor)
    return Told(asks=ASKS, demand="stress", limit="limit")
