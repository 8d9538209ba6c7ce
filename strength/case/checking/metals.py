"""Every metal and filler that is named is there, with a strength at the thickness it is used at."""

from collections.abc import Iterator

from strength.case.checking.survey import Survey
from strength.case.defaults import Defaults
from strength.case.metals import Stores
from strength.case.shape import Shape, Tube
from strength.case.trade.axes import wall
from strength.case.trade.entry import Entry

Use = tuple[str, str | None, float | None, float | None]  # (key, metal, thickness, outside diameter) [mm]


def check_metals(survey: Survey, defaults: Defaults, stores: Stores) -> None:
    """Look up every metal and filler, and the strength of each thickness."""
    sound = set()  # uses that nothing is wrong with: many parts are of one metal and size
    for entry in survey.entries:
        for key, name, thickness, diameter in _uses(entry):
            use = (name, thickness, diameter)
            if not name or use in sound:
                continue
            origin = defaults.origin.get((entry.kind, entry.name, key))
            with survey.faults.at(origin or f"{entry.path}.{key}"):
                metal = stores.metal(name)
                where = "section" if key == "material" else key.removesuffix(".material")
                with survey.faults.at(f"{entry.path}.{where}"):
                    if thickness is not None:
                        metal.strength(thickness, diameter)
                    sound.add(use)
        filler = entry.keys.get("filler")
        if filler and filler not in stores.fillers:
            origin = defaults.origin.get((entry.kind, entry.name, "filler"))
            with survey.faults.at(origin or f"{entry.path}.filler"):
                stores.filler(filler)


def _uses(entry: Entry) -> Iterator[Use]:
    keys = entry.keys
    if entry.kind in ("member", "strut") and "material" in keys:
        shape: Shape | None = keys.get("section")
        thickness = None if shape is None else wall(shape)
        diameter = shape.od if isinstance(shape, Tube) else None
        yield "material", keys["material"], thickness, diameter
    if isinstance(keys.get("onto"), dict):
        yield "onto.material", keys["onto"]["material"], keys["onto"]["thickness"], None
    for i, plate in enumerate(keys.get("plates", ())):
        yield f"plates[{i}].material", plate["material"], plate["thickness"], None
    if entry.kind == "dropout":
        yield "material", keys.get("material"), keys.get("thickness"), None
        axle = keys.get("axle", {})
        yield "axle.material", axle.get("material"), axle.get("diameter"), None
    if keys.get("into"):
        yield "into.material", keys["into"], None, None
