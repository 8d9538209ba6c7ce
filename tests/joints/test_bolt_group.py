"""Bolt groups: statics, laws, and lines of bolts."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.joints.bolt_group import grouped, singles

seeds = st.integers(0, 10**6)
# a row of three and one apart; places in the plane y = 4 mm
PLACES = np.array([[10.0, 4.0, 5.0], [70.0, 4.0, 5.0], [40.0, 4.0, 45.0], [10.0, 4.0, 60.0]])
Y = np.array([0.0, 1.0, 0.0])


def turn(rng: np.random.Generator) -> np.ndarray:
    """A random rotation."""
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    return q if np.linalg.det(q) > 0.0 else q[:, [1, 0, 2]]


def one(force, moment, axis, places):
    """Group forces of one load as plain arrays."""
    found = grouped(np.array([[force]]), np.array([[moment]]), axis, np.array(places))
    return found.across[0, 0], found.along[0, 0], found.about_line[0, 0]


def random_load(rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Force [N] and moment [N*mm]."""
    return rng.normal(size=3) * [900.0, 400.0, 1500.0], rng.normal(size=3) * [4e4, 9e4, 2e4]


def test_two_bolts_by_hand():
    """600 N up at a lever of 90 mm on two bolts 60 apart: 300 +- 600 x 90/60, so 600 down, 1200 up."""
    places = [[-30.0, 0.0, 0.0], [30.0, 0.0, 0.0]]
    across, along, lost = one([0.0, 0.0, 600.0], [0.0, -54000.0, 0.0], Y, places)
    assert sorted(across) == pytest.approx([600.0, 1200.0])
    assert along == pytest.approx([0.0, 0.0])
    assert lost == 0.0


def test_bracket_out_of_plane_by_hand():
    """Four bolts at 40 x 100 mm: 2000 N along the bolts, and 30 N*m that pulls the top two.

    T = 2000/4 +- 30000 x 50/(4 x 50^2).
    """
    places = [[20.0, 0.0, 50.0], [-20.0, 0.0, 50.0], [20.0, 0.0, -50.0], [-20.0, 0.0, -50.0]]
    _, along, _ = one([0.0, 2000.0, 0.0], [-30000.0, 0.0, 0.0], Y, places)
    assert along == pytest.approx([650.0, 650.0, 350.0, 350.0])


def test_bolts_in_one_line_lose_the_moment_about_it():
    """Two bolts along z carry moments about x and y, none about z."""
    places = [[12.0, 0.0, -20.0], [12.0, 0.0, 20.0]]
    across, along, lost = one([0.0, 0.0, 0.0], [8000.0, 0.0, 5000.0], Y, places)
    assert lost == pytest.approx(5000.0)
    assert along == pytest.approx([200.0, 200.0])
    assert across == pytest.approx([0.0, 0.0])


def test_bolts_in_one_place_carry_no_moment():
    """Two in the same hole share the force and lose every moment."""
    found = grouped(
        np.array([[[80.0, 60.0, 0.0]]]), np.array([[[500.0, 700.0, 0.0]]]), Y, np.array([[0.0, 0.0, 0.0]] * 2)
    )
    assert found.across[0, 0] == pytest.approx([40.0, 40.0])
    assert found.along[0, 0] == pytest.approx([30.0, 30.0])
    assert found.about_axis[0, 0] == pytest.approx(700.0)
    assert found.about_line[0, 0] == pytest.approx(500.0)


def test_moment_is_taken_to_the_middle_of_the_group():
    """A force through the middle of the bolts, wherever the end point lies, loads all alike."""
    middle = PLACES.mean(axis=0)
    force = np.array([700.0, -300.0, 1100.0])
    across, along, lost = one(force, np.cross(middle, force), Y, PLACES)
    assert across == pytest.approx(np.full(4, np.hypot(700.0, 1100.0) / 4.0))
    assert along == pytest.approx(np.full(4, 75.0))
    assert lost == pytest.approx(0.0, abs=1e-9)


