"""Property classes of bolts, screws and pins."""

from functools import cache
from typing import Any

from strength.errors import RangeError
from strength.library import data
from strength.values import frozen


@frozen(kw_only=True)
class BoltClass:
    """A property class for one range of diameters [MPa].

    `ultimate` (fub) and `yield_` (fyb) are what a joint is designed with: the nominal pair of
    EN 1993-1-8 Table 3.1, never above the minima of ISO 898-1, `ultimate_min` and `yield_min`.
    `proof` is the proof stress Sp; None where the standard has none here.
    """

    name: str
    ultimate: float
    yield_: float
    ultimate_min: float
    yield_min: float
    proof: float | None
    elongation: float | None  # a fraction; None: not given as one
    shear_thread: float  # alpha_v with the thread in the shear plane, EN 1993-1-8 Table 3.4
    shear_shank: float = 0.6  # alpha_v with the plain shank there, same table
    stainless: bool = False
    quenched: bool = False  # loses its strength beside a weld
    brittle: bool = False  # steel of 10.9 and up: elongation under 10 %
    in_code: bool = True  # False: not a class of EN 1993-1-8
    over: float = 0.0
    up_to: float = float("inf")
    source: str = ""
    sure: str = ""
    note: str = ""


def find_bolt_class(name: str, diameter: float) -> BoltClass:
    """The property class `name` ("8.8", "A2-70") at a thread size or pin diameter [mm].

    Raises UnknownNameError with the nearest names, RangeError for a diameter without figures.
    """
    rows = bolt_class_rows(name)
    for row in rows:
        if row.over < diameter <= row.up_to:
            return row
    raise RangeError(f"class {name}", diameter, [(row.over, row.up_to) for row in rows])


@cache
def bolt_class_rows(name: str) -> tuple[BoltClass, ...]:
    """All rows of a class by diameter. Raises UnknownNameError."""
    _, table = data.read("bolt", name, word="bolt class")
    return tuple(_class(name, table, row) for row in table["rows"])


def bolt_class_names() -> tuple[str, ...]:
    """First names of all classes."""
    return data.names("bolt")


def _class(name: str, table: dict[str, Any], row: dict[str, Any]) -> BoltClass:
    return BoltClass(
        name=name,
        ultimate=float(row["ultimate"]),
        yield_=float(row["yield"]),
        ultimate_min=float(row["ultimate_min"]),
        yield_min=float(row["yield_min"]),
        proof=float(row["proof"]) if "proof" in row else None,
        elongation=row.get("elongation"),
        shear_thread=table["shear_thread"],
        stainless=table.get("stainless", False),
        quenched=table.get("quenched", False),
        brittle=table.get("brittle", False),
        in_code=not table.get("outside_code", False),
        over=float(row.get("over", 0)),
        up_to=float(row["up_to"]),
        source=row["source"],
        sure=row["sure"],
        note=table.get("note", ""),
    )
