"""A metal or filler written by the user, in a case or in a library file of the user's own.

Quantities are texts with a unit. Every fault of a table is found, each with its key; nothing is
raised, so that a case file can report all its faults together.
"""

from collections.abc import Mapping
from typing import Any

from strength.errors import QuantityError
from strength.library.data import nearest
from strength.library.filler import Filler
from strength.library.metal import Metal, Strength
from strength.library.personal import Faults
from strength.units import quantity

KINDS = ("steel", "stainless", "aluminium")
FILLER_KINDS = (*KINDS, "bronze")
CURVES = ("a0", "a", "b", "c", "d", "A", "B")
STRENGTHS = {
    "yield": "yield strength or 0.2 % proof strength",
    "ultimate": "tensile strength",
    "yield_welded": "yield strength beside a weld",
    "ultimate_welded": "tensile strength beside a weld",
}
MEANING = {
    "kind": "steel, stainless or aluminium",
    "modulus": "Young's modulus, such as '210 GPa'",
    "poisson": "Poisson's ratio, such as 0.3",
    "density": "such as '7850 kg/m^3'",
    "weldable": "may it be welded, true or false",
    **STRENGTHS,
}
OPTIONAL = ("elongation", "shear_modulus", "buckling_curve", "source", "note", "rows")
ROW_KEYS = (*STRENGTHS, "elongation", "over", "up_to", "diameter_to")


class _Table:
    """A user's table being read: hands out checked values and keeps the faults."""

    def __init__(self, table: Mapping[str, Any], known: tuple[str, ...], prefix: str = "") -> None:
        self.table = table
        self.prefix = prefix
        self.faults: Faults = []
        for key in table:
            if key not in known:
                near = nearest(key, known, 1)
                meant = f": did you mean `{near[0]}`?" if near else ""
                self.fault(key, f"unknown key `{key}`{meant}")

    def fault(self, key: str, why: str) -> None:
        self.faults.append((f"{self.prefix}{key}", why))

    def missing(self, key: str) -> None:
        self.fault(key, f"`{key}` is missing: {MEANING[key]}")

    def amount(self, key: str, dimension: str, *, needed: bool = False, zero: bool = False) -> float | None:
        """A positive quantity."""
        if key not in self.table:
            if needed:
                self.missing(key)
            return None
        try:
            value = quantity(self.table[key], dimension)
        except QuantityError as error:
            self.fault(key, str(error))
            return None
        if value < 0 or (value == 0 and not zero):
            self.fault(key, f"{self.table[key]!r} must be greater than 0")
            return None
        return value

    def number(self, key: str, low: float, high: float, *, needed: bool = False) -> float | None:
        """A bare number from low (included) to high."""
        value = self.table.get(key)
        if value is None:
            if needed:
                self.missing(key)
            return None
        if isinstance(value, bool) or not isinstance(value, (int, float)) or not low <= value < high:
            self.fault(key, f"{value!r} must be a bare number from {low:g} to under {high:g}")
            return None
        return float(value)

    def choice(self, key: str, among: tuple[str, ...], default: str = "") -> str:
        """One of some words."""
        value = self.table.get(key, default)
        if value == "":
            self.missing(key)
        elif value not in among:
            self.fault(key, f"{value!r} must be one of {', '.join(among)}")
        return str(value)

    def text(self, key: str) -> str:
        """Any text."""
        value = self.table.get(key, "")
        if not isinstance(value, str):
            self.fault(key, f"{value!r} must be a text")
        return str(value)


