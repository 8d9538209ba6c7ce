"""Random vehicles that stand: no two numbers alike, three to six wheels, one to three masses."""

import math

import attrs
from hypothesis import strategies as st

from strength.case.model import Case, Load
from tests.vehicle.build import G, mass, vehicle, wheel

_SPOTS = ((1310.0, 420.0), (1270.0, -455.0), (-60.0, 35.0), (-390.0, -380.0), (410.0, 505.0), (-820.0, 290.0))


def _near(value: float, by: float) -> st.SearchStrategy[float]:
    return st.floats(value - by, value + by)


@st.composite
def vehicles(draw: st.DrawFn, *, leaning: bool = True, towed: bool = False) -> Case:
    """A case with one load; the masses stand within the first three contacts."""
    count = draw(st.integers(3, 6))
    spots = [(draw(_near(x, 70.0)), draw(_near(y, 30.0))) for x, y in _SPOTS[:count]]
    grips = [draw(st.floats(0.3, 1.2)) for _ in spots]
    wheels = [
        wheel(
            f"w{n}", x, y, radius=240.0 + 7 * n, level=-12.5, grip=grips[n], braked=n in (0, 1), driven=n == 2
        )
        for n, (x, y) in enumerate(spots)
    ]
    masses = []
    for n in range(draw(st.integers(1, 3))):
        shares = [draw(st.floats(0.15, 1.0)) for _ in range(3)]
        x = sum(s * p[0] for s, p in zip(shares, spots, strict=False)) / sum(shares)
        y = sum(s * p[1] for s, p in zip(shares, spots, strict=False)) / sum(shares)
        masses.append(mass(f"m{n}", draw(st.floats(5.0, 150.0)), (x, y, draw(st.floats(250.0, 900.0)))))
    along = draw(st.sampled_from(("braking", "driving", "none")))
    load = Load(
        name="any",
        vertical=draw(st.floats(0.4, 3.0)),
        cornering=draw(st.one_of(st.just(0.0), st.floats(0.05, 1.6)))
        * draw(st.sampled_from((-1.0, 1.0)))
        * G,
    )
    if along != "none":
        load = attrs.evolve(load, **{along: draw(st.floats(0.02, 1.3)) * G})
    greatest = draw(st.floats(0.1, math.radians(50.0))) if leaning and draw(st.booleans()) else 0.0
    tow = (draw(_near(2300.0, 200.0)), draw(_near(60.0, 40.0)), draw(_near(340.0, 90.0))) if towed else None
    return vehicle(wheels, masses, [load], leaning=greatest, tow=tow)
