"""Forces on a bolt by hand, from those at the part's end."""

import numpy as np
from numpy.typing import NDArray

from strength.checks.bolts import BoltEffect, bolt_effects
from strength.joints.end_force import EndForce
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import FORCES, ROUNDING, Subject, along_words, keyed, write_forces

Array = NDArray[np.float64]
FORCE, MOMENT = [name for name, *_ in FORCES[:3]], [name for name, *_ in FORCES[3:]]


def bolt_of(subject: Subject) -> BoltEffect:
    """The bolt joint of a row."""
    return next(effect for effect in bolt_effects(subject.context) if effect.bolt.name == subject.row.part)


def write_end(sheet: Sheet, subject: Subject, end: EndForce, used: str = "012345") -> None:
    """Internal forces at the end of a part that a joint carries."""
    place = 0.0 if end.into > 0.0 else end.length
    origin = along_words(subject, end.bar, place)
    sign = 1.0 if end.into > 0.0 else -1.0
    own = np.concatenate(
        [sign * end.force[0, subject.load] @ end.axes.T, sign * end.moment[0, subject.load] @ end.axes.T]
    )
    write_forces(sheet, subject, own, used, origin)


def across(axis: Array, places: Array) -> tuple[Array, Array]:
    """Two directions square to an axis (unit, member axes) and to each other, right-handed with it.

    places: (bolts, 3); of several bolts the first runs along the line in which they stand most apart.
    """
    arm = places - places.mean(axis=0)
    arm = arm - (arm @ axis)[:, None] * axis
    if float(np.abs(arm).max()) > 1e-6:
        first = np.linalg.svd(arm)[2][0]
    else:
        least = int(np.argmin(np.abs(axis)))
        first = np.eye(3)[least] - axis[least] * axis
    first = first / np.linalg.norm(first)
    first = np.where(np.abs(first) < 1e-12, 0.0, first)
    return first, np.cross(axis, first)


def write_frame(
    sheet: Sheet, end: EndForce, axis: Array, places: Array, origin: str, *, moments: bool = True
) -> tuple[Array, Array, Array]:
    """Forces and moments in directions 1, 2 across an axis and a along it; returns these, member axes."""
    own = end.axes @ axis
    first, second = across(own, places @ end.axes.T)
    told = f"{origin}; 1 and 2 stand across it"
    for direction, name, mark, word in (
        (first, "e1", "1", "across the axis, direction 1"),
        (second, "e2", "2", "across the axis, direction 2"),
        (own, "ea", "a", "along the axis"),
    ):
        sheet.turned(f"F_{mark}", direction, name, FORCE, "force", f"force {word}", told)
        if moments:
            about = word.replace("across", "about direction") if mark == "a" else f"about direction {mark}"
            text = "moment about the axis" if mark == "a" else f"moment {about}"
            sheet.turned(f"M_{mark}", direction, name, MOMENT, "moment", text, told)
    return first, second, own


def write_single(sheet: Sheet, effect: BoltEffect) -> None:
    """F_p, F_a and M_p of one bolt."""
    bolt = effect.bolt
    write_frame(sheet, effect.end, np.array(bolt.axis), np.zeros((1, 3)), keyed(bolt.path, bolt.name, "axis"))
    sheet.step("F_p", "hypot(F_1, F_2)", "force", "force across the bolt")
    sheet.step("P", "abs(F_a)", "force", "pull along the bolt")
    sheet.step("M_p", "hypot(M_1, M_2)", "moment", "moment across the bolt")


