"""Forces on a stud by hand, and what it is made of."""

import numpy as np

from strength.checks.studs import StudEffect, stud_effects
from strength.library.sources import SURE, cite
from strength.studies.explain.bolt_forces import write_end, write_frame
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject, keyed


def stud_of(subject: Subject) -> StudEffect:
    """The stud of a row."""
    return next(effect for effect in stud_effects(subject.context) if effect.stud.name == subject.row.part)


def write_stud(sheet: Sheet, subject: Subject, effect: StudEffect, *, moments: bool = True) -> None:
    """F_p across, P along, M_p across the stud."""
    stud = effect.stud
    write_end(sheet, subject, effect.end, "012345" if moments else "012")
    origin = (
        keyed(stud.path, stud.name, "axis")
        if stud.axis is not None
        else "along its part, as no axis is given"
    )
    write_frame(sheet, effect.end, effect.axis, np.zeros((1, 3)), origin, moments=moments)
    sheet.step("F_p", "hypot(F_1, F_2)", "force", "force across the stud")
    sheet.step("P", "abs(F_a)", "force", "force along the stud")
    if moments:
        sheet.step("M_p", "hypot(M_1, M_2)", "moment", "end moment across the stud")


def write_reach(sheet: Sheet, effect: StudEffect) -> None:
    """Reach."""
    stud = effect.stud
    what = "from the ball's middle to the face it screws into"
    sheet.given("r", stud.reach, "length", what, keyed(stud.path, stud.name, "reach"))


def write_engaged(sheet: Sheet, effect: StudEffect) -> None:
    """Length of thread that holds."""
    stud = effect.stud
    sheet.given("s", stud.engaged, "length", "length screwed in", keyed(stud.path, stud.name, "engaged"))


def grade_origin(effect: StudEffect) -> str:
    """Where the strengths of its class come from."""
    grade, stud = effect.grade, effect.stud
    told = "; ".join(text for text in (cite(grade.source), SURE.get(grade.sure, grade.sure)) if text)
    return f"{keyed(stud.path, stud.name, 'class')} {grade.name}, library ({told})"


def tapped_origin(effect: StudEffect) -> str:
    """Where the strengths of the tapped metal come from."""
    into = effect.into
    rows = into.metal.rows
    told = "; ".join(text for text in (cite(rows[0].source), SURE.get(rows[0].sure, rows[0].sure)) if text)
    hot = ", welded strength" if bool(into.heat.inside[0].any()) else ""
    return f"{keyed(effect.stud.path, effect.stud.name, 'into')}: {into.metal.name}{hot} ({told})"
