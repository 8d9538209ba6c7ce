"""Wheel forces, brakes and masses on their way into the structure: statics by hand.

Sharing: the lever for two points, the elastic bolt group F/n + M r/sum r^2
(Shigley, Mechanical Engineering Design, ch. 8, from memory).
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case.model import Case, HandForce, Load, Point, Strike, Support
from strength.vehicle import balance, into_structure
from strength.vehicle.carry import carried
from strength.vehicle.sheet import Balanced, WheelForce
from tests.vehicle.build import Array, G, mass, point, tadpole, vehicle, wheel

HELD = (Support(name="bench", at="bench", hold=(True,) * 6),)
AXLE = (0.06, 0.995, -0.08)


def _one_wheel(*, caliper: bool = False, driven: bool = False, struck: bool = False) -> Case:
    """A held structure with one wheel of skew axle and a caliper above and behind it."""
    unit = tuple(float(v) for v in np.array(AXLE) / np.linalg.norm(AXLE))
    made = wheel(
        "w", 120.0, 330.0, radius=240.0, axle=unit, braked=True, driven=driven,
        caliper="cal" if caliper else None,
    )  # fmt: skip
    load = Load(name="any", strike=Strike(wheel="w", up=1.0) if struck else None)
    extra = (point("cal", 62.0, 301.0, 310.0), point("bench", 0.0, 0.0, 0.0))
    return vehicle([made], [], [load], points=extra, supports=HELD)


def _given(force: tuple[float, float, float], **keys: float) -> Balanced:
    rest = {"braking": 0.0, "driving": 0.0, "cornering": 0.0, "vertical": 1.0, **keys}
    return Balanced(
        name="any", severity="routine", lean=0.0, scaled_to=1.0, notes=(),
        wheels=(WheelForce(name="w", force=force),), **rest,
    )  # fmt: skip


FORCE = (-310.0, 145.0, 720.0)
MOMENT = np.cross([0.0, 0.0, -240.0], FORCE)  # contact - centre


def test_a_braking_wheel_passes_all_of_its_moment() -> None:
    """F and M = (contact - c) x F at the wheel centre."""
    pushes = into_structure(_one_wheel(), (_given(FORCE, braking=0.4 * G),))
    assert pushes.forces[0, 0] == pytest.approx([*FORCE, *MOMENT], rel=1e-12)
    assert pushes.gauge is None


@pytest.mark.parametrize("motion", [{}, {"driving": 0.2 * G}])
def test_a_turning_wheel_drops_what_turns_it(motion: dict[str, float]) -> None:
    """Nothing about the axle gets through; all across it does."""
    pushes = into_structure(_one_wheel(), (_given(FORCE, **motion),))
    axle = np.array(AXLE) / np.linalg.norm(AXLE)
    moment = pushes.forces[0, 0, 3:]
    assert moment @ axle == pytest.approx(0.0, abs=1e-9)
    assert np.cross(axle, moment) == pytest.approx(np.cross(axle, MOMENT), rel=1e-12)


def test_a_driven_wheel_passes_all() -> None:
    """As a hub motor does; no part of it goes to the caliper."""
    pushes = into_structure(_one_wheel(driven=True, caliper=True), (_given(FORCE, driving=0.2 * G),))
    assert pushes.forces[0, 0] == pytest.approx([*FORCE, *MOMENT], rel=1e-12)
    assert not pushes.forces[0, 1].any()


def test_a_struck_wheel_turns_freely_though_braked() -> None:
    """A knock meets a wheel that turns."""
    case = _one_wheel(struck=True, caliper=True)
    pushes = into_structure(case, (_given(FORCE, braking=0.4 * G),))
    axle = np.array(AXLE) / np.linalg.norm(AXLE)
    assert pushes.forces[0, 0, 3:] @ axle == pytest.approx(0.0, abs=1e-9)
    assert not pushes.forces[0, 1].any()


def test_caliper_takes_the_torque_as_a_force() -> None:
    """F_k across axle and arm, of moment T = M . a about the axle; nothing of force or moment is lost."""
    pushes = into_structure(_one_wheel(caliper=True), (_given(FORCE, braking=0.4 * G),))
    axle = np.array(AXLE) / np.linalg.norm(AXLE)
    centre, at = np.array([120.0, 330.0, 240.0]), np.array([62.0, 301.0, 310.0])
    hub, cal = pushes.forces[0, 0], pushes.forces[0, 1]
    assert cal[:3] @ axle == pytest.approx(0.0, abs=1e-9)
    assert np.cross(at - centre, cal[:3]) @ axle == pytest.approx(MOMENT @ axle, rel=1e-12)
    assert hub[3:] @ axle == pytest.approx(0.0, abs=1e-9)
    assert hub[:3] + cal[:3] == pytest.approx(FORCE, rel=1e-12)
    assert hub[3:] + np.cross(at - centre, cal[:3]) == pytest.approx(MOMENT, rel=1e-12)
    assert not cal[3:].any()
    # size by hand: torque over the distance from the axle line
    arm = at - centre - ((at - centre) @ axle) * axle
    assert np.linalg.norm(cal[:3]) == pytest.approx(abs(MOMENT @ axle) / np.linalg.norm(arm), rel=1e-12)


def _shares(at: tuple[float, float, float], places: list[tuple[float, float, float]], given: Array) -> Array:
    names = {f"p{n}": place for n, place in enumerate(places)}
    part = carried(mass("m", 1.0, at, carried_by=tuple(names)), names, {n: k for k, n in enumerate(names)})
    return np.asarray(part.share @ given)


def test_two_points_are_a_lever() -> None:
    """A load a fifth along the line between two points, across it: 0.8 and 0.2 (lever)."""
    got = _shares(
        (80.0, 40.0, 0.0), [(0.0, 0.0, 0.0), (400.0, 200.0, 0.0)], np.array([0, 0, -500.0, 0, 0, 0])
    )
    assert got[:, :3] == pytest.approx(np.array([[0, 0, -400.0], [0, 0, -100.0]]), abs=1e-10)
    assert got[:, 3:] == pytest.approx(np.zeros((2, 3)), abs=1e-9)


def test_what_no_couple_can_carry_stays_a_moment() -> None:
    """Two points on the y axis and a force beside their line: half of the moment about the line to each."""
    got = _shares(
        (30.0, 0.0, 0.0), [(0.0, -150.0, 0.0), (0.0, 150.0, 0.0)], np.array([0, 0, -600.0, 0, 0, 0])
    )
    assert got[:, :3] == pytest.approx(np.array([[0, 0, -300.0]] * 2), abs=1e-10)
    assert got[:, 3:] == pytest.approx(np.array([[0, 9000.0, 0]] * 2), abs=1e-9)


def test_four_points_are_a_bolt_group() -> None:
    """In-plane force beside a 60 x 80 pattern of four (all at r = 50): F/4 + M r/sum r^2, elastic centre."""
    places = [(x, y, 12.0) for x in (-30.0, 30.0) for y in (-40.0, 40.0)]
    got = _shares((220.0, 0.0, 12.0), places, np.array([0, -900.0, 0, 0, 0, 0]))
    turn = -900.0 * 220.0 / (4 * 50.0**2)
    want = [[-turn * y, -225.0 + turn * x, 0.0] for x, y, _ in places]
    assert got[:, :3] == pytest.approx(np.array(want), rel=1e-12)


def test_points_that_carry_all_take_no_moment() -> None:
    """Three points off one line carry any moment by forces alone: not even rounding is left as a moment."""
    places = [(13.0, -70.0, 31.0), (410.0, 33.0, -7.0), (95.0, 260.0, 118.0)]
    got = _shares((220.0, 40.0, 630.0), places, np.array([310.0, -900.0, 70.0, 4e3, -5e3, 6e3]))
    assert not got[:, 3:].any()


def test_one_point_takes_force_and_moment() -> None:
    """A single point: F and r x F, and the mass's own moment."""
    got = _shares((10.0, -20.0, 35.0), [(4.0, 5.0, 6.0)], np.array([7.0, -8.0, 9.0, 100.0, 200.0, -300.0]))
    turn = np.cross([6.0, -25.0, 29.0], [7.0, -8.0, 9.0]) + np.array([100.0, 200.0, -300.0])
    assert got[0] == pytest.approx([7.0, -8.0, 9.0, *turn], rel=1e-12)