@given(seed=seeds, k=st.floats(0.01, 100.0))
def test_force_times_k(seed, k):
    """Load x k -> bolt forces x k."""
    force, moment = random_load(np.random.default_rng(seed))
    for plain, more in zip(one(force, moment, Y, PLACES), one(k * force, k * moment, Y, PLACES), strict=True):
        assert more == pytest.approx(k * np.asarray(plain), rel=1e-9, abs=1e-6)


@given(seed=seeds)
def test_turned(seed):
    """Turning everything turns the forces and leaves their sizes."""
    rng = np.random.default_rng(seed)
    force, moment = random_load(rng)
    by = turn(rng)
    for plain, turned in zip(
        one(force, moment, Y, PLACES), one(by @ force, by @ moment, by @ Y, PLACES @ by.T), strict=True
    ):
        assert turned == pytest.approx(plain, rel=1e-8, abs=1e-6)


@given(seed=seeds)
def test_mirrored(seed):
    """Mirroring in y: forces reverse in y, moments in x and z; no bolt feels a difference."""
    force, moment = random_load(np.random.default_rng(seed))
    axis = np.array([0.36, 0.48, 0.8])
    flip = np.array([1.0, -1.0, 1.0])
    for plain, other in zip(
        one(force, moment, axis, PLACES),
        one(force * flip, -moment * flip, axis * flip, PLACES * flip),
        strict=True,
    ):
        assert other == pytest.approx(plain, rel=1e-8, abs=1e-6)


@given(seed=seeds)
def test_order_of_bolts(seed):
    """Naming the bolts in another order changes nothing for any bolt."""
    rng = np.random.default_rng(seed)
    force, moment = random_load(rng)
    order = rng.permutation(4)
    plain, other = one(force, moment, Y, PLACES), one(force, moment, Y, PLACES[order])
    assert other[0] == pytest.approx(plain[0][order], rel=1e-9, abs=1e-7)
    assert other[1] == pytest.approx(plain[1][order], rel=1e-9, abs=1e-7)


@given(seed=seeds)
def test_axis_reversed(seed):
    """A bolt put in from the other side carries the same."""
    force, moment = random_load(np.random.default_rng(seed))
    for plain, other in zip(one(force, moment, Y, PLACES), one(force, moment, -Y, PLACES), strict=True):
        assert other == pytest.approx(plain, rel=1e-9, abs=1e-7)


@given(seed=seeds)
def test_one_bolt_splits_force_and_moment(seed):
    """Across and along are the legs of the force; bending and turning those of the moment."""
    rng = np.random.default_rng(seed)
    force, moment = random_load(rng)
    axis = turn(rng)[0]
    (found,) = singles([np.array([[force]])], [np.array([[moment]])], [axis])
    assert np.hypot(found.across, found.along)[0, 0, 0] == pytest.approx(np.linalg.norm(force))
    assert np.hypot(found.bending[0, 0, 0], found.about_axis[0, 0]) == pytest.approx(np.linalg.norm(moment))
    assert found.along[0, 0, 0] == pytest.approx(abs(force @ axis))
    assert found.about_axis[0, 0] == pytest.approx(abs(moment @ axis))


def test_designs_and_loads_keep_their_places():
    """(designs, loads) in, (designs, loads, bolts) out, each as alone."""
    rng = np.random.default_rng(3)
    force, moment = rng.normal(size=(2, 3, 4, 3)) * 1e3
    found = grouped(force, moment, Y, PLACES)
    assert found.across.shape == (3, 4, 4)
    for d in range(3):
        for n in range(4):
            across, along, lost = one(force[d, n], moment[d, n], Y, PLACES)
            assert found.across[d, n] == pytest.approx(across)
            assert found.along[d, n] == pytest.approx(along)
            assert found.about_line[d, n] == pytest.approx(lost, abs=1e-9)
