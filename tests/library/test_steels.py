"""Steels against printed rows, transcribed here from the tables named, not from the library's files.

- EN 10025-2, Hot rolled products of structural steels, Table 7 (yield and ultimate strength).
- EN 10305-1, Steel tubes for precision applications, seamless cold drawn (mechanical properties).
- EN 10083-2 (C45), EN 10083-3 (25CrMo4, 42CrMo4), EN 10277 (C45+C, from memory).
- EN 10219-1 and EN 10210-1, hollow sections; EN 10305-3; EN 10216-1; EN 10088-2: from memory.
- ASTM A513 type 5 and mechanical tubing by suppliers' tables [ksi, converted as printed].
- MIL-HDBK-5J Table 2.3.1.0 (certified 4130), from memory.
"""

import pytest

from strength.library import find_metal

# name, thickness, outside diameter of a tube, yield, ultimate, elongation in %
PRINTED = [
    ("S235JR", 16, None, 235, 360, 24),
    ("S235JR", 2, None, 235, 360, None),
    ("S235JR", 20, None, 225, 360, 24),
    ("S275JR", 2.99, None, 275, 430, None),
    ("S275JR", 3, None, 275, 410, 21),
    ("S275JR", 40, None, 265, 410, 21),
    ("S355J2", 2.5, None, 355, 510, None),
    ("S355J2", 3, None, 355, 470, 20),
    ("S355J2", 16.5, None, 345, 470, 20),
    ("E235+C", 2, 40, None, 480, 6),
    ("E235+LC", 2, 40, None, 420, 10),
    ("E235+SR", 2, 40, 350, 420, 16),
    ("E235+A", 2, 40, None, 315, 25),
    ("E235+N", 2, 40, 235, 340, 25),
    ("E255+N", 2, 40, 255, 440, 21),
    ("E355+C", 2, 40, None, 640, 4),
    ("E355+LC", 2, 40, None, 580, 7),
    ("E355+SR", 2, 40, 450, 580, 10),
    ("E355+A", 2, 40, None, 450, 22),
    ("E355+N", 2, 40, 355, 490, 22),
    ("C35E+N", 2, 40, 280, 460, 21),
    ("C45E+N", 2, 40, 340, 540, 18),
    ("C45+N", 16, None, 340, 620, 14),
    ("C45+N", 17, None, 305, None, None),
    ("C45+QT", 16, None, 490, 700, 14),
    ("C45+QT", 25, None, 430, 650, 16),
    ("C45+QT", 60, None, 370, 630, 17),
    ("25CrMo4+QT", 12, None, 700, 900, 12),
    ("25CrMo4+QT", 40, None, 600, 800, 14),
    ("25CrMo4+QT", 41, None, 450, 700, 15),
    ("42CrMo4+QT", 16, None, 900, 1100, 10),
    ("42CrMo4+QT", 20, None, 750, 1000, 11),
    ("42CrMo4+QT", 100, None, 650, 900, 12),
    ("42CrMo4+QT", 150, None, 550, 800, 13),
    ("304", 5, None, 205, 515, 40),
]
FROM_MEMORY = [
    ("S235JR", 50, None, 215, 360, 23),
    ("S235JR", 90, None, 215, 360, 22),
    ("S275JR", 50, None, 255, 410, 20),
    ("S275JR", 70, None, 245, 410, 19),
    ("S275JR", 90, None, 235, 410, 19),
    ("S355J2", 50, None, 335, 470, 19),
    ("S355J2", 70, None, 325, 470, 18),
    ("S355J2", 90, None, 315, 470, 18),
    ("S235JRH", 3, None, 235, 360, 24),
    ("S275J2H", 3, None, 275, 410, 20),
    ("S275J2H", 2.5, None, 275, 430, 20),
    ("S355J2H", 3, None, 355, 470, 20),
    ("S355J2H", 2, None, 355, 510, 20),
    ("S235JRH hot", 4, None, 235, 360, 26),
    ("S275J2H hot", 4, None, 275, 410, 23),
    ("S355J2H hot", 4, None, 355, 470, 22),
    ("E190+CR2", 2, 25, 190, 270, 26),
    ("E220+CR2", 2, 25, 220, 310, 23),
    ("E260+CR2", 2, 25, 260, 340, 21),
    ("P235TR1", 2.6, 33.7, 235, 360, 25),
    ("C45+C", 12, None, 500, 710, 6),
    ("C45+C", 30, None, 410, 650, 7),
    ("1.4301 cold rolled", 3, None, 230, 540, 45),
    ("1.4301", 10, None, 210, 520, 45),
    ("1.4307 cold rolled", 3, None, 220, 520, 45),
    ("1.4307", 10, None, 200, 500, 45),
    ("1.4401 cold rolled", 3, None, 240, 530, 40),
    ("1.4404", 10, None, 220, 520, 45),
]


