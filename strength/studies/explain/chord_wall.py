"""`chord-wall` by hand: the face of a round tube under a round member."""

import numpy as np

from strength.checks.chord_wall import BALANCED
from strength.checks.walls import WallJoint
from strength.checks.weld_groups import forces_through
from strength.joints.meeting import Neighbour
from strength.studies.explain.joint_lines import (
    angle_said,
    joint_of,
    path_origin,
    write_interaction,
    write_joint,
    write_sizes,
    write_squeeze,
)
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish

ASKS = (
    "Does the tube's wall fold in or out under the member welded onto it? Axial force and both bendings, "
    "each over what the wall carries and all together, must stay under 1."
)
TABLE = "EN 1993-1-8 Table 7.2, from memory"


def explain(subject: Subject, sheet: Sheet) -> Told:
    """T, Y, X or K joint."""
    joint = joint_of(subject)
    sheet.say(angle_said(joint))
    write_joint(sheet, subject, joint)
    write_sizes(sheet, subject, joint)
    write_squeeze(sheet, subject, joint)
    sheet.step("k_p", "1 - 0.3*min(n_p, 1)*(1 + min(n_p, 1))", "1", "what the chord's own stress leaves")
    sheet.step("beta", "d_1/d_0", "1", "brace over chord")
    sheet.step("gamma", "d_0/(2*t_0)", "1", "chord's radius over its wall")
    sheet.step("c", "k_p*f_y0*t_0^2/sin(theta)", "force", "common to all")
    sheet.step("N_T", "gamma^0.2*c*(2.8 + 14.2*beta^2)", "force", f"T or Y joint ({TABLE})")
    sheet.step("N_R", _axial(sheet, subject, joint), "force", "axial strength that counts")
    formula = "4.85*c*d_1*sqrt(gamma)*beta"
    sheet.step("M_ipR", formula, "moment", "strength in the plane (Table 7.5, from memory)")
    formula = "c*d_1*2.7/(1 - 0.81*beta)"
    sheet.step("M_opR", formula, "moment", "strength out of the plane (Table 7.5, from memory)")
    sheet.step("u_N", "abs(N_d)/N_R", "1", "axial force")
    sheet.step("u_ip", "M_ip/M_ipR", "1", "bending in the plane")
    sheet.step("u_op", "M_op/M_opR", "1", "bending out of the plane")
    write_interaction(sheet, "u_0", "all three together")
    finish(sheet, "u_0", "", joint.effect.path_factor, path_origin(joint))
    return Told(asks=ASKS, demand="u_0")


def _axial(sheet: Sheet, subject: Subject, joint: WallJoint) -> str:
    """The axial strength's formula, following the order in which neighbours change it."""
    current = "N_T"
    for number, one in enumerate(joint.near, 1):
        if one.kind == "opposite":
            symbol = f"N_X{number}"
            what = f"X joint with {one.other.seat.weld.member} ({TABLE})"
            sheet.step(symbol, "c*5.2/(1 - 0.81*beta)", "force", what)
            sheet.step(f"N_{number}", f"min({current}, {symbol})", "force", "the lesser")
            current = f"N_{number}"
        elif one.kind == "pair" and _paired(sheet, subject, joint, one, number):
            current = f"N_K{number}"
    return current


def _paired(sheet: Sheet, subject: Subject, joint: WallJoint, one: Neighbour, number: int) -> bool:
    """K joint: whether both forces balance, and its strength where they do."""
    other = one.other
    name = other.seat.weld.member
    both = forces_through(subject.context, (joint.effect.seat, other.seat))[0, subject.load, :, 0]
    mark = f"_{number}"
    sheet.given(f"N{mark}o", both[1], "force", f"axial force of {name}", f"frame: {name}")
    sheet.given(f"theta{mark}", other.angle, "angle", f"between {name} and the chord", "from their places")
    sheet.step(f"P{mark}", "N*sin(theta)", "force", "this one's part square to the chord")
    sheet.step(f"P{mark}o", f"N{mark}o*sin(theta{mark})", "force", f"that of {name}")
    left = abs(sheet[f"P{mark}"] + sheet[f"P{mark}o"])
    if left > BALANCED * max(abs(sheet[f"P{mark}"]), abs(sheet[f"P{mark}o"])):
        sheet.say(f"The two do not balance within {BALANCED:.0%}: it works as no K joint with {name} here.")
        return False
    sheet.say(f"The two balance within {BALANCED:.0%}: a K joint with {name}.")
    bars = subject.context.bars
    pressed = "d_1" if both[0] < 0.0 else f"d{mark}o"
    if pressed != "d_1":
        what = f"outside diameter of {name}, the one that presses"
        sheet.given(
            pressed, bars.depth[0, other.seat.bar], "length", what, subject.key(other.seat.bar, "section")
        )
    sheet.given(f"g{mark}", float(np.ravel(one.gap)[0]), "length", f"gap to {name}", "from both welds' lines")
    gap = f"gamma^0.2*(1 + 0.024*gamma^1.2/(1 + exp(min(500, 0.5*g{mark}/t_0 - 1.33))))"
    sheet.step(f"k_g{mark}", gap, "1", f"gap factor ({TABLE})")
    formula = f"k_g{mark}*c*(1.8 + 10.2*{pressed}/d_0)"
    sheet.step(f"N_K{number}", formula, "force", f"K joint with {name} ({TABLE})")
    return True
