"""Masses and manoeuvres to wheel forces, limits and loads on points."""

from strength.vehicle.balance import balance
from strength.vehicle.limits import limits
from strength.vehicle.missing import missing_kinds
from strength.vehicle.sheet import Balanced, Limit, Pushes, TowForce, WheelForce
from strength.vehicle.structure import into_structure

__all__ = [
    "Balanced",
    "Limit",
    "Pushes",
    "TowForce",
    "WheelForce",
    "balance",
    "into_structure",
    "limits",
    "missing_kinds",
]
