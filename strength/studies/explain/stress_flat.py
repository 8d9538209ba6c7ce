"""Stress of a flat by hand."""

import numpy as np
from numpy.typing import NDArray

from strength.sections.flat_stress import rectangle_torsion
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject

Array = NDArray[np.float64]

SERIES = "St Venant's series, Timoshenko and Goodier, Theory of Elasticity, section 109"
ACROSS, ALONG = 41, 121  # places looked at, at first
ROUNDS = 4


def write_flat(sheet: Sheet, subject: Subject, bar: int) -> None:
    """Sigma and tau at the worst place of the rectangle."""
    bars = subject.context.bars
    key = subject.key(bar, "section")
    width, thickness = float(bars.depth[0, bar]), float(bars.width[0, bar])
    sheet.given("b", width, "length", "width, along z_m", key)
    sheet.given("t", thickness, "length", "thickness, along y_m", key)
    sheet.step("A", "b*t", "area", "area")
    sheet.step("I_y", "t*b^3/12", "inertia", "second moment of area about y_m")
    sheet.step("I_z", "b*t^3/12", "inertia", "second moment of area about z_m")
    y, z = _worst(sheet, width, thickness)
    write_torsion(sheet, subject, bar, y, z)
    sheet.given("y", y, "length", "the worst place, from the middle along y_m", "looked for all over")
    sheet.given("z", z, "length", "the worst place, from the middle along z_m", "looked for all over")
    sheet.step("sigma", "N/A + M_y*z/I_y - M_z*y/I_z", "stress", "axial and bending stress there")
    sheet.step("tau_y", "1.5*V_y/A*(1 - (2*y/t)^2) + c_y*tau_T", "stress", "shear stress along y_m there")
    sheet.step("tau_z", "1.5*V_z/A*(1 - (2*z/b)^2) + c_z*tau_T", "stress", "shear stress along z_m there")
    sheet.step("tau", "hypot(tau_y, tau_z)", "stress", "both together")


def write_torsion(sheet: Sheet, subject: Subject, bar: int, y: float, z: float) -> None:
    """Torsion constant, its stress, and what of it stands at a place."""
    width, thickness = sheet["b"], sheet["t"]
    long, short = ("b", "t") if width >= thickness else ("t", "b")
    torsion = float(subject.context.bars.torsion[0, bar])
    beta = torsion / (sheet[long] * sheet[short] ** 3)
    c_y, c_z = torsion_at(np.array([y]), np.array([z]), width, thickness)
    sheet.given("beta", beta, "1", f"torsion constant over {long} {short}^3 (1/3 for a thin strip)", SERIES)
    sheet.step("J", f"beta*{long}*{short}^3", "inertia", "torsion constant")
    sheet.step("tau_T", f"T*{short}/J", "stress", "measure of the torsion stress")
    sheet.given(
        "c_y", float(c_y[0, 0]), "1", "torsion stress along y_m at the worst place over tau_T", SERIES
    )
    sheet.given(
        "c_z", float(c_z[0, 0]), "1", "torsion stress along z_m at the worst place over tau_T", SERIES
    )


def torsion_at(y: Array, z: Array, width: float, thickness: float) -> tuple[Array, Array]:
    """Torsion stress along y_m and z_m over T short/J at y (p,) and z (q,): (p, q) each."""
    found = rectangle_torsion(
        2.0 * y[None] / thickness, 2.0 * z[None] / width, np.array([width]), np.array([thickness])
    )
    return found[0][0], found[1][0]


def _worst(sheet: Sheet, width: float, thickness: float) -> tuple[float, float]:
    n, vy, vz, t, my, mz = (sheet[name] for name in ("N", "V_y", "V_z", "T", "M_y", "M_z"))
    area, short = width * thickness, min(width, thickness)
    torsion = subject_torsion(width, thickness)
    middle, reach = np.zeros(2), np.array([thickness, width]) / 2.0
    counts = (ACROSS, ALONG) if width >= thickness else (ALONG, ACROSS)
    for _ in range(ROUNDS):
        y, z = (
            np.clip(m + np.linspace(-r, r, count), -half / 2.0, half / 2.0)
            for m, r, count, half in zip(middle, reach, counts, (thickness, width), strict=True)
        )
        c_y, c_z = torsion_at(y, z, width, thickness)
        sigma = (
            n / area
            + my * z[None] / (area * width**2 / 12.0)
            - mz * y[:, None] / (area * thickness**2 / 12.0)
        )
        tau_y = 1.5 * vy / area * (1.0 - (2.0 * y[:, None] / thickness) ** 2) + c_y * t * short / torsion
        tau_z = 1.5 * vz / area * (1.0 - (2.0 * z[None] / width) ** 2) + c_z * t * short / torsion
        square = sigma**2 + 3.0 * (tau_y**2 + tau_z**2)
        row, column = np.unravel_index(int(np.argmax(square)), square.shape)
        middle = np.array([y[row], z[column]])
        reach = 2.0 * reach / np.array(counts)
        counts = (11, 11)
    return float(middle[0]), float(middle[1])


def subject_torsion(width: float, thickness: float) -> float:
    """Torsion constant of a rectangle [mm^4]."""
    from strength.sections.flat import torsion_constant

    return float(torsion_constant(max(width, thickness), min(width, thickness)))
