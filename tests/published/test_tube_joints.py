"""Welded joints of hollow sections, EN 1993-1-8:2005 section 7.

Formulas of Tables 7.2, 7.3, 7.5, 7.10 to 7.14 from memory; that only chord face failure and
punching need be checked inside Table 7.1 was read in 7.4.1. The reference problems are evaluated
from the tables. Independent second code: AISC 360-10 chapter K (from memory), written for the same
joints from other tests; at kp = Qf = 1 its design strengths agree within 1.4 %.
"""

import attrs
import numpy as np
import pytest

from strength.joints import box_joint, tab_joint
from strength.joints import tube_joint as en
from strength.joints.plate import effective_width, root_moment

CHORD = (48.3, 3.2)
BRACE, FY = 33.7, 355.0
RIGHT, LEANING = np.pi / 2.0, np.radians(50.0)


@pytest.mark.parametrize(
    ("name", "kind", "angle", "n_p", "face", "punching"),
    [
        ("CX1", "T", RIGHT, 0.0, 52.90, 69.44),
        ("CX2", "T", RIGHT, 0.5, 40.99, 69.44),
        ("CX3", "T", LEANING, 0.0, 69.05, 104.49),
        ("CX4", "X", RIGHT, 0.0, 43.47, 69.44),
        ("CX5", "K", LEANING, 0.0, 71.00, 104.49),
    ],
)
def test_axial(name, kind, angle, n_p, face, punching):
    """Face failure and punching [kN]; CX5 with a gap of 10 mm, kg = 1.6779."""
    kp = en.chord_factor(np.array(n_p))
    found = {
        "T": lambda: en.axial_t(*CHORD, BRACE, angle, FY, kp),
        "X": lambda: en.axial_x(*CHORD, BRACE, angle, FY, kp),
        "K": lambda: en.axial_k(*CHORD, BRACE, angle, FY, kp, 10.0),
    }[kind]()
    assert found / 1e3 == pytest.approx(face, rel=2e-3)
    assert en.axial_punching(CHORD[1], BRACE, angle, FY) / 1e3 == pytest.approx(punching, rel=2e-3)


def test_gap_factor():
    """CX5."""
    assert en.gap_factor(*CHORD, 10.0) == pytest.approx(1.6779, rel=1e-4)


@pytest.mark.parametrize(
    ("angle", "n_p", "face_ip", "punch_ip", "face_op", "punch_op"),
    [
        (RIGHT, 0.0, 1.139, 0.745, 0.761, 0.745),
        (RIGHT, 0.5, 0.883, 0.745, 0.590, 0.745),
        (LEANING, 0.0, 1.487, 1.047, 0.993, 1.195),
    ],
    ids=["CX1", "CX2", "CX3"],
)
def test_moments(angle, n_p, face_ip, punch_ip, face_op, punch_op):
    """In and out of plane, face and punching [kN m]."""
    kp = en.chord_factor(np.array(n_p))
    assert en.in_plane(*CHORD, BRACE, angle, FY, kp) / 1e6 == pytest.approx(face_ip, rel=2e-3)
    assert en.out_of_plane(*CHORD, BRACE, angle, FY, kp) / 1e6 == pytest.approx(face_op, rel=2e-3)
    assert en.in_plane_punching(CHORD[1], BRACE, angle, FY) / 1e6 == pytest.approx(punch_ip, rel=2e-3)
    assert en.out_of_plane_punching(CHORD[1], BRACE, angle, FY) / 1e6 == pytest.approx(punch_op, rel=2e-3)


def test_chord_factor():
    """Chord factors at 0.2, 0.4, 0.5, 0.6, 0.8 of yield in compression; 1 in tension."""
    found = en.chord_factor(np.array([0.2, 0.4, 0.5, 0.6, 0.8, -0.3]))
    assert found == pytest.approx([0.928, 0.832, 0.775, 0.712, 0.568, 1.0], abs=5e-4)


def test_interaction_at_the_limit():
    """Equation 7.3: 0.4 + 0.5^2 + 0.3 = 0.95; scaled up until it is 1, the multiple is 1/u."""
    u = en.interaction(np.array(0.4), np.array(0.5), np.array(0.3))
    assert 0.4 / u + (0.5 / u) ** 2 + 0.3 / u == pytest.approx(1.0, rel=1e-12)
    assert u < 1.0