triple = st.tuples(*[st.floats(-500.0, 500.0)] * 3)


@given(triple, st.lists(triple, min_size=1, max_size=6, unique=True), st.tuples(*[st.floats(-1e3, 1e3)] * 6))
def test_sharing_keeps_force_and_moment(
    at: tuple[float, float, float], places: list[tuple[float, float, float]], load: tuple[float, ...]
) -> None:
    """Law: whatever the points, their forces and moments have the mass's resultant."""
    got = _shares(at, places, np.array(load))
    arms = np.array(places) - np.array(at)
    assert got[:, :3].sum(axis=0) == pytest.approx(load[:3], abs=1e-6)
    turn = np.cross(arms, got[:, :3]).sum(axis=0) + got[:, 3:].sum(axis=0)
    assert turn == pytest.approx(load[3:], abs=2e-3)


def test_held_structure_takes_weight_wheels_and_hands() -> None:
    """With supports: m f of carried masses (1.5 g and a leftover 0), hand loads; uncarried masses not."""
    places = (point("a", 0.0, 0.0, 0.0), point("b", 300.0, 10.0, 0.0), point("bench", 0.0, -90.0, 5.0))
    hand = HandForce(at="b", force=(10.0, -20.0, 30.0), moment=(400.0, 500.0, -600.0))
    case = Case(
        title="arm",
        points=places,
        masses=(
            mass("tool", 8.0, (0.0, 0.0, 40.0), carried_by=("a",), gyration=90.0),
            mass("floor", 50.0, (1.0, 2.0, 3.0)),
        ),
        supports=HELD,
        loads=(Load(name="jolt", vertical=1.5, forces=(hand, hand)),),
    )
    loads = balance(case)
    assert loads[0].wheels == ()
    pushes = into_structure(case, loads)
    assert pushes.forces[0, 0] == pytest.approx([0, 0, -8.0 * 1.5 * 9.80665, 0, 0, 0], rel=1e-12)
    assert pushes.forces[0, 1] == pytest.approx([20.0, -40.0, 60.0, 800.0, 1000.0, -1200.0])
    assert not pushes.forces[0, 2].any()
    assert pushes.notes == ((),)


