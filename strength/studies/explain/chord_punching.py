"""`chord-punching` by hand: a round member punched through a round tube's wall."""

from strength.studies.explain.joint_lines import (
    angle_said,
    joint_of,
    path_origin,
    write_interaction,
    write_joint,
    write_sizes,
)
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish

ASKS = (
    "Is the member punched through the tube's wall, or torn out of it? Axial force and both bendings, each "
    "over what the wall carries in shear and all together, must stay under 1."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Shear of the wall round the brace."""
    joint = joint_of(subject)
    sheet.say(angle_said(joint))
    write_joint(sheet, subject, joint)
    write_sizes(sheet, subject, joint)
    sheet.step("s", "sin(theta)", "1", "sine of the angle")
    sheet.step("tau", "f_y0/sqrt(3)", "stress", "shear strength of the wall")
    formula = "tau*t_0*pi*d_1*(1 + s)/(2*s^2)"
    sheet.step("N_R", formula, "force", "axial strength (EN 1993-1-8 Table 7.2, from memory)")
    formula = "tau*t_0*d_1^2*(1 + 3*s)/(4*s^2)"
    sheet.step("M_ipR", formula, "moment", "strength in the plane (Table 7.5, from memory)")
    formula = "tau*t_0*d_1^2*(3 + s)/(4*s^2)"
    sheet.step("M_opR", formula, "moment", "strength out of the plane (Table 7.5, from memory)")
    sheet.step("u_N", "abs(N_d)/N_R", "1", "axial force")
    sheet.step("u_ip", "M_ip/M_ipR", "1", "bending in the plane")
    sheet.step("u_op", "M_op/M_opR", "1", "bending out of the plane")
    write_interaction(sheet, "u_0", "all three together")
    finish(sheet, "u_0", "", joint.effect.path_factor, path_origin(joint))
    return Told(asks=ASKS, demand="u_0")