def test_a_second_code_agrees():
    """AISC LRFD over EN, T and X face failure and punching: 0.991, 0.987, 0.987."""
    d0, t0 = CHORD
    beta, gamma = BRACE / d0, d0 / (2.0 * t0)
    t = 0.90 * FY * t0**2 * (3.1 + 15.6 * beta**2) * gamma**0.2
    x = 0.90 * FY * t0**2 * 5.7 / (1.0 - 0.81 * beta)
    punching = 0.95 * 0.6 * FY * t0 * np.pi * BRACE
    assert t / en.axial_t(d0, t0, BRACE, RIGHT, FY, 1.0) == pytest.approx(0.991, abs=1e-3)
    assert x / en.axial_x(d0, t0, BRACE, RIGHT, FY, 1.0) == pytest.approx(0.987, abs=1e-3)
    assert punching / en.axial_punching(t0, BRACE, RIGHT, FY) == pytest.approx(0.987, abs=1e-3)


def test_plates_on_tubes():
    """Table 7.3 by hand: 60.3 x 4, fy 235, plate of 40 mm across and 70 mm along, kp 0.9."""
    unit, beta, eta = 0.9 * 235.0 * 16.0, 40.0 / 60.3, 70.0 / 60.3
    assert tab_joint.across(60.3, 4.0, 40.0, 235.0, 0.9, crossed=False) == pytest.approx(
        unit * (4.0 + 20.0 * beta**2)
    )
    assert tab_joint.across(60.3, 4.0, 40.0, 235.0, 0.9, crossed=True) == pytest.approx(
        unit * 5.0 / (1.0 - 0.81 * beta)
    )
    assert tab_joint.along(60.3, 4.0, 70.0, 235.0, 0.9) == pytest.approx(unit * 5.0 * (1.0 + eta / 4.0))
    assert tab_joint.box(60.3, 4.0, 40.0, 70.0, 235.0, 0.9, crossed=False) == pytest.approx(
        unit * (4.0 + 20.0 * beta**2) * (1.0 + eta / 4.0)
    )
    assert tab_joint.punching(4.0, 235.0, plate=True) == pytest.approx(8.0 * 135.6773, rel=1e-6)
    assert tab_joint.punching(4.0, 235.0, plate=False) == pytest.approx(4.0 * 135.6773, rel=1e-6)


def _face(kn=1.0, b0=60.0, h0=40.0, t0=3.0):
    return box_joint.Face(
        b0=np.array(b0), h0=np.array(h0), t0=np.array(t0), fy=np.array(355.0), kn=np.array(kn)
    )


def _brace(b1, h1, t1=2.5, angle=RIGHT, fy1=235.0):
    return box_joint.Brace(b1=np.array(b1), h1=np.array(h1), t1=np.array(t1), fy1=np.array(fy1), angle=angle)


def test_face_of_a_box_by_yield_lines():
    """Table 7.11 below beta 0.85 is the yield-line load of the face: the sum of its hinges' work.

    A b1 x h1 patch sinks into a face b0 wide: slopes over x = (b0 - b1)/2 at the sides and over the
    best run at the ends, straight hinges, plastic moment fy t^2/4.
    """
    b0, b1, h1, t0, fy = 60.0, 30.0, 45.0, 3.0, 355.0
    m = fy * t0**2 / 4.0
    x = (b0 - b1) / 2.0
    run = np.linspace(1.0, 200.0, 400001)
    # work per unit sink: each panel's turn times the length of its edges along its axis, diagonals
    # counted by their projections
    work = m * ((4.0 * h1 + 8.0 * run) / x + 4.0 * b0 / run)
    expected = work.min()
    found = box_joint.axial(_face(), _brace(b1, h1), np.array(False), crossed=False)
    assert found == pytest.approx(expected, rel=1e-6)


def test_leaning_box_on_a_box_by_hand():
    """With beta 0.5, eta 0.75, 60 degrees, kn 0.8: kn fy t0^2/((1 - beta) s) (2 eta/s + 4 sqrt(1 - beta))."""
    s = np.sqrt(0.75)
    expected = 0.8 * 355.0 * 9.0 / (0.5 * s) * (1.5 / s + 4.0 * np.sqrt(0.5))
    found = box_joint.axial(
        _face(0.8), _brace(30.0, 45.0, angle=np.radians(60.0)), np.array(True), crossed=False
    )
    assert found == pytest.approx(expected, rel=1e-12)


def test_full_width_box_fails_at_the_side_walls_or_itself():
    """At beta = 1 kn fy t0 (2 h1 + 10 t0), and fy1 t1 (2 h1 - 4 t1 + 2 b_eff) of the brace."""
    pulled = np.array(False)
    strong = _brace(60.0, 45.0, t1=8.0, fy1=355.0)
    assert box_joint.axial(_face(), strong, pulled, crossed=False) == pytest.approx(
        355.0 * 3.0 * (90.0 + 30.0)
    )
    weak = _brace(60.0, 45.0, t1=1.5, fy1=235.0)
    b_eff = min(10.0 * 3.0 / 60.0 * 355.0 * 3.0 / (235.0 * 1.5), 1.0) * 60.0
    assert box_joint.axial(_face(), weak, pulled, crossed=False) == pytest.approx(
        235.0 * 1.5 * (90.0 - 6.0 + 2 * b_eff)
    )


