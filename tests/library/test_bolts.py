"""Bolt classes, shoulder screws and rod ends.

- ISO 898-1:2013, Table 3, by three suppliers' reproductions; EN 1993-1-8 Table 3.1 for the nominal pair.
- ISO 3506-1, proof strengths from memory. EN 1993-1-8 Table 3.4 (alpha_v), partly from memory.
- ISO 7379 shoulder screws (f9) and a catalogue of the h8 series with strengths.
"""

import pytest

from strength.errors import RangeError, UnknownNameError
from strength.library import find_bolt_class, rod_end_rating, shoulder_screw, thread
from strength.library.bolt import bolt_class_names, bolt_class_rows
from strength.library.screws import rod_end_names, shoulder_screw_names

# class, diameter, nominal Rm, least Rm, least Re (Rpf for 4.8 and 5.8), proof stress, elongation %
CLASSES = [
    ("4.6", 12, 400, 400, 240, 225, 22),
    ("4.8", 12, 400, 420, 340, 310, None),
    ("5.6", 12, 500, 500, 300, 280, 20),
    ("5.8", 12, 500, 520, 420, 380, None),
    ("8.8", 16, 800, 800, 640, 580, 12),
    ("8.8", 18, 800, 830, 660, 600, 12),
    ("9.8", 12, 900, 900, 720, 650, 10),
    ("10.9", 12, 1000, 1040, 940, 830, 9),
    ("12.9", 12, 1200, 1220, 1100, 970, 8),
]


@pytest.mark.parametrize(("name", "d", "nominal", "rm", "re", "proof", "a"), CLASSES)
def test_iso_898(name, d, nominal, rm, re, proof, a):
    """ISO 898-1:2013 Table 3."""
    one = find_bolt_class(name, d)
    assert (one.ultimate, one.ultimate_min, one.yield_min, one.proof) == (nominal, rm, re, proof)
    assert one.elongation == (None if a is None else pytest.approx(a / 100))


# EN 1993-1-8 Table 3.1: class, fyb, fub
@pytest.mark.parametrize(
    ("name", "fyb", "fub"),
    [
        ("4.6", 240, 400),
        ("4.8", 320, 400),
        ("5.6", 300, 500),
        ("5.8", 400, 500),
        ("6.8", 480, 600),
        ("8.8", 640, 800),
        ("10.9", 900, 1000),
    ],
)
@pytest.mark.parametrize("d", [8, 20])
def test_design_pair(name, fyb, fub, d):
    """EN 1993-1-8 Table 3.1 (4.8, 5.8 and 6.8 from memory), at any diameter."""
    one = find_bolt_class(name, d)
    assert (one.yield_, one.ultimate) == (fyb, fub)
    assert one.in_code


@pytest.mark.parametrize("name", [name for name in bolt_class_names() if "." in name])
def test_class_says_its_strength(name):
    """ISO 898-1: first number = Rm/100, second = 10 Re/Rm; the design pair is never above the minima."""
    first, second = map(int, name.split("."))
    for one in bolt_class_rows(name):
        assert one.ultimate == 100 * first
        assert one.yield_ == pytest.approx(one.ultimate * second / 10)
        assert one.ultimate <= one.ultimate_min
        assert one.yield_ <= one.yield_min
        assert one.proof < one.yield_min
        assert one.brittle == (one.elongation is not None and one.elongation < 0.10)


@pytest.mark.parametrize(
    ("name", "re", "rm"), [("A2-50", 210, 500), ("A2-70", 450, 700), ("A4-70", 450, 700), ("A4-80", 600, 800)]
)
def test_stainless(name, re, rm):
    """ISO 3506-1: Rm read, Rp0.2 from memory."""
    one = find_bolt_class(name, 10)
    assert (one.yield_, one.ultimate) == (re, rm)
    assert one.stainless
    assert not one.brittle


@pytest.mark.parametrize(
    ("name", "alpha"),
    [
        ("4.6", 0.6),
        ("5.6", 0.6),
        ("8.8", 0.6),
        ("4.8", 0.5),
        ("5.8", 0.5),
        ("6.8", 0.5),
        ("10.9", 0.5),
        ("12.9", 0.5),
        ("A2-70", 0.5),
    ],
)
def test_shear_factor(name, alpha):
    """EN 1993-1-8 Table 3.4; stainless EN 1999-1-1 Table 8.5; 12.9 an own choice."""
    one = find_bolt_class(name, 10)
    assert one.shear_thread == alpha
    assert one.shear_shank == 0.6


