"""Small vehicles for the tests: wheels by contact, masses by place, one line each."""

import numpy as np
from numpy.typing import NDArray

from strength.case.model import Case, Load, Mass, Point, Tow, Wheel

Array = NDArray[np.float64]
Triple = tuple[float, float, float]

G = 9806.65  # mm/s^2, standard gravity


def point(name: str, x: float, y: float, z: float) -> Point:
    """A point by coordinates [mm]."""
    return Point(name=name, at=(x, y, z))


def wheel(
    name: str, x: float, y: float, *, radius: float = 250.0, level: float = 0.0, **keys: object
) -> tuple[Wheel, Point]:
    """A wheel whose contact is (x, y, level), with its centre point `<name>-hub`."""
    made = Wheel(name=name, centre=f"{name}-hub", radius=radius, **keys)
    return made, point(f"{name}-hub", x, y, level + radius)


def mass(name: str, kg: float, at: Triple, **keys: object) -> Mass:
    """A mass at a place."""
    return Mass(name=name, mass=kg, at=at, **keys)


def vehicle(
    wheels: list[tuple[Wheel, Point]],
    masses: list[Mass],
    loads: list[Load] | None = None,
    *,
    points: tuple[Point, ...] = (),
    tow: Triple | None = None,
    **keys: object,
) -> Case:
    """A case of wheels, masses and loads; a hitch `eye` at `tow`."""
    extra = points if tow is None else (*points, point("eye", *tow))
    return Case(
        title="test vehicle",
        wheels=tuple(w for w, _ in wheels),
        points=(*(p for _, p in wheels), *extra),
        masses=tuple(masses),
        loads=tuple(loads or [Load(name="standing")]),
        tows=() if tow is None else (Tow(name="eye", at="eye"),),
        **keys,
    )


def tadpole(
    *,
    track: float,
    wheelbase: float,
    ahead: float,
    height: float,
    kg: float,
    side: float = 0.0,
    **keys: object,
) -> Case:
    """Two wheels in front, one behind; mass centre `ahead` of the rear axle. Rear contact at x = 35 mm."""
    braked = keys.pop("braked", ("front.left", "front.right"))
    wheels = [
        wheel(name, x, y, braked=name in braked)
        for name, x, y in (
            ("front.left", 35.0 + wheelbase, track / 2),
            ("front.right", 35.0 + wheelbase, -track / 2),
            ("rear", 35.0, 0.0),
        )
    ]
    return vehicle(wheels, [mass("all", kg, (35.0 + ahead, side, height))], **keys)
