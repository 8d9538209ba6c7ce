"""Weld lines against brute sums over many small pieces and against adaptive quadrature."""

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from strength.errors import CaseError
from strength.joints.extent import extents
from strength.joints.forms import Forms, form_at
from strength.joints.outline import shortened
from strength.joints.peak import peaks
from strength.joints.pieces import split_at, straight
from strength.joints.saddle import WHOLE, Cylinder
from strength.joints.traction import pull
from strength.joints.weld_line import measured, worst_face_angle
from tests.joints.bench import weld
from tests.joints.lines import around, line, outline, round_line, saddle

place = st.integers(-60, 60).map(float)
force = st.lists(st.floats(-900.0, 900.0), min_size=6, max_size=6)
lines = st.lists(st.tuples(place, place, place, place), min_size=2, max_size=4).filter(
    lambda found: all(np.hypot(a - c, b - d) > 5.0 for a, b, c, d in found)
)


def small_pieces(found, count=4000):
    """Middles, lengths and frames of many short chords of a line."""
    u = np.linspace(0.0, 1.0, count + 1)
    ends, _ = found.all_at(u)
    middles, frames = found.all_at((u[1:] + u[:-1]) / 2.0)
    return (
        middles[0].reshape(-1, 3),
        np.linalg.norm(np.diff(ends[0], axis=1), axis=-1).ravel(),
        frames[0].reshape(-1, 3, 3),
    )


@given(lines, force)
@settings(max_examples=60, deadline=None)
def test_random_groups_balance_the_force_summed_piece_by_piece(group, given):
    """Sum q ds = F, sum p x q ds = M, and S is the plain sum; or the moment is refused."""
    found = line(*group)
    middles, ds, _ = small_pieces(found, 400)
    arm = middles - found.centroid[0]
    spread = np.einsum(
        "n,nij->ij", ds, (arm**2).sum(-1)[:, None, None] * np.eye(3) - arm[:, :, None] * arm[:, None]
    )
    assert found.length[0] == pytest.approx(ds.sum(), rel=1e-12)
    assert found.spread[0] == pytest.approx(spread, rel=1e-4, abs=1e-4 * spread.max())
    load = np.array(given)[None, None]
    try:
        through = pull(found, load, [weld()], ("push",))
    except CaseError:
        assert np.linalg.eigvalsh(found.spread[0])[0] < 1e-6 * spread.max()
        return
    q = through.at(arm[None, None])[0, 0]
    assert (q * ds[:, None]).sum(0) == pytest.approx(given[:3], abs=1e-6 * 900.0)
    moment = np.cross(middles, q * ds[:, None]).sum(0)
    assert moment == pytest.approx(given[3:], rel=1e-3, abs=2e-3 * (900.0 + 60.0 * 900.0))


@pytest.mark.parametrize(
    "found",
    [
        saddle(33.7, 48.3, 62.0),
        saddle(25.0, 25.2, 75.0, turn=1.1),
        saddle(20.0, 60.0, 48.0, aside=6.0),
        round_line(31.0),
    ],
    ids=["saddle", "nearly equal", "off centre", "circle"],
)
def test_curved_lines_balance_summed_piece_by_piece(found):
    """Force and moment of a skew load come back from four thousand chords per quarter."""
    given = np.array([410.0, -230.0, 77.0, 5200.0, -8800.0, 1300.0])
    middles, ds, _ = small_pieces(found)
    q = pull(found, given[None, None], [weld()], ("push",)).at((middles - found.centroid[0])[None, None])[
        0, 0
    ]
    assert (q * ds[:, None]).sum(0) == pytest.approx(given[:3], rel=2e-5)
    assert np.cross(middles, q * ds[:, None]).sum(0) == pytest.approx(given[3:], rel=2e-4)


