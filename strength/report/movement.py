"""How the wheels move: the greatest of each wheel over all loads."""

import math
from typing import TYPE_CHECKING

from strength.report.display import degrees
from strength.report.document import Cell, Column, Grid, Section, plain
from strength.report.load_words import MIDDLE, directed, side_of_wheel
from strength.report.view import View

if TYPE_CHECKING:
    from strength.run import Moved

# Senses of a positive and a negative angle: of a wheel on one side, and of one in the middle plane.
TOED, STEERED = ("toe-in", "toe-out"), ("to the right", "to the left")
LEANT, TILTED = ("top outward", "top inward"), ("top to the left", "top to the right")
LEAD = "Structure only: tyres and play in the joints come on top."
FREE = "Measured against the vehicle's masses as a whole, as nothing holds it."


def movement(view: View) -> Section | None:
    """Per wheel: its greatest movement, toe and camber, each with its load; all loads on request."""
    moved = view.outcome.movement
    if not moved:
        return None
    names = list(dict.fromkeys(wheel.name for wheel in moved))
    columns = (
        Column("wheel", share=3),
        Column(f"its centre moves ({view.display.length_unit})", share=5),
        Column("toe", share=4),
        Column("camber", share=4),
    )
    if view.everything:
        rows = tuple(_row(view, wheel, wheel, wheel) for wheel in moved)
    else:
        rows = tuple(_greatest(view, [wheel for wheel in moved if wheel.name == name]) for name in names)
    return Section(
        title="How the wheels move",
        lead=(LEAD if view.outcome.case.supports else f"{LEAD} {FREE}",),
        body=(Grid(columns=columns, rows=rows),),
    )


def _greatest(view: View, moved: "list[Moved]") -> tuple[Cell, ...]:
    """The loads in which one wheel moves, steers and tilts most."""
    return _row(
        view,
        max(moved, key=lambda wheel: math.hypot(*wheel.moved)),
        max(moved, key=lambda wheel: abs(wheel.toe)),
        max(moved, key=lambda wheel: abs(wheel.camber)),
    )


def _row(view: View, far: "Moved", toe: "Moved", camber: "Moved") -> tuple[Cell, ...]:
    """One wheel."""
    words = view.folded.load_words
    middle = abs(side_of_wheel(view.outcome.case, far.name)) <= MIDDLE
    return (
        Cell(plain(far.name)),
        Cell(directed(far.moved, view.display.length, ""), words(far.load)),
        _turned(toe.toe, STEERED if middle else TOED, words(toe.load)),
        _turned(camber.camber, TILTED if middle else LEANT, words(camber.load)),
    )


def _turned(angle: float, senses: tuple[str, str], load: str) -> Cell:
    """An angle with the sense it turns in."""
    if abs(angle) < math.radians(0.005):
        return Cell("none")
    return Cell(f"{degrees(abs(angle))} {senses[0] if angle > 0.0 else senses[1]}", load)
