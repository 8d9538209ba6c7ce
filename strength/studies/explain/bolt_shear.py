"""`bolt-shear` by hand."""

from strength.checks.bolts import BoltEffect
from strength.studies.explain.bolt_forces import bolt_number, bolt_of, write_bolt, write_per_plane
from strength.studies.explain.fastener_lines import write_shear
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, loaded, ultimate_divisor

ASKS = (
    "Is the bolt cut through? The force across it on one shear plane must stay under the shear strength of "
    "its metal there, divided by the bolt factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Of a bolt joint, or of the bolt across a sleeve."""
    if any(sleeve.name == subject.row.part for sleeve in subject.context.case.sleeves) and not any(
        bolt.name == subject.row.part for bolt in subject.context.case.bolts
    ):
        from strength.studies.explain.sleeve_bolt import explain_sleeve_bolt

        return explain_sleeve_bolt(subject, sheet)
    effect = bolt_of(subject)
    write_bolt(sheet, subject, effect, bolt_number(effect, subject.row.where))
    write_shear_side(sheet, subject, effect)
    finish(sheet, "V_d", "V_R", effect.path_factor)
    return Told(asks=ASKS, demand="V_d", limit="V_R")


def write_shear_side(sheet: Sheet, subject: Subject, effect: BoltEffect) -> None:
    """V_d on a plane, and V_R that it carries."""
    write_per_plane(sheet, effect)
    sheet.step("V_d", loaded(sheet, subject, "V"), "force", "what a plane must carry")
    write_shear(sheet, effect.fastener, effect.bolt.path, effect.bolt.name)
    ultimate_divisor(sheet, subject, "n")
    sheet.step("V_R", "alpha_v*f_ub*A_v/n", "force", "what a plane may carry")
