"""Stress of what holes leave of a flat, by hand."""

import numpy as np

from strength.sections.net_stress import ligaments
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.stress_flat import torsion_at, write_torsion
from strength.studies.explain.subject import Subject, keyed

POINTS = 33  # along each ligament


def write_net(sheet: Sheet, subject: Subject, bar: int, station: int) -> None:
    """Area and moments of what is left; sigma and tau at its worst place."""
    context = subject.context
    case, bars = context.case, context.bars
    key = subject.key(bar, "section")
    width, thickness = float(bars.depth[0, bar]), float(bars.width[0, bar])
    sheet.given("b", width, "length", "width, along z_m", key)
    sheet.given("t", thickness, "length", "thickness, along y_m", key)
    gaps: dict[str, list[tuple[np.ndarray, np.ndarray]]] = {"thickness": [], "width": []}
    origin = []
    for number, breadth in context.stations.gaps[station]:
        hole = case.holes[number]
        gaps[hole.across].append((np.array([hole.off_centre]), np.array([breadth])))
        origin.append(keyed(hole.path, hole.name))
    told = " and ".join(origin)
    sides = {
        "z": ligaments(np.array([width]), gaps["thickness"]),
        "y": ligaments(np.array([thickness]), gaps["width"]),
    }
    for axis, (low, high) in sides.items():
        _write_side(sheet, axis, low[0], high[0], told)
    sheet.step("A", "l_y*l_z", "area", "net area")
    sheet.step("I_y", "l_y*i_z", "inertia", "net second moment of area about y_m")
    sheet.step("I_z", "l_z*i_y", "inertia", "net second moment of area about z_m")
    y, z, own_y, own_z = _worst(sheet, subject, bar, sides)
    write_torsion(sheet, subject, bar, y, z)
    sheet.given("y", y, "length", "the worst place, from the flat's middle along y_m", "looked for all over")
    sheet.given("z", z, "length", "the worst place, from the flat's middle along z_m", "looked for all over")
    sheet.step("M_yn", "M_y - N*c_zn", "moment", "about the middle of what is left, along y_m")
    sheet.step("M_zn", "M_z + N*c_yn", "moment", "about the middle of what is left, along z_m")
    sheet.step(
        "sigma", "N/A + M_yn*(z - c_zn)/I_y - M_zn*(y - c_yn)/I_z", "stress", "axial and bending stress there"
    )
    sheet.given("e_y", own_y, "1", "the place in its ligament along y_m, -1 to 1", "of the same place")
    sheet.given("e_z", own_z, "1", "the place in its ligament along z_m, -1 to 1", "of the same place")
    sheet.step(
        "k_T", "b/l_z*t/l_y", "1", "torsion of the whole section over what the holes leave (own choice)"
    )
    sheet.step("tau_y", "1.5*V_y/A*(1 - e_y^2) + k_T*c_y*tau_T", "stress", "shear stress along y_m there")
    sheet.step("tau_z", "1.5*V_z/A*(1 - e_z^2) + k_T*c_z*tau_T", "stress", "shear stress along z_m there")
    sheet.step("tau", "hypot(tau_y, tau_z)", "stress", "both together")


def _write_side(sheet: Sheet, axis: str, low: np.ndarray, high: np.ndarray, origin: str) -> None:
    """Length, centre and second moment of a row of ligaments along one axis."""
    whole = "b" if axis == "z" else "t"
    if low.size == 1:
        sheet.step(f"l_{axis}", whole, "length", f"what is left along {axis}_m: all of it")
        sheet.given(f"c_{axis}n", 0.0, "length", f"middle of what is left, along {axis}_m", "no hole in it")
        sheet.step(f"i_{axis}", f"{whole}^3/12", "modulus", f"its second moment along {axis}_m")
        return
    names = []
    for n, (a, b) in enumerate(zip(low, high, strict=True), 1):
        where = f"what is left along {axis}_m, piece {n}:"
        sheet.given(f"p_{axis}{n}", a, "length", f"{where} from", origin)
        sheet.given(f"r_{axis}{n}", b, "length", f"{where} to", origin)
        names.append((f"p_{axis}{n}", f"r_{axis}{n}"))
    length = " + ".join(f"({r} - {p})" for p, r in names)
    first = " + ".join(f"({r}^2 - {p}^2)" for p, r in names)
    sheet.step(f"l_{axis}", length, "length", f"what is left along {axis}_m")
    sheet.step(f"c_{axis}n", f"({first})/(2*l_{axis})", "length", f"middle of what is left, along {axis}_m")
    about = " + ".join(f"({r} - c_{axis}n)^3 - ({p} - c_{axis}n)^3" for p, r in names)
    sheet.step(f"i_{axis}", f"({about})/3", "modulus", f"its second moment along {axis}_m")


def _worst(
    sheet: Sheet, subject: Subject, bar: int, sides: dict[str, tuple[np.ndarray, np.ndarray]]
) -> tuple[float, float, float, float]:
    """Place [mm] and place in its ligament (-1 to 1) where von Mises is greatest."""
    n, vy, vz, t, my, mz = (sheet[name] for name in ("N", "V_y", "V_z", "T", "M_y", "M_z"))
    own = np.linspace(-1.0, 1.0, POINTS)
    spread = {
        axis: ((low[0] + high[0])[:, None] / 2.0 + (high[0] - low[0])[:, None] / 2.0 * own).ravel()
        for axis, (low, high) in sides.items()
    }
    y, z = spread["y"], spread["z"]
    own_y, own_z = (np.tile(own, sides[axis][0].shape[1]) for axis in "yz")
    area, width, thickness = sheet["A"], sheet["b"], sheet["t"]
    c_y, c_z = torsion_at(y, z, width, thickness)
    measure = t * min(width, thickness) / float(subject.context.bars.torsion[0, bar])
    measure *= width / sheet["l_z"] * thickness / sheet["l_y"]
    arm_y, arm_z = y[:, None] - sheet["c_yn"], z[None] - sheet["c_zn"]
    sigma = n / area + (my - n * sheet["c_zn"]) * arm_z / sheet["I_y"]
    sigma = sigma - (mz + n * sheet["c_yn"]) * arm_y / sheet["I_z"]
    tau_y = 1.5 * vy / area * (1.0 - own_y[:, None] ** 2) + c_y * measure
    tau_z = 1.5 * vz / area * (1.0 - own_z[None] ** 2) + c_z * measure
    square = sigma**2 + 3.0 * (tau_y**2 + tau_z**2)
    row, column = np.unravel_index(int(np.argmax(square)), square.shape)
    return float(y[row]), float(z[column]), float(own_y[row]), float(own_z[column])
