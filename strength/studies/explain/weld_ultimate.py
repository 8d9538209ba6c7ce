"""`weld-throat` by hand of a weld that is judged by what parts its whole group in its plane."""

import numpy as np

from strength.checks.welds import WeldEffect
from strength.joints.in_plane import (
    GREATEST_ARM,
    IN_PLANE,
    LEAST_ARM,
    InPlane,
    in_plane,
    out_of_plane,
)
from strength.joints.traction import pull
from strength.joints.weld_line import WeldLine
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed
from strength.studies.explain.weld_line import write_through
from strength.studies.explain.weld_pieces import write_pieces
from strength.studies.explain.weld_strength import write_quality
from strength.studies.explain.weld_throat import write_line_method

ASKS = (
    "Does the weld itself tear? As it parts, a weld loaded in its own plane turns about one centre. The "
    "force must stay under the one that parts the whole group, divided by the weld factor and lowered by the "
    "quality."
)
SEARCH = (
    "The centre is where all forces balance. The program searches for it, which is not for a pocket "
    "calculator; that it is the right one can be checked below: three sums must balance there."
)
BALANCED = (
    "Check of the centre: sum_y must be P_y, and sum_z must be P_z, as far as the printed digits go; the "
    "moments balance since P is worked out from them. What is left over is {left:.1g} of P."
)
SEARCHED = "searched for by the program, to be checked below"
NOTHING = 1e-12  # of 1, or of the weld's length: what rounding leaves
LOOKED = "looked for along the whole line"


def explain_ultimate(subject: Subject, sheet: Sheet, effect: WeldEffect, number: int) -> Told:
    """Force over the nominal force of the group; the line method where it does not apply."""
    weld, case = effect.weld, subject.context.case
    seat = effect.seat
    drawn = Sheet()  # on a sheet of its own, since the line method would write the same lines again
    line, forces = write_through(drawn, subject, effect, number)
    through = pull(line, forces, [weld], ("",))
    strength = case.fillers[weld.filler].strength
    found = in_plane(line, through, seat.leg[:1], strength)
    share = float(out_of_plane(line, through)[0, 0])
    share = share if share > NOTHING else 0.0
    what = "greatest force per length out of the weld's plane, over the greatest whole one"
    if not found.covered[0, 0]:
        sheet.given("q_out", share, "1", what, LOOKED)
        sheet.say(_why_not(share))
        write_line_method(sheet, subject, effect, number)
        sheet.step("u_0", "stress/limit", "1", "by the line method")
        finish(sheet, "u_0", "", effect.path_factor)
        return Told(asks=ASKS, demand="u_0")
    write_through(sheet, subject, effect, number, about="x")
    sheet.given("q_out", share, "1", what, LOOKED)
    sheet.say(f"q_out is at most {IN_PLANE:g} (own choice): N, M_y and M_z are left out.")
    _write_group(sheet, subject, effect, line, found)
    finish(sheet, "u_0", "", effect.path_factor)
    return Told(asks=ASKS, demand="u_0")


def _why_not(share: float) -> str:
    if share > IN_PLANE:
        return (
            f"q_out is over {IN_PLANE:g} (own choice): the force is not in the plane, the line method stands."
        )
    return "No centre was found about which the weld's forces balance: the line method stands."


def _write_group(sheet: Sheet, subject: Subject, effect: WeldEffect, line: WeldLine, found: InPlane) -> None:
    """F and its arm, the centre, the pieces, P that parts them, and both compared."""
    weld = effect.weld
    moment = "T" + ("" if "c_y" not in sheet else " - c_y*V_z") + ("" if "c_z" not in sheet else " + c_z*V_y")
    sheet.step("M_xc", moment, "moment", "moment in the plane at the line's centroid")
    sheet.step("F", "hypot(V_y, V_z)", "force", "force in the plane")
    if sheet["F"] == 0.0 and sheet["M_xc"] == 0.0:
        sheet.given("u_0", 0.0, "1", "part of the group's strength", "none: nothing pulls in the plane")
        return
    far = _write_arm(sheet, found)
    sheet.say(SEARCH)
    for axis, value in zip("yz", found.centre[0, 0], strict=True):
        told = value if abs(value) > NOTHING * sheet["L"] else 0.0
        what = f"centre about which it turns, along {axis}_m"
        sheet.given(f"{axis}_0", told, "length", what, SEARCHED)
    sheet.given("leg", float(effect.seat.leg[0]), "length", "leg", keyed(weld.path, weld.name, "leg"))
    write_pieces(sheet, subject, effect, line)
    _write_balance(sheet)
    write_quality(sheet, subject, weld)
    use = "abs(M_xc)/(P_n*abs(arm))" if far else "F/P_n"
    sheet.step("u_0", f"{use}*n/k_Q", "1", "part of the group's strength, with its divisor and quality")


def _write_arm(sheet: Sheet, found: InPlane) -> bool:
    """e, the force's direction, and the arm at which it passes the centroid; True of a moment alone."""
    arm, held, force = (float(each[0, 0]) for each in (found.arm, found.held, found.force))
    sheet.step("r_g", "sqrt(S_xx/L)", "length", "radius of gyration of the line")
    what = "direction of the force, along"
    for axis, value in zip("yz", found.direction[0, 0], strict=True):
        if force > 0.0:
            sheet.step(f"e_{axis}", f"V_{axis}/F", "1", f"{what} {axis}_m")
        else:
            sheet.given(
                f"e_{axis}", value, "1", f"{what} {axis}_m", "there is no force to speak of, and any will do"
            )
    if arm == abs(held):
        what = "how far from the centroid its line passes, + where it turns from y_m to z_m"
        sheet.step("arm", "M_xc/F", "length", what)
        return False
    far = arm > abs(held)
    sign = "-" if held < 0.0 else ""
    what = "a moment alone, as a force so far off" if far else "through the centroid: at least so far off"
    limit = GREATEST_ARM if far else LEAST_ARM
    sheet.step("arm", f"{sign}{limit:g}*r_g", "length", f"{what} (own choice)")
    return far


def _write_balance(sheet: Sheet) -> None:
    """P of which the moment about the centre is that of all pieces, and whether their forces are P too."""
    middle = {axis: f"c_{axis} - {axis}_0" if f"c_{axis}" in sheet else f"-{axis}_0" for axis in "yz"}
    lever = f"({middle['y']})*e_z - ({middle['z']})*e_y + arm"
    sheet.step("lever", lever, "length", "of the force about the centre")
    sheet.step("P", "sum_M/lever", "force", "the force that balances the moments of all pieces")
    for axis in "yz":
        what = f"its part along {axis}_m: must be sum_{axis}"
        sheet.step(f"P_{axis}", f"P*e_{axis}", "force", what)
    left = np.hypot(sheet["sum_y"] - sheet["P_y"], sheet["sum_z"] - sheet["P_z"]) / abs(sheet["P"])
    turned = "" if sheet["P"] > 0.0 else " P is negative: the weld turns from z_m to y_m."
    sheet.say(BALANCED.format(left=float(left)) + turned)
    sheet.step("P_n", "abs(P)", "force", "nominal force that parts the group (AISC 360-16 J2.4(b)(2))")