def test_box_with_corner_arcs_against_quadrature():
    """Length, S and second moments of a 50 x 30 x 3 box (outer radius 6) by adaptive quadrature."""
    found = around("Box", 50.0, 30.0, 3.0)
    radius, y0, z0 = 6.0, 9.0, 19.0

    def whole(p, q):
        """Integral of y^p z^q round the outline."""
        corner = quad(
            lambda t: radius * (y0 + radius * np.cos(t)) ** p * (z0 + radius * np.sin(t)) ** q, 0.0, np.pi / 2
        )[0]
        top = quad(lambda y: y**p * 25.0**q, 0.0, y0)[0]
        side = quad(lambda z: 15.0**p * z**q, 0.0, z0)[0]
        return 4.0 * (corner + top + side)

    assert found.length[0] == pytest.approx(whole(0, 0), rel=1e-12)
    assert found.spread[0, 0, 0] == pytest.approx(whole(2, 0) + whole(0, 2), rel=1e-12)
    assert found.spread[0, 1, 1] == pytest.approx(whole(0, 2), rel=1e-12)
    assert found.spread[0, 2, 2] == pytest.approx(whole(2, 0), rel=1e-12)


FORMS = np.array(
    [(1, 1, 1, 0), (2, 3, 2, 2), (2, 3, 2, -2), (0.5, 0, 0.5, 1), (3, 3, 1, 0), (1, 3, 0, 0)], dtype=float
)[None, :, None]


@pytest.mark.parametrize(
    "found",
    [
        round_line(33.0),
        saddle(25.0, 40.0, 71.0),
        saddle(30.0, 30.3, 90.0),
        saddle(29.97, 30.0, 62.0),
        saddle(29.9997, 30.0, 81.0),
        around("Box", 40.0, 25.0, 2.5),
        around("Flat", 40.0, 6.0),
    ],
    ids=["circle", "saddle", "nearly equal", "a thousandth off", "as good as equal", "box", "flat"],
)
def test_worst_place_against_a_dense_scan(found):
    """Greatest of each form to 1e-7 of a scan of ten thousand places per piece."""
    rng = np.random.default_rng(20)
    load = rng.normal(size=(1, 6, 6)) * np.array([1.0, 0.8, 0.5, 21.0, 17.0, 12.0])
    through = pull(found, load, [weld()], tuple("abcdef"))
    best = peaks(
        found,
        through,
        [Forms(forms=FORMS[:, c : c + 1], scales=np.ones((1, 1))) for c in range(FORMS.shape[1])],
    )
    grid = found.spaced(np.linspace(0.0, 1.0, 10001), np.zeros(1, dtype=int)).reshape(-1)
    where, frames = found.all_at(grid)
    flat, turn = where[0].reshape(-1, 3), frames[0].reshape(-1, 3, 3)
    for n in range(load.shape[1]):
        q = through.direct[0, n] + np.cross(through.spin[0, n], flat - found.centroid[0])
        local = np.einsum("nij,nj->ni", turn, q)
        for c in range(FORMS.shape[1]):
            scan = np.sqrt(form_at(FORMS[0, c, 0], *local.T).max())
            assert best[c].value[0, n] == pytest.approx(scan, rel=1e-6)
            at = best[c].parts[0, n]
            assert np.sqrt(form_at(FORMS[0, c, 0], *at)) == pytest.approx(best[c].value[0, n], rel=1e-12)


def test_frames_point_outward_and_along():
    """On a saddle x, s, n are a right-handed set, s along the line, x in the plane of s and the member."""
    found = saddle(25.0, 40.0, 58.0)
    where, frames = found.all_at(np.array([0.2, 0.7]))
    x, s, n = np.moveaxis(frames[0].reshape(-1, 3, 3), 1, 0)
    assert np.cross(s, x) == pytest.approx(n, abs=1e-12)
    assert np.sum(x * s, axis=-1) == pytest.approx(0.0, abs=1e-12)
    assert np.linalg.det(np.stack([s, x, np.tile([1.0, 0.0, 0.0], (8, 1))], 1)) == pytest.approx(
        0.0, abs=1e-12
    )
    out = where[0].reshape(-1, 3) * [0.0, 1.0, 1.0]
    assert np.all(np.sum(n * out, axis=-1) > 0.0)


