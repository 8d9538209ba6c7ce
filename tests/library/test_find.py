"""Finding by name: the library, the case's own, the user's own files, and refusals."""

import subprocess
import sys
from pathlib import Path

import pytest

from strength.errors import LibraryError, RangeError, UnknownNameError
from strength.library import data, find_filler, find_metal
from strength.library.own import own_filler, own_metal
from strength.library.personal import personal_folder

MINE = """
[material.frame-tube]
kind = "steel"
modulus = "205 GPa"
poisson = 0.29
density = "0.284 lb/in^3"
yield = "60 ksi"
ultimate = "70 ksi"
elongation = 0.15
weldable = true
yield_welded = "32 ksi"
ultimate_welded = "50 ksi"
source = "mill certificate"

[filler.my-rod]
kind = "aluminium"
strength = "200 MPa"
source = "data sheet"
"""


@pytest.fixture
def home(tmp_path, monkeypatch):
    """A configuration folder with one library file."""
    folder = tmp_path / "strength"
    folder.mkdir()
    (folder / "tubes.toml").write_text(MINE, encoding="utf-8")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    return folder


@pytest.fixture(autouse=True)
def _no_library_of_their_own(tmp_path_factory, monkeypatch):
    """Whoever runs the tests may have a library: not here."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path_factory.mktemp("empty")))


def test_own_library(home):
    """Quantities with units, everything as written; kg/m^3 and MPa by the definitions of lb and in."""
    metal = find_metal("frame-tube")
    assert metal.own
    assert metal.modulus == 205e3
    assert metal.shear_modulus == pytest.approx(205e3 / 2.58)
    assert metal.density == pytest.approx(0.284 * 0.45359237 / 25.4**3)
    row = metal.strength(2.0)
    assert (row.yield_, row.ultimate) == pytest.approx((413.685, 482.633), abs=1e-3)
    assert (row.yield_welded, row.ultimate_welded) == pytest.approx((220.632, 344.738), abs=1e-3)
    assert (row.elongation, row.source, row.sure) == (0.15, "mill certificate", "user")
    assert (metal.buckling_curve, metal.beta_w) == ("c", 1.0)
    rod = find_filler("my-rod")
    assert rod.own
    assert rod.fw(find_metal("6082-T6")) == 200


def test_own_file_by_path(tmp_path):
    """A file named by the user is read wherever it lies."""
    path = tmp_path / "mine.toml"
    path.write_text(MINE, encoding="utf-8")
    assert find_metal("frame-tube", personal=path).own
    assert find_filler("my-rod", personal=path).own
    with pytest.raises(UnknownNameError):
        find_metal("frame-tube")


def test_order_of_libraries(home):
    """The case's own comes first, then the user's, then ours."""
    table = {"kind": "steel", "modulus": "1 GPa", "poisson": 0.1, "density": "1 kg/m^3", "weldable": False}
    mine, faults = own_metal("S235JR", table | {"yield": "100 MPa", "ultimate": "200 MPa"})
    assert faults == []
    assert find_metal("S235JR", extra={"S235JR": mine}) is mine
    text = MINE.replace("frame-tube", "S235JR")
    (home / "tubes.toml").write_text(text, encoding="utf-8")
    assert find_metal("S235JR").own
    assert not find_metal("S275JR").own


def test_relative_configuration_folder_is_ignored(monkeypatch):
    """XDG Base Directory Specification: a relative path is invalid and to be ignored."""
    monkeypatch.setenv("XDG_CONFIG_HOME", "somewhere")
    assert Path(personal_folder()) == Path.home() / ".config" / "strength"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('yield = "60 ksi"', 'yield = "60"', "material.frame-tube: yield: '60' has no unit"),
        ('yield = "60 ksi"', 'yield = "80 ksi"', "'80 ksi' is above the tensile strength, '70 ksi'"),
        ('yield = "60 ksi"', "", "`yield` is missing: yield strength or 0.2 % proof strength"),
        ("poisson = 0.29", "poisson = 0.5", "poisson: 0.5 must be a bare number from 0 to under 0.5"),
        ("poisson = 0.29", "poison = 0.29", "unknown key `poison`: did you mean `poisson`?"),
        ("weldable = true", 'weldable = "yes"', "weldable: 'yes' must be true or false"),
        ('yield_welded = "32 ksi"', "", "`yield_welded` is missing: yield strength beside a weld"),
        ('kind = "steel"', 'kind = "wood"', "kind: 'wood' must be one of steel, stainless, aluminium"),
        ('modulus = "205 GPa"', 'modulus = "-205 GPa"', "'-205 GPa' must be greater than 0"),
        ("[filler.my-rod]", "[rods.my-rod]", "rods: a library of your own holds"),
        ("[material.frame-tube]", "[material.frame-tube", "is not TOML"),
    ],
)
def test_faulty_own_library(home, old, new, said):
    """One message with the file, the place in it and what is wrong."""
    (home / "tubes.toml").write_text(MINE.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(LibraryError) as caught:
        find_metal("S235JR")
    assert str(caught.value).startswith(str(home / "tubes.toml"))
    assert said in str(caught.value)


def test_unreadable_own_library(tmp_path):
    """A path that is no file."""
    with pytest.raises(LibraryError, match=r"none\.toml: cannot be read \(No such file"):
        find_metal("S235JR", personal=tmp_path / "none.toml")


def test_the_same_name_in_two_files(home):
    """Which of the two counts must not hang on the order of files."""
    (home / "more.toml").write_text(MINE, encoding="utf-8")
    with pytest.raises(LibraryError, match=r"tubes\.toml: material\.frame-tube: is in .*more\.toml too"):
        find_metal("frame-tube")


BASE = {"kind": "aluminium", "modulus": "70 GPa", "poisson": 0.3, "density": "2700 kg/m^3"}


def test_own_metal_by_thickness():
    """Rows by thickness, with welded values where it may be welded."""
    rows = [
        {"up_to": "6 mm", "yield": "260 MPa", "ultimate": "310 MPa", "elongation": 0.09},
        {"over": "6 mm", "up_to": "0.5 in", "yield": "255 MPa", "ultimate": "300 MPa"},
    ]
    metal, faults = own_metal("plate", BASE | {"weldable": False, "rows": rows})
    assert faults == []
    assert metal.buckling_curve == "B"
    assert [metal.strength(t).yield_ for t in (6, 6.1, 12.7)] == [260, 255, 255]
    with pytest.raises(RangeError, match=r"plate has no strength for 13 mm"):
        metal.strength(13)


def test_faults_of_own_metal_come_together():
    """Every fault with its key, none raised."""
    table = {"kind": "steel", "poisson": -0.1, "density": "8 kg", "weldable": True, "yield": "5 MPa"}
    metal, faults = own_metal("odd", table | {"rows": [{"yield": "1 MPa"}]})
    assert metal is None
    keys = {key for key, _ in faults}
    assert {"modulus", "poisson", "density", "rows", "rows[0].ultimate", "rows[0].yield_welded"} <= keys


def test_welded_above_parent_is_refused():
    """A weld does not make the metal beside it stronger."""
    table = {
        "yield": "100 MPa",
        "ultimate": "200 MPa",
        "yield_welded": "120 MPa",
        "ultimate_welded": "190 MPa",
    }
    metal, faults = own_metal("odd", BASE | table | {"weldable": True})
    assert metal is None
    assert faults == [("yield_welded", "'120 MPa' is above the yield strength away from the weld, '100 MPa'")]


def test_faults_of_own_filler():
    """A filler needs a kind and a strength."""
    filler, faults = own_filler("rod", {"strenght": "480 MPa"})
    assert filler is None
    assert [key for key, _ in faults] == ["strenght", "kind", "strength"]


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [("6082", "6082-T6"), ("e235 +n", "E235+N"), ("S355J2HH", "S355J2H"), ("4130", None), ("1.4301 ", None)],
)
def test_nearest_name(typed, nearest):
    """A wrong name is answered with the nearest; other names of the trade are understood."""
    if nearest is None:
        assert find_metal(typed.strip()).name in ("4130-N", "1.4301")
        return
    with pytest.raises(UnknownNameError) as caught:
        find_metal(typed)
    assert caught.value.nearest[0] == nearest
    assert f"the library holds no material '{typed}': nearest are '{nearest}'" in str(caught.value)


def test_unknown_filler():
    """The same for fillers."""
    with pytest.raises(UnknownNameError, match="no filler 'ER70S6': nearest are 'ER70S-6'"):
        find_filler("ER70S6")


@pytest.mark.parametrize("bundled", [True, False])
def test_folders_in_a_wheel_and_in_a_checkout(tmp_path, monkeypatch, bundled):
    """Inside the package where it is installed, beside it in a checkout."""
    package = tmp_path / "site" / "strength"
    place = package / "_data" if bundled else tmp_path / "site"
    (place / "cases").mkdir(parents=True)
    monkeypatch.setattr(data, "_PACKAGE", str(package))
    data._folder.cache_clear()
    try:
        assert data.cases_folder() == place / "cases"
    finally:
        data._folder.cache_clear()


def test_the_library_is_light():
    """Finding metals imports neither numpy nor what only listings and other parts need."""
    heavy = ["numpy", "scipy", "pint", "difflib", "strength.library.sizes", "strength.library.listing"]
    code = (
        "import sys; from strength.library import find_metal, find_filler; find_metal('E235+N'); "
        f"find_filler('5356'); print([m for m in {heavy} if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
