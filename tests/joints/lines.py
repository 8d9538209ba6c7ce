"""Weld lines drawn straight from numbers, for tests."""

import numpy as np
from numpy.typing import NDArray

from strength.joints.outline import pattern
from strength.joints.pieces import stacked as stacked_pieces
from strength.joints.pieces import straight
from strength.joints.saddle import Cylinder
from strength.joints.saddle import stacked as stacked_cylinders
from strength.joints.weld_line import WeldLine, measured
from tests.joints.bench import weld

Array = NDArray[np.float64]


def line(*lines: tuple[float, float, float, float]) -> WeldLine:
    """A line of straight pieces, each y1 z1 y2 z2 [mm]."""
    return measured(straight(np.array(lines, dtype=float)[None]))


def round_line(diameter: float) -> WeldLine:
    """All round a tube."""
    return around("Tube", diameter, diameter)


def around(kind: str, depth: float, width: float, wall: float = 2.0) -> WeldLine:
    """All round a section."""
    return measured(outline(kind, depth, width, wall))


def outline(kind: str, depth: float, width: float, wall: float = 2.0):
    """Pieces all round a section."""
    from strength.case import shape

    form = {
        "Tube": shape.Tube(depth, wall),
        "Bar": shape.Bar(depth),
        "Box": shape.Box(depth, width, wall),
        "Flat": shape.Flat(depth, width),
    }[kind]
    return pattern(weld(), form, np.array([depth]), np.array([width]), np.array([wall]))


def saddle(diameter: float, host: float, degrees: float, turn: float = 0.3, aside: float = 0.0) -> WeldLine:
    """A tube on a tube whose axis passes `aside` of it at `degrees`, turned about the member."""
    import attrs

    angle = np.radians(degrees)
    across = np.array([0.0, -np.sin(turn), np.cos(turn)])
    cylinder = Cylinder(
        through=(np.array([-7.0, 0.0, 0.0]) + aside * across)[None],
        direction=np.array([[np.cos(angle), np.sin(angle) * np.cos(turn), np.sin(angle) * np.sin(turn)]]),
        radius=np.array([host / 2.0]),
        into=np.array([1.0]),
    )
    pieces = outline("Tube", diameter, diameter)
    return measured(attrs.evolve(pieces, first=np.array([cylinder.turned])), cylinder)


def together(*lines: WeldLine) -> WeldLine:
    """Rows behind one another."""
    hosts = tuple(one.cylinder for one in lines if one.cylinder is not None)
    pieces = stacked_pieces(tuple(one.pieces for one in lines), 1)
    if not hosts:
        return measured(pieces)
    cylinder = stacked_cylinders(hosts, 1)
    return measured(pieces, cylinder, cylinder.reach(pieces))