def test_outside_the_code():
    """9.8 and 12.9 are no classes of EN 1993-1-8."""
    outside = {n for n in bolt_class_names() if not all(one.in_code for one in bolt_class_rows(n))}
    assert outside == {"9.8", "12.9"}


def test_refusals():
    """A diameter without figures and an unknown class are refused by name."""
    with pytest.raises(RangeError, match=r"class 9\.8 has no strength for 20 mm"):
        find_bolt_class("9.8", 20)
    with pytest.raises(UnknownNameError, match=r"no bolt class '8,8': nearest is '8\.8'"):
        find_bolt_class("8,8", 8)


# shoulder, thread, P, f9 max, f9 min, h8 min, thread length, head d, head k, key, neck, torque
SHOULDERS = [
    (6, "M5", 0.8, 5.990, 5.960, 5.982, 9.5, 10.22, 4.5, 3, 3.68, 7),
    (8, "M6", 1, 7.987, 7.951, 7.978, 11, 13.27, 5.5, 4, 4.40, 12),
    (10, "M8", 1.25, 9.987, 9.951, 9.978, 13, 16.27, 7, 5, 6.03, 29),
    (12, "M10", 1.5, 11.984, 11.941, 11.973, 16, 18.27, 9, 6, 7.69, 57),
    (16, "M12", 1.75, 15.984, 15.941, 15.973, 18, 24.33, 11, 8, 9.35, 100),
    (20, "M16", 2, 19.980, 19.928, 19.967, 22, 30.33, 14, 10, 12.96, 240),
    (24, "M20", 2.5, 23.980, 23.928, 23.967, 27, 36.39, 16, 12, 16.30, 470),
]


@pytest.mark.parametrize("row", SHOULDERS, ids=lambda row: f"shoulder {row[0]}")
def test_shoulder_screw(row):
    """ISO 7379 stock list (f9) and the catalogue of the h8 series."""
    ds, size, pitch, f9_max, f9_min, h8_min, length, dk, k, key, neck, torque = row
    one = shoulder_screw(ds)
    assert one == shoulder_screw(f"shoulder {ds} mm")
    assert (one.shoulder, one.thread, thread(one.thread).pitch) == (ds, size, pitch)
    assert (one.f9_max, one.f9_min, one.h8_min) == (f9_max, f9_min, h8_min)
    assert (one.thread_length, one.head_diameter, one.head_height, one.key) == (length, dk, k, key)
    assert (one.neck, one.torque) == (neck, torque)
    assert one.neck < thread(one.thread).root < one.f9_min < one.h8_min < one.shoulder


def test_shoulder_screw_strength():
    """Worked out by others: shoulder 10 shears at 51.8 kN, its neck (M8) pulls apart at 31.4 kN."""
    one = shoulder_screw(10)
    assert one.shear * one.shoulder_area == pytest.approx(51.8e3, abs=50)
    assert one.ultimate * one.neck_area == pytest.approx(31.4e3, abs=50)


def test_unknown_shoulder():
    """9 mm is not made."""
    with pytest.raises(UnknownNameError, match="no shoulder screw 'shoulder 9'"):
        shoulder_screw("shoulder 9 mm")
    assert len(shoulder_screw_names()) == len(SHOULDERS)


def shank_limit(size: str) -> float:
    """Static rating by the shank alone: 0.78 d_root^2 X at X = 350 MPa (a bearing maker's formula)."""
    return 0.78 * thread(size).root ** 2 * 350


@pytest.mark.parametrize(("size", "limit"), [("M8", 11.4), ("M10", 18.2), ("M12", 26.5), ("M16", 50.1)])
def test_rod_end_is_below_its_shank(size, limit):
    """Worked out by others from the maker's formula [kN]; the cautious ratings lie below it."""
    assert shank_limit(size) == pytest.approx(limit * 1e3, abs=60)
    assert rod_end_rating(size).radial < shank_limit(size)


def test_rod_end_ratings():
    """Own choice for M8, M10, M12: 8, 12 and 17 kN; axial no more than a fifth (practice 10 to 20 %)."""
    assert [rod_end_rating(size).radial for size in ("M8", "M10", "M12x1.25")] == [8e3, 12e3, 17e3]
    for size in rod_end_names():
        one = rod_end_rating(size)
        assert 0 < one.axial <= 0.2 * one.radial
        assert one.sure == "choice"
    with pytest.raises(UnknownNameError, match="no rod end 'M9'"):
        rod_end_rating("M9")
