"""Shoulder screws and rod ends."""

from math import pi
from typing import Any

from strength.library import data
from strength.values import frozen


@frozen(kw_only=True)
class ShoulderScrew:
    """A shoulder screw of class 12.9; mm, MPa, seating torque in N*m.

    `ultimate` acts on the neck above the thread, `shear` on the shoulder. The neck carries the pull.
    """

    name: str
    shoulder: float
    thread: str
    f9_max: float
    f9_min: float
    h8_min: float
    thread_length: float
    head_diameter: float
    head_height: float
    key: float
    neck: float
    torque: float
    ultimate: float
    shear: float
    source: str = ""
    sure: str = ""

    @property
    def neck_area(self) -> float:
        """Area of the neck [mm^2]."""
        return pi / 4 * self.neck**2

    @property
    def shoulder_area(self) -> float:
        """Area of the shoulder at its nominal diameter [mm^2]."""
        return pi / 4 * self.shoulder**2


@frozen(kw_only=True)
class RodEndRating:
    """Static ratings [N] of a rod end, to be used until the maker's are known."""

    size: str
    radial: float
    axial: float
    source: str = ""
    sure: str = ""
    note: str = ""


def shoulder_screw(size: str | float) -> ShoulderScrew:
    """The shoulder screw of a shoulder diameter [mm] or of a text such as "shoulder 10 mm".

    Raises UnknownNameError with the nearest sizes.
    """
    text = f"shoulder {size:g}" if isinstance(size, (int, float)) else size.removesuffix("mm").strip()
    name, table = data.read("shoulder", text, word="shoulder screw")
    given: dict[str, Any] = {
        key: float(value) if isinstance(value, int) else value for key, value in table.items()
    }
    return ShoulderScrew(name=name, **given)


def shoulder_screw_names() -> tuple[str, ...]:
    """All shoulder screws."""
    return data.names("shoulder")


def rod_end_rating(size: str) -> RodEndRating:
    """Cautious ratings for a rod end of a thread size ("M10", "M10x1.25": as the coarse thread).

    Raises UnknownNameError with the nearest sizes.
    """
    name, table = data.read("rod_end", _coarse(size), word="rod end")
    return RodEndRating(
        size=name,
        radial=float(table["radial"]),
        axial=float(table["axial"]),
        source=table["source"],
        sure=table["sure"],
        note=table.get("note", ""),
    )


def is_rated(size: str) -> bool:
    """Whether there is a rating for a rod end of a thread size, written as for `rod_end_rating`."""
    return _coarse(size) in data.index("rod_end")


def _coarse(size: str) -> str:
    return size.split("x", maxsplit=1)[0].strip()


def rod_end_names() -> tuple[str, ...]:
    """All sizes with a rating."""
    return data.names("rod_end")
