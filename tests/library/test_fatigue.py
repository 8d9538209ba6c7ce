"""Fatigue classes.

- IIW recommendations (IIW-1823-07): classes from memory but for base metal (FITNET MK7 Table G.1, read).
- EN 1993-1-9 Tables 8.1 to 8.7: from memory. Form of the curves: IIW-1823-07 3.2, EN 1993-1-9 7.1.
"""

import pytest

from strength.errors import UnknownNameError
from strength.library import fatigue_class
from strength.library.fatigue import fatigue_names

# detail: IIW steel, IIW aluminium, EN 1993-1-9 (None: none printed)
CLASSES = [
    ("base metal", 160, 70, 160),
    ("cut edge", 140, None, 140),
    ("fillet along the stress", 90, 36, 100),
    ("fillet toe", 63, 22, 80),
    ("fillet root", 36, 12, 36),
    ("attachment across", 80, 28, 80),
    ("thick attachment across", 71, 25, 71),
    ("attachment along to 50 mm", 80, 28, 80),
    ("attachment along to 150 mm", 71, 25, 56),
    ("attachment along to 300 mm", 63, 20, 56),
    ("attachment along over 300 mm", 50, 18, 56),
    ("lap across, plate", 63, 22, 63),
    ("lap across, throat", 45, 16, 45),
    ("lap with side fillets", 50, 18, 45),
    ("tube end, root", 50, 18, 40),
    ("tube with disc", 71, 25, None),
    ("slotted tube", 45, 14, 63),
    ("shear in parent", 100, 36, 100),
    ("shear in fillet", 80, 28, 80),
    ("tube gap joint, equal walls", None, None, 45),
    ("tube gap joint, double wall", None, None, 90),
]


@pytest.mark.parametrize(("name", "steel", "aluminium", "en"), CLASSES)
def test_class(name, steel, aluminium, en):
    """Classes in MPa at 2 million cycles; where none is printed, none is given."""
    for wanted, kind, standard in (
        (steel, "steel", "IIW"),
        (aluminium, "aluminium", "IIW"),
        (en, "steel", "EN 1993-1-9"),
    ):
        if wanted is None:
            with pytest.raises(UnknownNameError, match=f"no fatigue class '{name}, {kind}, {standard}'"):
                fatigue_class(name, kind=kind, standard=standard)
        else:
            found = fatigue_class(name, kind=kind, standard=standard)
            assert (found.range_, found.cycles) == (wanted, 2e6)


def test_every_detail_is_tested():
    """The rows above are all there are."""
    assert set(fatigue_names()) == {row[0] for row in CLASSES}


def test_base_metal_of_7xxx():
    """FITNET MK7 Table G.1: 80 for 7xxx, 70 for 5xxx and 6xxx; slope 5."""
    assert fatigue_class("base metal", kind="aluminium", series="7xxx").range_ == 80
    assert fatigue_class("base metal", kind="aluminium", series="6xxx").range_ == 70
    assert fatigue_class("base metal").slope == 5


def test_stainless_is_as_steel():
    """Own choice: stainless takes the classes of steel."""
    assert fatigue_class("fillet toe", kind="stainless") == fatigue_class("fillet toe")


def at(found, cycles: float) -> float:
    """Range at a number of cycles on the first slope, over the class."""
    return (found.cycles / cycles) ** (1 / found.slope)


def test_iiw_knee():
    """IIW-1823-07 3.2: m = 3 to 1e7 cycles, knee at 0.585 of the class."""
    found = fatigue_class("fillet toe")
    assert (found.slope, found.knee) == (3, 1e7)
    assert at(found, found.knee) == pytest.approx(0.585, abs=5e-4)


def test_en_limits():
    """EN 1993-1-9 7.1: 0.737 at 5e6, 0.549 of that at 1e8 (0.405); in shear 0.457 at 1e8."""
    found = fatigue_class("fillet toe", standard="EN 1993-1-9")
    assert (found.slope, found.knee, found.slope_beyond, found.cut_off) == (3, 5e6, 5, 1e8)
    knee = at(found, found.knee)
    assert knee == pytest.approx(0.737, abs=5e-4)
    beyond = (found.knee / found.cut_off) ** (1 / found.slope_beyond)
    assert beyond == pytest.approx(0.549, abs=5e-4)
    assert knee * beyond == pytest.approx(0.405, abs=5e-4)
    shear = fatigue_class("shear in fillet", standard="EN 1993-1-9")
    assert shear.shear
    assert at(shear, shear.cut_off) == pytest.approx(0.457, abs=5e-4)


@pytest.mark.parametrize(
    ("name", "kind", "range_", "cycles"),
    [("fillet toe", "aluminium", 30, 788_741), ("fillet root", "aluminium", 20, 432_000)],
)
def test_cycles_of_aluminium(name, kind, range_, cycles):
    """Worked out by others from the IIW curve: class 22 at 30 MPa, class 12 at 20 MPa."""
    found = fatigue_class(name, kind=kind)
    assert found.cycles * (found.range_ / range_) ** found.slope == pytest.approx(cycles, rel=1e-3)


def test_no_european_classes_for_aluminium():
    """EN 1993-1-9 is for steel: aluminium is refused, not given steel's class."""
    with pytest.raises(UnknownNameError, match="aluminium, EN 1993-1-9"):
        fatigue_class("fillet toe", kind="aluminium", standard="EN 1993-1-9")
