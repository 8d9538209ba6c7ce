"""A plate or box on a round tube by hand: EN 1993-1-8 Table 7.3."""

from strength.checks.standing import Standing
from strength.checks.walls import WallJoint
from strength.studies.explain.joint_lines import write_interaction
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject

TABLE = "EN 1993-1-8 Table 7.3, from memory"


def write_on_tube(sheet: Sheet, subject: Subject, joint: WallJoint, stand: Standing) -> None:
    """The worse of the face, all three parts in interaction, and punching by the greatest stress."""
    bars, bar = subject.context.bars, joint.meeting.host.bar
    key = subject.key(bar, "section")
    sheet.given("d_0", bars.depth[0, bar], "length", "outside diameter of the tube", key)
    sheet.given("t_0", bars.wall[0, bar], "length", "its wall", key)
    sheet.step("k_p", "1 - 0.3*min(n_p, 1)*(1 + min(n_p, 1))", "1", "what the tube's own stress leaves")
    sheet.step("c", "k_p*f_y0*t_0^2", "force", "common to all")
    sheet.step("beta", "b_1/d_0", "1", "width over diameter")
    _face(sheet, stand, crossed=joint.is_crossed)
    sheet.step("N_R", "N_0/sin(theta)", "force", "axial strength of the face")
    write_arms(sheet, stand)
    sheet.step("u_N", "abs(N_d)/N_R", "1", "axial force")
    sheet.step("u_ip", "M_ip/(arm_in*N_R)", "1", "bending in the plane")
    sheet.step("u_op", "M_op/(arm_out*N_R)", "1", "bending out of the plane")
    write_interaction(sheet, "u_face", "the face, all three together")
    _punched(sheet, subject, joint, stand)
    sheet.step("u_0", "max(u_face, u_punch)", "1", "the worse of face and punching")


def write_arms(sheet: Sheet, stand: Standing) -> None:
    """Lever arms of moments in the plane and out of it."""
    if stand.make_up.plate and not stand.make_up.along:
        what = "arm in the plane: half its thickness (own choice; the table gives nothing)"
        sheet.step("arm_in", "0.5*t_1", "length", what)
    else:
        sheet.step("arm_in", "h_1", "length", f"arm in the plane ({TABLE})")
    sheet.step("arm_out", "0.5*b_1", "length", f"arm out of the plane ({TABLE})")


def _face(sheet: Sheet, stand: Standing, *, crossed: bool) -> None:
    longer = "" if stand.make_up.plate else "*(1 + 0.25*h_1/d_0)"
    if stand.make_up.plate and stand.make_up.along:
        sheet.step("N_0", "5*c*(1 + 0.25*h_1/d_0)", "force", f"plate along the tube ({TABLE})")
        return
    word = "plate across the tube" if stand.make_up.plate else "box or tube"
    sheet.step("N_1", f"c*(4 + 20*beta^2){longer}", "force", f"{word} ({TABLE})")
    if crossed:
        sheet.step("N_2", f"c*5/(1 - 0.81*beta){longer}", "force", f"another stands opposite ({TABLE})")
        sheet.step("N_0", "min(N_1, N_2)", "force", "the lesser")
    else:
        sheet.step("N_0", "N_1", "force", "nothing stands opposite")


def _punched(sheet: Sheet, subject: Subject, joint: WallJoint, stand: Standing) -> None:
    key = f"of its section, {subject.key(joint.effect.seat.bar, 'section')}"
    sheet.given("A_1", stand.area[0, 0, 0], "area", "area of what stands", key)
    sheet.given("W_in", stand.modulus_in[0, 0, 0], "modulus", "its modulus, bent in the plane", key)
    sheet.given("W_out", stand.modulus_out[0, 0, 0], "modulus", "its modulus, bent out of the plane", key)
    formula = "abs(N_d)/A_1 + M_ip/W_in + M_op/W_out"
    sheet.step("s_1", formula, "stress", "its greatest stress")
    twice = "2*" if stand.make_up.plate else ""
    sheet.step("p_R", f"{twice}t_0*f_y0/sqrt(3)", "flow", f"force per length that the wall carries ({TABLE})")
    sheet.step("u_punch", "s_1*t_1/p_R", "1", "punching")
