"""`yielding` and `rupture` by hand: the worst von Mises stress of a section against its strength."""

from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.divisors import BRITTLE_BELOW, is_stub_axle
from strength.checks.stations import HOLE
from strength.checks.yielding import path_factor, ultimate_limit, yield_limit
from strength.studies.explain.sheet import CLOSE_STRESS, Sheet, Told
from strength.studies.explain.stress_box import write_box
from strength.studies.explain.stress_flat import write_flat
from strength.studies.explain.stress_net import write_net
from strength.studies.explain.stress_outline import write_outline
from strength.studies.explain.stress_round import write_round
from strength.studies.explain.subject import (
    Subject,
    along_words,
    finish,
    loaded,
    metal_origin,
    ultimate_divisor,
    write_forces,
    yield_divisor,
)

ASKS = {
    "yielding": "Does the part bend and stay bent? The worst stress of the section, all its parts together "
    "(von Mises), must stay under the yield strength divided by its factor.",
    "rupture": "Does the part tear through? The worst stress of the section, all its parts together (von "
    "Mises), must stay under the tensile strength divided by its factor.",
}


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Stress, strength, factor."""
    context, row = subject.context, subject.row
    bar = context.bars.names.index(row.part)
    stations = context.stations
    own = stations.of(bar)
    limits = (yield_limit if row.kind == "yielding" else ultimate_limit)(context, bar)
    use = stations.peak[0, subject.load, own] / limits[0, subject.load]
    station = own.start + int(use.argmax())
    forces = stations.forces[0, subject.load, station]
    sheet.say(f"At {row.where.removeprefix('at ')} of {row.part}.")
    origin = along_words(subject, bar, float(stations.place[0, station]))
    write_forces(sheet, subject, forces, "012345", origin)
    shape = context.bars.shapes[bar]
    if stations.gaps[station]:
        write_net(sheet, subject, bar, station)
    elif isinstance(shape, Tube | Bar):
        write_round(sheet, subject, bar, int(stations.shoulder[station]))
    elif isinstance(shape, Flat):
        write_flat(sheet, subject, bar)
    elif isinstance(shape, Box):
        write_box(sheet, subject, bar)
    else:
        write_outline(sheet, subject, bar)
    sheet.step("sigma_v", "sqrt(sigma^2 + 3*tau^2)", "stress", "von Mises stress, all parts together")
    demand = "sigma_v"
    if subject.limit_state:
        demand = "sigma_d"
        sheet.step(demand, loaded(sheet, subject, "sigma_v"), "stress", "the same times the load factor")
    _strength(sheet, subject, bar, station)
    finish(sheet, demand, "limit", path_factor(context.case, bar))
    return Told(asks=ASKS[row.kind], demand=demand, limit="limit", close=CLOSE_STRESS)


def _strength(sheet: Sheet, subject: Subject, bar: int, station: int) -> None:
    bars, stations = subject.context.bars, subject.context.stations
    yields = subject.row.kind == "yielding"
    metal = bars.metals[bar]
    hot = bool(stations.heated[0, station])
    symbol, what = ("f_y", "yield strength") if yields else ("f_u", "tensile strength")
    if yields:
        value = (bars.yield_welded if hot else bars.yield_)[0, bar]
    else:
        value = (bars.ultimate_welded if hot else bars.ultimate)[0, bar]
    thickness = float(bars.wall[0, bar])
    shape = bars.shapes[bar]
    outside = float(bars.depth[0, bar]) if isinstance(shape, Tube | Bar) else None
    if hot:
        what += " beside a weld: the place lies in a heat-affected length"
    sheet.given(symbol, value, "stress", what, metal_origin(metal, thickness, welded=hot, diameter=outside))
    factors = []
    if stations.kept[0, station] != 1.0:
        why = "keeps of welded strengths after TIG on 6xxx and 7xxx aluminium"
        sheet.given("k_TIG", stations.kept[0, station], "1", why, "EN 1999-1-1 6.1.6.2")
        factors.append("k_TIG*")
    if not yields and stations.gaps[station]:
        sheet.given("k_hole", HOLE, "1", "net section at a hole", "EN 1993-1-1 6.2.3")
        factors.append("k_hole*")
    if yields:
        kind = "" if metal is None else metal.kind
        yield_divisor(sheet, subject, kind, brittle=_brittle(subject, bar))
    else:
        ultimate_divisor(sheet, subject)
    sheet.step("limit", f"{''.join(factors)}{symbol}/n", "stress", "what the stress may reach")


def _brittle(subject: Subject, bar: int) -> str:
    """Why the yield factor is at least 1.67; "" where it need not be."""
    if is_stub_axle(subject.context.case, bar):
        return "a stub axle"
    elongation = float(subject.context.bars.elongation[0, bar])
    if elongation >= BRITTLE_BELOW:
        return ""
    return (
        "elongation is not known" if elongation != elongation else f"elongation {elongation:.0%}, under 10 %"
    )
