"""Words on the load sheet: this program's own."""

import math

import attrs
import pytest

from strength.case.model import HandForce, Load, Strike
from strength.vehicle import balance
from strength.vehicle.sheet import Limit
from strength.vehicle.wording import limit_words, load_words
from tests.vehicle.build import G, tadpole

GEOMETRY = {"kg": 130.0, "wheelbase": 1240.0, "ahead": 790.0, "height": 460.0, "track": 900.0}


@pytest.mark.parametrize(
    ("load", "want"),
    [
        (Load(name="standing"), "standing: standing still"),
        (
            Load(name="hard stop in a bend, left turn", braking=0.5 * G, cornering=0.3 * G),
            "hard stop in a bend, left turn: braking 0.5 g, cornering 0.3 g, leaning 16.7 deg",
        ),
        (Load(name="bump", vertical=2.5), "bump: 2.5 x the weight"),
        (
            Load(name="kerb", strike=Strike(wheel="front.left", up=1.5, inward=1.25)),
            "kerb: front.left struck 1.5 up, 1.25 inward x its standing load",
        ),
        (
            Load(name="pull", forces=(HandForce(at="tip"), HandForce(at="tip"), HandForce(at="rack"))),
            "pull: by hand at tip, rack",
        ),
    ],
)
def test_load_in_words(load: Load, want: str) -> None:
    """One line a builder reads."""
    case = tadpole(**GEOMETRY, loads=[load], leaning=math.radians(25.0))
    assert load_words(load, balance(case)[0]) == want


def test_a_load_held_where_it_tips() -> None:
    """Asked 1.25 g, tips at (450 x 790/1240)/460 = 0.623 g: 49.9 %."""
    load = Load(name="bend", cornering=-1.25 * G)
    words = load_words(load, balance(tadpole(**GEOMETRY, loads=[load]))[0])
    assert words == "bend: cornering 0.623 g, held at 49.9 % of what was asked, where it tips"


def test_wheels_off_the_ground() -> None:
    """Named."""
    base = balance(tadpole(**GEOMETRY))[0]
    words = load_words(Load(name="jack", off_ground=("rear", "front.left")), attrs.evolve(base, name="jack"))
    assert words == "jack: off the ground: rear, front.left"


@pytest.mark.parametrize(
    ("limit", "want"),
    [
        (
            Limit(
                what="brake", with_payload=False, tips_at=0.4821, slides_at=0.8, governs="tips",
                speed=(("5 m", 5.0), ("10 m", None)),
            ),
            "brake, without payload: tips at 0.48 g, slides at 0.80 g, so it tips first; 18 km/h on 5 m",
        ),
        (
            Limit(what="brake", with_payload=True, slides_at=0.66, governs="slides"),
            "brake: does not tip, slides at 0.66 g, so it slides first",
        ),
        (Limit(what="brake", with_payload=True), "brake: neither tips nor slides within 6 g"),
        (
            Limit(what="side slope left", with_payload=True, angle=math.radians(21.27), governs="tips"),
            "side slope left (left side low): stands up to 21.3 deg, then tips",
        ),
        (
            Limit(what="side slope right", with_payload=True),
            "side slope right (right side low): stands on any slope",
        ),
    ],
)  # fmt: skip
def test_limit_in_words(limit: Limit, want: str) -> None:
    """One line each."""
    assert limit_words(limit) == want
