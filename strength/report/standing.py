"""How a check stands against its limit, and the exit code that follows."""

from collections.abc import Iterable
from enum import Enum

from strength.checks.verdict import Row

THIN = 0.25  # own choice: a margin below this is called thin
ROUNDING = 1e-9  # a part sized to exactly its limit is not over it
LEAST_THIN = 1.0 / (1.0 + THIN - ROUNDING)  # utilisation from which a margin is thin


class Standing(Enum):
    """From the worst to the best; the value is the mark that stands beside a figure."""

    OVER = "!"
    RANGE = "?"
    THIN = "~"
    WITHIN = " "


def standing(row: Row) -> Standing:
    """Standing of one row; over the limit comes before out of range, and that before thin."""
    if is_over(row):
        return Standing.OVER
    if not row.in_range:
        return Standing.RANGE
    return Standing.THIN if is_thin(row) else Standing.WITHIN


def is_over(row: Row) -> bool:
    """More is asked than the limit allows; a figure that is not a number counts as over."""
    return not row.utilisation <= 1.0 + ROUNDING


def is_thin(row: Row) -> bool:
    """Within the limit, but by less than a quarter."""
    return LEAST_THIN < row.utilisation <= 1.0 + ROUNDING


def exit_code(rows: Iterable[Row]) -> int:
    """1: something is over its limit; 3: not, but a row is out of range or there is none; 0: neither."""
    found = tuple(rows)
    if any(is_over(row) for row in found):
        return 1
    return 0 if found and all(row.in_range for row in found) else 3
