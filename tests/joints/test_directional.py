"""Directional increase and in-plane ultimate strength of weld lines, against plain sums and print."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.joints.directional import directional_gain, directional_peak
from strength.joints.in_plane import in_plane
from strength.joints.traction import pull
from tests.joints.bench import weld
from tests.joints.lines import line
from tests.published.test_ultimate_welds import TABLE_8_8, TWO_LINES

PARALLEL = ((-20.0, 7.0, -20.0, 61.0), (13.0, -30.0, 13.0, 45.0))
L = 250.0  # mm


def through(found, *forces):
    """What goes through a line under forces N Vy Vz T My Mz."""
    names = tuple(map(str, range(len(forces))))
    return pull(found, np.array(forces, dtype=float)[None], [weld()], names)


component = st.floats(-1.0, 1.0).map(lambda x: round(x, 4))


@given(st.tuples(*[component] * 6).filter(lambda f: max(map(abs, f)) > 0.1))
@settings(max_examples=40, deadline=None)
def test_peak_is_that_of_many_small_pieces(force):
    """Two unlike lines in 20 000 pieces each: |q|/(1 + 0.5 sin^1.5), moments shared by S w = M."""
    forces = np.array(force) * [4e3, 900.0, 700.0, 4e4, 6e4, 5e4]
    pieces = []
    for y1, z1, y2, z2 in PARALLEL:
        u = np.linspace(0.0, 1.0, 20001)[:, None]
        pieces.append(np.hstack([np.zeros_like(u), y1 + u * (y2 - y1), z1 + u * (z2 - z1)]))
    own = [np.hypot(y2 - y1, z2 - z1) for y1, z1, y2, z2 in PARALLEL]
    middle = sum(w * p.mean(axis=0) for w, p in zip(own, pieces, strict=True)) / sum(own)
    spread = np.zeros((3, 3))
    for w, p in zip(own, pieces, strict=True):
        arm = p - middle
        weight = np.full(len(p), w / 20000.0)
        weight[[0, -1]] /= 2.0  # trapezoidal rule
        spread += np.einsum("n,n->", weight, (arm**2).sum(1)) * np.eye(3)
        spread -= np.einsum("n,ni,nj->ij", weight, arm, arm)
    spin = np.linalg.solve(spread, forces[3:] - np.cross(middle, forces[:3]))
    worst = 0.0
    for p in pieces:
        q = forces[:3] / sum(own) + np.cross(spin, p - middle)
        size = np.linalg.norm(q, axis=1)
        sine = np.hypot(q[:, 0], q[:, 1]) / np.maximum(size, 1e-12)  # both lines run along z
        worst = max(worst, (size / (1.0 + 0.5 * sine**1.5)).max())
    found = line(*PARALLEL)
    peak = directional_peak(found, through(found, forces))
    assert peak.size[0, 0] / peak.gain[0, 0] == pytest.approx(worst, rel=1e-6)


def test_gain_at_the_peak_is_that_of_its_parts():
    """Size, gain and parts belong to one place."""
    found = line(*PARALLEL)
    peak = directional_peak(found, through(found, [900.0, 400.0, -300.0, 2e4, -5e4, 3e4]))
    assert np.linalg.norm(peak.parts, axis=-1) == pytest.approx(peak.size)
    assert directional_gain(peak.parts) == pytest.approx(peak.gain)


@pytest.mark.parametrize(("degrees", "gain"), [(0, 1.0), (15, 1.0658), (45, 1.2973), (75, 1.4747), (90, 1.5)])
def test_gain_by_the_angle(degrees, gain):
    """A uniform pull at an angle to two vertical lines; figures of AISC 360-16 J2-5 by hand."""
    found = line((-20.0, -50.0, -20.0, 50.0), (20.0, -50.0, 20.0, 50.0))
    angle = np.radians(degrees)
    peak = directional_peak(
        found, through(found, [0.0, 1e3 * np.sin(angle), 1e3 * np.cos(angle), 0.0, 0.0, 0.0])
    )
    assert peak.gain[0, 0] == pytest.approx(gain, abs=1e-4)
    assert peak.size[0, 0] == pytest.approx(5.0)


def c_shape(k):
    """Vertical leg L, horizontal legs k L."""
    legs = [(0.0, -L / 2, k * L, -L / 2), (0.0, L / 2, k * L, L / 2)] if k else []
    return line((0.0, -L / 2, 0.0, L / 2), *legs)


@pytest.mark.parametrize("k", TABLE_8_8)
def test_c_shapes_of_the_manual(k):
    """AISC Manual 14th ed. Table 8-8: P = C D L in kips and inches, E70, at an arm a L; 0.5 %.

    A force in newtons that is C D L for a leg of 5/16 in uses the whole nominal strength.
    """
    kip, inch = 4448.2216, 25.4
    leg = 5.0 / 16.0 * inch
    found = c_shape(k)
    for a, c in TABLE_8_8[k].items():
        force = c * 5.0 * (L / inch) * kip
        arm = found.centroid[0, 1] + a * L
        load = [0.0, 0.0, -force, -arm * force, 0.0, 0.0]
        used = in_plane(found, through(found, load), np.array([leg]), 70.0 * 6.894757)
        assert used.covered.all()
        assert used.arm[0, 0] == pytest.approx(a * L, rel=1e-6)
        assert used.use[0, 0] == pytest.approx(1.0, rel=5e-3)


@pytest.mark.parametrize("a", TWO_LINES)
def test_single_lines_at_any_arm(a):
    """AISC LRFD metric Manual Table 8-38 (k = 0, phi inside), half of two lines."""
    force = TWO_LINES[a] / 0.75 / 2.0 * (L / 25.4) * 4448.2216
    found = c_shape(0.0)
    load = [0.0, 0.0, force, a * L * force, 0.0, 0.0]
    used = in_plane(found, through(found, load), np.array([25.4 / 16.0]), 70.0 * 6.894757)
    assert used.use[0, 0] == pytest.approx(1.0, rel=5e-3)


def test_force_through_the_centroid():
    """A row: 0.60 x 70 ksi x 0.707 D/16 is 1.856 kip/in along the line; row a = 0 of Table 8-8 at k = 2."""
    for k, c, near in ((0.0, 1.856, 2e-3), (2.0, 12.7, 5e-3)):
        found = c_shape(k)
        y = found.centroid[0, 1]
        force = c * (L / 25.4) * 4448.2216
        load = [0.0, 0.0, force, y * force, 0.0, 0.0]
        used = in_plane(found, through(found, load), np.array([25.4 / 16.0]), 70.0 * 6.894757)
        assert used.use[0, 0] == pytest.approx(1.0, rel=near)


def test_a_moment_alone_is_a_force_far_off():
    """The centre lies at the centroid of a group with two axes of symmetry: sum of force x radius."""
    lines = [(-40.0, -25.0, -40.0, 25.0), (40.0, -25.0, 40.0, 25.0)]
    found = line(*lines)
    leg, strength = 4.0, 480.0
    z = (np.arange(20000) + 0.5) / 20000.0 * 50.0 - 25.0
    radius = np.hypot(40.0, z)
    angle = np.degrees(np.arccos(40.0 / radius))  # of the pull to a vertical line
    most = np.minimum(1.087 * (angle + 6.0) ** -0.65, 0.17)
    part = radius * (most / radius).min() / (0.209 * (angle + 2.0) ** -0.32)
    each = 0.60 * strength * 0.707 * leg * (1.0 + 0.5 * np.sin(np.radians(angle)) ** 1.5)
    moment = 2.0 * (each * (part * (1.9 - 0.9 * part)) ** 0.3 * radius).sum() * 50.0 / 20000.0
    used = in_plane(found, through(found, [0, 0, 0, -moment, 0, 0]), np.array([leg]), strength)
    assert used.use[0, 0] == pytest.approx(1.0, rel=2e-3)
    assert used.arm[0, 0] == np.inf


def test_out_of_the_plane_is_not_covered():
    """A pull along the member of over 2 % of the whole; no load asks nothing."""
    found = c_shape(0.7)
    y = found.centroid[0, 1]
    loads = ([0, 0, 1e4, 9e5, 0, 0], [150, 0, 1e4, 9e5, 0, -150 * y], [2000, 0, 1e4, 9e5, 0, 0], [0] * 6)
    used = in_plane(found, through(found, *loads), np.array([5.0]), 480.0)
    assert used.covered[0].tolist() == [True, True, False, True]
    assert used.use[0, 1] == pytest.approx(used.use[0, 0])
    assert np.isnan(used.use[0, 2])
    assert used.use[0, 3] == 0.0


def test_what_rounding_leaves_has_no_direction():
    """A force or a moment that is nothing beside the other counts as none: the figure is that without it."""
    found = c_shape(0.7)
    y, leg, strength = found.centroid[0, 1], np.array([5.0]), 480.0
    alone, with_force, pulled, with_moment = (
        in_plane(found, through(found, load), leg, strength)
        for load in (
            [0, 0, 0, 4e5, 0, 0],
            [0, -3e-7, 2e-7, 4e5, 0, 0],
            [0, 0, 7e3, 7e3 * y, 0, 0],
            [0, 0, 7e3, 7e3 * y - 2e-6, 0, 0],
        )
    )
    assert with_force.use[0, 0] == pytest.approx(alone.use[0, 0], rel=1e-12)
    assert (with_force.arm[0, 0], with_force.force[0, 0]) == (np.inf, 0.0)
    assert with_moment.use[0, 0] == pytest.approx(pulled.use[0, 0], rel=1e-12)
