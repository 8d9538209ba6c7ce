"""`bolt-tension` by hand."""

from strength.checks.bolts import BoltEffect
from strength.studies.explain.bolt_forces import bolt_number, bolt_of, write_bolt
from strength.studies.explain.fastener_lines import write_tension_area, write_ultimate
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, loaded, ultimate_divisor

ASKS = (
    "Is the bolt pulled apart? The pull along it must stay under 0.9 of the strength of its stress area, "
    "divided by the bolt factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Pull and strength."""
    effect = bolt_of(subject)
    write_bolt(sheet, subject, effect, bolt_number(effect, subject.row.where))
    write_tension_side(sheet, subject, effect)
    finish(sheet, "T_d", "T_R", effect.path_factor)
    return Told(asks=ASKS, demand="T_d", limit="T_R")


def write_tension_side(sheet: Sheet, subject: Subject, effect: BoltEffect) -> None:
    """T_d, and T_R that the bolt carries."""
    own, bolt = effect.fastener, effect.bolt
    sheet.step("T_d", loaded(sheet, subject, "P"), "force", "what the bolt is pulled with")
    write_ultimate(sheet, own, bolt.path, bolt.name)
    write_tension_area(sheet, own, bolt.path, bolt.name)
    if "n" not in sheet:
        ultimate_divisor(sheet, subject)
    sheet.step("T_R", "0.9*f_ub*A_t/n", "force", "what it may be pulled with (EN 1993-1-8 Table 3.4)")
