"""`plate-bending` of a lug by hand."""

import numpy as np

from strength.checks.divisors import BRITTLE_BELOW
from strength.checks.lug_bending import welded_end
from strength.checks.strips import free_length
from strength.checks.yielding import path_factor
from strength.frame.response import at_places
from strength.joints.plate import ROOT
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import (
    Subject,
    along_words,
    finish,
    loaded,
    metal_origin,
    write_forces,
    yield_divisor,
)

ASKS = (
    "Does the lug bend beside its weld? Its load enters at one place, so that only part of its width carries "
    "bending out of its plane; pull and both bendings must stay under the yield strength over its factor."
)
JARAMILLO = "Jaramillo 1950, as in Roark, load at the free edge (from memory)"


def explain_lug(subject: Subject, sheet: Sheet) -> Told:
    """N/A + 6 My/(t b^2) + 6 Mz/(b_eff t^2)."""
    context = subject.context
    case, bars, layout = context.case, context.bars, context.layout
    bar = bars.names.index(subject.row.part)
    member = case.members[bar]
    end, length = welded_end(case, member), float(layout.bar_length[bar])
    inset = max(weld.inset for weld in case.welds if weld.member == member.name)
    place = inset if end == "from" else length - inset
    forces = at_places(
        layout, context.response, np.array([bar]), np.array([[place]]), np.array([0 if end == "to" else 1])
    )[0, subject.load, 0]
    write_forces(sheet, subject, forces, "045", along_words(subject, bar, place))
    key = subject.key(bar, "section")
    sheet.given("b", bars.depth[0, bar], "length", "width", key)
    sheet.given("t", bars.width[0, bar], "length", "thickness", key)
    sheet.given(
        "c", free_length(case, member, length), "length", "of the load from the weld", "case: its places"
    )
    sheet.given("K_m", ROOT[-1], "1", "greatest root moment per width over the load", JARAMILLO)
    what = "width that carries bending out of its plane (own choice between strip and plate)"
    sheet.step("b_eff", "1/hypot(1/b, K_m/c)", "length", what)
    formula = "abs(N)/(b*t) + 6*abs(M_y)/(t*b^2) + 6*abs(M_z)/(b_eff*t^2)"
    sheet.step("sigma", loaded(sheet, subject, formula), "stress", "pull and both bendings")
    stations = context.stations
    own = stations.of(bar)
    near = np.abs(stations.place[0, own] - place) <= 1e-6
    strength = float(np.where(near, stations.yield_[0, own], np.inf).min())
    metal = bars.metals[bar]
    hot = strength < float(bars.yield_[0, bar])
    what = "yield strength" + (", beside a weld" if hot else "")
    sheet.given("f_y", strength, "stress", what, metal_origin(metal, float(bars.wall[0, bar]), welded=hot))
    elongation = float(bars.elongation[0, bar])
    brittle = "" if elongation >= BRITTLE_BELOW else "elongation under 10 % or not known"
    yield_divisor(sheet, subject, "" if metal is None else metal.kind, brittle=brittle)
    sheet.step("limit", "f_y/n", "stress", "what the stress may reach")
    finish(sheet, "sigma", "limit", path_factor(case, bar))
    return Told(asks=ASKS, demand="sigma", limit="limit")
