"""`weld-toe` by hand: the metal beside a fillet weld."""

import numpy as np

from strength.checks.welds import WeldEffect
from strength.joints.fillet import Rule
from strength.joints.parents import Parent, parents
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import (
    Subject,
    finish,
    keyed,
    loaded,
    metal_origin,
    ultimate_divisor,
)
from strength.studies.explain.weld_line import weld_of, write_line

ASKS = (
    "Does the metal beside the weld tear? The forces along the weld's line, over its leg on either face or "
    "over the wall they must pass, must stay under the welded tensile strength divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Line, worst place, worst of the faces and walls."""
    effect, number = weld_of(subject)
    rule = write_line(sheet, subject, effect.toe, effect, number)
    own, onto = parents(subject.context.case, effect.seat, subject.context.bars)
    other = onto is not None and rule.what.endswith(onto.name)
    judged = onto if other and onto is not None else own
    _stress(sheet, subject, effect, rule)
    _strength(sheet, judged, effect)
    ultimate_divisor(sheet, subject)
    sheet.step("limit", "f_u/n", "stress", "what the stress may reach")
    finish(sheet, "stress", "limit", effect.path_factor)
    return Told(asks=ASKS, demand="stress", limit="limit")


def _stress(sheet: Sheet, subject: Subject, effect: WeldEffect, rule: Rule) -> None:
    """Which face or wall it is shows in the rule's form: coefficients of q_x^2, q_s^2, q_n^2 over width^2."""
    weld = effect.weld
    form = np.asarray(rule.form).reshape(-1, 4)
    leg = float(effect.seat.leg[0])
    over = 1.0 / np.sqrt(np.max(form[:, 1]) / 3.0) if np.max(form[:, 1]) > 0.0 else np.nan
    wall = "wall" in rule.what or rule.what == "the plate"
    if not wall:
        sheet.given("leg", leg, "length", "leg", keyed(weld.path, weld.name, "leg"))
        swapped = float(form[0, 0]) > float(form[0, 2])
        sigma, shear = ("q_n", "hypot(q_x, q_s)") if swapped else ("q_x", "hypot(q_n, q_s)")
        sheet.step("sigma", f"{sigma}/leg", "stress", f"square to {rule.what}")
        sheet.step("tau", f"{shear}/leg", "stress", f"in {rule.what}")
    elif np.max(form[:, 1]) > 0.0:
        thickness = float(over)
        if form.shape[0] > 1:
            widths = np.sqrt(3.0 / form[:, 1])
            thickness = _nearest(sheet, form, widths, subject, effect)
        what = "wall that the force must pass (a flat welded on both sides: half of it)"
        sheet.given("t", thickness, "length", what, f"case: section of {weld.member}")
        sheet.step("sigma", "q_x/t", "stress", f"along {rule.what}")
        sheet.step("tau", "q_s/t", "stress", f"shear in {rule.what}")
    else:
        thickness = float(np.sqrt(3.0 / np.max(form[:, 0])))
        sheet.given(
            "t", thickness, "length", f"thickness of {rule.what}", keyed(weld.path, weld.name, "onto")
        )
        sheet.given("sigma", 0.0, "stress", "stress square to the cut", "none: the wall is sheared")
        sheet.step("tau", "q_x/t", "stress", f"shear through {rule.what}")
    formula = loaded(sheet, subject, "sqrt(sigma^2 + 3*tau^2)")
    sheet.step("stress", formula, "stress", f"{rule.what}, both together (von Mises)")


def _nearest(
    sheet: Sheet, form: np.ndarray, widths: np.ndarray, subject: Subject, effect: WeldEffect
) -> float:
    """Of walls that differ along the line, the one that gives the worst stress found."""
    told = float(effect.toe.stress[0, subject.load])
    own = np.sqrt(form[:, 0] * sheet["q_x"] ** 2 + form[:, 1] * sheet["q_s"] ** 2)
    return float(widths[int(np.argmin(np.abs(own - told)))])


def _strength(sheet: Sheet, judged: Parent, effect: WeldEffect) -> None:
    thickness = judged.wall[0] if np.isfinite(judged.wall[0]) else judged.metal.rows[0].up_to
    origin = metal_origin(judged.metal, float(thickness), welded=True)
    what = f"tensile strength of {judged.name} beside the weld ({effect.weld.process})"
    sheet.given("f_u", judged.ultimate[0], "stress", what, origin)
