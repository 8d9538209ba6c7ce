"""Aluminium against printed rows, transcribed here from the tables named, not from the library's files.

- EN 1999-1-1, Design of aluminium structures, Tables 3.2a (sheet, plate) and 3.2b (extrusion, tube).
- EN 755-2 and EN 485-2, mechanical properties of extrusions, and of sheet, strip and plate.
- Aluminum Design Manual, Table 3.3-1M; Tables A.3.4, A.3.5 (welded) from memory.
"""

import pytest

from strength.library import find_metal

# name, thickness, fo, fu, elongation %, fo beside a weld, fu beside a weld, printed rho_o, rho_u, class
EXTRUDED = [
    ("5083-H111", 20, 110, 270, None, 110, 270, 1.00, 1.00, "B"),
    ("5083-H32 drawn", 3, 200, 280, 6, 135, 270, 0.68, 0.96, "B"),
    ("6060-T5", 5, 120, 160, 8, 50, 80, 0.42, 0.50, "B"),
    ("6060-T6", 15, 140, 170, 8, 60, 100, 0.43, 0.59, "A"),
    ("6060-T6 drawn", 20, 160, 215, 12, 60, 100, 0.38, 0.47, "A"),
    ("6060-T66", 3, 160, 215, 8, 65, 110, 0.41, 0.51, "A"),
    ("6060-T66", 4, 150, 195, 8, 65, 110, 0.43, 0.56, "A"),
    ("6061-T6", 20, 240, 260, 8, 115, 175, 0.48, 0.67, "A"),
    ("6061-T6 drawn", 2, 240, 260, 8, 115, 175, 0.48, 0.67, "A"),
    ("6061-T4", 25, 110, 180, None, 95, 150, 0.86, 0.83, None),
    ("6063-T5", 3, 130, 175, 8, 60, 100, 0.46, 0.57, "B"),
    ("6063-T6", 25, 160, 195, 8, 65, 110, 0.41, 0.56, "A"),
    ("6063-T6 drawn", 2, 190, 220, 10, 65, 110, 0.34, 0.50, "A"),
    ("6063-T66", 10, 200, 245, 8, 75, 130, 0.38, 0.53, "A"),
    ("6005A-T6", 5, 215, 255, 8, 115, 165, 0.53, 0.65, "A"),
    ("6005A-T6 open", 5, 225, 270, None, 115, 165, 0.51, 0.61, None),
    ("6082-T6 extruded", 5, 250, 290, 8, 125, 185, 0.50, 0.64, "A"),
    ("6082-T6 extruded", 15, 260, 310, 10, 125, 185, 0.48, 0.60, "A"),
    ("7020-T6 extruded", 15, 290, 350, 10, 205, 280, 0.71, 0.80, "A"),
    ("5754-H111", 25, 80, 180, None, 80, 180, 1.00, 1.00, None),
    ("5754-H34 drawn", 10, 180, 240, None, 100, 180, 0.56, 0.75, None),
]


@pytest.mark.parametrize(("name", "t", "fo", "fu", "a", "foh", "fuh", "ro", "ru", "curve"), EXTRUDED)
def test_extrusion_and_tube(name, t, fo, fu, a, foh, fuh, ro, ru, curve):
    """EN 1999-1-1 Table 3.2b; the printed factors are the ratios of the columns to two places."""
    metal = find_metal(name)
    row = metal.strength(t)
    assert (row.yield_, row.ultimate, row.yield_welded, row.ultimate_welded) == (fo, fu, foh, fuh)
    assert row.yield_welded / row.yield_ == pytest.approx(ro, abs=0.0051)
    assert row.ultimate_welded / row.ultimate == pytest.approx(ru, abs=0.0051)
    assert a is None or row.elongation == pytest.approx(a / 100)
    assert curve is None or metal.buckling_curve == curve


# name, thickness, fo, fu, least printed elongation %, fo and fu beside a weld (None: no welding)
PLATE = [
    ("6082-T651", 6, 260, 310, 6, 125, 185),
    ("6082-T651", 10, 255, 300, 9, 125, 185),  # ERRATUM: one supplier's table prints fu = 310
    ("6082-T651", 20, 240, 295, 7, 125, 185),
    ("6061-T651", 12.5, 240, 290, 6, 115, 175),
    ("5083-H111 plate", 50, 125, 275, 11, 125, 275),
    ("5083-H116", 10, 215, 305, 8, 125, 275),
    ("5083-H32 plate", 10, 215, 305, 8, 155, 275),
    ("5754-H111 plate", 10, 80, 190, 12, 80, 190),
    ("5754-H32", 3, 130, 220, 7, 80, 190),
    ("5754-H34 plate", 3, 160, 240, 6, 100, 190),
    ("7020-T6", 12.5, 280, 350, 7, 205, 280),
    ("7020-T651", 30, 280, 350, 9, 205, 280),
    ("7075-T651", 6, 475, 545, 8, None, None),
    ("7075-T651", 8, 460, 540, 8, None, None),
    ("7075-T651", 16, 470, 540, 6, None, None),
    ("7075-T651", 50, 460, 530, 5, None, None),
    ("7075-T7351", 20, 390, 475, 5, None, None),
    ("7075-T6 bar", 25, 480, 540, 7, None, None),
    ("7075-T6 bar", 30, 500, 560, 7, None, None),
    ("2024-T351", 3, 290, 435, 12, None, None),
    ("2024-T351", 12, 290, 440, 13, None, None),
    ("2024-T351", 20, 290, 430, 11, None, None),
]