def test_straight_line_about_itself_is_refused_by_name():
    """A single line along z cannot carry My of a force beside it about z; the message names weld and load."""
    found = line((2.0, -20.0, 2.0, 20.0))
    pull(found, np.array([[[5.0, 0.0, 3.0, 10.0, 40.0, -10.0]]]), [weld()], ("ok",))
    with pytest.raises(CaseError) as caught:
        pull(found, np.array([[[5.0, 0.0, 3.0, 10.0, 40.0, 90.0]]]), [weld(path="weld[3]")], ("kerb",))
    assert str(caught.value) == (
        "weld[3]: seam: its line cannot carry the moment about itself in load 'kerb'; "
        "weld on two sides or all round"
    )


def test_only_free_ends_are_cut_back():
    """An L with a corner keeps its corner; a line that ends on the middle of another counts as joined."""
    pieces = straight(
        np.array([[[0, 0, 40, 0], [40, 0, 40, 30], [20, 0, 20, -25], [90, 0, 93, 0]]], dtype=float)
    )
    cut = shortened(pieces, np.array([2.0]))
    assert cut.length()[0] == pytest.approx([38.0, 28.0, 23.0, 0.0])
    assert cut.base[0, 0] == pytest.approx([2.0, 0.0])
    assert (cut.base + cut.delta)[0, 1] == pytest.approx([40.0, 28.0])
    assert cut.base[0, 2] == pytest.approx([20.0, 0.0])
    again = measured(cut)
    assert again.length[0] == pytest.approx(89.0)


def test_face_angle_of_a_saddle():
    """Tubes square to each other meet at 90 degrees at the crowns, 90 + asin(d/D) at the sides."""
    found = saddle(20.0, 50.0, 90.0)
    assert worst_face_angle(found, np.zeros((1, 3)))[0] == pytest.approx(0.4, rel=1e-6)
    leaning = saddle(20.0, 500.0, 55.0)
    assert worst_face_angle(leaning, np.zeros((1, 3)))[0] == pytest.approx(np.cos(np.radians(55.0)), rel=1e-4)
    flat = around("Flat", 40.0, 6.0)
    face = np.array([[np.sin(1.0), 0.0, np.cos(1.0)]])
    assert worst_face_angle(flat, face)[0] == pytest.approx(np.cos(1.0))


@pytest.mark.parametrize(("degrees", "low", "high"), [(90.0, -10.0, 10.0), (50.0, None, None)])
def test_extent_along_the_host(degrees, low, high):
    """A square saddle spans the tube's diameter along the host; a leaning one d/sin of the angle."""
    angle, turn = np.radians(degrees), 0.3
    found = saddle(20.0, 38.0, degrees, turn=turn)
    along = np.array([[np.cos(angle), np.sin(angle) * np.cos(turn), np.sin(angle) * np.sin(turn)]])
    (start,), (end,) = extents(found.pieces, found.cylinder, along[:, None])
    if low is not None:
        assert (start[0], end[0]) == pytest.approx((low, high), abs=1e-9)
    assert end[0] - start[0] == pytest.approx(20.0 / np.sin(angle), rel=1e-9)


def test_a_box_on_a_tube_sits_on_the_tube():
    """Every place of the line of a box on a round host lies on the host's surface and on the box."""
    cylinder = Cylinder(
        through=np.array([[3.0, 1.0, -2.0]]),
        direction=np.array([[0.36, 0.48, 0.8]]),
        radius=np.array([24.0]),
        into=np.array([-1.0]),
    )
    pieces = split_at(outline("Box", 24.0, 16.0, 2.0), cylinder.turned)
    assert cylinder.reach(pieces)[0] <= WHOLE
    where, _ = measured(pieces, cylinder).all_at(np.linspace(0.05, 0.95, 7))
    off = where - cylinder.through[0]
    axial = off @ cylinder.direction[0]
    assert np.linalg.norm(off, axis=-1) ** 2 - axial**2 == pytest.approx(np.full(axial.shape, 576.0))
    assert np.all(np.abs(where[..., 1]) <= 8.0 + 1e-12)
    assert attrs.evolve(cylinder, radius=np.array([10.0])).reach(pieces)[0] > WHOLE
