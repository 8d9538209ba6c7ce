"""Warnings about sizes and metals of welds, each on a weld that calls for it and on one that does not.

AISC 360-16 Table J2.4 and J2.2b (least leg by the thinner part, least length) as read in extracts;
EN 1993-1-8:2005 4.1, 4.5.1, 4.5.2, 4.12 and 7.1.1, and EN 1999-1-1 8.6.3, from memory.
"""

import attrs
import numpy as np
import pytest

from strength.case.model import Basis, Plate
from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.guards_weld_metals import brazed, strength_kept, unsuited_filler
from strength.checks.guards_weld_rules import (
    end_craters,
    least_leg,
    line_lengths,
    one_sided,
    outside_scope,
    short_weld,
)
from strength.library import Filler
from tests.joints.bench import ALUMINIUM, LIMIT_STATE, bench, metal, weld

FORCE = [1500.0, 0.0, 2000.0, 0.0, 0.0, 0.0]
ACROSS = np.array([0.8, -0.64, 0.0])


def texts(guard, *welds, shape=None, forces=FORCE, **given):
    """What one guard says."""
    context = bench(shape or Tube(30.0, 2.0), [forces], *(welds or (weld(),)), **given)
    return [warning.text for warning in guard(context)]


def plate(thickness, material="S235"):
    """What it is welded onto."""
    return Plate(thickness=thickness, material=material)


@pytest.mark.parametrize(
    ("wall", "onto", "leg", "told"),
    [
        (6.0, 20.0, 2.9, "at least 3 mm"),
        (6.0, 20.0, 3.0, None),
        (6.1, 20.0, 4.9, "at least 5 mm"),
        (13.0, 20.0, 5.0, None),
        (13.1, 20.0, 5.9, "at least 6 mm"),
        (19.0, 30.0, 6.0, None),
        (19.1, 30.0, 7.9, "at least 8 mm"),
        (19.1, 30.0, 8.0, None),
        (19.1, 6.0, 3.0, None),  # the thinner of the two
        (1.5, 20.0, 1.4, "at least 1.5 mm"),  # no more than the part itself
        (1.5, 20.0, 1.5, None),
    ],
)
def test_least_leg(wall, onto, leg, told):
    """AISC 360-16 Table J2.4, metric column: 3, 5, 6, 8 mm for parts to 6, 13, 19 mm and over."""
    found = texts(least_leg, weld(leg=leg, onto=plate(onto)), shape=Flat(80.0, wall))
    assert len(found) == (told is not None)
    assert all(told in text and "J2.4" in text for text in found)


def test_least_leg_is_not_asked_of_brazing_nor_of_aluminium():
    """The table guards steel against cooling too fast."""
    thick = {"shape": Flat(80.0, 10.0)}
    assert texts(least_leg, weld(leg=2.0, process="braze", filler="bronze"), **thick) == []
    assert texts(least_leg, weld(leg=2.0, filler="5356"), material="6082-T6", **thick) == []
    assert len(texts(least_leg, weld(leg=2.0), **thick)) == 1


@pytest.mark.parametrize(
    ("shape", "given", "count"),
    [
        (Bar(9.5), {}, 1),  # 29.8 mm round
        (Bar(9.6), {}, 0),  # 30.2 mm
        (Flat(29.0, 6.0), {"pattern": "sides"}, 1),
        (Flat(31.0, 6.0), {"pattern": "sides"}, 0),
        (Flat(33.0, 6.0), {"pattern": "sides", "leg": 8.0}, 1),  # six throats: 33.9 mm
        (Flat(35.0, 6.0), {"pattern": "sides", "leg": 8.0}, 0),
        (Flat(90.0, 6.0), {"pattern": "lines", "lines": ((3, 45, 3, -45), (-3, 10, -3, -15))}, 1),
        (Flat(90.0, 6.0), {"pattern": "lines", "lines": ((3, 45, 3, -45), (-3, 15, -3, -16))}, 0),
    ],
)
def test_short_weld(shape, given, count):
    """EN 1993-1-8 4.5.1(2): 30 mm and 6 throats, line by line."""
    assert len(texts(short_weld, weld(**given), shape=shape)) == count


