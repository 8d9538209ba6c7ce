"""How much thinner than its nominal size a tube's wall may be."""

from typing import TYPE_CHECKING, Any

from strength.library import data
from strength.values import frozen

if TYPE_CHECKING:
    from strength.library.metal import Metal

_STEP = 1e-6  # mm, so that a wall converted from inches falls on the right side of a limit


@frozen(kw_only=True)
class WallTolerance:
    """The wall may be `minus` [mm] thinner than nominal by the standard `rule`."""

    minus: float
    rule: str
    source: str = ""
    sure: str = ""
    note: str = ""


def wall_tolerance(metal: "Metal | None", wall: float) -> WallTolerance:
    """Minus tolerance of a tube's or box's wall [mm] by the standard its metal is sold to.

    A metal without such a standard, or none: 10 % of the wall (own choice).
    """
    rule = (metal.wall_rule if metal is not None else "") or "unknown"
    _, table = data.read("wall", rule, word="wall tolerance")
    row = next(one for one in table["rows"] if _holds(one, wall))
    minus = max(row["percent"] / 100 * wall, row["least"])
    return WallTolerance(
        minus=min(minus, row.get("most", minus)),
        rule=rule,
        source=table["source"],
        sure=table["sure"],
        note=table.get("note", ""),
    )


def wall_rules() -> tuple[str, ...]:
    """Names of all rules."""
    return data.names("wall")


def _holds(row: dict[str, Any], wall: float) -> bool:
    return bool(row.get("from", 0.0) - _STEP < wall <= row.get("up_to", float("inf")) + _STEP)
