"""`lug` by hand: the eye of a carried plate."""

import numpy as np

from strength.joints.lug import LEAST, OBLIQUE
from strength.studies.explain.bolt_forces import FORCE, write_end
from strength.studies.explain.plate_lines import (
    Plated,
    plated,
    write_hole,
    write_strength,
    write_thickness_of,
)
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed, loaded, yield_divisor

ASKS = (
    "Does the metal round the hole give way? The pull along the part and the force to its side, each over "
    "what the eye holds that way and both together, must stay under 1."
)
TABLE = "EN 1993-1-8 Table 3.9 type A, solved for the force"


def explain(subject: Subject, sheet: Sheet) -> Told:
    """Pull and side force over 2 t fy (metal left)."""
    found = plated(subject)
    _write_forces(sheet, subject, found)
    _write_sizes(sheet, found)
    write_strength(sheet, found, yields=True)
    plate = found.plate
    brittle = "elongation of the plate under 10 % or not known" if bool(plate.brittle[0, 0]) else ""
    yield_divisor(sheet, subject, plate.metal.kind, brittle=brittle)
    least = f"{LEAST:g}*d_0"
    for mark, word, ahead, beside in (("1", "along the part", "a", "c"), ("2", "to its side", "c", "a")):
        formula = f"max({least}, min({ahead} - 2*d_0/3, {beside} - d_0/3))"
        sheet.step(f"m_{mark}", formula, "length", f"metal left for a pull {word} ({TABLE})")
        sheet.step(f"R_{mark}", f"2*t*f_y*m_{mark}/n", "force", f"what the eye holds {word}")
        sheet.step(f"u_{mark}", f"P_{mark}/R_{mark}", "1", f"{word}, by itself")
    formula = f"(u_1^{OBLIQUE:g} + u_2^{OBLIQUE:g})^(1/{OBLIQUE:g})"
    sheet.step("u_0", formula, "1", "both together (Melcon and Hoblit, from memory)")
    finish(sheet, "u_0", "", found.effect.path_factor)
    return Told(asks=ASKS, demand="u_0")


def _write_forces(sheet: Sheet, subject: Subject, found: Plated) -> None:
    """P_1 along the part, only where it pulls on the eye; P_2 square to it and to the bolt."""
    bolt, end = found.effect.bolt, found.effect.end
    write_end(sheet, subject, end, "012")
    what = "pull along the part: a push toward it needs no eye, `bearing` has it"
    sheet.step("P_1", loaded(sheet, subject, "max(N, 0)"), "force", what)
    aside = np.cross(np.array(bolt.axis), end.axes[0])
    aside = end.axes @ (aside / np.linalg.norm(aside))
    told = f"{keyed(bolt.path, bolt.name, 'axis')}; e stands across it and across the part"
    sheet.turned("F_e", aside, "e", FORCE, "force", "force to the side", told)
    sheet.step("P_2", loaded(sheet, subject, "abs(F_e)"), "force", "force to the side, either way")


def _write_sizes(sheet: Sheet, found: Plated) -> None:
    """Thickness, hole and the metal from the hole's edge to both edges of the plate."""
    bolt = found.effect.bolt
    if bolt.lug is None:
        raise TypeError(f"{bolt.name} has no eye")
    end, side = bolt.lug
    key = keyed(bolt.path, bolt.name, "lug")
    sheet.given("e_1", end, "length", "from the hole's middle to the end", f"{key}.end")
    sheet.given("e_2", side, "length", "from the hole's middle to the side", f"{key}.side")
    write_hole(sheet, found)
    write_thickness_of(sheet, found)
    sheet.step("a", "e_1 - d_0/2", "length", "metal from the hole to the end")
    sheet.step("c", "e_2 - d_0/2", "length", "metal from the hole to the side")