@pytest.mark.parametrize(
    ("name", "thickness", "diameter", "yield_", "ultimate", "elongation"), PRINTED + FROM_MEMORY
)
def test_printed_minimum(name, thickness, diameter, yield_, ultimate, elongation):
    """The library's row is the printed one (None: the table prints none there)."""
    row = find_metal(name).strength(thickness, diameter)
    if yield_ is not None:
        assert row.yield_ == yield_
    if ultimate is not None:
        assert row.ultimate == ultimate
    if elongation is not None:
        assert row.elongation == pytest.approx(elongation / 100)


# name, wall [mm], yield and ultimate in ksi, in MPa as printed beside them
IN_KSI = [
    ("1020 DOM", 1.65, (55, 65), (379, 448)),
    ("1020 DOM as drawn", 1.65, (60, 70), (414, 483)),
    ("1026 DOM", 1.65, (65, 75), (448, 517)),
    ("1026 DOM as drawn", 1.65, (75, 85), (517, 586)),
    ("4130-N", 1.24, (65, 90), (448, 621)),
    ("4130 stress relieved", 1.24, (85, 105), (586, 724)),
    ("4130-N certified", 4.75, (75, 95), (517, 655)),
    ("4130-N certified", 4.9, (70, 90), (483, 621)),
    ("1020 tube", 1.65, (32, 50), (221, 345)),
]


@pytest.mark.parametrize(("name", "wall", "ksi", "mpa"), IN_KSI)
def test_inch_tube(name, wall, ksi, mpa):
    """The row in MPa is the printed one, which is the row in ksi to the nearest MPa."""
    row = find_metal(name).strength(wall)
    assert (row.yield_, row.ultimate) == mpa
    assert tuple(round(6.894757 * value) for value in ksi) == mpa


@pytest.mark.parametrize(
    ("name", "share"), [("E235+C", 0.8), ("E235+LC", 0.7), ("E235+A", 0.5), ("E355+C", 0.8), ("E355+A", 0.5)]
)
def test_yield_of_conditions_without_one(name, share):
    """EN 10305-1 specifies no yield there: a share of the ultimate strength (0.5 printed for +A)."""
    row = find_metal(name).strength(2, 40)
    assert 0 <= share * row.ultimate - row.yield_ < 1


@pytest.mark.parametrize(
    ("name", "normalised"), [("E235", (235, 340)), ("E355", (355, 490))], ids=["E235", "E355"]
)
@pytest.mark.parametrize("condition", ["+C", "+LC", "+SR"])
def test_beside_a_weld_cold_work_is_gone(name, normalised, condition):
    """Own choice: +C, +LC and +SR tube has the figures of +N beside a weld (EN 10305-1 row +N)."""
    row = find_metal(name + condition).strength(2, 40)
    assert (row.yield_welded, row.ultimate_welded) == normalised
    small = find_metal(name + condition).strength(1.5, 22)
    assert (small.yield_welded, small.ultimate_welded) == (normalised[0] - 10, normalised[1])


@pytest.mark.parametrize(("name", "yield_"), [("E235+N", 235), ("E255+N", 255), ("E355+N", 355)])
def test_small_normalised_tube(name, yield_):
    """Footnote of EN 10305-1, from memory: to 30 mm outside and 3 mm wall 10 MPa less."""
    metal = find_metal(name)
    assert metal.strength(3, 30).yield_ == yield_ - 10
    assert metal.strength(3, 30.5).yield_ == yield_
    assert metal.strength(3.5, 28).yield_ == yield_


