"""Words that the reports of studies share."""

from strength.report.display import margin
from strength.report.document import plain
from strength.report.standing import ROUNDING, THIN, Standing
from strength.report.words import kind_name
from strength.studies.typed import BLOCK, Edit
from strength.units import convert, unit_of


def check_words(identity: str) -> str:
    """A check's identity in words: "lower-front.left: buckling, hard stop".

    >>> check_words("arm/yielding/knock")
    'arm: yielding, knock'
    """
    if identity.count("/") < 2:
        return plain(identity)
    part, kind, load = identity.split("/", 2)
    return plain(f"{part}: {kind_name(kind)}, {load}")


def standing_of(utilisation: float, *, in_range: bool) -> Standing:
    """How a worst utilisation stands; a figure that is not a number counts as over."""
    if not utilisation <= 1.0 + ROUNDING:
        return Standing.OVER
    if not in_range:
        return Standing.RANGE
    return Standing.THIN if spare(utilisation) < THIN - ROUNDING else Standing.WITHIN


def spare(utilisation: float) -> float:
    """Margin of a utilisation, 1/u - 1."""
    return 1.0 / utilisation - 1.0 if utilisation > 0.0 else float("inf")


def margin_words(utilisation: float) -> str:
    """The margin in at most five characters."""
    return margin(spare(utilisation)) if utilisation > 0.0 else margin(None)


def mass(value: float, system: str, *, signed: bool = False) -> str:
    """A mass [kg] without its unit, to three decimals below ten."""
    shown = convert(value, "mass", system)
    text = f"{shown:+.3f}" if signed else f"{shown:.3f}"
    return text if abs(shown) < 100.0 else f"{shown:+.1f}" if signed else f"{shown:.1f}"


def mass_unit(system: str) -> str:
    """Unit of masses."""
    return unit_of("mass", system)


def edit_words(edit: Edit) -> tuple[str, str]:
    """Where an edit stands in the file, and what to type there."""
    if edit.way == BLOCK:
        rest = ", ".join(f"{key} = {_value(value)}" for key, value in edit.value.items() if key != "part")
        return f"[[change]] {edit.value.get('part', '')}", rest
    return edit.words, _value(edit.value)


def _value(value: object) -> str:
    from strength.case.writing import anything

    return plain(anything(value))