def own_metal(name: str, table: Mapping[str, Any]) -> tuple[Metal | None, Faults]:
    """A metal from a user's table, or None and what is wrong with it."""
    read = _Table(table, (*MEANING, *OPTIONAL))
    kind = read.choice("kind", KINDS)
    modulus = read.amount("modulus", "stress", needed=True)
    poisson = read.number("poisson", 0.0, 0.5, needed=True)
    shear = read.amount("shear_modulus", "stress")
    density = read.amount("density", "density", needed=True)
    weldable = table.get("weldable")
    if weldable is None:
        read.missing("weldable")
    elif not isinstance(weldable, bool):
        read.fault("weldable", f"{weldable!r} must be true or false")
    curve = read.choice("buckling_curve", CURVES, "B" if kind == "aluminium" else "c")
    rows = _rows(read, weldable is True)
    source, note = read.text("source"), read.text("note")
    if read.faults or modulus is None or poisson is None or density is None:
        return None, read.faults
    metal = Metal(
        name=name,
        kind=kind,
        modulus=modulus,
        poisson=poisson,
        shear_modulus=modulus / (2 * (1 + poisson)) if shear is None else shear,
        density=density,
        weldable=weldable is True,
        buckling_curve=curve,
        rows=tuple(rows),
        own=True,
        note=note,
        source=source,
        sure="user",
    )
    return metal, []


def _rows(read: _Table, weldable: bool) -> list[Strength]:
    """The strengths: one row from the table's own keys, or its `rows` by thickness."""
    if "rows" not in read.table:
        return _row(read, weldable, read.text("source"))
    found: list[Strength] = []
    given = read.table["rows"]
    if any(key in read.table for key in (*STRENGTHS, "elongation")):
        read.fault("rows", "give the strengths in `rows` or beside it, not both")
    if not isinstance(given, list) or not given or not all(isinstance(one, Mapping) for one in given):
        read.fault("rows", "must be a list of tables, each with `up_to`, `yield` and `ultimate`")
        return found
    for place, one in enumerate(given):
        row = _Table(one, ROW_KEYS, f"rows[{place}].")
        found += _row(row, weldable, read.text("source"))
        read.faults += row.faults
    return found


def _row(read: _Table, weldable: bool, source: str) -> list[Strength]:
    """One row, or none where it has a fault."""
    before = len(read.faults)
    value = {
        key: read.amount(key, "stress", needed=weldable or not key.endswith("_welded")) for key in STRENGTHS
    }
    for low, high, why in (
        ("yield", "ultimate", "above the tensile strength"),
        ("yield_welded", "ultimate_welded", "above the tensile strength beside a weld"),
        ("yield_welded", "yield", "above the yield strength away from the weld"),
        ("ultimate_welded", "ultimate", "above the tensile strength away from the weld"),
    ):
        a, b = value[low], value[high]
        if a is not None and b is not None and a > b:
            read.fault(low, f"{read.table[low]!r} is {why}, {read.table[high]!r}")
    limits = {key: read.amount(key, "length", zero=key == "over") for key in ("over", "up_to", "diameter_to")}
    elongation = read.number("elongation", 0.0, 1.0)
    if len(read.faults) > before or value["yield"] is None or value["ultimate"] is None:
        return []
    return [
        Strength(
            yield_=value["yield"],
            ultimate=value["ultimate"],
            yield_welded=value["yield_welded"] if weldable else None,
            ultimate_welded=value["ultimate_welded"] if weldable else None,
            elongation=elongation,
            source=source,
            sure="user",
            source_welded=source,
            sure_welded="user",
            sure_elongation="user",
            **{key: limit for key, limit in limits.items() if limit is not None},
        )
    ]


def own_filler(name: str, table: Mapping[str, Any]) -> tuple[Filler | None, Faults]:
    """A filler from a user's table, or None and what is wrong with it."""
    read = _Table(table, ("kind", "strength", "source", "note"))
    kind = read.choice("kind", FILLER_KINDS)
    if "strength" not in table:
        read.fault("strength", "`strength` is missing: tensile strength of the weld metal, such as '480 MPa'")
    strength = read.amount("strength", "stress")
    source, note = read.text("source"), read.text("note")
    if read.faults or strength is None:
        return None, read.faults
    return Filler(
        name=name, kind=kind, strength=strength, own=True, source=source, sure="user", note=note
    ), []
