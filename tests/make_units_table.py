"""Writes strength/units/table.py: what the usual unit texts mean, as pint has it.

Run from the repository's root after a change of UNITS or of pint: python tests/make_units_table.py
`tests/test_units.py` compares the table with pint row by row.
"""

from fractions import Fraction
from pathlib import Path

import pint

TABLE = Path(__file__).parents[1] / "strength" / "units" / "table.py"

# dimension -> (unit inside the program, unit texts people write)
UNITS: dict[str, tuple[str, str]] = {
    "length": ("mm", "mm cm m um in inch inches ft yd thou"),
    "distance": ("km", "km m mi"),
    "force": ("N", "N daN kN MN lbf kip kgf"),
    "moment": (
        "N*mm",
        "N*mm N*m kN*m kN*mm Nmm Nm kNm lbf*in in*lbf lbf*ft ft*lbf kip*in kip*ft kgf*m",
    ),
    "stress": ("MPa", "MPa GPa kPa Pa N/mm^2 kN/mm^2 bar psi ksi lbf/in^2"),
    "mass": ("kg", "kg g t lb oz"),
    "density": ("kg/mm^3", "kg/m^3 g/cm^3 kg/mm^3 lb/in^3 lb/ft^3"),
    "stiffness": ("N/mm", "N/mm kN/mm N/m kN/m lbf/in kip/in lbf/ft kgf/mm"),
    "angle": ("rad", "rad mrad deg"),
    "acceleration": ("mm/s^2", "g m/s^2 mm/s^2 ft/s^2 in/s^2"),
    "area": ("mm^2", "mm^2 cm^2 m^2 in^2"),
    "inertia": ("mm^4", "mm^4 cm^4 m^4 in^4"),
}
# Where pint means something else by the text: an acceleration in "g" is in multiples of standard gravity.
SPELLED = {("acceleration", "g"): "standard_gravity"}


def registry() -> pint.UnitRegistry:
    """Pint's registry in exact fractions, with Nm for the newton metre."""
    made = pint.UnitRegistry(non_int_type=Fraction)
    made.define("newton_metre = newton * meter = Nm")
    made.define("newton_millimetre = newton * millimeter = Nmm")
    return made


def factor(units: pint.UnitRegistry, dimension: str, text: str) -> float:
    """How many internal units one `text` is."""
    inside = UNITS[dimension][0]
    spelled = SPELLED.get((dimension, text), text)
    return float(units.Quantity(Fraction(1), spelled).to(inside).magnitude)


def table() -> str:
    """The text of the module."""
    units = registry()
    lines = [
        '"""What one of each unit is in the unit used inside; by tests/make_units_table.py with pint."""',
        "",
        "# dimension -> unit text -> factor to the unit used inside",
        "FACTORS: dict[str, dict[str, float]] = {",
    ]
    for dimension, (inside, texts) in UNITS.items():
        lines.append(f'    "{dimension}": {{  # {inside}')
        lines += [f'        "{text}": {factor(units, dimension, text)!r},' for text in texts.split()]
        lines.append("    },")
    return "\n".join([*lines, "}", ""])


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
