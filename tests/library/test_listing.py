"""The library as tables: complete, honest about its sources, ready for JSON."""

import json

import pytest

from strength.errors import UnknownNameError
from strength.library.listing import material_tables, stock_tables
from strength.library.listing_rows import span
from strength.library.metals import metal_names
from strength.library.sizes import stock_lists


@pytest.fixture(autouse=True)
def _no_library_of_their_own(tmp_path, monkeypatch):
    """Whoever runs the tests may have a library: not here."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))


def every_table():
    """All tables of both listings."""
    return (*material_tables(), *stock_tables())


@pytest.mark.parametrize("table", every_table(), ids=lambda table: table.title)
def test_table(table):
    """Every column is filled from its rows, every row has a source and says how sure it is."""
    for row in table.rows:
        assert {column.key for column in table.columns} <= set(row)
        assert row["source"]
        assert all(key in table.sources for key in row["source"].split(", "))
        assert any(word in row["sure"] for word in table.sure)
    assert json.loads(json.dumps(table.record(), allow_nan=False))["title"] == table.title
    for column in table.columns:
        assert any(row[column.key] not in (None, "") for row in table.rows) or column.key == "note"


def test_everything_is_listed():
    """All metals and all stock lists have rows."""
    metals = material_tables()[0]
    assert {row["name"] for row in metals.rows} == set(metal_names())
    assert [table.title.casefold() for table in stock_tables()] == [name.casefold() for name in stock_lists()]


def test_name_gives_its_rows():
    """A name, or another name of the same metal, gives that metal only; print of EN 10305-1."""
    (table,) = material_tables(["E355+N"])
    assert [(row["yield"], row["ultimate"], row["elongation"]) for row in table.rows] == [
        (345, 490, 22),
        (355, 490, 22),
    ]
    assert [row["thickness"] for row in table.rows] == ["to 3, of tube to 30", "over 0"]
    assert list(table.sources) == ["en10305-1"]
    (table,) = material_tables(["304L"])
    assert {row["name"] for row in table.rows} == {"1.4307"}


def test_words_narrow_down():
    """All words must be met, in any case; the same words over all kinds of table."""
    found = {table.title: [row["name"] for row in table.rows] for table in material_tables(["M10"])}
    assert found["Threads"] == ["M10"]
    assert found["Shoulder screws, class 12.9"] == ["shoulder 12"]
    drawn = material_tables(["DRAWN", "6063"])[0]
    assert {row["name"] for row in drawn.rows} == {"6063-T6", "6063-T6 drawn"}


def test_nothing_found():
    """The nearest names are told."""
    with pytest.raises(UnknownNameError, match=r"no material 'S236JR': nearest are 'S235JR'"):
        material_tables(["S236JR"])
    with pytest.raises(UnknownNameError, match=r"no stock size 'pipes'"):
        stock_tables(["pipes"])


def test_welded_source_is_told_apart():
    """4130: strength and welded strength come from different places and are known differently."""
    (row,) = material_tables(["4130-N"])[0].rows
    assert row["source"] == "mechanical-tubing, anc-5"
    assert row["sure"] == "read, at weld memory"


def test_users_own_is_listed_first(tmp_path):
    """A metal of the user's own is a row like the others, with the user's source as it is."""
    path = tmp_path / "mine.toml"
    path.write_text(
        '[material.mine]\nkind = "aluminium"\nmodulus = "70 GPa"\npoisson = 0.3\ndensity = "2700 kg/m^3"\n'
        'weldable = false\nyield = "1 ksi"\nultimate = "2 ksi"\nsource = "certificate 5"\n',
        encoding="utf-8",
    )
    first = material_tables(personal=path)[0].rows[0]
    assert (first["name"], first["own"], first["sure"]) == ("mine", True, "user")
    assert material_tables(["mine"], personal=path)[0].sources == {"certificate 5": "certificate 5"}


def test_stock_by_shape_and_metal():
    """A shape's lists only, with the mass of the metal asked for (EN 485-4 plate, 2.70 kg/m^2 per mm)."""
    (table,) = stock_tables(["flat"], metal="6082-T651")
    assert table.title == "Aluminium plate"
    assert {row["size"]: row["mass"] for row in table.rows}["8 mm"] == pytest.approx(21.6)
    assert {column.unit for column in table.columns} >= {"kg/m^2"}
    (inch,) = stock_tables(["tube", "0.083"], metal="4130-N")
    assert [row["size"] for row in inch.rows][:1] == ["tube 1 x 0.083 in"]
    assert inch.rows[0]["mass"] == pytest.approx(1.208, abs=5e-4)


@pytest.mark.parametrize(
    ("over", "up_to", "text"),
    [(0, float("inf"), "over 0"), (0, 16, "to 16"), (16, 40, "16 to 40"), (4.75, float("inf"), "over 4.75")],
)
def test_ranges_in_words(over, up_to, text):
    """Ranges as a builder reads them."""
    assert span(over, up_to) == text