def test_a_very_short_line_counts_with_a_quarter_of_its_length():
    """AISC J2.2b: 18 mm of a 5 mm leg, under 20, counts as a leg of 4.5 mm."""
    short = weld(leg=5.0, pattern="lines", lines=((3.0, 9.0, 3.0, -9.0),))
    (text,) = texts(short_weld, short, shape=Flat(90.0, 6.0))
    assert "4.5 mm of leg" in text
    (text,) = texts(short_weld, attrs.evolve(short, leg=4.0), shape=Flat(90.0, 6.0))
    assert "of leg" not in text


@pytest.mark.parametrize(("width", "count"), [(22.0, 1), (23.0, 0)])
def test_short_weld_in_aluminium(width, count):
    """EN 1999-1-1 8.6.3: eight throats, 22.6 mm of a 4 mm leg."""
    own = weld(filler="5356", pattern="sides")
    assert len(texts(short_weld, own, shape=Flat(width, 6.0), material="6082-T6")) == count


def test_line_lengths_of_each_pattern():
    """Circumference, two widths and thicknesses, sides of a box."""
    for shape, given, expected in (
        (Tube(40.0, 2.0), {}, [125.6637]),
        (Box(50.0, 30.0, 2.0), {}, [160.0]),
        (Flat(50.0, 6.0), {}, [112.0]),
        (Flat(50.0, 6.0), {"pattern": "lines", "lines": ((0, 0, 3, 4), (0, 0, 0, 9))}, [5.0, 9.0]),
    ):
        context = bench(shape, [FORCE], weld(**given))
        assert line_lengths(context, context.case.welds[0]) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("given", "basis", "count"),
    [
        ({"pattern": "sides"}, Basis(), 1),
        ({"pattern": "sides"}, LIMIT_STATE, 0),  # a throat comes off there
        ({}, Basis(), 0),
        ({"pattern": "lines", "lines": ((3, 45, 3, -45), (3, 45, -3, 45))}, Basis(), 1),
        (
            {"pattern": "lines", "lines": ((3, 45, 3, -45), (3, -45, -3, -45), (-3, -45, 3, 45))},
            Basis(),
            0,
        ),
    ],
)
def test_end_craters(given, basis, count):
    """Open lines on the allowable basis; not a closed one."""
    assert len(texts(end_craters, weld(**given), shape=Flat(90.0, 6.0), basis=basis)) == count


@pytest.mark.parametrize(
    ("shape", "leg", "onto", "told", "not_told"),
    [
        (Tube(30.0, 2.4), 5.0, 8.0, ["tube walls under 2.5", "parts under 4"], ["throats"]),
        (Tube(30.0, 2.5), 5.0, 8.0, ["parts under 4"], ["tube walls", "throats"]),
        (Flat(60.0, 4.0), 4.0, 8.0, ["throats under 3"], ["parts", "tube walls"]),
        (Flat(60.0, 4.0), 4.3, 3.0, ["parts under 4"], ["throats", "tube walls"]),
        (Flat(60.0, 2.0), 4.3, 8.0, ["parts under 4"], ["tube walls"]),
    ],
)
def test_outside_scope(shape, leg, onto, told, not_told):
    """EN 1993-1-8: tube walls 2.5 mm, parts 4 mm, throats 3 mm (a leg of 4.24 mm)."""
    (text,) = texts(outside_scope, weld(leg=leg, onto=plate(onto)), shape=shape)
    assert all(words in text for words in told)
    assert not any(words in text for words in not_told)
    assert "thin trike tube lies there" in text


def test_inside_the_scope():
    """Thick parts and throats, and brazing, which no code covers at all."""
    assert texts(outside_scope, weld(leg=4.3, onto=plate(8.0)), shape=Flat(60.0, 4.0)) == []
    assert texts(outside_scope, weld(process="braze", filler="bronze")) == []


