"""Stress of a round section by hand."""

import numpy as np

from strength.case.shape import Tube
from strength.checks.section_groups import smaller_diameter
from strength.sections.round_stress import shear_peak
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject, keyed

STEPS = 3600


def write_round(sheet: Sheet, subject: Subject, bar: int, shoulder: int) -> None:
    """Sigma and tau at the worst angle of the outer radius; shoulder: its number, -1: none."""
    bars, case = subject.context.bars, subject.context.case
    key = subject.key(bar, "section")
    diameter = float(bars.depth[0, bar])
    if shoulder >= 0:
        entry = case.shoulders[shoulder]
        least = float(smaller_diameter(entry, bars.depth[:1, bar])[0])
        sheet.given("D", least, "length", "diameter beside the shoulder", keyed(entry.path, entry.name))
        sheet.step("A", "pi/4*D^2", "area", "area")
        sheet.step("I", "pi/64*D^4", "inertia", "second moment of area")
        m = 0.0
    elif isinstance(bars.shapes[bar], Tube):
        wall = float(bars.wall[0, bar])
        tolerance = "" if case.basis.wall == "nominal" else ", less the tube standard's wall tolerance"
        sheet.given("D", diameter, "length", "outside diameter", key)
        sheet.given("t", wall, "length", f"wall{tolerance}", key)
        sheet.step("d", "D - 2*t", "length", "inside diameter")
        sheet.step("A", "pi/4*(D^2 - d^2)", "area", "area")
        sheet.step("I", "pi/64*(D^4 - d^4)", "inertia", "second moment of area")
        m = 1.0 - 2.0 * wall / diameter
    else:
        sheet.given("D", diameter, "length", "diameter", key)
        sheet.step("A", "pi/4*D^2", "area", "area")
        sheet.step("I", "pi/64*D^4", "inertia", "second moment of area")
        m = 0.0
    if m > 0.0:
        sheet.step("m", "d/D", "1", "inside over outside diameter")
        sheet.step("k", "4/3*(1 + m + m^2)/(1 + m^2)", "1", "greatest shear stress over V/A")
    else:
        sheet.given("k", 4.0 / 3.0, "1", "greatest shear stress over V/A of a bar", "4/3, any handbook")
    sheet.given(
        "phi",
        _worst(sheet, float(shear_peak(m))),
        "angle",
        "where on the outer surface it is worst, from y_m toward z_m",
        "looked for all round",
    )
    sheet.step("sigma", "N/A + (M_y*sin(phi) - M_z*cos(phi))*D/2/I", "stress", "axial and bending stress")
    sheet.step("tau", "T*D/2/(2*I) + k/A*(V_z*cos(phi) - V_y*sin(phi))", "stress", "torsion and shear stress")


def _worst(sheet: Sheet, k: float) -> float:
    """The angle of the greatest von Mises stress [rad]."""
    n, vy, vz, t, my, mz = (sheet[name] for name in ("N", "V_y", "V_z", "T", "M_y", "M_z"))
    area, radius, inertia = sheet["A"], sheet["D"] / 2.0, sheet["I"]
    phi, step = np.arange(STEPS) * (2.0 * np.pi / STEPS), 2.0 * np.pi / STEPS
    for _ in range(3):
        sine, cosine = np.sin(phi), np.cos(phi)
        sigma = n / area + (my * sine - mz * cosine) * radius / inertia
        tau = t * radius / (2.0 * inertia) + k / area * (vz * cosine - vy * sine)
        best = float(phi[np.argmax(sigma**2 + 3.0 * tau**2)])
        phi = best + np.linspace(-step, step, 101)
        step /= 50.0
    return best
