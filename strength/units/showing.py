"""From the floats used inside to text for people, metric or inch."""

from strength.units.table import FACTORS

# dimension -> (metric unit, inch unit), keys of FACTORS
_UNITS = {
    "length": ("mm", "in"),
    "distance": ("km", "mi"),
    "force": ("N", "lbf"),
    "moment": ("N*m", "lbf*in"),
    "stress": ("MPa", "ksi"),
    "mass": ("kg", "lb"),
    "density": ("kg/m^3", "lb/in^3"),
    "stiffness": ("N/mm", "lbf/in"),
    "angle": ("deg", "deg"),
    "acceleration": ("g", "g"),
    "area": ("mm^2", "in^2"),
    "inertia": ("mm^4", "in^4"),
}


def unit_of(dimension: str, system: str = "metric") -> str:
    """The unit a dimension is shown in; system: metric | inch."""
    return _UNITS[dimension][system == "inch"]


def convert(value: float, dimension: str, system: str = "metric") -> float:
    """A value used inside, in the unit it is shown in.

    >>> convert(25.4, "length", "inch")
    1.0
    """
    return value / FACTORS[dimension][unit_of(dimension, system)]


def show(value: float, dimension: str, system: str = "metric", digits: int = 4) -> str:
    """A value used inside as text with its unit, `digits` figures that count, no exponent below a million.

    >>> show(12.5, "length"), show(12.7, "length", "inch"), show(900.0, "force")
    ('12.5 mm', '0.5 in', '900 N')
    """
    shown = convert(value, dimension, system)
    text = f"{shown:.{digits}g}"
    if "e" in text and abs(shown) >= 1.0 and abs(shown) < 1e9:
        text = f"{shown:.0f}"
    if float(text) == 0.0:
        text = "0"
    return f"{text} {unit_of(dimension, system)}"