@pytest.mark.parametrize(("wall", "count"), [(1.4, 1), (1.5, 0)])
def test_scope_of_the_aluminium_code(wall, count):
    """EN 1999-1-1: parts of 1.5 mm and up."""
    found = texts(outside_scope, weld(filler="5356"), shape=Tube(30.0, wall), material="6082-T6")
    assert len(found) == count


FACE = ((3.0, 45.0, 3.0, -45.0), (3.0, 45.0, 3.0, -20.0))


@pytest.mark.parametrize(
    ("lines", "forces", "count"),
    [
        (FACE, [0.0, 500.0, 0.0, 0.0, 0.0, 0.0], 1),
        (FACE, [0.0, 0.0, 0.0, 0.0, 0.0, 9e3], 1),
        (FACE, [4e3, 0.0, 900.0, 0.0, 7e4, 0.0], 0),  # pulled, and bent along its width
        (((3.0, 45.0, 3.0, -45.0), (-3.0, 45.0, -3.0, -45.0)), [0.0, 500.0, 0.0, 0.0, 0.0, 9e3], 0),
    ],
)
def test_one_sided(lines, forces, count):
    """Both lines on the face at +3 mm of a 6 mm flat, bent across it; not with a line on the other face."""
    found = texts(one_sided, weld(pattern="lines", lines=lines), shape=Flat(90.0, 6.0), forces=forces)
    assert len(found) == count


def test_one_sided_is_asked_of_flats_only():
    """A tube has no two faces."""
    own = weld(pattern="lines", lines=FACE)
    assert texts(one_sided, own, shape=Tube(90.0, 3.0), forces=[0.0, 500.0, 0.0, 0.0, 0.0, 9e3]) == []


def test_brazed():
    """The library's rod: no code value; a figure of one's own is taken as it is."""
    (text,) = texts(brazed, weld(process="braze", filler="bronze"))
    assert "0.4 x 345 MPa" in text
    assert "coupons" in text
    own = Filler(name="coupons", kind="bronze", strength=210.0, own=True)
    assert texts(brazed, weld(process="braze", filler="coupons"), fillers={"coupons": own}) == []
    assert texts(brazed, weld()) == []


STAINLESS = metal("1.4301", "stainless", family="1.4301", ultimate=520.0, ultimate_welded=520.0)


@pytest.mark.parametrize(
    ("suits", "onto", "told"),
    [
        (("S235",), None, None),
        (("S355",), None, "S235"),
        (("S235",), "1.4301", "1.4301"),
        (("S235", "1.4301"), "1.4301", None),
        ((), "1.4301", None),  # the library does not know
    ],
)
def test_unsuited_filler(suits, onto, told):
    """Either parent may be the one it does not suit."""
    rod = Filler(name="rod", kind="steel", strength=480.0, suits=suits)
    own = weld(filler="rod", onto=None if onto is None else plate(5.0, onto))
    found = texts(unsuited_filler, own, fillers={"rod": rod}, metals={"1.4301": STAINLESS})
    assert len(found) == (told is not None)
    assert all(f"not meant for {told}:" in text for text in found)


@pytest.mark.parametrize(
    ("yield_", "welded", "own", "count"),
    [
        (260.0, 260.0, True, 1),
        (260.0, 240.0, True, 1),
        (260.0, 125.0, True, 0),
        (125.0, 125.0, True, 0),  # a soft temper loses nothing
        (260.0, 260.0, False, 0),  # the library knows better
    ],
)
def test_strength_kept_beside_a_weld(yield_, welded, own, count):
    """T6 figures typed for both."""
    row = attrs.evolve(ALUMINIUM.rows[0], yield_=yield_, yield_welded=welded)
    hard = attrs.evolve(ALUMINIUM, name="hard", rows=(row,), own=own)
    found = texts(strength_kept, weld(filler="5356"), material="hard", metals={"hard": hard})
    assert len(found) == count
