"""`stability` by hand: compression and bending over a buckling length."""

import numpy as np

from strength.case.shape import Bar, Flat, Outline, Tube
from strength.checks.buckling_lengths import BucklingLength, buckling_lengths
from strength.checks.perry import CURVES, TWISTING
from strength.checks.resistances import MOST
from strength.checks.stability import buckling_strength
from strength.checks.welded import welds_on
from strength.checks.yielding import path_factor
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import (
    Subject,
    finish,
    loaded,
    metal_origin,
    stability_divisor,
    write_forces,
)

ASKS = (
    "Does the part buckle? Compression over its buckling resistance, and bending that the compression "
    "makes worse over its bending resistance, must together stay under 1."
)
CURVE = "EN 1993-1-1 Table 6.1"
CLASS = "EN 1999-1-1 Table 6.6"


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Slenderness, reduction factors, magnifiers, interaction."""
    context = subject.context
    bars = context.bars
    bar = bars.names.index(subject.row.part)
    whole = buckling_lengths(context.case, context.layout, bars)[bar]
    _effects(sheet, subject, bar, whole)
    _part(sheet, subject, bar, whole)
    shape = bars.shapes[bar]
    metal = bars.metals[bar]
    kind = "steel" if metal is None else metal.kind
    sheet.step("N_cr_y", "pi^2*E*I_y/(K*L)^2", "force", "Euler's load, bending about y_m")
    sheet.step("N_cr_z", "pi^2*E*I_z/(K*L)^2", "force", "Euler's load, bending about z_m")
    if isinstance(shape, Outline):
        formula = "(I_y + I_z)/2 - hypot((I_y - I_z)/2, I_yz)"
        sheet.step("I_min", formula, "inertia", "the least second moment of area, askew where it is")
        sheet.step("N_cr", "pi^2*E*I_min/(K*L)^2", "force", "the least Euler's load")
    else:
        sheet.step("N_cr", "min(N_cr_y, N_cr_z)", "force", "the lesser")
    curve = "c" if metal is None else metal.buckling_curve
    alpha, plateau = CURVES[curve]
    source = CLASS if curve in "AB" else CURVE
    sheet.given("alpha", alpha, "1", f"imperfection, curve {curve}", source)
    sheet.given("s_0", plateau, "1", f"plateau, curve {curve}", source)
    _reduction(sheet, "A*f/N_cr", "", "buckling")
    lateral = _lateral(sheet, subject, bar, kind) if isinstance(shape, Flat) else ""
    stability_divisor(sheet, subject, kind if metal is not None else "", "n")
    _sum(sheet, subject, lateral, is_round=isinstance(shape, Tube | Bar))
    sheet.step(
        "u_0",
        "n*(u_N + u_y" + ("" if isinstance(shape, Tube | Bar) else " + u_z") + ")",
        "1",
        "the whole with its divisor",
    )
    finish(sheet, "u_0", "", path_factor(context.case, bar))
    return Told(asks=ASKS, demand="u_0")


def _effects(sheet: Sheet, subject: Subject, bar: int, whole: BucklingLength) -> None:
    """Greatest compression and bending along the length."""
    context = subject.context
    stations = context.stations
    rows = [n for link in whole.links for n in range(*stations.of(link.bar).indices(stations.bar.size))]
    forces = stations.forces[0, subject.load, rows]
    is_round = isinstance(context.bars.shapes[bar], Tube | Bar)
    bending = np.hypot(forces[:, 4], forces[:, 5]) if is_round else np.abs(forces[:, 4])
    for used, values, most, prefix in (
        ("0", forces, int(np.argmin(forces[:, 0])), ""),
        ("45" if is_round else "4", forces, int(np.argmax(bending)), ""),
        *(() if is_round else (("5", forces, int(np.argmax(np.abs(forces[:, 5]))), ""),)),
    ):
        label = stations.labels[rows[most]]
        word = "greatest compression" if used == "0" else "greatest bending"
        origin = f"frame: {word} along the length, {context.bars.names[stations.bar[rows[most]]]} {label}"
        write_forces(sheet, subject, values[most], used, origin, prefix)
    sheet.step("N_c", loaded(sheet, subject, "max(0, -N)"), "force", "compression")
    if is_round:
        sheet.step("M", loaded(sheet, subject, "hypot(M_y, M_z)"), "moment", "bending, both axes together")
    else:
        sheet.step("M_1", loaded(sheet, subject, "abs(M_y)"), "moment", "bending about y_m")
        sheet.step("M_2", loaded(sheet, subject, "abs(M_z)"), "moment", "bending about z_m")


def _part(sheet: Sheet, subject: Subject, bar: int, whole: BucklingLength) -> None:
    bars = subject.context.bars
    key, metal = subject.key(bar, "section"), bars.metals[bar]
    ends = f"from {whole.start} to {whole.end}"
    if len(whole.links) > 1:
        ends += ", with " + ", ".join(bars.names[link.bar] for link in whole.links if link.bar != bar)
    sheet.given("L", whole.length, "length", "length that buckles", f"{ends}, case: points")
    given = [subject.part(link.bar).buckling_factor for link in whole.links]
    own = any(factor is not None for factor in given)
    reason = (
        subject.key(bar, "buckling_factor")
        if own
        else "one end carries no other part and no support"
        if whole.factor == 2.0
        else "both ends are carried"
    )
    sheet.given("K", whole.factor, "1", "buckling factor of the length", reason)
    for symbol, values, dimension, what in (
        ("A", bars.area, "area", "area"),
        ("I_y", bars.iy, "inertia", "second moment of area about y_m"),
        ("I_z", bars.iz, "inertia", "second moment of area about z_m"),
        ("W_y", bars.modulus_y, "modulus", "elastic modulus for M_y"),
        ("W_z", bars.modulus_z, "modulus", "elastic modulus for M_z"),
    ):
        sheet.given(symbol, values[0, bar], dimension, what, f"of the section, {key}")
    if isinstance(bars.shapes[bar], Outline):
        iyz = float(np.broadcast_to(bars.iyz, bars.iy.shape)[0, bar])
        sheet.given("I_yz", iyz, "inertia", "product moment of area", f"of the section, {key}")
    elastic = "library: " + metal.name if metal is not None else "library"
    sheet.given("E", bars.youngs[0, bar], "stress", "modulus of elasticity", elastic)
    welds = welds_on(subject.context)
    strength = float(buckling_strength(bars, bar, whole, welds)[0])
    hot = strength < float(bars.yield_[0, bar])
    what = "yield strength" + (
        ", welded: a weld stands further from an end than the least width" if hot else ""
    )
    shape = bars.shapes[bar]
    outside = float(bars.depth[0, bar]) if isinstance(shape, Tube | Bar) else None
    origin = metal_origin(metal, float(bars.wall[0, bar]), welded=hot, diameter=outside)
    if hot and strength < float(bars.yield_welded[0, bar]):
        sheet.given("f_0", bars.yield_welded[0, bar], "stress", what, origin)
        sheet.given(
            "k_TIG", strength / bars.yield_welded[0, bar], "1", "TIG on aluminium", "EN 1999-1-1 6.1.6.2"
        )
        sheet.step("f", "k_TIG*f_0", "stress", "yield strength beside a weld")
    else:
        sheet.given("f", strength, "stress", what, origin)


def _reduction(sheet: Sheet, square: str, mark: str, word: str) -> None:
    """Perry and Robertson: slenderness, phi, chi."""
    alpha, plateau = (f"alpha{mark}", f"s_0{mark}")
    sheet.step(f"s{mark}", f"sqrt({square})", "1", f"slenderness in {word}")
    sheet.step(
        f"phi{mark}", f"0.5*(1 + {alpha}*(s{mark} - {plateau}) + s{mark}^2)", "1", "Perry and Robertson"
    )
    formula = f"min(1, 1/(phi{mark} + sqrt(max(0, phi{mark}^2 - s{mark}^2))))"
    sheet.step(f"chi{mark}", formula, "1", f"reduction in {word} (EN 1993-1-1 6.3.1.2)")


def _lateral(sheet: Sheet, subject: Subject, bar: int, kind: str) -> str:
    """Lateral buckling of a flat bent about its strong axis; the axis, "y" or "z"."""
    bars = subject.context.bars
    strong = "y" if float(bars.iy[0, bar]) >= float(bars.iz[0, bar]) else "z"
    metal = bars.metals[bar]
    elastic = "library: " + metal.name if metal is not None else "library"
    sheet.given("G", bars.shear[0, bar], "stress", "shear modulus", elastic)
    sheet.given(
        "J", bars.torsion[0, bar], "inertia", "torsion constant", "of the section, St Venant's series"
    )
    formula = "pi*sqrt(E*min(I_y, I_z)*G*J)/(K*L)"
    sheet.step("M_cr", formula, "moment", "bending at which the flat turns over sideways")
    alpha, plateau = TWISTING["aluminium" if kind == "aluminium" else "steel"]
    source = "EN 1999-1-1 6.3.2.2" if kind == "aluminium" else "EN 1993-1-1 6.3.2.2, curve d"
    sheet.given("alpha_LT", alpha, "1", "imperfection, turning over", source)
    sheet.given("s_0_LT", plateau, "1", "plateau, turning over", source)
    _reduction(sheet, f"W_{strong}*f/M_cr", "_LT", "turning over")
    return strong


def _sum(sheet: Sheet, subject: Subject, lateral: str, *, is_round: bool) -> None:
    factor = float(subject.context.factors.buckling()[subject.load])
    why = "1 on the limit-state basis" if subject.limit_state else "the buckling factor"
    sheet.given("n_N", factor, "1", "on N in the magnifiers", why)
    sheet.step("u_N", "N_c/(chi*A*f)", "1", "compression over its resistance")
    for axis, moment in (("y", "M" if is_round else "M_1"), ("z", "M_2")):
        if is_round and axis == "z":
            break
        if sheet["n_N"] * sheet["N_c"] / sheet[f"N_cr_{axis}"] > 1.0 - 1.0 / MOST:
            sheet.given(f"k_{axis}", MOST, "1", "magnifier, at the most that is written", "own choice")
        else:
            sheet.step(f"k_{axis}", f"1/(1 - n_N*N_c/N_cr_{axis})", "1", "compression makes bending worse by")
        chi = "chi_LT*" if lateral == axis else ""
        sheet.step(f"u_{axis}", f"k_{axis}*{moment}/({chi}W_{axis}*f)", "1", "bending over its resistance")
