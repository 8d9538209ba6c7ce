"""Laws of welds: what must hold whatever the numbers."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.case.model import Basis
from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.chord_wall import chord_punching, chord_wall
from strength.checks.tab_wall import tab_wall
from strength.checks.weld_throat import weld_throat
from strength.checks.weld_toe import weld_toe
from tests.joints.bench import ALONG, LIMIT_STATE, START, UP, bench, weld

component = st.floats(-1.0, 1.0).map(lambda x: round(x, 6))
forces = st.tuples(*[component] * 6).filter(lambda f: max(map(abs, f)) > 0.05).map(
    lambda f: [f[0] * 4e3, f[1] * 900.0, f[2] * 700.0, f[3] * 4e4, f[4] * 6e4, f[5] * 5e4]
)  # fmt: skip
SHAPES = (Tube(27.0, 2.6), Bar(22.0), Box(40.0, 25.0, 2.5), Flat(36.0, 6.0))
bases = st.sampled_from([Basis(), LIMIT_STATE])


def uses(context):
    """Utilisations of all weld and wall checks, by kind."""
    checks = (weld_throat, weld_toe, chord_wall, chord_punching, tab_wall)
    return {verdict.kind: verdict.utilisation[0] for check in checks for verdict in check(context)}


@given(st.sampled_from(SHAPES), forces, st.floats(0.05, 40.0), bases)
@settings(max_examples=40, deadline=None)
def test_force_times_k_is_utilisation_times_k(shape, force, k, basis):
    """Where the host carries nothing itself, all is proportional to the load."""
    made = {"host": Tube(50.0, 3.0), "basis": basis}
    given_ = weld(onto="host", inset=20.0)
    plain = uses(bench(shape, [force], given_, **made))
    scaled = uses(bench(shape, [[k * part for part in force]], given_, **made))
    assert plain.keys() == scaled.keys()
    for kind, use in plain.items():
        assert scaled[kind] == pytest.approx(k * use, rel=1e-6)


@given(st.sampled_from(SHAPES), forces, st.integers(0, 2**32 - 1), bases)
@settings(max_examples=30, deadline=None)
def test_turning_the_whole_joint_changes_nothing(shape, force, seed, basis):
    """Another heading of member, host and `up`; the same utilisations."""
    turn, _ = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))
    turn *= np.sign(np.linalg.det(turn))
    host = np.array([0.8, -0.64, 0.1])
    made = {"host": Box(60.0, 44.0, 3.0), "basis": basis}
    one = bench(shape, [force], weld(onto="host", inset=25.0), host_direction=host, **made)
    host_up = turn @ np.array([0.0, 0.0, 1.0])
    other = bench(
        shape, [force], weld(onto="host", inset=25.0), host_direction=turn @ host, start=turn @ START,
        along=turn @ ALONG, up=tuple(turn @ np.array(UP)), host_up=tuple(host_up), **made,
    )  # fmt: skip
    first, second = uses(one), uses(other)
    assert first.keys() == second.keys()
    for kind, use in first.items():
        assert second[kind] == pytest.approx(use, rel=1e-6)


@given(st.sampled_from(SHAPES), forces, bases)
@settings(max_examples=30, deadline=None)
def test_the_mirrored_joint_with_mirrored_forces_is_as_safe(shape, force, basis):
    """Body y changes sign; in member axes Vy, T and My of the mirrored part do, since y_m turns over."""
    flip = np.array([1.0, -1.0, 1.0])
    host = np.array([0.8, -0.64, 0.1])
    made = {"host": Tube(50.0, 3.0), "basis": basis}
    left = bench(shape, [force], weld(onto="host", inset=25.0), host_direction=host, **made)
    n, vy, vz, t, my, mz = force
    right = bench(
        shape, [[n, -vy, vz, -t, my, -mz]], weld(onto="host", inset=25.0), host_direction=flip * host,
        start=flip * START, along=flip * ALONG, up=tuple(flip * np.array(UP)), **made,
    )  # fmt: skip
    first, second = uses(left), uses(right)
    for kind, use in first.items():
        assert second[kind] == pytest.approx(use, rel=1e-6)


@given(
    st.sampled_from((Tube(27.0, 2.6), Bar(22.0), Box(40.0, 25.0, 2.5))), forces, st.floats(1.05, 3.0), bases
)
@settings(max_examples=30, deadline=None)
def test_a_wider_leg_is_never_worse(shape, force, k, basis):
    """On closed outlines; the walls do not gain by it."""
    thin = uses(bench(shape, [force], weld(leg=3.0), basis=basis))
    thick = uses(bench(shape, [force], weld(leg=3.0 * k), basis=basis))
    assert thick["weld-throat"] == pytest.approx(thin["weld-throat"] / k, rel=1e-9)
    assert thick["weld-toe"] <= thin["weld-toe"] * (1.0 + 1e-9)


@given(forces, st.floats(-180.0, 180.0), bases)
@settings(max_examples=30, deadline=None)
def test_a_round_weld_knows_no_up(force, degrees, basis):
    """Turn `up` about a tube and the forces with it: the same stress, another side."""
    angle = np.radians(degrees)
    y = np.cross(np.array(UP), ALONG)
    z = np.cross(ALONG, y)
    c, s = np.cos(angle), np.sin(angle)
    turned = tuple(c * z / np.linalg.norm(z) - s * y / np.linalg.norm(y))
    n, vy, vz, t, my, mz = force
    # components about the turned axes: y' = c y + s z, z' = c z - s y
    other = [n, c * vy + s * vz, c * vz - s * vy, t, c * my + s * mz, c * mz - s * my]
    made = {"host": Tube(60.0, 3.0), "host_direction": np.array([0.3, -0.7, 0.2]), "basis": basis}
    plain = uses(bench(Tube(27.0, 2.6), [force], weld(onto="host", inset=30.0), **made))
    round_ = uses(bench(Tube(27.0, 2.6), [other], weld(onto="host", inset=30.0), up=turned, **made))
    for kind, use in plain.items():
        assert round_[kind] == pytest.approx(use, rel=1e-6)


def test_more_wall_on_the_chord_is_never_worse():
    """Face and punching resistance grow with the wall."""
    last = None
    for wall in np.linspace(1.5, 6.0, 10):
        found = uses(
            bench(
                Tube(27.0, 2.6),
                [[2e3, 0, 0, 0, 4e4, 3e4]],
                weld(onto="host", inset=20.0),
                host=Tube(50.0, wall),
            )
        )
        if last is not None:
            assert found["chord-wall"][0] < last["chord-wall"][0]
            assert found["chord-punching"][0] < last["chord-punching"][0]
        last = found