def write_group(sheet: Sheet, effect: BoltEffect, number: int) -> None:
    """F_p and P of one bolt of a group, number from 0."""
    bolt, end = effect.bolt, effect.end
    places = np.array(bolt.group)
    origin = keyed(bolt.path, bolt.name, "axis")
    first, second, own = write_frame(sheet, end, np.array(bolt.axis), places, origin)
    inside = places @ end.axes.T
    frame = np.stack([first, second, own])
    centre = frame @ inside.mean(axis=0)
    arm = (inside - inside.mean(axis=0)) @ frame.T
    key = keyed(bolt.path, bolt.name, "group")
    sheet.given("count", places.shape[0], "1", "bolts", key)
    size = max(float(np.abs(arm).max()), float(np.abs(centre).max()), 1e-300)
    arm, centre = (np.where(np.abs(value) <= ROUNDING * size, 0.0, value) for value in (arm, centre))
    for mark, value in zip("12a", centre, strict=True):
        sheet.given(f"c_{mark}", value, "length", f"centroid of the bolts along {mark}", key)
    sheet.step("M_1c", "M_1 - (c_2*F_a - c_a*F_2)", "moment", "moment about 1 at their centroid")
    sheet.step("M_2c", "M_2 - (c_a*F_1 - c_1*F_a)", "moment", "moment about 2 at their centroid")
    sheet.step("M_ac", "M_a - (c_1*F_2 - c_2*F_1)", "moment", "moment about the axis at their centroid")
    sheet.given("p", arm[number, 0], "length", f"place of bolt {number + 1} from it along 1", key)
    sheet.given("q", arm[number, 1], "length", f"place of bolt {number + 1} from it along 2", key)
    square = np.sum(arm[:, :2] ** 2, axis=0)
    sheet.given("S_p", square[0], "area", "sum of p^2 of all bolts", key)
    sheet.given("S_q", square[1], "area", "sum of q^2 of all bolts", key)
    nothing = 1e-9 * max(float(square.max()), 1e-300)
    turning = "" if square.sum() <= nothing else " - M_ac*q/(S_p + S_q)", " + M_ac*p/(S_p + S_q)"
    sheet.step("V_1", "F_1/count" + turning[0], "force", "across, along 1")
    sheet.step("V_2", "F_2/count" + (turning[1] if turning[0] else ""), "force", "across, along 2")
    sheet.step("F_p", "hypot(V_1, V_2)", "force", "force across this bolt")
    pull = "F_a/count"
    pull += " - M_2c*p/S_p" if square[0] > nothing else ""
    pull += " + M_1c*q/S_q" if square[1] > nothing else ""
    sheet.step("P", f"abs({pull})", "force", "pull along this bolt")


def write_bolt(sheet: Sheet, subject: Subject, effect: BoltEffect, number: int) -> None:
    """Forces on bolt `number` of a joint."""
    write_end(sheet, subject, effect.end)
    if effect.is_single:
        write_single(sheet, effect)
    else:
        write_group(sheet, effect, number)


def write_per_plane(sheet: Sheet, effect: BoltEffect) -> None:
    """V, the force on each shear plane."""
    bolt = effect.bolt
    planes = keyed(bolt.path, bolt.name, "shear_planes")
    if not effect.two_planes:
        sheet.step("V", "F_p", "force", "force on the one shear plane")
        return
    if effect.thickness is None or not effect.is_single:
        sheet.given("planes", 2, "1", "shear planes", planes)
        sheet.step("V", "F_p/planes", "force", "force on each shear plane")
        return
    write_thickness(sheet, effect)
    sheet.given("planes", 2, "1", "shear planes", planes)
    formula = "F_p/planes + M_p/(t_a + t_b + 2*t_c)"
    sheet.step("V", formula, "force", "force on each shear plane, with the couple that the moment asks for")


def write_thickness(sheet: Sheet, effect: BoltEffect) -> None:
    """Thickness of the carried plate b, of a cheek a, and the gap c."""
    if effect.thickness is None or "t_b" in sheet:
        return
    bolt = effect.bolt
    key = keyed(bolt.path, bolt.name, "plates")
    carried, cheek = (float(np.ravel(value)[0]) for value in effect.thickness)
    sheet.given("t_b", carried, "length", "thickness of the carried plate", f"{key}[0]")
    origin = (
        f"{key}[1]" if len(effect.plates) > 1 else "half of the carried plate, as no second plate is given"
    )
    sheet.given("t_a", cheek, "length", "thickness of what holds it on each side", origin)
    sheet.given("t_c", bolt.gap, "length", "gap on each side", keyed(bolt.path, bolt.name, "gap"))


def bolt_number(effect: BoltEffect, where: str) -> int:
    """Number of the bolt that a row's place names."""
    return effect.places.index(where)
