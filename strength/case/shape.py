"""Cross-sections as a user names them: data only; `strength.sections` computes with them.

Depth and z_m lie along the member's `up`, width and y_m across it. Lengths in mm.
"""

from typing import Literal

from strength.values import field, frozen


@frozen
class Tube:
    """Round tube: outside diameter and wall [mm]."""

    od: float
    wall: float


@frozen
class Bar:
    """Round solid bar: diameter [mm]."""

    diameter: float


@frozen
class Box:
    """Square or rectangular hollow section: depth along `up`, width across, wall [mm]."""

    depth: float
    width: float
    wall: float


@frozen
class Flat:
    """Flat bar or plate: width along `up`, thickness across [mm]."""

    width: float
    thickness: float


@frozen
class Rigid:
    """Joins two middle planes without deforming; no checks."""


@frozen
class Outline:
    """Any outline with holes: corners (y_m, z_m) [mm]; `drawn`: the drawing it came from, if any."""

    corners: tuple[tuple[float, float], ...]
    holes: tuple[tuple[tuple[float, float], ...], ...] = ()
    drawn: str = field(default="", eq=False)


@frozen
class Bare:
    """Properties out of a table: area [mm^2], second moments and torsion constant [mm^4]."""

    area: float
    iy: float
    iz: float
    torsion: float


Shape = Tube | Bar | Box | Flat | Rigid | Outline | Bare
End = Literal["from", "to"]
