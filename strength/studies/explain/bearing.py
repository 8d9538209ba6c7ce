"""`bearing` by hand: a bolt or pin pressing on the edge of its hole."""

from strength.joints.bearing import LEAST_K1
from strength.studies.explain.fastener_lines import class_origin, write_ultimate
from strength.studies.explain.plate_lines import (
    Plated,
    plated,
    write_edge,
    write_hole,
    write_pull,
    write_strength,
    write_thickness_of,
)
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed, ultimate_divisor, yield_divisor

ASKS = (
    "Does the bolt squeeze its hole out of shape? The force on the hole must stay under what diameter times "
    "thickness bears, divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Of a pin by yield, of a bolt by tensile strength."""
    found = plated(subject)
    own, bolt = found.effect.fastener, found.effect.bolt
    write_pull(sheet, subject, found)
    sheet.given("d", own.diameter, "length", "diameter that bears", keyed(bolt.path, bolt.name, "size"))
    write_thickness_of(sheet, found)
    if own.is_pin:
        _pin(sheet, subject, found)
    else:
        _bolt(sheet, subject, found)
    finish(sheet, "F_d", "F_R", found.effect.path_factor)
    return Told(asks=ASKS, demand="F_d", limit="F_R")


def _bolt(sheet: Sheet, subject: Subject, found: Plated) -> None:
    own, bolt = found.effect.fastener, found.effect.bolt
    write_strength(sheet, found)
    write_ultimate(sheet, own, bolt.path, bolt.name)
    if subject.limit_state:
        write_edge(sheet, found)
        write_hole(sheet, found)
        formula = f"max({LEAST_K1:g}, min(2.5, 2.8*e/d_0 - 1.7))"
        sheet.step("k_1", formula, "1", "edge across the force (EN 1993-1-8 Table 3.4)")
        sheet.step(
            "alpha_b", "min(1, f_ub/f_u, e/(3*d_0))", "1", "edge along the force, or the bolt's own metal"
        )
        sheet.step("F_0", "k_1*alpha_b*d*t*f_u", "force", "bearing resistance")
    else:
        formula = "2.4*d*t*min(f_u, f_ub)"
        sheet.step("F_0", formula, "force", "bearing resistance (AISC 360-16 J3.10)")
    least = "F_0"
    if found.effect.is_single and not found.effect.two_planes:
        what = "most of one bolt in single shear (EN 1993-1-8 3.6.1(10))"
        sheet.step("F_lap", "1.5*d*t*f_u", "force", what)
        least = "min(F_0, F_lap)"
    ultimate_divisor(sheet, subject)
    sheet.step("F_R", f"{least}/n", "force", "what the hole may bear")


def _pin(sheet: Sheet, subject: Subject, found: Plated) -> None:
    own, bolt = found.effect.fastener, found.effect.bolt
    write_strength(sheet, found, yields=True)
    sheet.given(
        "f_yb", own.yield_, "stress", "yield strength of the pin", class_origin(own, bolt.path, bolt.name)
    )
    plate = found.plate
    brittle = "elongation of the plate under 10 % or not known" if bool(plate.brittle[0, 0]) else ""
    yield_divisor(sheet, subject, plate.metal.kind, brittle=brittle, symbol="n_1")
    hard = "a pin of so high a class, elongation under 10 %" if own.grade.brittle else ""
    yield_divisor(sheet, subject, own.kind, brittle=hard, symbol="n_2")
    sheet.step("n", "max(n_1, n_2)", "1", "the greater of plate's and pin's")
    formula = "1.5*d*t*min(f_y, f_yb)/n"
    sheet.step("F_R", formula, "force", "what the hole may bear (EN 1993-1-8 Table 3.10)")