def test_a_struck_held_structure_tells_what_is_out_of_balance() -> None:
    """Struck 2.0 up and 1.5 back, a wheel of standing load N0 leaves N0 up and 1.5 N0 backward over."""
    case = tadpole(
        kg=120.0, wheelbase=1200.0, ahead=800.0, height=500.0, track=800.0,
        points=(Point(name="bench", at=(0.0, 0.0, 0.0)),), supports=HELD,
        loads=[Load(name="hole", strike=Strike(wheel="front.right", up=2.0, back=1.5)), Load(name="still")],
    )  # fmt: skip
    pushes = into_structure(case, balance(case))
    standing = 120.0 * 9.80665 / 3.0
    (note,) = pushes.notes[0]
    assert f"{-1.5 * standing:.0f} N forward, 0 N left, {standing:.0f} N up" in note
    assert pushes.notes[1] == ()


@pytest.mark.parametrize(("beside", "most"), [(400.0, 8.5), (76.0, 2.02), (74.0, 0.0)])
def test_points_close_together_warn(beside: float, most: float) -> None:
    """Two points 50 mm apart under a mass beside them: the nearer takes 1/2 + e/50 of it; over 2 warns."""
    case = Case(
        title="rack",
        points=(point("a", 0.0, -25.0, 0.0), point("b", 0.0, 25.0, 0.0), point("bench", 9.0, 9.0, 9.0)),
        masses=(mass("box", 10.0, (0.0, beside, 0.0), carried_by=("a", "b")),),
        supports=HELD,
        loads=(Load(name="still"),),
    )
    warnings = into_structure(case, balance(case)).warnings
    if most == 0.0:
        assert warnings == ()
    else:
        assert [part for part, _ in warnings] == ["box"]
        assert f"b takes {most * 98.0665:.0f} N of this mass's 98 N" in warnings[0][1]
