"""Cases whose checks are worked out by hand in tests."""

import math
from collections import ChainMap
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from types import CodeType

from strength.case import read_case
from strength.report.hand_units import HandUnits, figures
from strength.run import Outcome, run
from strength.studies.explain.sheet import Explained, Given, Step
from strength.studies.explain.table import Table

ROOT = Path(__file__).parents[3]
OWN = sorted(Path(__file__).parent.glob("cases/*.toml"))
PATHS = sorted([*ROOT.glob("cases/*/case.toml"), *ROOT.glob("tests/second_way/cases/*.toml"), *OWN])
CALCULATOR = {
    name: getattr(math, name) for name in ("sqrt", "hypot", "exp", "sin", "cos", "tan", "pi", "atan2")
}
CALCULATOR |= {"abs": abs, "min": min, "max": max}


def named(path: Path) -> str:
    """A short name of a case file."""
    return path.parent.name if path.name == "case.toml" else path.stem


@lru_cache(maxsize=1)
def outcome_of(path: Path) -> Outcome:
    """The outcome of a case file."""
    return run(read_case(path))


def worst_rows(outcome: Outcome) -> list:
    """The worst row of each part and kind."""
    found = {}
    for row in outcome.rows:
        found.setdefault((row.part, row.kind), row)
    return list(found.values())


def rounded(value: float) -> float:
    """A number as it is printed."""
    return float(figures(value))


@lru_cache(maxsize=512)
def readable(formula: str) -> CodeType:
    """A formula as Python has it."""
    return compile(formula.replace("^", "**"), formula, "eval")


def computed(formula: str, known: Mapping[str, float]) -> float:
    """A formula by Python's own arithmetic."""
    return eval(readable(formula), {}, ChainMap(known, CALCULATOR))  # noqa: S307


def recalculated(found: Explained, units: HandUnits) -> dict[str, float]:
    """All numbers, each worked out by Python's own arithmetic from the printed ones before it."""
    known: dict[str, float] = {}
    for line in found.lines:
        if isinstance(line, Given):
            shown = units.number(line.value, line.dimension)
            known[line.symbol] = math.radians(float(shown[:-4])) if shown.endswith(" deg") else float(shown)
        elif isinstance(line, Step):
            known[line.symbol] = rounded(computed(line.formula, known))
        elif isinstance(line, Table):
            known |= gathered(line, known, units)
    return known


def gathered(table: Table, known: dict[str, float], units: HandUnits) -> dict[str, float]:
    """Sums and least ones of a table, every piece worked out again from printed digits."""
    found: dict[str, float] = {}
    pieces: list[dict[str, float]] = [{} for _ in table.rows]
    for n, column in enumerate(table.columns):
        for piece, row in zip(pieces, table.rows, strict=True):
            if column.formula:
                piece[column.symbol] = rounded(computed(column.formula, ChainMap(piece, found, known)))
            else:
                piece[column.symbol] = float(units.number(row[n], column.dimension))
        every = [piece[column.symbol] for piece in pieces]
        if column.gathered:
            found[column.whole] = rounded({"sum": math.fsum, "least": min}[column.gathered](every))
    return found
