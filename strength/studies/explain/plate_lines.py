"""The plate of a bolt joint that a row is about, and what pulls on it."""

import attrs
import numpy as np

from strength.checks.bolts import BoltEffect
from strength.joints.bolted_plate import BoltedPlate
from strength.studies.explain.bolt_forces import bolt_of, write_bolt, write_per_plane
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import Subject, keyed, loaded, metal_origin


@attrs.frozen(kw_only=True, eq=False)
class Plated:
    """A bolt joint, one of its plates and the number of a bolt."""

    effect: BoltEffect
    plate: BoltedPlate
    number: int
    bolt: int

    @property
    def key(self) -> str:
        """Where the plate stands in the case file."""
        own = self.effect.bolt
        return keyed(own.path, own.name, f"plates[{self.number}]")


def plated(subject: Subject) -> Plated:
    """Which plate and bolt the row's place names."""
    effect = bolt_of(subject)
    for number, plate in enumerate(effect.plates):
        for bolt, place in enumerate(effect.places):
            if subject.row.where == plate.label + ("" if effect.is_single else f", {place}"):
                return Plated(effect=effect, plate=plate, number=number, bolt=bolt)
    raise LookupError(subject.row.where)


def write_pull(sheet: Sheet, subject: Subject, found: Plated) -> None:
    """F, what the plate's hole takes, and F_d with the load factor."""
    write_bolt(sheet, subject, found.effect, found.bolt)
    if found.number == 0:
        sheet.step("F", "F_p", "force", "the carried plate takes all of it")
    else:
        write_per_plane(sheet, found.effect)
        sheet.step("F", "V", "force", "each cheek or the holding plate takes its plane's part")
    sheet.step("F_d", loaded(sheet, subject, "F"), "force", "what the plate must carry")


def write_thickness_of(sheet: Sheet, found: Plated) -> None:
    """Thickness of the plate."""
    value = float(np.ravel(found.plate.thickness)[0])
    sheet.given("t", value, "length", f"thickness of the {found.plate.word}", f"{found.key}.thickness")


def write_strength(sheet: Sheet, found: Plated, *, yields: bool = False) -> None:
    """f_u or f_y of the plate at the bolt."""
    plate = found.plate
    values = np.ravel((plate.yield_ if yields else plate.ultimate)[0])
    value = float(values[found.bolt if values.size > 1 else 0])
    inside = np.ravel(plate.heat.inside[0])
    hot = bool(inside[found.bolt if inside.size > 1 else 0])
    what = "yield strength" if yields else "tensile strength"
    if hot:
        what += ", beside a weld"
        factor = float(np.ravel(plate.heat.factor[0])[found.bolt if inside.size > 1 else 0])
        what += f" (times {factor:g}: TIG)" if factor != 1.0 else ""
    origin = metal_origin(plate.metal, plate.entry.thickness, welded=hot)
    sheet.given("f_y" if yields else "f_u", value, "stress", f"{what} of the {plate.word}", origin)


def write_hole(sheet: Sheet, found: Plated) -> None:
    """Diameter of the hole."""
    sheet.given("d_0", found.plate.entry.hole, "length", "hole", f"{found.key}.hole")


def write_edge(sheet: Sheet, found: Plated) -> None:
    """Distance of the hole's middle from the edge."""
    sheet.given(
        "e", found.plate.entry.edge, "length", "from the hole's middle to the edge", f"{found.key}.edge"
    )
