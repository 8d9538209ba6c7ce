"""`weld-throat` by hand: stress on the throat of a fillet weld."""

from strength.checks.welds import WeldEffect
from strength.joints.fillet import (
    ALUMINIUM,
    BRAZED,
    DIRECTIONAL,
    EN_1999,
    OWN,
    SIMPLIFIED,
    WELD_STRESS,
    Rule,
    aluminium_strength,
    correlation,
)
from strength.joints.parents import parents
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed, loaded
from strength.studies.explain.weld_line import weld_of, write_line
from strength.studies.explain.weld_strength import filler_origin, write_quality, write_share

ASKS = (
    "Does the weld itself tear? The forces through it are spread along its line (a uniform part, and a "
    "part that turns about the line's centroid); the stress on its throat must stay under what the filler "
    "carries, divided by the weld factor and lowered by the quality."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """By the line method, by the force's direction or by the whole group's strength, as the weld says."""
    effect, number = weld_of(subject)
    if not subject.limit_state and effect.weld.method == "ultimate":
        from strength.studies.explain.weld_ultimate import explain_ultimate

        return explain_ultimate(subject, sheet, effect, number)
    if not subject.limit_state and effect.weld.directional:
        from strength.studies.explain.weld_directional import explain_directional

        return explain_directional(subject, sheet, effect, number)
    write_line_method(sheet, subject, effect, number)
    finish(sheet, "stress", "limit", effect.path_factor)
    return Told(asks=ASKS, demand="stress", limit="limit")


def write_line_method(sheet: Sheet, subject: Subject, effect: WeldEffect, number: int) -> None:
    """Line, worst place, `stress` on the throat and its `limit`."""
    rule = write_line(sheet, subject, effect.throat, effect, number)
    write_throat(sheet, subject, effect)
    sheet.step("stress", _combined(rule), "stress", f"{rule.what}: {rule.source}")
    _limit(sheet, subject, effect, rule)


def write_throat(sheet: Sheet, subject: Subject, effect: WeldEffect) -> None:
    """Leg, throat and the parts of the stress on it."""
    weld = effect.weld
    sheet.given("leg", float(effect.seat.leg[0]), "length", "leg", keyed(weld.path, weld.name, "leg"))
    sheet.step("a", "leg/sqrt(2)", "length", "throat of equal legs")
    for axis, word in (("x", "along the member"), ("s", "along the weld"), ("n", "across both")):
        formula = loaded(sheet, subject, f"q_{axis}/a")
        sheet.step(f"t_{axis}", formula, "stress", f"on the throat, {word}")


def _combined(rule: Rule) -> str:
    """The rule's stress from t_x, t_s, t_n."""
    if rule.what == "combined stress":
        return "sqrt(2*(t_x^2 + abs(t_x*t_n) + t_n^2) + 3*t_s^2)"
    if rule.what == "stress across the throat":
        return "(abs(t_x) + abs(t_n))/sqrt(2)"
    return "sqrt(t_x^2 + t_s^2 + t_n^2)"


def _limit(sheet: Sheet, subject: Subject, effect: WeldEffect, rule: Rule) -> None:
    """What the throat may carry."""
    weld, case = effect.weld, subject.context.case
    filler = case.fillers[weld.filler]
    origin = filler_origin(filler)
    own, onto = parents(case, effect.seat, subject.context.bars)
    if rule.source in (OWN, ALUMINIUM) or not subject.limit_state:
        factor = BRAZED if rule.source == OWN else WELD_STRESS[filler.kind]
        characteristic = write_share(sheet, subject, weld, factor, rule.source)
    elif rule.source == EN_1999:
        fw, known = aluminium_strength(filler, own, onto)
        what = "strength of the weld" if known else "the table's least, since it does not pair these"
        sheet.given("f_w", fw, "stress", what, origin + ", EN 1999-1-1 Table 8.8")
        characteristic = "f_w"
    else:
        sheet.given("f_F", filler.strength, "stress", "tensile strength of the filler", origin)
        names = ["f_F", "f_1"]
        sheet.given(
            "f_1",
            own.ultimate[0],
            "stress",
            f"tensile strength of {own.name}, welded",
            _metal(own.metal.name),
        )
        if onto is not None:
            sheet.given(
                "f_2",
                onto.ultimate[0],
                "stress",
                f"tensile strength of {onto.name}, welded",
                _metal(onto.metal.name),
            )
            names.append("f_2")
        sheet.step("f_u", f"min({', '.join(names)})", "stress", "the least")
        if rule.what == "stress across the throat":
            characteristic = "0.9*f_u"
        else:
            sheet.given(
                "beta_w",
                correlation(own, onto)[0],
                "1",
                "correlation factor of the weaker part",
                "EN 1993-1-8 Table 4.1",
            )
            characteristic = "f_u/(sqrt(3)*beta_w)" if rule.source == SIMPLIFIED else "f_u/beta_w"
            if rule.source not in (SIMPLIFIED, DIRECTIONAL):
                raise ValueError(rule.source)
    write_quality(sheet, subject, weld)
    sheet.step("limit", f"{characteristic}*k_Q/n", "stress", "what the stress may reach")


def _metal(name: str) -> str:
    return f"library: {name}"
