"""Stress concentration at holes and shoulders.

R. C. J. Howland, On the stresses in the neighbourhood of a circular hole in a strip under tension,
Phil. Trans. R. Soc. A 229 (1930); R. B. Heywood, Designing by Photoelasticity (1952);
W. D. Pilkey, Peterson's Stress Concentration Factors; Roark's Formulas for Stress and Strain. All
figures from memory. J. E. Shigley, Mechanical Engineering Design, Example 6-6 (read).
"""

import pytest

from strength.checks.concentration import (
    hole_in_bending,
    hole_in_tension,
    shoulder_in_bending,
    shoulder_in_tension,
    shoulder_in_torsion,
)

# d/w: gross factor by Howland, polynomial on the net section
HOLES = [(0.1, 3.03, 2.721), (0.2, 3.14, 2.506), (0.3, 3.36, 2.347), (0.4, 3.74, 2.233), (0.5, 4.32, 2.156)]


@pytest.mark.parametrize(("ratio", "gross", "net"), HOLES)
def test_hole_in_tension(ratio: float, gross: float, net: float) -> None:
    """The polynomial to its digits, and Howland's solution to half a per cent."""
    found, covered = hole_in_tension(ratio * 44.0, 44.0)
    assert found == pytest.approx(net, abs=6e-4)
    assert found == pytest.approx(gross * (1.0 - ratio), rel=6e-3)
    assert found == pytest.approx(2.0 + (1.0 - ratio) ** 3, rel=0.016)  # Heywood, coarser at d/w 0.5
    assert covered


def test_wide_hole_is_out_of_range() -> None:
    """Past half the width the fit was compared with nothing."""
    assert not hole_in_tension(24.0, 44.0)[1]


@pytest.mark.parametrize(
    ("ratio", "expected"), [(1e-6, 2.98), (0.5, 2.488), (1.0, 2.245), (2.0, 2.028), (4.0, 1.891)]
)
def test_hole_in_bending(ratio: float, expected: float) -> None:
    """Peterson's curve for a wide plate, v = 0.3, by hole diameter over thickness."""
    found, covered = hole_in_bending(ratio * 6.0, 1e6, 6.0)
    assert found == pytest.approx(expected, abs=2e-3)
    assert covered


def test_hole_in_bending_tends_to_theory() -> None:
    """Thin plate theory: (5 + 3 v)/(3 + v); the chart ends before."""
    found, covered = hole_in_bending(5e4, 1e9, 1.0)
    assert found == pytest.approx((5.0 + 0.9) / 3.3, abs=3e-3)
    assert not covered


@pytest.mark.parametrize(
    ("larger", "fillet", "tension", "bending", "torsion"),
    [
        (1.1, 0.1, 1.557, 1.574, 1.296),
        (1.5, 0.1, 1.860, 1.743, 1.413),
        (1.5, 0.2, 1.554, 1.467, 1.235),
        (2.0, 0.2, 1.629, 1.475, 1.252),
    ],
)
def test_shoulder(larger: float, fillet: float, tension: float, bending: float, torsion: float) -> None:
    """Peterson's fits, D/d and r/d, at a diameter other than 1."""
    d = 13.0
    found = [
        factor(larger * d, d, fillet * d)
        for factor in (shoulder_in_tension, shoulder_in_bending, shoulder_in_torsion)
    ]
    assert [value for value, _ in found] == pytest.approx([tension, bending, torsion], abs=6e-4)
    assert all(covered for _, covered in found)


def test_shoulder_out_of_the_torsion_fit() -> None:
    """D/d 2, r/d 0.1: inside the fits for tension and bending, outside that for torsion."""
    assert shoulder_in_tension(26.0, 13.0, 1.3) == (pytest.approx(1.965, abs=6e-4), True)
    assert shoulder_in_bending(26.0, 13.0, 1.3) == (pytest.approx(1.802, abs=6e-4), True)
    assert not shoulder_in_torsion(26.0, 13.0, 1.3)[1]


def test_shigley_example_6_6() -> None:
    """38 to 32 mm, 3 mm fillet: read off charts as 1.65 and 1.35; fit and chart differ by up to 4 %."""
    assert shoulder_in_bending(38.0, 32.0, 3.0)[0] == pytest.approx(1.65, rel=0.04)
    assert shoulder_in_torsion(38.0, 32.0, 3.0)[0] == pytest.approx(1.35, rel=0.04)
