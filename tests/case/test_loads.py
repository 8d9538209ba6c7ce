"""Loads as computed: turns, strikes, accelerations with g = 9.80665 m/s^2 (ISO 80000-3)."""

import pytest

from strength.case.model import HandForce, Load, Strike
from strength.case.road import Road, RoadBlock
from tests.case.cases import BENCH, TRIKE, faults, read


def loads(typed: str) -> dict[str, Load]:
    """The loads of the three-wheeler by name."""
    return {load.name: load for load in read(TRIKE.replace("standing = {}", typed)).loads}


def test_turns():
    """Both turns by default, signed: positive to the left; one turn keeps the name."""
    found = loads('bend = {cornering = "0.3 g"}\nslalom = {cornering = "2 m/s^2", turn = "right"}')
    assert list(found) == ["bend, left turn", "bend, right turn", "slalom"]
    assert found["bend, left turn"].cornering == pytest.approx(2941.995, rel=1e-15)
    assert found["bend, right turn"].cornering == pytest.approx(-2941.995, rel=1e-15)
    assert found["slalom"].cornering == -2000.0
    assert loads('hook = {cornering = "3 m/s^2", turn = "left"}')["hook"].cornering == 3000.0


def test_accelerations():
    """Braking and driving in mm/s^2, vertical as a multiple."""
    found = loads(
        'stop = {severity = "hard", vertical = 1.4, braking = "0.5 g"}\npull = {driving = "1.5 m/s^2"}'
    )
    assert found["stop"].braking == pytest.approx(4903.325, rel=1e-15)
    assert (found["stop"].vertical, found["stop"].severity, found["stop"].driving) == (1.4, "hard", 0.0)
    assert (found["pull"].driving, found["pull"].severity, found["pull"].vertical) == (1500.0, "routine", 1.0)


def test_strikes():
    """A strike on a left wheel is one on each side, on a middle wheel one."""
    found = loads(
        'hole = {severity = "abuse", strike = {wheel = "front.left", up = 3, back = 1.5}}\n'
        'stone = {strike = {wheel = "rear", up = 2.5}}\n'
        'kerb = {strike = {wheel = "front.right", up = 1, inward = 2}}'
    )
    assert list(found) == ["hole, left wheel", "hole, right wheel", "stone", "kerb"]
    assert found["hole, left wheel"].strike == Strike(wheel="front.left", up=3.0, back=1.5, inward=0.0)
    assert found["hole, right wheel"].strike == Strike(wheel="front.right", up=3.0, back=1.5, inward=0.0)
    assert found["kerb"].strike == Strike(wheel="front.right", up=1.0, back=0.0, inward=2.0)


def test_off_ground_follows_a_strike():
    """The right-hand strike lifts the other wheel than the left-hand one."""
    four = TRIKE + '[[wheel]]\nname="second.left"\ncentre="-900 300 250 mm"\nradius="250 mm"\n'
    four += '[[load]]\nname="ramp"\nstrike={wheel="front.left", up=2}\noff_ground=["second.left"]\n'
    found = {load.name: load for load in read(four).loads}
    assert found["ramp, left wheel"].off_ground == ("second.left",)
    assert found["ramp, right wheel"].off_ground == ("second.right",)


def test_hand_forces():
    """Force and moment in N and N*mm, each may be left out."""
    text = (
        BENCH.replace('force = "0 0 -700 N"', 'force = "1 -2 3 lbf", moment = "4 5 -6 N*m"')
        + '[[load]]\nname="twist"\nforces=[{at="foot", moment="0 0 1 kN*m"}, {at="tip", force="0 0 2 kN"}]'
    )
    hang, twist = read(text).loads
    assert hang.forces[0].force == pytest.approx(
        (4.4482216152605, -8.896443230521, 13.3446648457815), rel=1e-15
    )
    assert hang.forces[0].moment == (4000.0, 5000.0, -6000.0)
    assert twist.forces == (
        HandForce(at="foot", moment=(0.0, 0.0, 1e6)),
        HandForce(at="tip", force=(0.0, 0.0, 2000.0)),
    )


def test_two_loads_of_one_name():
    """A name that a turn makes must not be typed as well."""
    typed = 'bend = {cornering = "0.3 g"}\n"bend, left turn" = {}'
    found = faults(TRIKE.replace("standing = {}", typed))
    assert any("the load 'bend, left turn' is there twice" in why for whys in found.values() for why in whys)


def test_road():
    """Blocks go between loads by their full names."""
    road = '[road]\ndistance = "20000 km"\n[[road.block]]\nfrom = "standing"\n'
    road += 'to = "bend, left turn"\nper_km = 0.05\n'
    bend = TRIKE.replace("standing = {}", 'standing = {}\nbend = {cornering = "0.3 g"}')
    block = RoadBlock(start="standing", end="bend, left turn", per_km=0.05)
    assert read(bend + road).road == Road(distance=20000.0, blocks=(block,))
    wrong = faults(bend + road.replace("bend, left turn", "bend"))
    assert "no load is named 'bend'; did you mean 'bend, left turn'?" in wrong["road.block[0].to"]


def test_a_turn_without_a_bend():
    """`turn` alone says nothing: a warning."""
    (warning,) = [
        w for w in read(TRIKE.replace("standing = {}", 'x = {turn = "left"}')).warnings if w.part == "x"
    ]
    assert warning.text == "`turn` says nothing without `cornering`"


@pytest.mark.parametrize(
    ("wheels", "load", "refused"),
    [
        ("", "forces = [{at='tip', force='0 0 1 N'}]", False),
        ("", "braking = '0.2 g'", True),
        ("rear = {centre = 'tip', radius = '90 mm', braked = true}", "braking = '0.2 g'", True),
        ("rear = {centre = 'tip', radius = '90 mm'}", "forces = [{at='foot', force='0 0 1 N'}]", False),
    ],
)
def test_a_part_on_a_bench(wheels, load, refused):
    """With supports and fewer than three wheels only forces put on by hand make sense."""
    text = BENCH + f"[wheels]\n{wheels}\n[[load]]\nname = 'x'\n{load}\n"
    if refused:
        assert any("loads" in path or "load[0]" in path for path in faults(text))
    else:
        assert len(read(text).loads) == 2
