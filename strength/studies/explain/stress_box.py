"""Stress of a box by hand."""

import numpy as np

from strength.sections.box import corner_radii, torsion_and_modulus
from strength.sections.box_stress import ARC, STRAIGHT
from strength.sections.matrices import stress_matrix
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject

ANNEX = "EN 10219-2:2006, Annex B, with its corner radii"


def write_box(sheet: Sheet, subject: Subject, bar: int) -> None:
    """Sigma at the outer face and tau on the middle line, where they are worst together."""
    bars = subject.context.bars
    key = subject.key(bar, "section")
    depth, width, wall = (float(v[0, bar]) for v in (bars.depth, bars.width, bars.wall))
    sheet.given("H", depth, "length", "depth, along z_m", key)
    sheet.given("B", width, "length", "width, along y_m", key)
    sheet.given("t", wall, "length", "wall", key)
    sheet.given("A", bars.area[0, bar], "area", "area", ANNEX)
    sheet.given("I_y", bars.iy[0, bar], "inertia", "second moment of area about y_m", ANNEX)
    sheet.given("I_z", bars.iz[0, bar], "inertia", "second moment of area about z_m", ANNEX)
    sizes = (np.array([depth]), np.array([width]), np.array([wall]))
    modulus = float(torsion_and_modulus(*sizes)[1][0])
    sheet.given("C_t", modulus, "modulus", "torsion modulus", ANNEX)
    sheet.step("h", "H - t", "length", "height of the middle line")
    sheet.step("b", "B - t", "length", "width of the middle line")
    index, y, z = _worst(sheet, subject, bar)
    run, place = divmod(index, STRAIGHT + ARC)
    corner, web = place >= STRAIGHT, run % 2 == 0
    sheet.given("y", y, "length", "the worst place, from the middle along y_m", "looked for all round")
    sheet.given("z", z, "length", "the worst place, from the middle along z_m", "looked for all round")
    sheet.step("sigma", "N/A + M_y*z/I_y - M_z*y/I_z", "stress", "axial and bending stress there")
    side_y, side_z = np.sign(y), np.sign(z)
    if corner:
        radius = float(corner_radii(np.array(wall))[0])
        sheet.say(f"It lies on a corner's arc (outer radius {radius:g} mm): tau is that of the corner.")
        flow_z = f"{_sign(side_y)}b*h/4"
        flow_y = f"{_sign(-side_z)}b*h/4"
    elif web:
        flow_z = f"{_sign(side_y)}(b*h/4 + h^2/8*(1 - (2*z/h)^2))"
        flow_y = "-2*z/h*b*h/4"
    else:
        flow_z = "2*y/b*b*h/4"
        flow_y = f"{_sign(-side_z)}(b*h/4 + b^2/8*(1 - (2*y/b)^2))"
    sheet.step("q_z", flow_z, "area", "first moment of the wall for V_z there, over the wall")
    sheet.step("q_y", flow_y, "area", "first moment of the wall for V_y there, over the wall")
    sheet.step("tau", "T/C_t + V_z*q_z/I_y + V_y*q_y/I_z", "stress", "torsion and shear stress there")


def _worst(sheet: Sheet, subject: Subject, bar: int) -> tuple[int, float, float]:
    """Number of the worst point of the section's outline, and its place [mm]."""
    matrix = stress_matrix(subject.context.bars, bar)
    if matrix is None:
        raise TypeError("a box has stresses")
    forces = np.zeros((1, 3, 6))
    forces[0, 0] = [sheet[name] for name in ("N", "V_y", "V_z", "T", "M_y", "M_z")]
    forces[0, 1, 4], forces[0, 2, 5] = 1.0, 1.0
    sigma, tau = matrix.first().at_points(forces)
    index = int(np.argmax(sigma[0, 0] ** 2 + 3.0 * tau[0, 0] ** 2))
    # unit moments tell where it stands
    z, y = sigma[0, 1:, index] * [sheet["I_y"], -sheet["I_z"]]
    return index, float(y), float(z)


def _sign(side: float) -> str:
    return "-" if side < 0.0 else ""
