"""How wheels move, in words: senses of angles, and which load."""

import math

import attrs

from strength.report.movement import movement
from strength.report.view import look
from strength.run import Moved
from tests.report.outcomes import case, outcome, rows


def cells(*moved: Moved, everything: bool = False) -> list[tuple[str, ...]]:
    """Texts of the table, each with its line below."""
    section = movement(look(outcome(movement=moved, rows=rows()), everything=everything))
    assert section is not None
    return [tuple(f"{cell.text}|{cell.below}" for cell in row) for row in section.body[0].rows]


def moved(name: str, load: str, toe: float, camber: float) -> Moved:
    """A wheel that moves 2 mm up."""
    turned, tilted = math.radians(toe), math.radians(camber)
    return Moved(name=name, load=load, moved=(0.0, 0.0, 2.0), toe=turned, camber=tilted)


def test_a_wheel_in_the_middle_has_no_inside() -> None:
    """The record has toe = -t_z and camber = -t_x at y = 0: steering right turns t_z negative.

    The right-hand rule: a rotation about -z carries the front of the wheel to the right, one about -x its
    top to the left.
    """
    (middle,) = cells(moved("rear", "standing", 0.3, 0.2))
    assert middle[2:] == ("0.30° to the right|load 1", "0.20° top to the left|load 1")
    (left,) = cells(moved("front.left", "standing", 0.3, -0.2))
    assert left[2:] == ("0.30° toe-in|load 1", "0.20° top inward|load 1")


def test_mirrored_loads_are_told_apart() -> None:
    """Two turns that share a number are told with their side; a load of its own is not."""
    found = cells(
        moved("front.left", "bend, left turn", 0.1, 0.0),
        moved("front.left", "bend, right turn", 0.4, 0.0),
        moved("front.left", "standing", 0.2, 0.0),
        everything=True,
    )
    assert [row[2] for row in found] == [
        "0.10° toe-in|load 3, left turn",
        "0.40° toe-in|load 3, right turn",
        "0.20° toe-in|load 1",
    ]


def test_free_vehicles_say_what_is_measured_against() -> None:
    """Without supports displacements are relative to the masses; on a bench they are not."""
    bench = outcome()
    free = attrs.evolve(bench, case=attrs.evolve(case(), supports=()))
    leads = [movement(look(given)) for given in (bench, free)]
    assert [lead is not None and "masses as a whole" in lead.lead[0] for lead in leads] == [False, True]
