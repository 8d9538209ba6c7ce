"""`bolt-bending` by hand: pins, and bolts across a gap."""

from strength.studies.explain.bolt_forces import bolt_number, bolt_of, write_bolt, write_thickness
from strength.studies.explain.bolt_shear import write_shear_side
from strength.studies.explain.fastener_lines import class_origin
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed, loaded, yield_divisor

ASKS = (
    "Does the pin or bolt bend between its plates? Its bending over its bending resistance and its shear "
    "over its shear resistance, as the sides of a right angle, must stay under 1."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """sqrt((M/M_R)^2 + (V/V_R)^2)."""
    effect = bolt_of(subject)
    own, bolt = effect.fastener, effect.bolt
    write_bolt(sheet, subject, effect, bolt_number(effect, subject.row.where))
    if not effect.is_single:
        sheet.given("M_p", 0.0, "moment", "moment across one bolt of a group", "its bolts share it as pulls")
    write_shear_side(sheet, subject, effect)
    write_thickness(sheet, effect)
    if effect.two_planes:
        formula = "F_p*(t_b + 4*t_c + 2*t_a)/8 + M_p*(t_c + t_a/2)/(t_a + t_b + 2*t_c)"
        what = "bending between two cheeks (EN 1993-1-8 Figure 3.11; the moment's part own choice)"
    else:
        formula, what = "F_p*(t_c + t_b/2) + M_p", "bending from one plate's face (own choice)"
    sheet.step("M", formula, "moment", what)
    sheet.step("M_d", loaded(sheet, subject, "M"), "moment", "what the bolt is bent with")
    word = "root of the thread, in the shear plane" if own.bending_diameter < own.diameter else "shank"
    size = keyed(bolt.path, bolt.name, "size")
    sheet.given(
        "d_b", own.bending_diameter, "length", f"diameter that bends: {word}", f"{size} {bolt.size.text}"
    )
    sheet.step("W", "pi/32*d_b^3", "modulus", "elastic modulus")
    sheet.given(
        "f_yb", own.yield_, "stress", "yield strength of the bolt", class_origin(own, bolt.path, bolt.name)
    )
    brittle = "a bolt of so high a class, elongation under 10 %" if own.grade.brittle else ""
    yield_divisor(sheet, subject, own.kind, brittle=brittle, symbol="n_y")
    sheet.step("M_R", "1.5*W*f_yb/n_y", "moment", "what it may be bent with (EN 1993-1-8 Table 3.10)")
    sheet.step("u_0", "hypot(M_d/M_R, V_d/V_R)", "1", "both together")
    finish(sheet, "u_0", "", effect.path_factor)
    return Told(asks=ASKS, demand="u_0")
