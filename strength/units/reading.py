"""From a text with a unit to a plain float."""

import math
import re
from decimal import Decimal
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from strength.errors import QuantityError
from strength.units.table import FACTORS

if TYPE_CHECKING:
    import pint

_NUMBER = r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
_ONE = re.compile(_NUMBER)
# A unit: names joined by * / or a space, each with a small power: "N*m", "kg/m^3", "lbf in".
_UNIT = re.compile(r"[^\W\d_]+(?:\^-?[1-9])?(?:[*/][^\W\d_]+(?:\^-?[1-9])?)*")
_GLUED_POWER = re.compile(r"(?<=[^\W\d_])([2-9])")
_LONGEST = 200  # characters: nobody writes a longer quantity, and no pattern has to search one

FAR = 1e12  # in the units used inside: a kilometre is 1e6 mm, the pull of a ship's anchor 1e7 N

# dimension -> (what to call it, an example)
KINDS = {
    "length": ("a length", "25 mm"),
    "distance": ("a distance on the road", "20000 km"),
    "force": ("a force", "900 N"),
    "moment": ("a moment", "120 N*m"),
    "stress": ("a stress", "235 MPa"),
    "mass": ("a mass", "80 kg"),
    "density": ("a density", "7850 kg/m^3"),
    "stiffness": ("a stiffness", "60 N/mm"),
    "angle": ("an angle", "25 deg"),
    "acceleration": ("an acceleration", "0.5 g"),
    "area": ("an area", "32.9 in^2"),
    "inertia": ("a second moment of area", "236 in^4"),
}
_MEANT = {  # what a wrong unit was probably meant to be
    ("force", "lb"): "lbf",
    ("force", "kg"): "kgf (or the force in N)",
    ("moment", "ft*lb"): "lbf*ft",
    ("moment", "lb*ft"): "lbf*ft",
    ("moment", "in*lb"): "lbf*in",
    ("moment", "lb*in"): "lbf*in",
    ("stiffness", "lb/in"): "lbf/in",
    ("stiffness", "kg/mm"): "kgf/mm",
    ("stiffness", "kg/cm"): "kgf/cm",
    ("stress", "N"): "N/mm^2",
    ("mass", "lbf"): "lb",
    ("mass", "N"): "kg",
}


def pattern(count: int) -> str:
    """A regular expression (ECMA-262) for `count` numbers and a unit; 0: three bare numbers.

    It says how a quantity is written, not whether its unit is known.
    """
    numbers = r"\s+".join([_NUMBER] * (count or 3))
    return rf"^\s*{numbers}\s*$" if count == 0 else rf"^\s*{numbers}\s*[^\s\d,.+*/^-][^,]*$"


def quantity(text: object, dimension: str) -> float:
    """One quantity in the unit used inside.

    text: a number and a unit, such as "25 mm". dimension: a key of `KINDS`.
    Raises QuantityError for anything else, with what to write instead.

    >>> quantity("1 in", "length")
    25.4
    """
    return spread_quantity(text, dimension, 1)[0]


def spread_quantity(text: object, dimension: str, count: int) -> tuple[float, ...]:
    """`count` numbers and one unit, such as "-120 350 260 mm", in the unit used inside.

    Raises QuantityError.
    """
    stripped = _plain(text, KINDS[dimension][1] if count == 1 else _example(dimension, count))
    return _quantity(stripped, dimension, count)


@lru_cache(maxsize=4096)  # studies read a case many times over
def _quantity(stripped: str, dimension: str, count: int) -> tuple[float, ...]:
    numbers, unit = _split(stripped)
    kind, example = KINDS[dimension]
    if count != 1:
        example = _example(dimension, count)
    if not numbers:
        raise QuantityError(stripped, f"is not a number and a unit: write {kind} such as {example!r}")
    if not unit:
        raise QuantityError(stripped, f"has no unit: write {kind} such as {example!r}")
    if count > 1 and any(
        sign.isdigit() for sign in unit.replace("^2", "").replace("^3", "").replace("^4", "")
    ):
        raise QuantityError(
            stripped, f"names a unit in its midst: write it once, at the end, as in {example!r}"
        )
    if len(numbers) != count:
        wanted = "one number" if count == 1 else f"{count} numbers"
        raise QuantityError(
            stripped,
            f"has {len(numbers)} number{'s' * (len(numbers) > 1)} where {wanted} and a unit are wanted, "
            f"such as {example!r}",
        )
    factor = _factor(stripped, unit, dimension, example)
    return tuple(_finite(stripped, number, factor) for number in numbers)


def vector(text: object, dimension: str) -> tuple[float, float, float]:
    """Three numbers and one unit in the unit used inside; "" as the dimension: three bare numbers.

    Raises QuantityError.

    >>> vector("-1 0.5 2 in", "length")
    (-25.4, 12.7, 50.8)
    """
    if dimension:
        x, y, z = spread_quantity(text, dimension, 3)
        return x, y, z
    stripped = _plain(text, "0 0 1")
    numbers, unit = _split(stripped)
    if unit:
        raise QuantityError(stripped, "is a direction, three bare numbers without a unit, such as '0 0 1'")
    if len(numbers) != 3:
        raise QuantityError(stripped, "is not three numbers: write a direction such as '0 0 1'")
    x, y, z = (_finite(stripped, number, 1.0) for number in numbers)
    return x, y, z


