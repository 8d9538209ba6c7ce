"""`clamp-slip` by hand."""

from strength.checks.joint_rows import bar_number, joint_path_factor
from strength.joints.clamp import PRELOAD
from strength.joints.end_force import end_force
from strength.joints.fastener import fastener
from strength.studies.explain.bolt_forces import write_end
from strength.studies.explain.fastener_lines import write_tension_area, write_ultimate
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed, loaded, ultimate_divisor

ASKS = (
    "Does the clamp turn on its tube? The torque must stay under what the friction of its bolts' preload "
    "holds, divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """T against friction x bolts x preload x diameter."""
    context = subject.context
    clamp = next(one for one in context.case.clamps if one.name == subject.row.part)
    own = fastener(clamp.bolt, clamp.grade, thread_in_shear=False)
    bar = bar_number(context, clamp.member)
    write_end(sheet, subject, end_force(context.layout, context.response, bar, clamp.end), "3")
    sheet.step("T_d", loaded(sheet, subject, "abs(T)"), "moment", "torque on the clamp")
    write_ultimate(sheet, own, clamp.path, clamp.name)
    write_tension_area(sheet, own, clamp.path, clamp.name)
    sheet.step("F_C", f"{PRELOAD:g}*f_ub*A_t", "force", "preload of a bolt (EN 1993-1-8 3.6.1(2))")
    for symbol, value, dimension, what, key in (
        ("mu", clamp.friction, "1", "friction", "friction"),
        ("count", clamp.bolt_count, "1", "bolts", "bolts"),
        ("d", clamp.diameter, "length", "diameter of the tube or bar", "diameter"),
    ):
        sheet.given(symbol, value, dimension, what, keyed(clamp.path, clamp.name, key))
    ultimate_divisor(sheet, subject)
    formula = "mu*count*F_C*d/n"
    sheet.step("T_R", formula, "moment", "what friction holds: both halves press with all bolts (own choice)")
    finish(sheet, "T_d", "T_R", joint_path_factor(context, bar, clamp.only_path))
    return Told(asks=ASKS, demand="T_d", limit="T_R")
