"""Stress of any outline by hand, at the worst point of its mesh."""

import numpy as np

from strength.case.shape import Outline
from strength.sections.outline import meshed
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject

MESH = "finite elements over the outline (sectionproperties)"


def write_outline(sheet: Sheet, subject: Subject, bar: int) -> None:
    """Sigma by unsymmetric bending; shear stresses of unit forces out of the mesh."""
    shape = subject.context.bars.shapes[bar]
    if not isinstance(shape, Outline):
        raise TypeError(f"{subject.row.part} has no outline")
    mesh = meshed(shape)
    names = ("N", "V_y", "V_z", "T", "M_y", "M_z")
    parts = mesh.unit @ np.array([sheet[name] for name in names])
    point = int(np.argmax(parts[0] ** 2 + 3.0 * (parts[1] ** 2 + parts[2] ** 2)))
    for symbol, name, dimension, what in (
        ("A", "area", "area", "area"),
        ("I_y", "iy", "inertia", "second moment of area about y_m"),
        ("I_z", "iz", "inertia", "second moment of area about z_m"),
        ("I_yz", "iyz", "inertia", "product moment of area"),
    ):
        sheet.given(symbol, mesh.figure(name), dimension, what, subject.key(bar, "section") + "; " + MESH)
    sheet.given("y", float(mesh.y[point]), "length", "the worst place, from the centroid along y_m", MESH)
    sheet.given("z", float(mesh.z[point]), "length", "the worst place, from the centroid along z_m", MESH)
    sheet.step("D_I", "I_y*I_z - I_yz^2", "inertia^2", "determinant")
    sheet.step("s_z", "(M_y*I_z + M_z*I_yz)/D_I", "stress/length", "rise of sigma along z_m")
    sheet.step("s_y", "-(M_z*I_y + M_y*I_yz)/D_I", "stress/length", "rise of sigma along y_m")
    sheet.step("sigma", "N/A + s_z*z + s_y*y", "stress", "axial and bending stress there")
    for row, axis in ((1, "y"), (2, "z")):
        terms = []
        for column, force, dimension in ((1, "V_y", "1/area"), (2, "V_z", "1/area"), (3, "T", "1/modulus")):
            symbol = f"a_{axis}{column}"
            what = f"shear stress along {axis}_m there for one unit of {force}"
            sheet.given(symbol, float(mesh.unit[row, point, column]), dimension, what, MESH)
            terms.append(f"{symbol}*{force}")
        sheet.step(f"tau_{axis}", " + ".join(terms), "stress", f"shear stress along {axis}_m there")
    sheet.step("tau", "hypot(tau_y, tau_z)", "stress", "both together")
