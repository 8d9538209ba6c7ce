"""Units: the only place that knows them; text with a unit in, plain floats inside, text out again.

Inside: mm, N, N*mm, MPa, kg, rad, mm/s^2, N/mm, kg/mm^3, mm^2, mm^4; km for a distance on the road.
What a unit means is pint's word: the texts people use stand with their factors in `table`, any other
text goes to pint itself.
"""

from strength.units.reading import KINDS, pattern, quantity, spread_quantity, vector
from strength.units.showing import convert, show, unit_of

GRAVITY = 9806.65  # mm/s^2, standard gravity (ISO 80000-3)

__all__ = [
    "GRAVITY",
    "KINDS",
    "convert",
    "pattern",
    "quantity",
    "show",
    "spread_quantity",
    "unit_of",
    "vector",
]
