"""Units that go together in a hand calculation: mm, N, MPa, or in, lbf, psi."""

import math
import re

import attrs

from strength.units import convert

DIGITS = 6
# dimension -> powers of force and of length
POWERS = {
    "1": (0, 0),
    "length": (0, 1),
    "area": (0, 2),
    "modulus": (0, 3),
    "inertia": (0, 4),
    "force": (1, 0),
    "moment": (1, 1),
    "flow": (1, -1),
    "stress": (1, -2),
}
PART = re.compile(r"(\w+)(?:\^(\d+))?")


@attrs.frozen
class HandUnits:
    """Shows values that come in mm, N, N*mm, MPa, rad; system: metric | inch."""

    system: str = "metric"

    @property
    def words(self) -> str:
        """The units that are used."""
        return "in, lbf, lbf*in, psi (1000 psi = 1 ksi)" if self.system == "inch" else "mm, N, N*mm, MPa"

    def number(self, value: float, dimension: str) -> str:
        """A value without its unit, to six digits."""
        if dimension == "angle":
            return f"{figures(math.degrees(value))} deg"
        force, length = powers(dimension)
        by = convert(1.0, "force", self.system) ** force * convert(1.0, "length", self.system) ** length
        return figures(value * by)

    def show(self, value: float, dimension: str) -> str:
        """A value with its unit."""
        return f"{self.number(value, dimension)} {self.unit(dimension)}".rstrip()

    def unit(self, dimension: str) -> str:
        """The unit of a dimension."""
        if dimension == "angle":
            return ""
        force, length = powers(dimension)
        f, le = ("lbf", "in") if self.system == "inch" else ("N", "mm")
        if (force, length) == (1, -2):
            return "psi" if self.system == "inch" else "MPa"
        above = [_power(f, force)] if force > 0 else []
        above += [_power(le, length)] if length > 0 else []
        below = [_power(f, -force)] if force < 0 else []
        below += [_power(le, -length)] if length < 0 else []
        text = "*".join(above) or ("1" if below else "")
        return text + "".join(f"/{unit}" for unit in below)


def powers(dimension: str) -> tuple[int, int]:
    """Powers of force and length of a dimension, which may be made of others: "stress/length".

    >>> powers("stress/length"), powers("inertia^2")
    ((1, -3), (0, 8))
    """
    if dimension in POWERS:
        return POWERS[dimension]
    force = length = 0
    for sign, part in zip((1, -1), dimension.split("/"), strict=False):
        found = PART.fullmatch(part)
        if found is None:
            raise ValueError(dimension)
        own, power = POWERS[found[1]], sign * int(found[2] or 1)
        force, length = force + power * own[0], length + power * own[1]
    return force, length


def figures(value: float) -> str:
    """A number to six digits, without an exponent where it can be read without.

    >>> figures(1234567.0), figures(0.00012), figures(2e-07), figures(-0.0)
    ('1234570', '0.00012', '2e-07', '0')
    """
    text = f"{value:.{DIGITS}g}"
    if "e+" in text and abs(value) < 1e12:
        text = f"{float(text):.0f}"
    return "0" if float(text) == 0.0 else text


def _power(unit: str, power: int) -> str:
    return unit if power == 1 else f"{unit}^{power}"
