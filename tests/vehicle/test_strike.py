"""A knock on one wheel: multiples of its standing load, which levers give."""

import pytest

from strength.case.model import Load, Strike
from strength.vehicle import balance
from tests.vehicle.build import G, tadpole

WEIGHT = 130.0 * 9.80665
FRONT = WEIGHT * 790.0 / 1240.0
LEFT = FRONT / 2 + WEIGHT * 18.0 / 830.0  # mass centre 18 mm left of the middle
GEOMETRY = {"kg": 130.0, "wheelbase": 1240.0, "ahead": 790.0, "height": 560.0, "track": 830.0, "side": 18.0}


@pytest.mark.parametrize(
    ("side", "standing", "inward"), [("front.left", LEFT, -1.0), ("front.right", FRONT - LEFT, 1.0)]
)
def test_struck_front_wheel(side: str, standing: float, inward: float) -> None:
    """N0 (-back, toward the middle inward, up); the others keep the load's own forces (here a bump)."""
    strike = Strike(wheel=side, up=2.5, back=0.75, inward=0.4)
    loads = [Load(name="kerb", vertical=1.6, strike=strike), Load(name="bump", vertical=1.6)]
    struck, plain = balance(tadpole(**GEOMETRY, loads=loads))
    for got, other in zip(struck.wheels, plain.wheels, strict=True):
        if got.name == side:
            want = (-0.75 * standing, inward * 0.4 * standing, 2.5 * standing)
            assert got.force == pytest.approx(want, rel=1e-12)
        else:
            assert got == other


def test_the_measure_is_the_standing_load() -> None:
    """Braking, a bump and wheels off the ground change the others, not the struck wheel's measure."""
    strike = Strike(wheel="rear", up=3.0)
    case = tadpole(**GEOMETRY, loads=[Load(name="hole", vertical=1.3, braking=0.3 * G, strike=strike)])
    (load,) = balance(case)
    assert load.wheels[2].force == pytest.approx((0.0, 0.0, 3.0 * (WEIGHT - FRONT)), rel=1e-12)
    assert load.wheels[0].force[0] < 0.0


def test_a_wheel_in_the_middle_can_be_struck_from_ahead() -> None:
    """The rear wheel has no inward side, but back and up."""
    strike = Strike(wheel="rear", up=2.0, back=0.5)
    (load,) = balance(tadpole(**GEOMETRY, loads=[Load(name="hole", strike=strike)]))
    rear = WEIGHT - FRONT
    assert load.wheels[2].force == pytest.approx((-0.5 * rear, 0.0, 2.0 * rear), rel=1e-12)