@pytest.mark.parametrize(("name", "t", "fo", "fu", "a", "foh", "fuh"), PLATE)
def test_sheet_plate_and_bar(name, t, fo, fu, a, foh, fuh):
    """EN 485-2 (bar: EN 755-2), beside a weld EN 1999-1-1 Table 3.2a."""
    row = find_metal(name).strength(t)
    assert (row.yield_, row.ultimate, row.yield_welded, row.ultimate_welded) == (fo, fu, foh, fuh)
    assert row.elongation == pytest.approx(a / 100)


# name, thickness, Fty, Ftu, welded Fty, Ftu [ksi] and MPa as printed beside them
@pytest.mark.parametrize(
    ("name", "t", "ksi", "mpa"),
    [
        ("6061-T6 plate US", 6, (35, 42, 15, 24), (240, 290, 105, 165)),
        ("6061-T6 plate US", 12, (35, 42, 11, 24), (240, 290, 80, 165)),
        ("6061-T6 US", 3, (35, 38, 15, 24), (240, 260, 105, 165)),
    ],
)
def test_us_figures(name, t, ksi, mpa):
    """Aluminum Design Manual Tables A.3.4, A.3.5, whose metric column is rounded to 5 MPa."""
    row = find_metal(name).strength(t)
    assert (row.yield_, row.ultimate, row.yield_welded, row.ultimate_welded) == mpa
    for metric, inch in zip(mpa, ksi, strict=True):
        assert metric == pytest.approx(6.894757 * inch, abs=5)


# plain name -> the forms it can mean
FORMS = {
    "6082-T6": ("6082-T6 extruded", "6082-T651"),
    "6061-T6": ("6061-T651",),
    "6060-T6": ("6060-T6 drawn",),
    "6063-T6": ("6063-T6 drawn",),
    "6005A-T6": ("6005A-T6 open",),
    "7020-T6": ("7020-T6 extruded",),
    "5083-H111": ("5083-H111 plate",),
    "5083-H32": ("5083-H32 drawn", "5083-H32 plate"),
    "5754-H111": ("5754-H111 plate",),
    "5754-H34": ("5754-H34 drawn", "5754-H34 plate"),
    "1.4301": ("1.4301 cold rolled",),
    "1.4307": ("1.4307 cold rolled",),
    "1.4401": ("1.4401 cold rolled",),
    "1.4404": ("1.4404 cold rolled",),
    "S235JRH": ("S235JRH hot",),
    "S355J2H": ("S355J2H hot",),
    "4130-N": ("4130-N certified",),
    "1020 DOM": ("1020 DOM as drawn",),
}


@pytest.mark.parametrize(("plain", "form"), [(plain, form) for plain in FORMS for form in FORMS[plain]])
def test_plain_name_is_the_cautious_one(plain, form):
    """A plain name never promises more than any form it can mean, where both hold (own rule)."""
    compared = 0
    for low in find_metal(plain).rows:
        for high in find_metal(form).rows:
            if max(low.over, high.over) < min(low.up_to, high.up_to) - 1e-3:
                compared += 1
                assert low.yield_ <= high.yield_
                assert low.ultimate <= high.ultimate
                assert low.yield_welded <= high.yield_welded
                assert low.ultimate_welded <= high.ultimate_welded
    assert compared


@pytest.mark.parametrize(("name", "density"), [("6082-T6", 2700), ("7075-T651", 2800), ("2024-T351", 2770)])
def test_constants(name, density):
    """EN 1999-1-1 3.2.5: E 70 000, G 27 000 MPa, v 0.3; densities of data sheets."""
    metal = find_metal(name)
    assert (metal.modulus, metal.shear_modulus, metal.poisson) == (70e3, 27e3, 0.30)
    assert metal.density == pytest.approx(density * 1e-9)


@pytest.mark.parametrize(
    "name", ["7075-T651", "7075-T6", "7075-T7351", "7075-T6 bar", "2024-T351", "2024-T3"]
)
def test_not_for_fusion_welding(name):
    """7075 and 2024 crack while hot: data sheets rate them unsuitable for TIG and MIG."""
    assert not find_metal(name).weldable


@pytest.mark.parametrize(
    ("name", "series"), [("6082-T6", "6xxx"), ("5083-H116", "5xxx"), ("7020-T6", "7xxx"), ("2024-T3", "2xxx")]
)
def test_series(name, series):
    """The series by the first digit (EN 573-1)."""
    assert find_metal(name).series == series
