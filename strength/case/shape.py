"""Cross-sections as a user names them: data only; `strength.sections` computes with them.

Depth and z_m lie along the member's `up`, width and y_m across it. Lengths in mm.
"""

from typing import Literal

import attrs


@attrs.frozen
class Tube:
    """Round tube: outside diameter and wall [mm]."""

    od: float
    wall: float


@attrs.frozen
class Bar:
    """Round solid bar: diameter [mm]."""

    diameter: float


@attrs.frozen
class Box:
    """Square or rectangular hollow section: depth along `up`, width across, wall [mm]."""

    depth: float
    width: float
    wall: float


@attrs.frozen
class Flat:
    """Flat bar or plate: width along `up`, thickness across [mm]."""

    width: float
    thickness: float


@attrs.frozen
class Rigid:
    """Joins two middle planes without deforming; no checks."""


@attrs.frozen
class Outline:
    """Any outline with holes: corners (y_m, z_m) [mm]; `drawn`: the drawing it came from, if any."""

    corners: tuple[tuple[float, float], ...]
    holes: tuple[tuple[tuple[float, float], ...], ...] = ()
    drawn: str = attrs.field(default="", eq=False)


@attrs.frozen
class Bare:
    """Properties out of a table: area [mm^2], second moments and torsion constant [mm^4]."""

    area: float
    iy: float
    iz: float
    torsion: float


Shape = Tube | Bar | Box | Flat | Rigid | Outline | Bare
End = Literal["from", "to"]
