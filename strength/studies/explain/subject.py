"""What an explanation is about, and the numbers that most of them need."""

import attrs
import numpy as np
from numpy.typing import NDArray

from strength.case.model import Member, Strut
from strength.checks.context import Context
from strength.checks.factors import ONLY_PATH
from strength.checks.verdict import Row
from strength.library import Metal, Strength
from strength.library.sources import SURE, cite
from strength.studies.explain.sheet import Sheet

Array = NDArray[np.float64]

FORCES = (
    ("N", "force", "axial force, tension +"),
    ("V_y", "force", "shear force along y_m"),
    ("V_z", "force", "shear force along z_m"),
    ("T", "moment", "torque"),
    ("M_y", "moment", "bending moment about y_m"),
    ("M_z", "moment", "bending moment about z_m"),
)
ROUNDING = 1e-11  # of the greatest beside it: a force or moment below it is written as nothing
SEVERITY = {"allowable": "allowable basis", "limit-state": "limit-state basis"}


@attrs.frozen(kw_only=True, eq=False)
class Subject:
    """A row of a run, and the number of its load."""

    context: Context
    row: Row
    load: int

    @property
    def limit_state(self) -> bool:
        """Whether the basis is limit-state."""
        return self.context.factors.method == "limit-state"

    @property
    def severity(self) -> str:
        """Severity of the load."""
        return self.context.factors.severities[self.load]

    @property
    def basis(self) -> str:
        """The basis and the load's severity, in words."""
        return f"{SEVERITY[self.context.factors.method]}, {self.severity} load"

    def part(self, bar: int) -> Member | Strut:
        """The member or strut of a bar."""
        members = self.context.case.members
        return members[bar] if bar < len(members) else self.context.case.struts[bar - len(members)]

    def key(self, bar: int, key: str = "") -> str:
        """Where in the case file a part, or one of its keys, stands."""
        part = self.part(bar)
        return keyed(part.path, part.name, key)


def keyed(path: str, name: str, key: str = "") -> str:
    """Where in the case file an entry's key stands."""
    return f"case: {path or name}" + (f".{key}" if key else "")


def write_forces(
    sheet: Sheet, subject: Subject, forces: Array, used: str, origin: str, prefix: str = ""
) -> None:
    """Write down the internal forces that a check uses; bending raised for frame buckling step by step.

    forces: N Vy Vz T My Mz as the checks have them. used: their numbers, such as "045".
    prefix: before each symbol.
    """
    raised = float(subject.context.amplified[0, subject.load])
    own_size = np.repeat(np.abs(forces).reshape(2, 3).max(axis=1), 3)  # of forces, of moments
    values = np.where(np.abs(forces) <= ROUNDING * own_size, 0.0, forces)
    for number in map(int, used):
        symbol, dimension, what = FORCES[number]
        value = float(values[number])
        if number < 4 or raised == 1.0:
            sheet.given(prefix + symbol, value, dimension, what, origin)
            continue
        own = f"{prefix}{symbol}0"
        sheet.given(own, value / raised, dimension, f"{what}, before it is raised", origin)
        if "k_frame" not in sheet:
            sheet.given(
                "k_frame",
                raised,
                "1",
                "raises bending moments, since the frame is near to buckling: 1/(1 - 1/alpha)",
                f"row frame/frame-buckling/{subject.row.load} (EN 1993-1-1:2005 5.2.2)",
            )
        sheet.step(prefix + symbol, f"k_frame*{own}", dimension, f"{what}, raised")


def along_words(subject: Subject, bar: int, at: float) -> str:
    """Where in the record the forces at a place of a bar stand."""
    part = subject.part(bar)
    length = float(subject.context.layout.bar_length[bar])
    kind = "members" if isinstance(part, Member) else "struts"
    if kind == "struts":
        return f"record: struts, {part.name}"
    for name, place in (("from", 0.0), ("to", length)):
        if abs(at - place) < 1e-6:
            return f"record: members, {part.name}, end {name}"
    return f"frame: {part.name}, on the straight line between its points, {at:.4g} mm from `from`"


def loaded(sheet: Sheet, subject: Subject, formula: str) -> str:
    """A demand's formula with the load factor, which is written down where the basis has one."""
    if not subject.limit_state:
        return formula
    if "gamma_F" not in sheet:
        sheet.given(
            "gamma_F",
            float(subject.context.factors.load()[subject.load]),
            "1",
            "load factor",
            _why(subject, "load_factor", "EN 1990" if subject.severity != "abuse" else "own choice"),
        )
    return f"gamma_F*({formula})"


