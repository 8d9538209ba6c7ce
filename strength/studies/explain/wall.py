"""`wall` by hand: is the wall thick enough not to dent first."""

from strength.case.shape import Tube
from strength.checks.wall import ALUMINIUM, SOURCES
from strength.checks.welded import welds_on
from strength.checks.yielding import path_factor
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, metal_origin

ASKS = (
    "Does the wall dent before the part bends? Its width over its thickness must stay under what its yield "
    "strength allows; this counts wherever the part is pressed or bent."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Slenderness over its limit."""
    context = subject.context
    bars = context.bars
    bar = bars.names.index(subject.row.part)
    metal, shape = bars.metals[bar], bars.shapes[bar]
    kind, curve = ("steel", "c") if metal is None else (metal.kind, metal.buckling_curve)
    key = subject.key(bar, "section")
    is_round = isinstance(shape, Tube)
    if is_round:
        sheet.given("D", bars.depth[0, bar], "length", "outside diameter", key)
    else:
        side = max(float(bars.depth[0, bar]), float(bars.width[0, bar]))
        sheet.given("D", side, "length", "the greater side", key)
    sheet.given("t", bars.wall[0, bar], "length", "wall", key)
    outside = float(bars.depth[0, bar]) if is_round else None
    origin = metal_origin(metal, float(bars.wall[0, bar]), diameter=outside)
    sheet.given("f_y", bars.yield_[0, bar], "stress", "yield strength, not welded", origin)
    source = SOURCES.get(kind, SOURCES["steel"])
    if kind == "aluminium":
        _aluminium(sheet, subject, bar, "A" if curve == "A" else "B", source, is_round=is_round)
    else:
        _steel(sheet, subject, bar, kind, source, is_round=is_round)
    sheet.step("u_0", "ratio/most", "1", "slenderness over its limit")
    finish(sheet, "u_0", "", path_factor(context.case, bar))
    return Told(asks=ASKS, demand="u_0")


def _steel(sheet: Sheet, subject: Subject, bar: int, kind: str, source: str, *, is_round: bool) -> None:
    sheet.given("f_235", 235.0, "stress", "yield strength that the limits are given for", source)
    formula = "f_235/f_y"
    if kind == "stainless":
        sheet.given("E", subject.context.bars.youngs[0, bar], "stress", "modulus of elasticity", "library")
        sheet.given("E_210", 210e3, "stress", "modulus that the limits are given for", source)
        formula = "f_235/f_y*E/E_210"
    sheet.step("e2", formula, "1", "e^2")
    if is_round:
        sheet.step("ratio", "D/t", "1", "slenderness of the wall")
        sheet.step("most", "90*e2", "1", f"its limit ({source})")
    else:
        sheet.step("ratio", "(D - 3*t)/t", "1", "slenderness of the wall")
        number = 37 if kind == "stainless" else 42
        sheet.step("most", f"{number}*sqrt(e2)", "1", f"its limit ({source})")


def _aluminium(sheet: Sheet, subject: Subject, bar: int, curve: str, source: str, *, is_round: bool) -> None:
    context = subject.context
    welded = any(weld.bar == bar for weld in welds_on(context))
    sheet.given("f_250", 250.0, "stress", "strength that the limits are given for", source)
    sheet.step("e", "sqrt(f_250/f_y)", "1", "e")
    sheet.step("ratio", "3*sqrt(D/t)" if is_round else "(D - 2*t)/t", "1", "slenderness of the wall")
    number = ALUMINIUM[curve, welded]
    word = f"class {curve}, {'welded' if welded else 'not welded'}"
    sheet.step("most", f"{number:g}*e", "1", f"its limit, {word} ({source})")
