"""What the sections of a summary are made from."""

from typing import TYPE_CHECKING

from strength.report.display import Display
from strength.report.sides import Folded, fold
from strength.values import frozen

if TYPE_CHECKING:
    from strength.run import Outcome

PLAIN_LOADS = 8  # load columns that fit beside the part's name at 80 characters


@frozen(kw_only=True, eq=False)
class View:
    """An outcome and how to show it.

    everything: all parts and all loads, not only the worst. load_columns: how many loads stand
    side by side. wide: there is room for a column more. case_path: what the user typed.
    commands: those this program has.
    """

    outcome: "Outcome"
    folded: Folded
    display: Display
    everything: bool
    load_columns: int
    wide: bool
    case_path: str
    commands: frozenset[str]


def look(
    outcome: "Outcome",
    *,
    case_path: str = "CASE",
    commands: frozenset[str] = frozenset(),
    everything: bool = False,
    load_columns: int = PLAIN_LOADS,
    wide: bool = False,
) -> View:
    """A view of an outcome in the units its case asks for."""
    return View(
        outcome=outcome,
        folded=fold(outcome.case, [load.name for load in outcome.loads], outcome.rows),
        display=Display(outcome.case.units),
        everything=everything,
        load_columns=load_columns,
        wide=wide,
        case_path=case_path,
        commands=commands,
    )
