"""A plate, box or tube on a face of a box by hand: EN 1993-1-8 Tables 7.10 to 7.14."""

from strength.checks.perry import CURVES
from strength.checks.standing import Standing
from strength.checks.walls import WallJoint
from strength.joints.box_joint import LEAST, WIDE, YOUNGS
from strength.sections.box import corner_radii
from strength.studies.explain.joint_lines import write_interaction
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject
from strength.studies.explain.tab_tube import write_arms

PLATES = "EN 1993-1-8 Table 7.13, from memory"
AXIAL = "EN 1993-1-8 Tables 7.10 and 7.11, from memory"
BENDING = "EN 1993-1-8 Table 7.14, from memory"


def write_on_box(sheet: Sheet, subject: Subject, joint: WallJoint, stand: Standing) -> None:
    """All three parts in interaction."""
    _face(sheet, subject, joint)
    crossed = joint.is_crossed
    if stand.make_up.plate:
        _plate(sheet, joint, along=stand.make_up.along)
        write_arms(sheet, stand)
        sheet.step("M_ipR", "arm_in*N_R", "moment", f"strength in the plane ({PLATES})")
        sheet.step("M_opR", "arm_out*N_R", "moment", f"strength out of the plane ({PLATES})")
    else:
        sheet.given(
            "f_y1",
            joint.own.yield_[0],
            "stress",
            "yield strength of what stands, welded",
            "library: " + joint.own.metal.name,
        )
        if stand.make_up.round:
            sheet.say("A round member counts as a square one times pi/4.")
        shape = "pi/4*" if stand.make_up.round else ""
        _effective(sheet)
        _axial(sheet, joint, shape, crossed=crossed)
        _in_plane(sheet, shape, crossed=crossed)
        _out_of_plane(sheet, shape, crossed=crossed)
    sheet.step("u_N", "abs(N_d)/N_R", "1", "axial force")
    sheet.step("u_ip", "M_ip/M_ipR", "1", "bending in the plane")
    sheet.step("u_op", "M_op/M_opR", "1", "bending out of the plane")
    write_interaction(sheet, "u_0", "all three together, as for round tubes (own choice)")


def _face(sheet: Sheet, subject: Subject, joint: WallJoint) -> None:
    bars, host = subject.context.bars, joint.meeting.host
    key = subject.key(host.bar, "section")
    depth, width = bars.depth[0, host.bar], bars.width[0, host.bar]
    on_y = host.face is not None and abs(float(host.face @ host.axes[1])) > 0.5
    wide, deep = (depth, width) if on_y else (width, depth)
    sheet.given("b_0", wide, "length", "width of the loaded face", key)
    sheet.given("h_0", deep, "length", "depth behind it", key)
    sheet.given("t_0", bars.wall[0, host.bar], "length", "wall of the box", key)
    sheet.step("beta", "b_1/b_0", "1", "width over that of the face")
    formula = f"max({LEAST:g}, min(1, 1.3 - 0.4*min(n_p, 1)/beta))"
    sheet.step("k_n", formula, "1", "what the box's own compression leaves")


def _effective(sheet: Sheet) -> None:
    formula = "min(1, 10*t_0/b_0*f_y0*t_0/(f_y1*t_1))*b_1"
    sheet.step("b_eff", formula, "length", "of its width, what carries fully")


