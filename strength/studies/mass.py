"""Mass of the structure: its members, centre to centre."""

import math
from collections.abc import Sequence

import numpy as np

from strength.case.model import Case, Member, Strut, Vector
from strength.case.shape import Bar, Bare, Box, Flat, Outline, Rigid, Shape, Tube
from strength.library.sizes import area


def structure_mass(case: Case, *, struts: bool = False) -> float:
    """Mass [kg] of all members by nominal sizes, joints and what they overlap left out.

    struts: those of a section counted too, as where one of them is what varies.
    """
    return structure_masses([case], struts=struts)[0]


def structure_masses(cases: Sequence[Case], *, struts: bool = False) -> list[float]:
    """The same of many cases; a part that several have in common is weighed once."""
    # by the numbers of its points and metals: where they are, and the mass of each part by its own
    known: dict[tuple[int, int], tuple[dict[str, Vector], dict[int, float]]] = {}
    found = []
    for case in cases:
        key = id(case.points), id(case.metals)
        if key not in known:
            known[key] = {point.name: point.at for point in case.points}, {}
        at, masses = known[key]
        total = 0.0
        parts: tuple[Member | Strut, ...] = (*case.members, *case.struts) if struts else case.members
        for part in parts:
            mass = masses.get(id(part))
            if mass is None:
                mass = masses[id(part)] = part_mass(case, part, at)
            total += mass
        found.append(total)
    return found


def part_mass(case: Case, part: Member | Strut, at: dict[str, Vector]) -> float:
    """Mass [kg] of one part; 0 for one without a section or a metal."""
    if part.shape is None or isinstance(part.shape, Rigid):
        return 0.0
    length = math.dist(at[part.start], at[part.end])
    return area_of(part.shape) * length * case.metals[part.material].density


def area_of(shape: Shape) -> float:
    """Area of a section [mm^2].

    >>> from strength.case.shape import Tube
    >>> round(area_of(Tube(25.0, 2.0)), 2)
    144.51
    """
    match shape:
        case Tube():
            return area("tube", (shape.od, shape.wall))
        case Bar():
            return area("bar", (shape.diameter,))
        case Flat():
            return shape.width * shape.thickness
        case Box():
            return area("box", (shape.depth, shape.width, shape.wall))
        case Bare():
            return shape.area
        case Outline():
            return _shoelace(shape.corners) - sum(_shoelace(hole) for hole in shape.holes)
        case _:
            return 0.0


def _shoelace(corners: tuple[tuple[float, float], ...]) -> float:
    y, z = np.array(corners).T
    return float(abs(np.dot(y, np.roll(z, -1)) - np.dot(z, np.roll(y, -1))) / 2.0)
