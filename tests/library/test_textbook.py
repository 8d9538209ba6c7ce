"""Metals of books' examples: their figures as printed, and that nobody is offered one by mistake.

- Logan, A First Course in the Finite Element Method: plane frame E = 30e6 psi; space frame E = 30 000 ksi,
  G = 10 000 ksi. Weaver and Gere, Matrix Analysis of Framed Structures: E = 10 000 ksi. From memory.
- MacNeal and Harder, Finite Elements in Analysis and Design 1 (1985), 3-20: straight beam E = 1.0e7, 0.30;
  twisted beam E = 29.0e6, 0.22. From memory.
- Shigley's Mechanical Engineering Design, Example 5-4: 2014, yield strength 276 MPa.
- The pound and the inch by definition: 1 psi = 0.45359237 * 9.80665 / 25.4^2 MPa.
"""

import tomllib

import pytest

from strength.errors import UnknownNameError
from strength.library import data, find_metal, stock
from strength.library.listing import material_tables, stock_tables
from strength.library.metals import metal_names, textbook_names

PSI = 0.45359237 * 9.80665 / 25.4**2  # MPa
# name, E [psi], Poisson's ratio where the book has it
PRINTED = [
    ("textbook Logan plane frame", 30e6, None),
    ("textbook Logan space frame", 30e6, None),
    ("textbook Weaver and Gere plane frame", 10e6, None),
    ("textbook MacNeal and Harder straight beam", 1.0e7, 0.30),
    ("textbook MacNeal and Harder twisted beam", 29.0e6, 0.22),
]
CASES = sorted((data.cases_folder() / "verification").glob("*/case.toml"))


@pytest.mark.parametrize(("name", "modulus", "poisson"), PRINTED)
def test_moduli_as_printed(name, modulus, poisson):
    """E as printed, in psi; Poisson's ratio too where it is the book's, and then G by it."""
    metal = find_metal(name)
    assert metal.modulus == pytest.approx(modulus * PSI, rel=1e-8)
    if poisson is not None:
        assert metal.poisson == poisson
        assert metal.shear_modulus == pytest.approx(modulus * PSI / 2 / (1 + poisson), rel=1e-8)


def test_shear_modulus_and_yield_as_printed():
    """Logan's G, which is no isotropic metal's; Shigley's yield strength."""
    assert find_metal("textbook Logan space frame").shear_modulus == pytest.approx(10e6 * PSI, rel=1e-8)
    assert find_metal("textbook Shigley 2014").strength(5.0).yield_ == 276


@pytest.mark.parametrize("name", textbook_names())
def test_metal_says_what_it_is(name):
    """Its name and its note say so; it may not be welded, is sold in no size, and is possible."""
    metal = find_metal(name)
    assert metal.textbook
    assert name.startswith("textbook ")
    assert "no metal that can be bought" in metal.note
    assert not metal.weldable
    assert stock("", metal) == ()
    assert metal.buckling_curve in (("A", "B") if metal.kind == "aluminium" else ("a0", "a", "b", "c", "d"))
    assert (metal.kind == "aluminium") == bool(metal.series)
    (row,) = metal.rows
    assert 0 < row.yield_ < row.ultimate
    assert row.yield_welded is None
    assert row.ultimate_welded is None


def test_metals_that_are_sold_are_no_textbook_ones():
    """The two kinds of names do not meet, and a metal that is sold has sizes."""
    assert not set(metal_names()) & set(textbook_names())
    assert not any(find_metal(name).textbook for name in metal_names())
    assert stock("tube", find_metal("E235+N"))


@pytest.mark.parametrize("words", [[], ["steel"], ["aluminium", "7"], ["metals", "no"]])
def test_listed_only_when_asked_for(words):
    """No row of a book's metal nor of its moduli without that word, whatever else is asked."""
    tables = material_tables(words)
    assert tables
    assert not any("textbook" in row["name"] for table in tables for row in table.rows)


@pytest.mark.parametrize("words", [["Logan", "space"], ["Shigley"], ["isotropic"]])
def test_words_of_a_book_alone_find_nothing(words):
    """Nor is one suggested where nothing else is found."""
    with pytest.raises(UnknownNameError) as caught:
        material_tables(words)
    assert not any("textbook" in near for near in caught.value.nearest)


def test_listed_when_asked_for():
    """By the word in any case, and by name."""
    metals, constants = material_tables(["Textbook"])
    assert {row["name"] for row in metals.rows} == set(textbook_names())
    assert len(constants.rows) == 7
    assert "weaver-gere" in metals.sources
    (one, _) = material_tables(["textbook", "Logan", "space", "frame"])
    assert [row["name"] for row in one.rows] == ["textbook Logan space frame"]


def test_no_sizes_are_listed():
    """Nothing is sold of a metal that cannot be bought."""
    with pytest.raises(UnknownNameError):
        stock_tables(["tube"], metal="textbook Logan space frame")


@pytest.mark.parametrize("name", ["text", "Logan space frame", "Shigley 2014", "curve a0"])
def test_not_suggested(name):
    """A wrong name does not lead to a book's metal."""
    with pytest.raises(UnknownNameError) as caught:
        find_metal(name)
    assert not any("textbook" in near for near in caught.value.nearest)


def test_suggested_when_meant():
    """But one that asks for a textbook's does."""
    with pytest.raises(UnknownNameError) as caught:
        find_metal("textbook Logan space frme")
    assert caught.value.nearest[0] == "textbook Logan space frame"


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.parent.name)
def test_published_examples_write_no_metal_of_their_own(path):
    """Their metals are the library's, so that each has a source and says how sure it is."""
    assert "material" not in tomllib.loads(path.read_text(encoding="utf-8"))
