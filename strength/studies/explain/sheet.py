"""The sheet of paper on which a check is worked out."""

from collections.abc import Iterable, Mapping, Sequence

import attrs

from strength.checks.verdict import Row
from strength.studies.explain.formula import is_plain, total, value_of
from strength.studies.explain.table import Column, Table, tabled

CLOSE = 1e-6  # relative: what is worked out here against the row
CLOSE_STRESS = 2e-3  # where the worst place of a section was searched for


@attrs.frozen(kw_only=True)
class Given:
    """A number that goes in: in mm, N, N*mm, MPa, rad; `dimension` says of what, "1": of nothing."""

    symbol: str
    value: float
    dimension: str
    what: str
    origin: str


@attrs.frozen(kw_only=True)
class Step:
    """A number worked out from those before it."""

    symbol: str
    formula: str
    value: float
    dimension: str
    what: str


@attrs.frozen(kw_only=True)
class Said:
    """A remark between the steps."""

    text: str


Line = Given | Step | Said | Table


@attrs.frozen(kw_only=True)
class Explained:
    """A row, worked out again; demand, limit and utilisation are this sheet's own.

    close: how near they must come to the row's, relative. units: what the case shows.
    """

    row: Row
    asks: str
    lines: tuple[Line, ...]
    demand: float
    limit: float
    utilisation: float
    close: float
    units: str
    noun: str

    @property
    def off(self) -> float:
        """The greatest relative difference from the row."""
        pairs = (
            (self.demand, self.row.demand),
            (self.limit, self.row.limit),
            (self.utilisation, self.row.utilisation),
        )
        scale = max(self.row.limit, 1e-12)
        floors = (1e-9 * scale, 0.0, 1e-9)
        return max(
            abs(own - told) / max(abs(told), floor, 1e-300) if abs(own - told) > floor else 0.0
            for (own, told), floor in zip(pairs, floors, strict=True)
        )

    @property
    def agrees(self) -> bool:
        """Whether it comes to the row's figures."""
        return self.off <= self.close


@attrs.frozen(kw_only=True)
class Told:
    """What a kind's explanation says: what is asked, and the symbols of demand and limit ("": 1)."""

    asks: str
    demand: str
    limit: str = ""
    close: float = CLOSE


class Sheet:
    """Numbers and steps in order, worked out as they are written down."""

    def __init__(self) -> None:
        self._lines: list[Line] = []
        self._values: dict[str, float] = {}

    @property
    def lines(self) -> tuple[Line, ...]:
        """All lines so far."""
        return tuple(self._lines)

    def __getitem__(self, symbol: str) -> float:
        """Value of a symbol."""
        return self._values[symbol]

    def __contains__(self, symbol: str) -> bool:
        return symbol in self._values

    def given(self, symbol: str, value: float, dimension: str, what: str, origin: str) -> float:
        """Write a number down with where it comes from."""
        value = float(value) + 0.0
        self._lines.append(Given(symbol=symbol, value=value, dimension=dimension, what=what, origin=origin))
        return self._kept(symbol, value)

    def step(self, symbol: str, formula: str, dimension: str, what: str) -> float:
        """Work a number out."""
        value = value_of(formula, self._values)
        self._lines.append(Step(symbol=symbol, formula=formula, value=value, dimension=dimension, what=what))
        return self._kept(symbol, value)

    def say(self, text: str) -> None:
        """Write a remark."""
        self._lines.append(Said(text=text))

    def table(
        self,
        what: str,
        origin: str,
        columns: Sequence[Column],
        given: Mapping[str, Sequence[float]],
        per: int,
    ) -> None:
        """Work a table out; what is gathered of its columns is known from then on."""
        found = tabled(what, origin, columns, given, self._values, per)
        self._lines.append(found)
        for symbol, value in found.wholes.items():
            self._kept(symbol, value)

    def turned(
        self,
        symbol: str,
        direction: Iterable[float],
        name: str,
        parts: Sequence[str],
        dimension: str,
        what: str,
        origin: str,
    ) -> float:
        """The part of a vector along a direction, its cosines written down where they are not 0 or 1."""
        cosines = [float(cosine) for cosine in direction]
        names = [f"{name}_{axis}" for axis in "xyz"]
        for axis, cosine, own in zip("xyz", cosines, names, strict=True):
            if not is_plain(cosine) and own not in self._values:
                self.given(own, cosine, "1", f"direction {name}: its part along {axis} of the part", origin)
        formula = total(*zip(cosines, names, parts, strict=True))
        return self.step(symbol, formula, dimension, what)

    def _kept(self, symbol: str, value: float) -> float:
        if symbol in self._values:
            raise KeyError(f"{symbol} is written down twice")
        self._values[symbol] = value
        return value
