"""Which loads a case leaves out: laws of this program, so nothing outside to compare with."""

import pytest

from strength.case.model import Case, Load, Strike, Wheel
from strength.vehicle.missing import missing_kinds

WHEEL = Wheel(name="front.left", centre="hub.left", radius=250.0, braked=True)
POTHOLE = Load(name="pothole", strike=Strike(wheel="front.left", up=3.0, back=1.0))
KERB = Load(name="kerb", strike=Strike(wheel="front.left", up=1.5, inward=1.5))
ALL = (
    Load(name="bump", vertical=2.0),
    Load(name="stop", braking=5000.0),
    Load(name="bend", cornering=-3000.0),
    POTHOLE,
    KERB,
)


def test_a_case_with_all_kinds_misses_none() -> None:
    """Five loads, one of each kind."""
    assert missing_kinds(Case(title="t", wheels=(WHEEL,), loads=ALL)) == ()


@pytest.mark.parametrize("left_out", range(5))
def test_the_kind_left_out_is_named(left_out: int) -> None:
    """Leaving out one kind names that one, and no other."""
    loads = ALL[:left_out] + ALL[left_out + 1 :]
    word = ("bump", "stop", "bend", "pothole", "kerb")[left_out]
    (told,) = missing_kinds(Case(title="t", wheels=(WHEEL,), loads=loads))
    assert word in told


def test_a_bench_case_without_wheels_is_not_asked() -> None:
    """An arm on a bench has no road."""
    assert missing_kinds(Case(title="t", loads=(POTHOLE,))) == ()
