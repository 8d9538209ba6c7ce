"""What cannot be balanced says so, names the load or part, and says what to do: this program's own words."""

import attrs
import pytest

from strength.case.model import Case, HandForce, Load, Strike, Support
from strength.errors import BalanceError, CaseError
from strength.vehicle import balance, into_structure, limits
from tests.vehicle.build import G, mass, point, tadpole, vehicle, wheel

GEOMETRY = {"kg": 130.0, "wheelbase": 1240.0, "ahead": 790.0, "height": 560.0, "track": 830.0}
BENCH = (Support(name="bench", at="bench", hold=(True,) * 6),)


@pytest.mark.parametrize(
    ("load", "text"),
    [
        (Load(name="x", braking=0.1 * G, driving=0.2 * G), "brakes and drives at once"),
        (Load(name="x", driving=0.2 * G), "no wheel on the ground drives: set `driven = true`"),
        (Load(name="x", braking=0.2 * G, off_ground=("rear",)), "2 wheels and hitches on the ground"),
        (Load(name="x", cornering=0.2 * G, strike=Strike(wheel="rear", up=2.0)), "leave out `cornering`"),
        (Load(name="x", strike=Strike(wheel="rear", up=2.0, inward=0.5)), "`inward` has no side"),
        (Load(name="x", strike=Strike(wheel="raer", up=2.0)), "strikes 'raer', which is no wheel"),
        (Load(name="x", vertical=-0.5), "`vertical` below zero"),
    ],
)  # fmt: skip
def test_load_that_cannot_be(load: Load, text: str) -> None:
    """Each names the load and what to change."""
    with pytest.raises(BalanceError, match=r"^load 'x': ") as caught:
        balance(tadpole(**GEOMETRY, loads=[load]))
    assert text in str(caught.value)


def test_no_brake_left_on_the_ground() -> None:
    """Four wheels, the braked two in the air."""
    wheels = [
        wheel(n, x, y, braked=n == "a")
        for n, x, y in (("a", 900.0, 400.0), ("b", 900.0, -400.0), ("c", 0.0, 410.0), ("d", 0.0, -410.0))
    ]
    case = vehicle(
        wheels, [mass("m", 90.0, (300.0, -60.0, 400.0))], [Load(name="x", braking=0.2 * G, off_ground=("a",))]
    )
    with pytest.raises(BalanceError, match="no wheel on the ground brakes: set `braked = true`"):
        balance(case)


def test_a_vehicle_that_falls_over_standing() -> None:
    """Mass centre behind the rear wheel: place and wheels are named."""
    case = tadpole(**{**GEOMETRY, "ahead": -30.0})
    with pytest.raises(BalanceError, match=r"does not stand: its mass centre, at x = 5\.0, y = 0\.0 mm"):
        balance(case)
    assert limits(case)[0].tips_at == 0.0
    assert {x.angle for x in limits(case) if x.what.startswith("side")} == {0.0}


def test_a_strike_needs_a_measure() -> None:
    """Weightless nothing has to stand, but the strike is measured by what the wheel carries at 1 g."""
    load = Load(name="x", vertical=0.0, strike=Strike(wheel="rear", up=1.0))
    with pytest.raises(BalanceError, match="a strike has no measure"):
        balance(tadpole(**{**GEOMETRY, "ahead": -30.0}, loads=[load]))


def test_no_mass_at_all() -> None:
    """Free, without mass: nothing on the wheels."""
    with pytest.raises(BalanceError, match="no mass"):
        balance(attrs.evolve(tadpole(**GEOMETRY), masses=()))


@pytest.mark.parametrize(("apart", "fits"), [(1.0, True), (1.3, False)])
def test_contacts_at_one_height(apart: float, fits: bool) -> None:
    """Within 1 mm."""
    wheels = [
        wheel("a", 900.0, 400.0, level=apart),
        wheel("b", 900.0, -400.0, radius=200.0),
        wheel("c", 0.0, 0.0),
    ]
    case = vehicle(wheels, [mass("m", 90.0, (500.0, 0.0, 400.0))])
    if fits:
        assert balance(case)[0].scaled_to == 1.0
    else:
        with pytest.raises(CaseError, match=r"wheels\.a: touches the ground 1\.3 mm higher than b"):
            balance(case)


def test_hitch_faults_are_told_together() -> None:
    """Two hitches, and one on a leaning body: both lines."""
    case = tadpole(**GEOMETRY, tow=(-900.0, 0.0, 400.0), leaning=0.3)
    case = attrs.evolve(case, tows=(case.tows[0], attrs.evolve(case.tows[0], name="second")))
    with pytest.raises(CaseError) as caught:
        balance(case)
    assert [path for path, _ in caught.value.faults] == ["tows.second", "tows.eye"]


def test_thirteen_wheels() -> None:
    """More than can be tried."""
    wheels = [wheel(f"w{n}", 100.0 * n, 400.0 * (-1) ** n) for n in range(13)]
    with pytest.raises(CaseError, match="13 wheels: at most 12"):
        balance(vehicle(wheels, [mass("m", 90.0, (500.0, 0.0, 400.0))]))


def _bench(**keys: object) -> Case:
    wheels = [wheel("a", 0.0, 300.0), wheel("b", 0.0, -300.0)]
    load = Load(name="x", forces=(HandForce(at="bench", force=(1.0, 2.0, 3.0)),), **keys)
    return vehicle(wheels, [], [load], points=(point("bench", 0.0, 10.0, 300.0),), supports=BENCH)


def test_a_held_structure_needs_no_three_wheels() -> None:
    """Two wheels, supports and hand forces: the wheels stay unloaded; limits are none."""
    (load,) = balance(_bench())
    assert load.wheels == ()
    assert limits(_bench()) == ()


@pytest.mark.parametrize(
    "keys", [{"cornering": 900.0}, {"braking": 900.0}, {"strike": Strike(wheel="a", up=2.0)}]
)
def test_a_held_structure_that_moves_needs_three(keys: dict[str, object]) -> None:
    """Then the road must carry it."""
    with pytest.raises(BalanceError, match="or let it act by `forces` alone"):
        balance(_bench(**keys))


def test_limits_need_three_contacts() -> None:
    """Without supports."""
    case = attrs.evolve(tadpole(**GEOMETRY), wheels=tadpole(**GEOMETRY).wheels[:2])
    with pytest.raises(CaseError, match="at least three"):
        limits(case)


def test_free_structure_needs_every_mass_carried() -> None:
    """All masses that nothing carries, each with its path."""
    case = tadpole(**GEOMETRY)
    case = attrs.evolve(case, masses=(*case.masses, mass("box", 5.0, (500.0, 0.0, 300.0))))
    loads = balance(case)
    with pytest.raises(CaseError) as caught:
        into_structure(case, loads)
    assert [path for path, _ in caught.value.faults] == ["masses.all", "masses.box"]
    assert "name the points that carry it" in str(caught.value)


def test_caliper_on_the_axle_line() -> None:
    """It could hold no torque."""
    made = wheel("a", 0.0, 300.0, braked=True, caliper="cal")
    extra = (point("cal", 0.0, 270.0, 250.0), point("bench", 0.0, 0.0, 0.0))
    case = vehicle([made], [], points=extra, supports=BENCH)
    with pytest.raises(CaseError, match=r"wheels\.a: its `caliper` lies on the axle's line"):
        into_structure(case, balance(case))
