"""Fatigue classes of details and the curves that belong to them."""

from strength.errors import UnknownNameError
from strength.library import data
from strength.values import frozen

STANDARDS = ("IIW", "EN 1993-1-9")


@frozen(kw_only=True)
class FatigueClass:
    """A detail's class and its curve: cycles N at a stress range s.

    N = cycles (range_ / s)^slope up to `knee` cycles, beyond it slope `slope_beyond` for ranges that
    vary, up to `cut_off` cycles; ranges under that of the cut-off do no harm (inf: all do).
    """

    name: str
    standard: str  # IIW | EN 1993-1-9
    range_: float  # MPa at `cycles`
    cycles: float
    slope: float
    knee: float
    slope_beyond: float
    cut_off: float = float("inf")
    shear: bool = False  # the range is one of shear stress
    source: str = ""
    sure: str = ""
    note: str = ""


def fatigue_class(name: str, *, kind: str = "steel", series: str = "", standard: str = "IIW") -> FatigueClass:
    """The class of a detail in a metal of this kind (and series, where it is aluminium).

    Stainless steel takes the classes of steel. Raises UnknownNameError for a detail the library does not
    hold, or holds no class of for that metal and standard.
    """
    _, table = data.read("detail", name, word="fatigue detail")
    column = "en1993" if standard == "EN 1993-1-9" else kind.replace("stainless", "steel")
    if f"{column}_{series}" in table:
        column = f"{column}_{series}"
    refused = standard == "EN 1993-1-9" and kind == "aluminium"
    if standard not in STANDARDS or refused or column not in table:
        raise UnknownNameError("fatigue class", f"{name}, {kind}, {standard}", _held(table))
    curve_name = table["curve_en" if column == "en1993" else "curve"]
    _, curve = data.read("curve", curve_name, word="fatigue curve")
    return FatigueClass(
        name=name,
        standard=standard,
        range_=float(table[column]),
        cycles=float(curve["cycles"]),
        slope=float(curve["slope"]),
        knee=float(curve["knee"]),
        slope_beyond=float(curve["slope_beyond"]),
        cut_off=float(curve.get("cut_off", "inf")),
        shear=curve_name.endswith("shear"),
        source=table["source"],
        sure=table["sure"],
        note=table.get("note", ""),
    )


def fatigue_names() -> tuple[str, ...]:
    """All details."""
    return data.names("detail")


def _held(table: dict[str, object]) -> tuple[str, ...]:
    words = {"steel": "steel, IIW", "aluminium": "aluminium, IIW", "en1993": "steel, EN 1993-1-9"}
    return tuple(word for key, word in words.items() if key in table)
