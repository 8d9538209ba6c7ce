"""Thread stripping by the areas of FED-STD-H28/2.

- A textbook's worked example: M10, bolt strength 69.6 kN, aluminium of 130 MPa shear strength, engaged
  21.6 mm. Its 9.968 mm is the greatest outside diameter of 6g, not the least (an erratum: with the
  least, 9.732 mm, the length is 24.9 mm).
- Engagement needed for M8 8.8 in five metals, worked from areas of 16.90 mm2/mm that are 0.4 % over
  those of the tabled limits.
"""

import attrs
import pytest

from strength.joints.stud import strip_resistance
from strength.library import thread


@pytest.mark.parametrize(("major", "length"), [(9.968, 21.6), (9.732, 24.9)])
def test_worked_example(major, length):
    """69.6 kN over 130 MPa, with the greatest and with the least outside diameter."""
    own = attrs.evolve(thread("M10"), major_min=major, nut_pitch_max=9.206)
    held = strip_resistance(length + own.pitch, own.pitch, own.strip_nut, 1e9, 130.0 / 0.6, 1200.0)
    assert held == pytest.approx(69600.0, rel=5e-3)


@pytest.mark.parametrize(
    ("rm", "length"), [(310.0, 9.3), (195.0, 14.8), (185.0, 15.6), (540.0, 5.3), (360.0, 8.0)]
)
def test_m8_in_five_metals(rm, length):
    """6082-T6, 6060-T66, 6082 beside a weld, 7075-T651, S235: 29.28 kN, shear strength 0.6 Rm.

    Lengths are printed to 0.1 mm.
    """
    own = thread("M8")
    held = strip_resistance(length + own.pitch, own.pitch, own.strip_nut, own.strip_bolt, rm, 800.0)
    assert held == pytest.approx(29280.0, rel=0.05 / length + 0.005)


def test_hard_metal_strips_the_stud():
    """In metal far stronger than the stud, the stud's own thread gives way: 12.16 mm2/mm x 0.6 x 400."""
    own = thread("M8")
    held = strip_resistance(12.25, 1.25, own.strip_nut, own.strip_bolt, 1000.0, 400.0)
    assert held == pytest.approx(0.6 * 11.0 * 12.16 * 400.0, rel=1e-3)


def test_less_than_a_pitch_carries_next_to_nothing():
    """Nor ever less than nothing."""
    own = thread("M8")
    assert 0.0 < strip_resistance(1.0, 1.25, own.strip_nut, own.strip_bolt, 300.0, 800.0) < 100.0