def _why(subject: Subject, name: str, source: str) -> str:
    given = subject.context.factors.overrides.get(name)
    place = ("routine", "hard", "abuse").index(subject.severity)
    if given is not None and given[place] is not None:
        return f"case: basis.{name}; {subject.basis}"
    return f"{subject.basis}; {source}"


def yield_divisor(
    sheet: Sheet, subject: Subject, kind: str, *, brittle: str = "", gamma: str = "", symbol: str = "n"
) -> None:
    """Write down what a yield resistance is divided by.

    brittle: why it is at least 1.67; "" where it is not. gamma: as in `Factors.on_yield`.
    """
    factors = subject.context.factors
    value = float(factors.on_yield(kind, brittle=bool(brittle), gamma=gamma)[subject.load])
    if subject.limit_state:
        name = gamma or ("gamma_m1" if kind == "aluminium" else "gamma_m0")
        code = "EN 1999-1-1" if kind == "aluminium" else "EN 1993-1-4" if kind == "stainless" else "EN 1993"
        text = _why(subject, name, f"{name.replace('_m', '_M')}, {code}")
        sheet.given(symbol, value, "1", f"divides the yield strength ({kind})", text)
        return
    plain = float(factors.on_yield(kind)[subject.load])
    source = "AISC 360 ASD" if subject.severity != "abuse" else "own choice: it may bend but not part"
    text = _why(subject, "yield_factor", source)
    if value > plain:
        text = f"{subject.basis}; at least 1.67 (own choice): {brittle}"
    elif brittle:
        text += f"; at least 1.67, since {brittle}"
    sheet.given(symbol, value, "1", "yield factor", text)


def ultimate_divisor(sheet: Sheet, subject: Subject, symbol: str = "n") -> None:
    """Write down what an ultimate, weld or bolt resistance is divided by."""
    value = float(subject.context.factors.on_ultimate()[subject.load])
    if subject.limit_state:
        text = _why(subject, "gamma_m2", "gamma_M2, EN 1993, EN 1999")
        sheet.given(symbol, value, "1", "divides ultimate, weld and bolt strengths", text)
    else:
        text = _why(subject, "ultimate_factor", "AISC 360 ASD")
        sheet.given(symbol, value, "1", "ultimate, weld and bolt factor", text)


def stability_divisor(sheet: Sheet, subject: Subject, kind: str, symbol: str = "n") -> None:
    """Write down what a buckling resistance is divided by."""
    value = float(subject.context.factors.on_stability(kind)[subject.load])
    if subject.limit_state:
        text = _why(subject, "gamma_m1", f"gamma_M1 ({kind}), EN 1993, EN 1999")
        sheet.given(symbol, value, "1", "divides buckling strengths", text)
    else:
        source = "AISC 360 ASD" if subject.severity != "abuse" else "own choice"
        sheet.given(symbol, value, "1", "buckling factor", _why(subject, "stability_factor", source))


def finish(
    sheet: Sheet, demand: str, limit: str, path_factor: float, origin: str = "case: only_path"
) -> None:
    """Work the utilisation out; demand and limit are symbols, limit "" where it is 1."""
    formula = f"{demand}/{limit}" if limit else demand
    if path_factor != 1.0:
        what = "its loss loses the wheel, the steering or a brake (own choice)"
        sheet.given("k_path", ONLY_PATH, "1", what, origin)
        formula = f"{formula}*k_path"
    sheet.step("u", formula, "1", "utilisation: demand over limit")


def metal_origin(
    metal: Metal | None, thickness: float, *, welded: bool = False, diameter: float | None = None
) -> str:
    """The library row that a strength comes from, and how sure it is."""
    if metal is None:
        return "library"
    row = held(metal, thickness, diameter)
    if row is None:
        return f"library: {metal.name}"
    source, sure = (row.source, row.sure)
    if welded and row.source_welded:
        source = row.source_welded
    if welded and row.sure_welded:
        sure = row.sure_welded
    where = "case: material" if metal.own else "library"
    span = "" if row.up_to == float("inf") else f", over {row.over:g} to {row.up_to:g} mm"
    told = "; ".join(text for text in (cite(source) if source else "", SURE.get(sure, sure)) if text)
    return f"{where}: {metal.name}{span}" + (f" ({told})" if told else "")


def held(metal: Metal, thickness: float, diameter: float | None = None) -> Strength | None:
    """The row of a metal for a thickness; None where there is none."""
    for row in metal.rows:
        if row.over < thickness <= row.up_to and (diameter or 0.0) <= row.diameter_to:
            return row
    return None
