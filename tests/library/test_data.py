"""The files of `materials/` as data: shape, units, sources, and what physics demands of any row."""

import re
import tomllib
from itertools import pairwise

import pytest

from strength.library import data, find_filler, find_metal
from strength.library.fillers import filler_names
from strength.library.metals import metal_names
from strength.library.sources import SURE, find_source, source_keys

FOLDER = data.materials_folder()
FILES = sorted(FOLDER.glob("*.toml"))
TABLES = {path.stem: tomllib.loads(path.read_text(encoding="utf-8")) for path in FILES}
ENTRIES = [
    (file, kind, name, table)
    for file, kinds in TABLES.items()
    for kind, group in kinds.items()
    if kind != "units"
    for name, table in group.items()
]
IDS = [f"{kind} {name}" for _, kind, name, _ in ENTRIES]
BARE = {"poisson", "elongation", "beta_w", "carbon_equivalent", "shear_thread", "cycles", "knee", "cut_off"}
BARE |= {"slope", "slope_beyond", "slope_beyond_constant", "slope_added_beyond"}
METAL_KEYS = {"also", "kind", "constants", "family", "series", "form", "standard", "wall_rule", "weldable"}
METAL_KEYS |= {"quenched", "buckling_curve", "beta_w", "carbon_equivalent", "rows", "note"}
ROW_KEYS = {"over", "up_to", "from", "below", "diameter_to", "yield", "ultimate", "yield_welded"}
ROW_KEYS |= {"ultimate_welded", "elongation", "source", "sure", "source_welded", "sure_welded"}
ROW_KEYS |= {"sure_elongation"}


def pairs(value):
    """Every (key, value) below a table."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key, inner
            yield from pairs(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from pairs(inner)


def test_every_file_is_read():
    """No file lies in the folder that the library does not read, and none is missing."""
    assert {file for files in data.FILES.values() for file in files} == set(TABLES)


@pytest.mark.parametrize(("file", "kind", "name", "table"), ENTRIES, ids=IDS)
def test_an_entry_alone_is_the_entry_in_its_file(file, kind, name, table):
    """The part of the text that is read for one entry gives what the whole file gives."""
    assert file in data.FILES[kind]
    assert data.read(kind, name) == (name, table)
    for other in table.get("also", ()):
        assert data.read(kind, other) == (name, table)


def test_no_name_twice():
    """Every name and every other name is there once in its kind."""
    seen = [(kind, name) for _, kind, first, table in ENTRIES for name in (first, *table.get("also", ()))]
    assert len(seen) == len(set(seen))
    for kind in data.FILES:
        assert set(data.index(kind)) == {name for of, name in seen if of == kind}


@pytest.mark.parametrize("file", sorted(set(TABLES) - {"sources"}))
def test_every_figure_has_a_unit(file):
    """A number's key stands in the file's units, or is one of the kinds that have none."""
    units = TABLES[file]["units"]
    numbers = {
        key
        for _, kind, name, table in ENTRIES
        if name in TABLES[file].get(kind, {})
        for key, value in pairs(table)
        if isinstance(value, int | float) and not isinstance(value, bool)
    }
    by_name = {key for key in numbers if re.fullmatch(r"[0-9.A-Z]+", key)}  # parents, bolt classes
    assert numbers - by_name <= set(units) | BARE
    assert set(units) <= {key for key, _ in pairs(TABLES[file])}
    allowed = {"mm", "um", "MPa", "N", "N*m", "kg/m^3", "%"}
    assert set(units.values()) <= allowed


def sources_of(table):
    """Source keys of an entry."""
    for key, value in pairs(table):
        if key in ("source", "source_welded"):
            yield value
        elif key == "sources":
            yield from value


def test_every_source_exists_and_is_used():
    """No row without a source that is listed, no source listed for nothing."""
    cited = set()
    for _, kind, name, table in ENTRIES:
        if kind == "source":
            assert set(table) == {"text", "seen"}
            continue
        found = set(sources_of(table))
        assert found, f"{kind} {name} has no source"
        cited |= found
    assert cited == set(source_keys())
    assert all(find_source(key).text and find_source(key).seen for key in source_keys())


def test_every_row_says_how_sure_it_is():
    """One of the words, and what is from memory or chosen never rests on a source not seen as read."""
    for _, _, name, table in ENTRIES:
        for key, value in pairs(table):
            if key.startswith("sure"):
                assert value in SURE, name
    unseen = {key for key in source_keys() if find_source(key).seen in ("from memory", "none")}
    for _, kind, name, table in ENTRIES:
        rows = table.get("rows", [table])
        for row in [row for row in rows if "source" in row]:
            assert row["source"] not in unseen or row["sure"] != "read", (kind, name)


def test_no_web_address_nor_mirror():
    """Publications are cited, not where a copy was found."""
    for path in FILES:
        assert not re.search(r"https?:|www\.|\.com\b", path.read_text(encoding="utf-8"))


METALS = [find_metal(name) for name in metal_names()]


@pytest.mark.parametrize("metal", METALS, ids=lambda metal: metal.name)
def test_metal(metal):
    """A metal's figures are possible: yield under ultimate, welded never above parent."""
    assert metal.kind in ("steel", "stainless", "aluminium")
    assert metal.buckling_curve in (("A", "B") if metal.kind == "aluminium" else ("a0", "a", "b", "c", "d"))
    assert metal.modulus / (2 * (1 + metal.poisson)) == pytest.approx(metal.shear_modulus, rel=0.005)
    assert metal.family
    assert metal.form
    assert (metal.kind == "aluminium") == bool(metal.series)
    assert metal.rows
    for row in metal.rows:
        assert 0 < row.yield_ < row.ultimate
        assert row.elongation is None or 0 < row.elongation < 0.5
        assert row.over < row.up_to
        if not metal.weldable:
            assert row.yield_welded is None
            assert row.ultimate_welded is None
            continue
        assert 0 < row.yield_welded < row.ultimate_welded
        assert row.yield_welded <= row.yield_
        assert row.ultimate_welded <= row.ultimate
        assert not metal.quenched


