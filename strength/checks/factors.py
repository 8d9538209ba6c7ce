"""Design factors by basis and severity, with the user's overrides."""

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from strength.values import frozen

if TYPE_CHECKING:
    from strength.case.model import Basis

SEVERITIES = ("routine", "hard", "abuse")
BRITTLE = 1.67  # the least yield factor of metals under 10 % elongation, studs and stub axles
ONLY_PATH = 1.25  # choice: a part whose loss loses the wheel, the steering or a brake

# name -> (routine, hard, abuse)
ALLOWABLE = {
    "yield_factor": (1.67, 1.67, 1.25),  # AISC 360 ASD; abuse: choice, it may bend but not part
    "ultimate_factor": (2.00, 2.00, 2.00),  # AISC 360 ASD
    "stability_factor": (1.67, 1.67, 1.50),  # AISC 360 ASD; abuse: choice
}
LIMIT_STATE = {
    "load_factor": (1.50, 1.50, 1.25),  # EN 1990; abuse: choice, since the strikes are guesses
    "gamma_m0": (1.00, 1.00, 1.00),  # EN 1993-1-1; 1.10 stainless and aluminium
    "gamma_m1": (1.00, 1.00, 1.00),
    "gamma_m2": (1.25, 1.25, 1.25),
    "gamma_m5": (1.00, 1.00, 1.00),
}
LIGHT = ("stainless", "aluminium")  # gamma_m0 and gamma_m1 1.10: EN 1993-1-4, EN 1999-1-1


@frozen(kw_only=True)
class Factors:
    """Factors for the loads of one run; every method returns (loads,)."""

    method: str
    severities: tuple[str, ...]  # of the loads
    overrides: dict[str, tuple[float | None, float | None, float | None]]

    @cached_property
    def _columns(self) -> dict[str, NDArray[np.float64]]:
        """Each factor (loads,) by its name; those of light metals by name and "light"; ones by "none"."""
        more = {f"{name} light": (1.10, 1.10, 1.10) for name in ("gamma_m0", "gamma_m1")}
        more["none"] = (1.0, 1.0, 1.0)
        return {name: self._column(name, own) for name, own in (ALLOWABLE | LIMIT_STATE | more).items()}

    def _column(self, name: str, default: tuple[float, float, float]) -> NDArray[np.float64]:
        given = self.overrides.get(name.removesuffix(" light"), (None, None, None))
        values = [d if g is None else g for g, d in zip(given, default, strict=True)]
        column = np.array([values[SEVERITIES.index(s)] for s in self.severities], dtype=np.float64)
        column.setflags(write=False)  # all checks are given the same
        return column

    def load(self) -> NDArray[np.float64]:
        """Factor on load effects: 1 on the allowable basis."""
        return self._columns["none" if self.method == "allowable" else "load_factor"]

    def _gamma(self, name: str, kind: str) -> NDArray[np.float64]:
        light = kind in LIGHT and name in ("gamma_m0", "gamma_m1")
        return self._columns[f"{name} light" if light else name]

    def on_yield(self, kind: str, *, brittle: bool = False, gamma: str = "") -> NDArray[np.float64]:
        """Divisor of a yield resistance of a metal of `kind`; gamma overrides which gM is meant.

        brittle: metals with elongation under 10 % or unknown, studs and stub axles: at least 1.67
        on the allowable basis whatever the severity.
        """
        if self.method == "allowable":
            found = self._columns["yield_factor"]
            return np.maximum(found, BRITTLE) if brittle else found
        if not gamma:
            gamma = "gamma_m1" if kind == "aluminium" else "gamma_m0"
        return self._gamma(gamma, kind)

    def on_ultimate(self) -> NDArray[np.float64]:
        """Divisor of an ultimate, weld or bolt resistance."""
        if self.method == "allowable":
            return self._columns["ultimate_factor"]
        return self._columns["gamma_m2"]

    def on_stability(self, kind: str) -> NDArray[np.float64]:
        """Divisor of a buckling resistance."""
        if self.method == "allowable":
            return self._columns["stability_factor"]
        return self._gamma("gamma_m1", kind)

    def buckling(self) -> NDArray[np.float64]:
        """The factor n on N in 1 / (1 - n N / Ncr): the buckling factor, or 1 (limit-state)."""
        if self.method == "allowable":
            return self._columns["stability_factor"]
        return self._columns["none"]


def factors_for(basis: "Basis", severities: tuple[str, ...]) -> Factors:
    """Factors of a basis for loads of these severities."""
    return Factors(method=basis.method, severities=severities, overrides=basis.factors)
