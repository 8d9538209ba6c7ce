"""`dropout` by hand: the flats of an axle pressing on the flanks of their slot."""

from strength.case.dropout import Dropout
from strength.checks.dropout_metals import BearingPair, bearing_pair
from strength.checks.dropouts import BEARING
from strength.checks.joint_rows import joint_path_factor
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed, loaded, metal_origin, yield_divisor

ASKS = (
    "Does the axle turn in its slot? The torque presses the ends of both flats on the flanks; that pressure "
    "must stay under what the softer of both metals bears, divided by its factor."
)
SPREAD = (
    "Each of both flats presses with one half of its length, the pressure rising in a straight line from its "
    "middle to its end (own choice): two forces p*t*l/4, each l/3 from the axle's middle, make the torque "
    "p*t*l^2/6."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """6 T/(t l^2) against 1.5 fy."""
    context = subject.context
    own = next(one for one in context.case.dropouts if one.name == subject.row.part)
    pair = bearing_pair(context, own)
    for symbol, value, dimension, what, key in (
        ("D", own.diameter, "length", "diameter of the axle beside its flats", "axle.diameter"),
        ("s", own.flats, "length", "across the flats", "axle.flats"),
        ("t", own.thickness, "length", "thickness of the dropout", "thickness"),
        ("T", own.torque, "moment", "torque, alike in every load", "torque"),
    ):
        sheet.given(symbol, value, dimension, what, keyed(own.path, own.name, key))
    sheet.step("l", "sqrt(D^2 - s^2)", "length", "length of a flat across the axle: a chord of its circle")
    sheet.say(SPREAD)
    pressure = loaded(sheet, subject, "6*T/(t*l^2)")
    sheet.step("p", pressure, "stress", "pressure at the ends of the flats")
    strength = _write_strengths(sheet, own, pair)
    yield_divisor(sheet, subject, pair.kind, brittle=_why_brittle(pair))
    what = "what the pressure may reach (a pin's bearing, EN 1993-1-8 Table 3.10)"
    sheet.step("limit", f"{BEARING:g}*{strength}/n", "stress", what)
    finish(sheet, "p", "limit", joint_path_factor(context, pair.bar, own.only_path))
    return Told(asks=ASKS, demand="p", limit="limit")


def _write_strengths(sheet: Sheet, own: Dropout, pair: BearingPair) -> str:
    """f_y of the dropout and, where its metal is said, of the axle; returns the lesser as a formula."""
    hot, factor = bool(pair.hot.inside[0, 0]), float(pair.hot.factor[0, 0])
    what = "yield strength of the dropout"
    if hot:
        what += ", beside a weld" + (f" (times {factor:g}: TIG)" if factor != 1.0 else "")
    origin = metal_origin(pair.metal, own.thickness, welded=hot)
    sheet.given("f_y", pair.own_yield[0], "stress", what, origin)
    if pair.axle is None:
        sheet.say("The axle's metal is not given: it is taken as no softer.")
        return "f_y"
    strength, origin = pair.axle.strength(own.diameter), metal_origin(pair.axle, own.diameter)
    sheet.given("f_ya", strength.yield_, "stress", "yield strength of the axle", origin)
    return "min(f_y, f_ya)"


def _why_brittle(pair: BearingPair) -> str:
    if not pair.brittle:
        return ""
    return "elongation under 10 % or not known" + ("" if pair.softer is None else ", of the one or the other")