def test_4130_beside_a_weld():
    """ANC-5, from memory: 0.80 of the ultimate strength beside any joint but a long taper."""
    for name, wall, ultimate in (("4130-N", 1.2, 621), ("4130-N certified", 2.1, 655)):
        assert 0 <= 0.80 * ultimate - find_metal(name).strength(wall).ultimate_welded < 1


# EN 1993-1-8 Table 4.1; every other steel 1.00
@pytest.mark.parametrize(
    ("name", "beta"),
    [
        ("S235JR", 0.80),
        ("S235JRH", 0.80),
        ("S235JRH hot", 0.80),
        ("S275JR", 0.85),
        ("S275J2H", 0.85),
        ("S355J2", 0.90),
        ("S355J2H hot", 0.90),
        ("E235+N", 1.00),
        ("E355+N", 1.00),
        ("4130-N", 1.00),
        ("1.4301", 1.00),
    ],
)
def test_correlation_factor(name, beta):
    """EN 1993-1-8 Table 4.1 (a national edition): S235 0.80, S275 0.85, S355 0.90."""
    assert find_metal(name).beta_w == beta


# EN 1993-1-1 Table 6.2: hot finished hollow section a (S235 to S355), cold formed c, solid c
@pytest.mark.parametrize(
    ("name", "curve"),
    [("S235JRH", "c"), ("S355J2H hot", "a"), ("42CrMo4+QT", "c"), ("S235JR", "c"), ("E235+N", "c")],
)
def test_buckling_curve(name, curve):
    """EN 1993-1-1 Table 6.2, from memory; precision tube c is an own choice."""
    assert find_metal(name).buckling_curve == curve


@pytest.mark.parametrize("name", ["C45+N", "C45+QT", "C45+C", "25CrMo4+QT", "42CrMo4+QT", "C45E+N"])
def test_axle_steel_is_not_welded(name):
    """Carbon equivalent 0.50 and more: no welding in a workshop, so no welded strength."""
    metal = find_metal(name)
    assert not metal.weldable
    assert {(row.yield_welded, row.ultimate_welded) for row in metal.rows} == {(None, None)}


# greatest composition of the standard: C, Mn, Cr, Mo [%] -> carbon equivalent, EN 1011-2 method A
@pytest.mark.parametrize(
    ("name", "c", "mn", "cr", "mo"),
    [
        ("E235+N", 0.17, 1.20, 0, 0),
        ("E355+N", 0.22, 1.60, 0, 0),
        ("4130-N", 0.33, 0.60, 1.10, 0.25),
        ("25CrMo4+N", 0.29, 0.90, 1.20, 0.30),
        ("42CrMo4+QT", 0.45, 0.90, 1.20, 0.30),
        ("1026 DOM", 0.28, 0.90, 0, 0),
        ("1020 DOM", 0.25, 0.60, 0, 0),
    ],
)
def test_carbon_equivalent(name, c, mn, cr, mo):
    """CE = C + Mn/6 + (Cr + Mo)/5 at the greatest composition, to 0.01 (EN 1011-2, from memory)."""
    assert find_metal(name).carbon_equivalent == pytest.approx(c + mn / 6 + (cr + mo) / 5, abs=0.006)


@pytest.mark.parametrize(
    ("name", "modulus", "shear", "density"),
    [("S235JR", 210e3, 81e3, 7850), ("4130-N", 200e3, 75.8e3, 7833), ("1.4301", 200e3, None, 7900)],
)
def test_elastic_constants(name, modulus, shear, density):
    """EN 1993-1-1 3.2.6, MIL-HDBK-5J Table 2.3.1.0, EN 10088-1; all from memory."""
    metal = find_metal(name)
    assert metal.modulus == modulus
    assert shear is None or metal.shear_modulus == shear
    assert metal.density == pytest.approx(density * 1e-9)
