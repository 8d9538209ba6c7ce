"""Cases whose checks are worked out by hand in tests."""

from functools import lru_cache
from pathlib import Path

from strength.case import read_case
from strength.run import Outcome, run

ROOT = Path(__file__).parents[3]
PATHS = sorted([*ROOT.glob("cases/*/case.toml"), *ROOT.glob("tests/second_way/cases/*.toml")])


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
