"""`pull-through` by hand."""

from strength.studies.explain.bolt_forces import write_bolt
from strength.studies.explain.plate_lines import plated, write_strength, write_thickness_of
from strength.studies.explain.sheet import Sheet, Told
from strength.studies.explain.subject import Subject, finish, keyed, loaded, ultimate_divisor

ASKS = (
    "Is the head or nut pulled through the plate? The pull along the bolt must stay under the shear strength "
    "of the plate round the head, divided by its factor."
)


def explain(subject: Subject, sheet: Sheet) -> Told:
    """0.6 pi dm t fu."""
    found = plated(subject)
    own, bolt = found.effect.fastener, found.effect.bolt
    write_bolt(sheet, subject, found.effect, found.bolt)
    sheet.step("T_d", loaded(sheet, subject, "P"), "force", "what pulls on the head")
    origin = f"library: hexagon of ISO 4014, {keyed(bolt.path, bolt.name, 'size')} {bolt.size.text}"
    sheet.given("d_m", own.bearing_mean or 0.0, "length", "mean of width across flats and corners", origin)
    write_thickness_of(sheet, found)
    write_strength(sheet, found)
    ultimate_divisor(sheet, subject)
    sheet.step("T_R", "0.6*pi*d_m*t*f_u/n", "force", "what the plate holds (EN 1993-1-8 Table 3.4)")
    finish(sheet, "T_d", "T_R", found.effect.path_factor)
    return Told(asks=ASKS, demand="T_d", limit="T_R")