@pytest.mark.parametrize("metal", METALS, ids=lambda metal: metal.name)
def test_ranges_follow_each_other(metal):
    """No gap and no overlap between ranges of thickness, but for the row of small tube."""
    rows = [row for row in metal.rows if row.diameter_to == float("inf")]
    for thin, thick in pairwise(rows):
        assert thin.up_to == pytest.approx(thick.over, abs=3e-6)
    for row in rows:
        assert metal.strength(row.up_to if row.up_to < 1e6 else 1e3, 1e3) is row
    small = [row for row in metal.rows if row.diameter_to < float("inf")]
    for row in small:
        assert metal.rows.index(row) < metal.rows.index(rows[0])
        assert metal.strength(row.up_to, row.diameter_to) is row
        assert row.yield_ <= metal.strength(row.up_to, 2 * row.diameter_to).yield_


@pytest.mark.parametrize("name", metal_names())
def test_keys_of_metals(name):
    """Only keys that are read, on the entry and in its rows."""
    _, table = data.read("material", name)
    assert set(table) <= METAL_KEYS
    for row in table["rows"]:
        assert set(row) <= ROW_KEYS


def test_size_from_inches_on_a_limit():
    """3/16 in = 4.7625 mm is over 4.75; 0.1181102362 in is 3 mm to the ninth decimal and counts as 3."""
    assert find_metal("4130-N certified").strength(25.4 * 3 / 16).yield_ == 483
    assert find_metal("S275JR").strength(25.4 * 0.1181102362).ultimate == 410
    assert find_metal("S275JR").strength(16.0000000001).yield_ == 275


def test_fillers_name_families_there_are():
    """What a filler is for is a family of the library, or an alloy of EN 1999-1-1 Table 8.8."""
    families = {metal.family for metal in METALS} | {"5052", "5454", "3103"}
    for name in filler_names():
        filler = find_filler(name)
        assert set(filler.suits) <= families
        assert filler.kind in ("steel", "stainless", "aluminium", "bronze")
        assert set(filler.by_parent) <= set(filler.suits)
        assert bool(filler.by_parent) == (filler.kind == "aluminium")
