"""Figures as a builder reads them, metric or inch."""

import math

from strength.units import GRAVITY, convert, unit_of
from strength.values import frozen

SECONDS = 3600.0  # in an hour


@frozen(eq=False)
class Display:
    """Writes quantities for people; values come in mm, N, N*mm, MPa, kg, m/s."""

    system: str = "metric"  # metric | inch

    @property
    def length_unit(self) -> str:
        """Unit of lengths."""
        return unit_of("length", self.system)

    @property
    def force_unit(self) -> str:
        """Unit of forces."""
        return unit_of("force", self.system)

    @property
    def stress_unit(self) -> str:
        """Unit of stresses."""
        return unit_of("stress", self.system)

    @property
    def speed_unit(self) -> str:
        """Unit of speeds."""
        return "mph" if self.system == "inch" else "km/h"

    def length(self, value: float) -> str:
        """A length [mm] without its unit."""
        shown = convert(value, "length", self.system)
        return f"{shown:.3f}" if self.system == "inch" else f"{shown:.1f}"

    def force(self, value: float) -> str:
        """A force [N] without its unit."""
        return whole(convert(value, "force", self.system))

    def stress(self, value: float) -> str:
        """A stress [MPa] without its unit."""
        shown = convert(value, "stress", self.system)
        if self.system != "inch":
            return whole(shown)
        text = f"{shown:.1f}"
        return "0.0" if text == "-0.0" else text

    def speed(self, value: float) -> str:
        """A limit speed [m/s] without its unit, rounded down."""
        return f"{math.floor(convert(value * SECONDS / 1000.0, 'distance', self.system) + 1e-9)}"

    def exact(self, value: float, unit: str) -> tuple[str, str]:
        """A demand or a limit, from its record unit ("MPa", "N", "N*mm"), to five figures, and its unit."""
        dimension = {"MPa": "stress", "N": "force", "N*mm": "moment"}[unit]
        shown = f"{convert(value, dimension, self.system):.5g}"
        return (f"{float(shown):.0f}" if "e+" in shown else shown), unit_of(dimension, self.system)

    def quantity(self, value: float, unit: str) -> str:
        """A demand or a limit in its record unit ("MPa", "N", "N*mm", "1") with a unit to read."""
        if unit == "MPa":
            return f"{self.stress(value)} {self.stress_unit}"
        if unit == "N":
            return f"{self.force(value)} {self.force_unit}"
        if unit == "N*mm":
            return f"{figure(convert(value, 'moment', self.system))} {unit_of('moment', self.system)}"
        return f"{value:.2f}" if unit == "1" else f"{figure(value)} {unit}"


def whole(value: float) -> str:
    """A number without decimals, its thousands set apart; small ones keep a decimal.

    >>> whole(12345.6), whole(-3.24), whole(-0.01)
    ('12 346', '-3.2', '0')
    """
    if 0.05 <= abs(value) < 9.95:
        return f"{value:.1f}"
    text = f"{value:.0f}"
    if text == "-0":
        return "0"
    return text if abs(value) < 9999.5 else f"{value:,.0f}".replace(",", " ")


def figure(value: float) -> str:
    """A number to three figures.

    >>> figure(0.01234), figure(45.67), figure(1234.5)
    ('0.0123', '45.7', '1234')
    """
    if value == 0.0:
        return "0"
    return whole(value) if abs(value) >= 1000.0 else f"{value:.3g}"


def degrees(value: float) -> str:
    """An angle [rad] in degrees."""
    return f"{math.degrees(value):.2f}°"


def gees(value: float) -> str:
    """An acceleration [mm/s^2] in multiples of g."""
    return f"{value / GRAVITY:.2f} g"


def margin(value: float | None) -> str:
    """A margin in at most five characters; nothing asked: a dot.

    >>> margin(-0.254), margin(3.456), margin(45.67), margin(1e6), margin(None)
    ('-0.25', '3.46', '45.7', '>99', '·')
    """
    if value is None:
        return "·"
    if value > 99.0:
        return ">99"
    text = f"{value:.2f}" if value < 9.995 else f"{value:.1f}"
    return "0.00" if text == "-0.00" and value >= -1e-9 else text


def percent(value: float) -> str:
    """A fraction in per cent, at least two figures: 0.34 is "34 %".

    >>> percent(0.344), percent(0.0034), percent(12.3)
    ('34 %', '0.34 %', '1230 %')
    """
    hundred = 100.0 * value
    if 0.0 < abs(hundred) < 0.01:
        return "less than 0.01 %"
    return f"{hundred:.0f} %" if abs(hundred) >= 9.95 else f"{hundred:.2g} %"