@pytest.mark.parametrize(("curve", "imperfection"), [((0.21, 0.2), 0.21), ((0.49, 0.2), 0.49)])
def test_side_walls_buckle_only_when_pressed_and_slender(curve, imperfection):
    """Slenderness 3.46 (h0/t0 - 2)/(pi sqrt(E/fy)); a box 150 deep: chi by Perry-Robertson by hand.

    Curve a is that of hot-finished boxes, curve c that of cold-formed ones.
    """
    face = attrs.evolve(_face(h0=150.0), curve=curve)
    brace = _brace(60.0, 45.0, t1=8.0, fy1=355.0)
    slender = 3.46 * (150.0 / 3.0 - 2.0) / (np.pi * np.sqrt(210000.0 / 355.0))
    phi = 0.5 * (1.0 + imperfection * (slender - 0.2) + slender**2)
    chi = 1.0 / (phi + np.sqrt(phi**2 - slender**2))
    assert 0.1 < chi < 0.3
    pulled = box_joint.axial(face, brace, np.array(False), crossed=False)
    pressed = box_joint.axial(face, brace, np.array(True), crossed=False)
    crossed = box_joint.axial(face, brace, np.array(True), crossed=True)
    assert pressed / pulled == pytest.approx(chi, rel=1e-9)
    assert crossed / pulled == pytest.approx(0.8 * chi, rel=1e-9)


def test_bending_of_a_box_on_a_box_by_hand():
    """Table 7.14 at beta 0.5, eta 0.75: both planes, and the chord's distortion that caps the second."""
    face, brace = _face(), _brace(30.0, 45.0)
    unit = 355.0 * 9.0
    assert box_joint.in_plane(face, brace, crossed=False) == pytest.approx(
        unit * 45.0 * (1.0 / 1.5 + 2.0 / np.sqrt(0.5) + 1.5)
    )
    bending = unit * (45.0 * 1.5 / 1.0 + np.sqrt(2.0 * 60.0 * 30.0 * 3.0))
    distortion = 2.0 * 355.0 * 3.0 * (45.0 * 3.0 + np.sqrt(60.0 * 40.0 * 3.0 * 100.0))
    assert box_joint.out_of_plane(face, brace, crossed=False) == pytest.approx(min(bending, distortion))
    assert box_joint.out_of_plane(face, brace, crossed=True) == pytest.approx(bending)


def test_plates_on_a_box_by_hand():
    """Table 7.13: across (beta 0.6; and full width) and along (t1/b0 = 0.1)."""
    face = _face(0.9)
    across = _brace(36.0, 6.0, t1=6.0)
    own = 235.0 * 6.0 * min(10.0 * 3.0 / 60.0 * 355.0 * 3.0 / (235.0 * 6.0), 1.0) * 36.0
    bending = 0.9 * 355.0 * 9.0 * (2.0 + 2.8 * 0.6) / np.sqrt(1.0 - 0.54)
    assert box_joint.plate_across(face, across) == pytest.approx(min(own, bending))
    full = _brace(60.0, 6.0, t1=6.0, fy1=900.0)
    assert box_joint.plate_across(face, full) == pytest.approx(
        min(0.9 * 355.0 * 3.0 * (12.0 + 30.0), 900.0 * 6.0 * 0.5 * 355.0 * 3.0 / (900.0 * 6.0) * 60.0)
    )
    along = _brace(6.0, 80.0, t1=6.0)
    assert box_joint.plate_along(face, along, np.array(0.7)) == pytest.approx(
        0.7 * 355.0 * 9.0 * (2.0 * 80.0 / 60.0 + 4.0 * np.sqrt(0.9))
    )


def test_chord_factors_of_boxes():
    """Factors kn = 1.3 - 0.4 n/beta <= 1 and km = 1.3 (1 - n) <= 1; tension 1."""
    n = np.array([-0.4, 0.1, 0.6])
    assert box_joint.chord_factor(n, 0.5) == pytest.approx([1.0, 1.0, 0.82])
    assert box_joint.plate_factor(n) == pytest.approx([1.0, 1.0, 0.52])


@pytest.mark.parametrize(("place", "k"), [(1.0, 0.509), (0.75, 0.428), (0.5, 0.370), (0.25, 0.332)])
def test_root_moment_of_a_plate(place, k):
    """Jaramillo's greatest root moments (from memory, recomputed): b_eff/a = (c/a)/K_m."""
    assert root_moment(np.array(place)) == pytest.approx(k)
    assert effective_width(np.array(place * 80.0), np.array(80.0)) == pytest.approx(80.0 * place / k)