def _plate(sheet: Sheet, joint: WallJoint, *, along: bool) -> None:
    if along:
        sheet.step(
            "k_m",
            f"max({LEAST:g}, min(1, 1.3*(1 - min(n_p, 1))))",
            "1",
            "what compression leaves, plates along",
        )
        formula = "k_m*f_y0*t_0^2*(2*h_1/b_0 + 4*sqrt(1 - t_1/b_0))"
        sheet.step("N_R", formula, "force", f"plate along the face ({PLATES})")
        return
    sheet.given(
        "f_y1",
        joint.own.yield_[0],
        "stress",
        "yield strength of the plate, welded",
        "library: " + joint.own.metal.name,
    )
    _effective(sheet)
    sheet.step("N_1", "f_y1*t_1*b_eff", "force", f"the plate itself ({PLATES})")
    parts = ["N_1"]
    beta, inner = sheet["beta"], sheet["beta"] <= 1.0 - 2.0 * sheet["t_0"] / sheet["b_0"]
    if beta <= WIDE:
        formula = "k_n*f_y0*t_0^2*(2 + 2.8*beta)/sqrt(1 - 0.9*beta)"
        sheet.step("N_2", formula, "force", f"the face bends, beta up to {WIDE:g} ({PLATES})")
        parts.append("N_2")
    elif inner:
        formula = "f_y0*t_0/sqrt(3)*(2*t_1 + 2*min(1, 10*t_0/b_0)*b_1)"
        sheet.step("N_3", formula, "force", f"the plate punches the face ({PLATES})")
        parts.append("N_3")
    if not inner:
        sheet.step("N_4", "k_n*f_y0*t_0*(2*t_1 + 10*t_0)", "force", f"the side walls ({PLATES})")
        parts.append("N_4")
    formula = f"min({', '.join(parts)})" if len(parts) > 1 else parts[0]
    sheet.step("N_R", formula, "force", "axial strength, the least")


def _axial(sheet: Sheet, joint: WallJoint, shape: str, *, crossed: bool) -> None:
    beta = sheet["beta"]
    sheet.step("s", "sin(theta)", "1", "sine of the angle")
    sheet.step("narrow", f"min(beta, {WIDE:g})", "1", "width that the face's bending is taken at")
    formula = "k_n*f_y0*t_0^2/((1 - narrow)*s)*(2*h_1/(b_0*s) + 4*sqrt(1 - narrow))"
    sheet.step("N_1", formula, "force", f"the face bends ({AXIAL})")
    parts = ["N_1"]
    if beta > WIDE:
        _side_walls(sheet, joint, crossed=crossed)
        sheet.step(
            "N_2",
            f"N_1 + min(1, (beta - {WIDE:g})/(1 - {WIDE:g}))*(N_side - N_1)",
            "force",
            "between face and side walls",
        )
        sheet.step("N_3", "f_y1*t_1*(2*h_1 - 4*t_1 + 2*b_eff)", "force", f"what stands itself ({AXIAL})")
        parts = ["N_2", "N_3"]
        if beta <= 1.0 - 2.0 * sheet["t_0"] / sheet["b_0"]:
            formula = "f_y0*t_0/sqrt(3)*(2*h_1/s + 2*min(10*t_0/b_0, 1)*b_1)/s"
            sheet.step("N_4", formula, "force", f"punching ({AXIAL})")
            parts.append("N_4")
    least = f"min({', '.join(parts)})" if len(parts) > 1 else parts[0]
    sheet.step("N_R", f"{shape}{least}", "force", "axial strength")


def _side_walls(sheet: Sheet, joint: WallJoint, *, crossed: bool) -> None:
    if sheet["N_d"] < 0.0:
        sheet.given("E", YOUNGS, "stress", "modulus of elasticity of steel", "EN 1993-1-1 3.2.6")
        formula = "3.46*(h_0/t_0 - 2)*sqrt(1/s)/(pi*sqrt(E/f_y0))"
        sheet.step("s_w", formula, "1", "slenderness of the side walls")
        curve = joint.wall.metal.buckling_curve
        imperfection, plateau = CURVES[curve]
        sheet.given("alpha", imperfection, "1", f"imperfection, curve {curve}", "EN 1993-1-1 Table 6.1")
        sheet.given("s_p", plateau, "1", f"plateau, curve {curve}", "EN 1993-1-1 Table 6.1")
        sheet.step("phi", "0.5*(1 + alpha*(s_w - s_p) + s_w^2)", "1", "Perry and Robertson")
        if sheet["s_w"] <= plateau:
            sheet.given("chi", 1.0, "1", "reduction: stocky walls", "EN 1993-1-1 6.3.1.2")
        else:
            sheet.step("chi", "min(1, 1/(phi + sqrt(max(0, phi^2 - s_w^2))))", "1", "reduction")
        sheet.step("f_b", "chi*f_y0" + ("*0.8*s" if crossed else ""), "stress", "strength of the side walls")
    else:
        sheet.step("f_b", "f_y0", "stress", "strength of the side walls, pulled")
    formula = "k_n*f_b*t_0/s*(2*h_1/s + 10*t_0)"
    sheet.step("N_side", formula, "force", f"the side walls ({AXIAL})")