def _example(dimension: str, count: int) -> str:
    unit = KINDS[dimension][1].split(" ")[1]
    return " ".join(["-120", "350", "260", "40"][:count]) + f" {unit}"


def _plain(text: object, example: str) -> str:
    """The text itself, stripped, or the refusal of what is none."""
    if isinstance(text, bool):
        raise QuantityError(str(text).lower(), f"is a yes or no: write a quantity such as {example!r}")
    if isinstance(text, (int, float)):
        raise QuantityError(str(text), f"is a bare number: put it in quotes with a unit, such as {example!r}")
    if not isinstance(text, str):
        raise QuantityError(str(text)[:60], f"is not a text: write a quantity such as {example!r}")
    stripped = text.strip()
    if len(stripped) > _LONGEST:
        raise QuantityError(stripped[:40] + "...", f"is too long: write a quantity such as {example!r}")
    if "," in stripped:
        raise QuantityError(
            stripped,
            "has a comma: write a point for decimals and nothing between thousands, as in '1200.5 mm'",
        )
    return stripped


def _split(text: str) -> tuple[list[str], str]:
    """The numbers at the front, and the rest."""
    numbers = []
    place = 0
    while match := _ONE.match(text, place):
        after = match.end()
        if after < len(text) and not text[after].isspace() and not text[after].isalpha():
            break
        numbers.append(match[0])
        place = after
        while place < len(text) and text[place].isspace():
            place += 1
    return numbers, text[place:]


def _finite(text: str, number: str, factor: float) -> float:
    # in decimal figures, so that 0.75 in and 19.05 mm are the same float
    value = float(number) if factor == 1.0 else float(Decimal(number) * Decimal(repr(factor)))
    if not math.isfinite(value):
        raise QuantityError(text, "is too large a number")
    if abs(value) > FAR:
        raise QuantityError(text, "is larger than anything that is built: look for a slip of the pen")
    return value


def _spelled(unit: str) -> str:
    """One spelling: "N m" and "N·m" are "N*m", "mm²" is "mm^2"."""
    unit = unit.replace("**", "^").replace("·", "*").replace("⋅", "*")
    unit = unit.replace("²", "^2").replace("³", "^3").replace("⁴", "^4").replace("µ", "u").replace("μ", "u")
    return re.sub(r"\s+", "*", re.sub(r"\s*([*/^])\s*", r"\1", unit))


def _factor(text: str, unit: str, dimension: str, example: str) -> float:
    """Internal units in one `unit`; the table first, then pint."""
    found = FACTORS[dimension].get(unit)
    if found is not None:
        return found
    spelled = _spelled(unit)
    found = FACTORS[dimension].get(spelled)
    if found is not None:
        return found
    kind = KINDS[dimension][0]
    if not _UNIT.fullmatch(spelled):
        hint = _GLUED_POWER.sub(r"^\1", spelled)
        if hint != spelled and _UNIT.fullmatch(hint):
            raise QuantityError(text, f"writes a power without '^': write {hint}")
        raise QuantityError(text, f"is not a number and a unit: write {kind} such as {example!r}")
    if (dimension, spelled) in _MEANT:
        raise QuantityError(text, f"is not {kind}: write {_MEANT[dimension, spelled]}, as in {example!r}")
    for other, factors in FACTORS.items():
        if spelled in factors:
            raise QuantityError(text, f"is {KINDS[other][0]}, but {kind} is wanted, such as {example!r}")
    return _asked(text, spelled, dimension, example)


@cache
def _registry() -> "pint.UnitRegistry[float]":
    """Pint's registry, imported on first use: it costs more than all the rest of a run."""
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    registry.define("newton_metre = newton * meter = Nm")
    registry.define("newton_millimetre = newton * millimeter = Nmm")
    return registry


def _asked(text: str, unit: str, dimension: str, example: str) -> float:
    """Internal units in one `unit` by pint."""
    import pint

    kind = KINDS[dimension][0]
    inside = next(text for text, factor in FACTORS[dimension].items() if factor == 1.0)
    unknown = QuantityError(text, f"has the unknown unit {unit!r}: write {kind} such as {example!r}")
    try:
        one = _registry().Quantity(1.0, unit)
        if one.dimensionless:  # an angle to pint, but so are a percent and a decibel
            raise unknown
        return float(one.to(inside).magnitude)
    except pint.UndefinedUnitError:
        raise unknown from None
    except pint.DimensionalityError as error:
        found = re.sub(r"[\[\]()]", "", str(error.dim1))
        raise QuantityError(
            text, f"is of another sort ({found}): {kind} is wanted, such as {example!r}"
        ) from None
    except (pint.PintError, ArithmeticError, TypeError, AttributeError):
        raise unknown from None
