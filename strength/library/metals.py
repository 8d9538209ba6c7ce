"""Metals by name, from the case, the user's own library or the library."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from strength.library import data
from strength.library.metal import Metal, Strength
from strength.library.personal import personal_metals

if TYPE_CHECKING:
    from pathlib import Path

# mm: limits move outward by this, so that a size converted from inches falls on the right side.
_STEP = 1e-6
PER_M3 = 1e-9  # kg/m^3 in kg/mm^3
PLAIN = ("kind", "weldable", "buckling_curve", "note", "family", "form", "standard")
OPTIONAL = ("beta_w", "series", "quenched", "carbon_equivalent", "wall_rule")


def find_metal(
    name: str, *, extra: Mapping[str, Metal] | None = None, personal: "str | Path | None" = None
) -> Metal:
    """The metal of that name.

    extra: metals written in the case, looked at first. personal: a library file of the user's own;
    left out, the files in the user's configuration folder. The user's own metals come before ours of
    the same name. Raises UnknownNameError with the nearest names.
    """
    if extra and name in extra:
        return extra[name]
    own = personal_metals(personal)
    if name in own:
        return own[name]
    if name not in data.index("material"):
        known = [*(extra or ()), *own, *data.likely("material", name)]
        raise data.unknown("material", name, known)
    return _library_metal(name)


def metal_names() -> tuple[str, ...]:
    """First names of all metals of the library that can be bought, in its order."""
    return data.sold("material")


def textbook_names() -> tuple[str, ...]:
    """Names of the metals of books' examples, which cannot be bought."""
    return tuple(name for name in data.names("material") if name not in metal_names())


def _library_metal(name: str) -> Metal:
    first, table = data.read("material", name)
    _, constants = data.read("constants", table["constants"])
    return Metal(
        name=first,
        modulus=float(constants["modulus"]),
        poisson=float(constants["poisson"]),
        textbook=data.index("material")[first].file == data.TEXTBOOK,
        shear_modulus=float(constants["shear_modulus"]),
        density=constants["density"] * PER_M3,
        source=constants["source"],
        sure=constants["sure"],
        also=tuple(table.get("also", ())),
        rows=tuple(_row(row) for row in table["rows"]),
        **_taken(table, PLAIN, OPTIONAL),
    )


def _taken(table: Mapping[str, Any], *keys: Iterable[str]) -> dict[str, Any]:
    return {key: table[key] for group in keys for key in group if key in table}


def _row(table: Mapping[str, Any]) -> Strength:
    """One line of strengths.

    `over` leaves its limit out and `up_to` includes it; `from` includes it and `below` leaves it out.
    """
    given: dict[str, Any] = {
        key: float(value) if isinstance(value, int) else value for key, value in table.items()
    }
    for key, limit, step in (
        ("from", "over", -_STEP),
        ("below", "up_to", -_STEP),
        ("over", "over", _STEP),
        ("up_to", "up_to", _STEP),
        ("diameter_to", "diameter_to", _STEP),
    ):
        if key in table:
            given[limit] = given.pop(key) + step
    given["yield_"] = given.pop("yield")
    for key, default in (
        ("yield_welded", None),
        ("ultimate_welded", None),
        ("source_welded", table["source"]),
        ("sure_welded", table["sure"]),
        ("sure_elongation", table["sure"]),
    ):
        given.setdefault(key, default)
    return Strength(**given)