def _plastic(sheet: Sheet, symbol: str, depth: str, width: str) -> None:
    """Plastic modulus of what stands, taken as a box with the round corners of EN 10219-2."""
    if "r_o" not in sheet:
        outer, inner = (float(value) for value in corner_radii(sheet["t_1"]))
        source = "EN 10219-2:2006, Annex B"
        sheet.given("k_o", outer / sheet["t_1"], "1", "outer corner radius over the wall", source)
        sheet.given("k_i", inner / sheet["t_1"], "1", "inner corner radius over the wall", source)
        sheet.step("r_o", "min(k_o*t_1, h_1/2, b_1/2)", "length", "outer corner radius")
        sheet.step("h_i", "max(0, h_1 - 2*t_1)", "length", "inside, along the host")
        sheet.step("b_i", "max(0, b_1 - 2*t_1)", "length", "inside, across the host")
        sheet.step("r_i", "min(k_i*t_1, h_i/2, b_i/2)", "length", "inner corner radius")
        sheet.step(
            "k_r", "(10 - 3*pi)/(12 - 3*pi)", "1", "where the middle of what a corner lacks lies, over r"
        )
    d, w = depth.replace("_1", "_i"), width.replace("_1", "_i")
    whole = f"{width}*{depth}^2/4 - (4 - pi)*r_o^2*({depth}/2 - k_r*r_o)"
    hollow = f"{w}*{d}^2/4 - (4 - pi)*r_i^2*({d}/2 - k_r*r_i)"
    sheet.step(symbol, f"{whole} - ({hollow})", "modulus", "plastic modulus of what stands")


def _in_plane(sheet: Sheet, shape: str, *, crossed: bool) -> None:
    if sheet["beta"] <= WIDE:
        sheet.step("eta", "h_1/b_0", "1", "length over the face's width")
        formula = "k_n*f_y0*t_0^2*h_1*(0.5/eta + 2/sqrt(1 - narrow) + eta/(1 - narrow))"
        sheet.step("M_ipR", shape + formula, "moment", f"strength in the plane: the face bends ({BENDING})")
        return
    eight = "*0.8" if crossed else ""
    sheet.step("M_i1", f"0.5*f_y0{eight}*t_0*(h_1 + 5*t_0)^2", "moment", f"the side walls ({BENDING})")
    _plastic(sheet, "W_i", "h_1", "b_1")
    formula = "f_y1*(W_i - (1 - b_eff/b_1)*b_1*(h_1 - t_1)*t_1)"
    sheet.step("M_i2", formula, "moment", f"what stands itself ({BENDING})")
    sheet.step("M_ipR", f"{shape}min(M_i1, M_i2)", "moment", "strength in the plane")


def _out_of_plane(sheet: Sheet, shape: str, *, crossed: bool) -> None:
    parts = []
    if sheet["beta"] <= WIDE:
        formula = (
            "k_n*f_y0*t_0^2*(h_1*(1 + narrow)/(2*(1 - narrow)) + sqrt(2*b_0*b_1*(1 + narrow)/(1 - narrow)))"
        )
        sheet.step("M_o1", formula, "moment", f"the face bends ({BENDING})")
        parts = ["M_o1"]
    else:
        eight = "*0.8" if crossed else ""
        formula = f"f_y0{eight}*t_0*(b_0 - t_0)*(h_1 + 5*t_0)"
        sheet.step("M_o2", formula, "moment", f"the side walls ({BENDING})")
        _plastic(sheet, "W_o", "b_1", "h_1")
        formula = "f_y1*(W_o - 0.5*(1 - b_eff/b_1)^2*b_1^2*t_1)"
        sheet.step("M_o3", formula, "moment", f"what stands itself ({BENDING})")
        parts = ["M_o2", "M_o3"]
    if not crossed:
        formula = "2*f_y0*t_0*(h_1*t_0 + sqrt(b_0*h_0*t_0*(b_0 + h_0)))"
        sheet.step("M_o4", formula, "moment", f"the box distorts ({BENDING})")
        parts.append("M_o4")
    least = f"min({', '.join(parts)})" if len(parts) > 1 else parts[0]
    sheet.step("M_opR", f"{shape}{least}", "moment", "strength out of the plane")
