"""How far a verdict reaches: on what basis, with which factors, and what it leaves out."""

from strength.checks.factors import ALLOWABLE, BRITTLE, LIMIT_STATE
from strength.report.document import Items, Section
from strength.report.view import View

NAMES = {
    "yield_factor": "yielding",
    "ultimate_factor": "tearing, welds and bolts",
    "stability_factor": "buckling",
    "load_factor": "loads",
    "gamma_m0": "sections (steel)",
    "gamma_m1": "buckling (steel)",
    "gamma_m2": "tearing, welds and bolts",
    "gamma_m5": "hollow section walls",
}
BRITTLE_NAMES = "yielding of brittle metals (elongation under 10 % or not known), studs and stub axles"
LIGHT = "sections and buckling (stainless, aluminium)"


def reach(view: View) -> Section:
    """Basis, factors, and the limits of what was looked at."""
    case = view.outcome.case
    allowable = case.basis.method == "allowable"
    table = ALLOWABLE if allowable else LIMIT_STATE
    items = [
        (NAMES[name], _by_severity(given, case.basis.factors.get(name))) for name, given in table.items()
    ]
    if allowable:
        items.append((BRITTLE_NAMES, f"{BRITTLE:.2f} at least, abuse too"))
    else:
        items.append((LIGHT, "1.10, unless given above"))
    basis = (
        "Strengths are divided by the factors below (allowable stresses)."
        if allowable
        else "Loads are multiplied and strengths divided by the factors below (limit states)."
    )
    wear = (
        "A fatigue life belongs to the road of the case."
        if case.road is not None
        else "Single knocks only: wear by many small ones (fatigue) is left out, as the case has no road."
    )
    return Section(
        title="How far a verdict reaches",
        lead=(
            basis,
            "Abuse may bend a part for good but must not part it: look at the part after any such knock.",
        ),
        body=(Items(items=tuple(items)),),
        after=(
            (
                "The factors are a designer's choice. Within the limit means: these checks, these loads, "
                "these factors, a vehicle built as drawn from the metal named, welds of the quality stated."
            ),
            wear,
        ),
    )


def _by_severity(
    given: tuple[float, float, float], changed: tuple[float | None, float | None, float | None] | None
) -> str:
    """Factors of the three severities, told once where they are equal."""
    own = changed or (None, None, None)
    values = [g if c is None else c for g, c in zip(given, own, strict=True)]
    if len(set(values)) == 1:
        text = f"{values[0]:.2f}"
    else:
        names = ("routine", "hard", "abuse")
        text = ", ".join(f"{name} {value:.2f}" for name, value in zip(names, values, strict=True))
    return text + (" (your own)" if changed else "")
