"""`rod-end` by hand."""

import numpy as np

from strength.checks.rod_end import eye_axis
from strength.joints.stud import RATING_FACTOR
from strength.studies.explain.bolt_forces import write_end, write_frame
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.stud_lines import stud_of, write_stud
from strength.studies.explain.subject import Subject, finish, keyed

ASKS = (
    "Is the rod end or ball joint overloaded? The force square to its bolt's line over a fifth of the "
    "maker's radial rating, plus the force along it over a fifth of the axial rating, must stay under 1."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """F_r/(radial/5) + F_a/(axial/5), without load factor."""
    effect = stud_of(subject)
    stud = effect.stud
    eye = eye_axis(subject.context, effect)
    if eye is not None:
        write_end(sheet, subject, effect.end, "012")
        origin = "case: axis of the bolt through its eye"
        write_frame(sheet, effect.end, eye, np.zeros((1, 3)), origin, moments=False)
        sheet.step("F_p", "hypot(F_1, F_2)", "force", "across that bolt: radial")
        sheet.step("P", "abs(F_a)", "force", "along that bolt: axial")
    else:
        write_stud(sheet, subject, effect, moments=False)
    sheet.given(
        "k", RATING_FACTOR, "1", "divides the ratings, since the direction alternates", "makers' practice"
    )
    key = keyed(stud.path, stud.name, "rating")
    for symbol, value, word in (("C_r", stud.rating_radial, "radial"), ("C_a", stud.rating_axial, "axial")):
        if value is not None:
            sheet.given(symbol, value, "force", f"maker's {word} rating", key)
    as_told = _use("F_p", "P", sheet)
    if eye is None and stud.axis is None:
        sheet.step("u_1", as_told, "1", "the pull along its shank taken as axial")
        sheet.step("u_2", _use("P", "F_p", sheet), "1", "the pull along its shank taken as radial")
        sheet.step("u_0", "max(u_1, u_2)", "1", "the worse, since no bolt through its eye is given")
    else:
        sheet.step("u_0", as_told, "1", "both together")
    finish(sheet, "u_0", "", effect.path_factor)
    return Told(asks=ASKS, demand="u_0")


def _use(radial: str, axial: str, sheet: Sheet) -> str:
    terms = [f"{radial}*k/C_r"] if "C_r" in sheet else []
    terms += [f"{axial}*k/C_a"] if "C_a" in sheet else []
    return " + ".join(terms)
