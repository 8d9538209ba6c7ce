"""ISO metric threads: dimensions, stress area and the areas that strip."""

import re
from functools import cache
from math import pi, sqrt

from strength.errors import UnknownNameError
from strength.library import data
from strength.values import field, frozen

_H = sqrt(3) / 2  # height of the fundamental triangle over the pitch
_FLANK = 1 / sqrt(3)  # tan 30 degrees
_MICROMETRE = 1e-3


@frozen(kw_only=True)
class Thread:
    """An ISO metric thread, tolerances 6g and 6H; mm, mm^2, torque in N*m by class.

    The basic diameters follow ISO 724, `root` (d3) and `stress_area` ISO 898-1, all unrounded.
    `major_min`, `pitch_min` are the bolt's least, `nut_pitch_max`, `nut_minor_max` the nut's greatest
    limits of ISO 965-1, which start from the basic diameters as ISO 724 prints them, to 0.001 mm.
    The hexagon is that of ISO 4014, `corners` at their least.
    """

    name: str
    diameter: float
    pitch: float
    major_min: float
    pitch_min: float
    nut_pitch_max: float
    nut_minor_max: float
    hole_fine: float  # ISO 273
    hole_medium: float
    flats: float
    corners: float
    torque: dict[str, float] = field(factory=dict)  # by class, friction 0.14, lightly oiled
    sources: tuple[str, ...] = ()
    sure: str = ""

    @property
    def pitch_diameter(self) -> float:
        """d2 = d - 3/4 H (ISO 724)."""
        return self.diameter - 0.75 * _H * self.pitch

    @property
    def root(self) -> float:
        """d3 = d - 17/12 H, H = sqrt(3)/2 P (ISO 68-1, ISO 898-1)."""
        return self.diameter - 17 / 12 * _H * self.pitch

    @property
    def minor(self) -> float:
        """D1 = d - 5/4 H, of the nut (ISO 724)."""
        return self.diameter - 1.25 * _H * self.pitch

    @property
    def shank_area(self) -> float:
        """Area of the plain shank."""
        return pi / 4 * self.diameter**2

    @property
    def root_area(self) -> float:
        """Area at the root diameter."""
        return pi / 4 * self.root**2

    @property
    def stress_area(self) -> float:
        """As = pi/4 ((d2 + d3)/2)^2 (ISO 898-1, nominal stress area)."""
        return pi / 4 * ((self.pitch_diameter + self.root) / 2) ** 2

    @property
    def strip_nut(self) -> float:
        """A_Sn [mm^2 per mm engaged]: shear area of the tapped metal's thread.

        pi ds_min [1/2 + tan 30 (ds_min - D2_max)/P] (FED-STD-H28/2, from memory).
        """
        return pi * self.major_min * (0.5 + _FLANK * (self.major_min - self.nut_pitch_max) / self.pitch)

    @property
    def strip_bolt(self) -> float:
        """A_Ss [mm^2 per mm engaged]: shear area of the bolt's thread.

        pi D1_max [1/2 + tan 30 (d2_min - D1_max)/P] (FED-STD-H28/2, from memory).
        """
        return pi * self.nut_minor_max * (0.5 + _FLANK * (self.pitch_min - self.nut_minor_max) / self.pitch)

    @property
    def head_mean(self) -> float:
        """dm: mean of the width across flats and across corners (EN 1993-1-8 1.4, symbols)."""
        return (self.flats + self.corners) / 2


def _nominal(size: str) -> float:
    """The diameter in a thread's name [mm]."""
    return float(size.removeprefix("M").partition("x")[0])


@cache
def thread(size: str) -> Thread:
    """The thread of a size as typed, "M10" or "M10x1.25".

    Raises UnknownNameError with the nearest sizes.
    """
    plain = size.replace(" ", "").replace("×", "x").replace("X", "x")
    known = data.index("thread")
    missing = plain not in known and size not in known
    if missing and (typed := re.fullmatch(r"[Mm](\d+(?:\.\d+)?).*", plain)):
        sizes = sorted(data.names("thread"), key=lambda one: abs(_nominal(one) - float(typed[1])))
        raise UnknownNameError("thread", size, sizes[:4])
    name, table = data.read("thread", plain if plain in known else size)
    diameter, pitch = float(table["diameter"]), float(table["pitch"])
    _, fit = data.read("pitch", f"{table['pitch']:g}")
    band = next(one for one in fit["pitch_diameter"] if one["over"] < diameter <= one["up_to"])
    allowance = fit["allowance"] * _MICROMETRE
    pitch_diameter = round(diameter - 0.75 * _H * pitch, 3)
    minor = round(diameter - 1.25 * _H * pitch, 3)
    return Thread(
        name=name,
        diameter=diameter,
        pitch=pitch,
        major_min=diameter - allowance - fit["major"] * _MICROMETRE,
        pitch_min=pitch_diameter - allowance - band["bolt"] * _MICROMETRE,
        nut_pitch_max=pitch_diameter + band["nut"] * _MICROMETRE,
        nut_minor_max=minor + fit["minor"] * _MICROMETRE,
        hole_fine=float(table["hole_fine"]),
        hole_medium=float(table["hole_medium"]),
        flats=float(table["flats"]),
        corners=float(table["corners"]),
        torque={grade: float(value) for grade, value in table.get("torque", {}).items()},
        sources=tuple(table["sources"]),
        sure=table["sure"],
    )


def thread_names() -> tuple[str, ...]:
    """All sizes, coarse and fine."""
    return data.names("thread")
