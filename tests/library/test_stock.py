"""Stock lists and wall tolerances.

- EN 10219-2, EN 10210-2, EN 10296-2, ASTM A513: tolerances by makers' tables.
- EN 10305-1, EN 10305-3: from memory.
"""

from itertools import product

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.errors import UnknownNameError
from strength.library import data, find_metal, stock, wall_tolerance
from strength.library.metals import metal_names
from strength.library.own import own_metal
from strength.library.sizes import SHAPES, stock_lists
from strength.library.tolerance import wall_rules

OWN = {"modulus": "200 GPa", "poisson": 0.3, "density": "7850 kg/m^3", "weldable": False}
OWN |= {"yield": "300 MPa", "ultimate": "400 MPa"}


# metal, wall [mm], greatest minus deviation [mm] by the standard's rule
@pytest.mark.parametrize(
    ("name", "wall", "minus"),
    [
        ("E235+N", 0.8, 0.10),  # EN 10305-1: 10 % or 0.10 mm, the larger
        ("E355+C", 2.5, 0.25),
        ("E220+CR2", 1.5, 0.10),  # EN 10305-3: to 1.5 mm 0.10 mm, above 8 %, at most 0.35 mm
        ("E220+CR2", 2.0, 0.16),
        ("E220+CR2", 5.0, 0.35),
        ("S235JRH", 3.0, 0.30),  # EN 10219-2: to 5 mm 10 %, above 0.5 mm
        ("S355J2H", 6.3, 0.50),
        ("S355J2H hot", 6.3, 0.63),  # EN 10210-2: 10 %
        ("1.4301 cold rolled", 1.6, 0.20),  # EN 10296-2: 10 % or 0.2 mm, the larger
        ("1.4301", 3.2, 0.32),
        ("1020 DOM", 1.651, 0.1016),  # ASTM A513 type 5: up to 0.004 in
        ("1020 DOM", 0.889, 0.1016),
        ("6061-T6", 3.0, 0.30),  # none known: 0.90 of the nominal wall
    ],
)
def test_wall_tolerance(name, wall, minus):
    """The minus tolerance of the standard a tube is sold to."""
    assert wall_tolerance(find_metal(name), wall).minus == pytest.approx(minus)


def test_wall_tolerance_without_a_metal():
    """No standard known: 10 %, said to be a choice."""
    found = wall_tolerance(None, 2.0)
    assert (found.minus, found.sure) == (pytest.approx(0.2), "choice")


@given(wall=st.floats(0.5, 12), rule=st.sampled_from(wall_rules()))
def test_some_wall_is_always_left(wall, rule):
    """Whatever the standard, the least wall is more than half and less than all of the nominal one."""
    found = wall_tolerance(attrs.evolve(find_metal("E235+N"), wall_rule=rule), wall)
    assert 0 < found.minus < 0.5 * wall
    assert found.rule == rule


@pytest.mark.parametrize("shape", SHAPES)
def test_lightest_first(shape):
    """Sizes come by area, each possible: the wall is under half of the least side."""
    found = stock(shape)
    assert [size.area for size in found] == sorted(size.area for size in found)
    for size in found:
        assert size.shape == shape
        *outside, wall = size.dimensions
        assert all(2 * wall < side for side in outside)
        assert size.text.endswith(f" {size.unit}")


def test_no_size_twice():
    """No list holds a size twice."""
    for name in stock_lists():
        sizes = [size.text for size in stock("", name=name)]
        assert len(sizes) == len(set(sizes))


@pytest.mark.parametrize("metal", [None, *metal_names()])
def test_lists_are_found_by_their_words(metal):
    """Looked for in the text of a list, its shape, unit and metals are what it gives when all are read."""
    made_of = None if metal is None else find_metal(metal)
    every = {name: data.read("stock", name)[1] for name in stock_lists()}
    for shape, unit in product(("", *SHAPES), ("", "mm", "in")):
        fit = [
            name
            for name, table in every.items()
            if shape in ("", table["shape"]) and unit in ("", table["unit"])
        ]
        if made_of is not None:
            sold = [name for name in fit if made_of.family in every[name]["families"]]
            fit = sold or [name for name in fit if made_of.kind in every[name]["kinds"]]
        assert {size.stock for size in stock(shape, made_of, unit=unit)} == set(fit)


@pytest.mark.parametrize(
    ("metal", "shape", "lists"),
    [
        ("E235+N", "tube", {"metric precision tube"}),
        ("S235JRH", "tube", {"round hollow section"}),
        ("4130-N", "tube", {"inch round tube"}),
        ("6060-T6", "tube", {"aluminium tube"}),
        ("1.4301", "tube", {"stainless tube"}),
        ("S355J2H", "square", {"square hollow section"}),
        ("7075-T651", "flat", {"aluminium plate"}),
        ("42CrMo4+QT", "bar", {"round bar"}),
        ("42CrMo4+QT", "tube", {"metric precision tube"}),  # not sold: the lists of its kind
    ],
)
def test_lists_a_metal_is_sold_in(metal, shape, lists):
    """Only sizes the metal can be had in."""
    assert {size.stock for size in stock(shape, find_metal(metal))} == lists


@pytest.mark.parametrize(("kind", "name"), [("steel", "steel plate"), ("aluminium", "aluminium plate")])
def test_own_metal_takes_lists_of_its_kind(kind, name):
    """A metal of the user's own has no family."""
    metal, _ = own_metal("mine", OWN | {"kind": kind})
    assert {size.stock for size in stock("flat", metal)} == {name}


def test_by_unit_and_by_list():
    """Only inch sizes, only one list; anything else is refused by name."""
    assert {size.stock for size in stock("tube", unit="in")} == {"inch round tube"}
    assert {size.shape for size in stock("", name="steel plate")} == {"flat"}
    with pytest.raises(UnknownNameError, match="no stock shape 'pipe'"):
        stock("pipe")
    with pytest.raises(UnknownNameError, match="no stock list 'steel plates': nearest are 'steel plate'"):
        stock("flat", name="steel plates")


def test_sizes_sold_in_print():
    """EN 10305-1 preferred diameters and EN 10219-2 table sizes, transcribed."""
    precision = {size.dimensions[0] for size in stock("tube", name="metric precision tube")}
    preferred = {10, 12, 14, 15, 16, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 42, 45, 50, 55, 60}
    assert precision == preferred
    hollow = {size.dimensions for size in stock("tube", name="round hollow section")}
    assert {(76.1, 5), (60.3, 3), (48.3, 4), (33.7, 2.5), (21.3, 2)} <= hollow
    plate = {name: [size.dimensions[0] for size in stock("flat", name=f"{name} plate")] for name in GAUGES}
    assert plate == GAUGES


GAUGES = {  # trade practice
    "steel": [2, 3, 4, 5, 6, 8, 10, 12, 15, 20],
    "aluminium": [3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25],
    "stainless": [1, 1.5, 2, 3, 4, 5, 6, 8, 10],
}
