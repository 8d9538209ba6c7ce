"""Sizes that nothing has are a slip of the pen, and told as one."""

import pytest

from strength.case.shape_text import parse
from strength.errors import StrengthError
from strength.units import quantity


@pytest.mark.parametrize(
    ("text", "dimension"), [("-1e300 N", "force"), ("1e13 kg", "mass"), ("2e12 mm", "length")]
)
def test_nothing_is_that_large(text, dimension):
    """Beyond a million kilometres or a million million newtons there is no vehicle."""
    with pytest.raises(StrengthError, match="larger than anything that is built"):
        quantity(text, dimension)


def test_large_things_are_read():
    """A kilometre of track and the stiffness of rock are no slips."""
    assert quantity("1000 m", "length") == 1e6
    assert quantity("1e6 kN/mm", "stiffness") == pytest.approx(1e9)


@pytest.mark.parametrize("text", ["square 30 x 1e-300 mm", "tube 25 x 0.0001 mm", "bar 1e6 mm"])
def test_sections_have_sizes_that_are_rolled(text):
    """No wall of a ten-thousandth, no bar of a kilometre."""
    with pytest.raises(StrengthError, match=r"outside 0\.001 to 100000 mm"):
        parse(text)
