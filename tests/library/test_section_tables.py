"""Section properties and masses of stock sizes against printed tables, to the last printed digit.

- Round, square and rectangular hollow sections: tables after EN 10219-2 (Annex B formulas) of tube
  makers and a reference site, transcribed here: kg/m, cm^2, cm^4, cm, cm^3. Density 7850 kg/m^3.
- Precision and inch tube: rows computed from the closed forms for a ring by others, the formulas having
  been held against the printed hollow-section rows. Inch tube at 7833 kg/m^3.

Each row is worked out twice: by the closed form written here, and by `strength.sections`.
"""

from math import pi

import pytest

from strength.library import find_metal, stock
from strength.library.sizes import area
from strength.sections.box import box, torsion_and_modulus
from strength.sections.round import tube

# outside diameter, wall [mm]; kg/m, A cm^2, I cm^4, i cm, Wel cm^3, Wpl cm^3 as printed
ROUND = [
    (21.3, 2.0, "0.95", "1.21", "0.571", "0.7", "0.54", "0.748"),
    (21.3, 2.5, "1.16", "1.48", "0.664", "0.7", "0.62", "0.889"),
    (26.9, 2.5, "1.50", "1.92", "1.44", "0.9", "1.07", "1.49"),
    (33.7, 2.0, "1.56", "1.99", "2.51", "1.1", "1.49", "2.01"),
    (33.7, 3.0, "2.27", "2.89", "3.44", "1.1", "2.04", "2.84"),
    (42.4, 2.0, "1.99", "2.54", "5.19", "1.4", "2.45", "3.27"),
    (48.3, 3.0, "3.35", "4.27", "11.0", "1.6", "4.55", "6.17"),
    (48.3, 4.0, "4.37", "5.57", "13.8", "1.6", "5.70", "7.87"),
    (60.3, 3.0, "4.24", "5.40", "22.2", "2.0", "7.37", "9.86"),
]

# side, wall [mm]; kg/m, A cm^2, I cm^4, i cm, Wel cm^3, Wpl cm^3, It cm^4, Ct cm^3 as printed
SQUARE = [
    (20, 2, "1.05", "1.34", "0.692", "0.72", "0.692", "0.877", "1.21", "1.06"),
    (25, 2, "1.36", "1.74", "1.48", "0.924", "1.19", "1.47", "2.53", "1.80"),
    (25, 2.5, "1.64", "2.09", "1.69", "0.899", "1.35", "1.71", "2.97", "2.07"),
    (30, 2, "1.68", "2.14", "2.72", "1.13", "1.81", "2.21", "4.54", "2.75"),
    (30, 3, "2.36", "3.01", "3.50", "1.08", "2.34", "2.96", "6.15", "3.58"),
    (40, 2, "2.31", "2.94", "6.94", "1.54", "3.47", "4.13", "11.3", "5.23"),
    (40, 3, "3.30", "4.21", "9.32", "1.49", "4.66", "5.72", "15.8", "7.07"),
    (40, 4, "4.20", "5.35", "11.1", "1.44", "5.54", "7.01", "19.4", "8.48"),
    (60, 3, "5.19", "6.61", "35.1", "2.31", "11.7", "14.0", "57.1", "17.7"),
]

# depth, width, wall [mm]; kg/m, A, Iy, Wy, Wpl y, Iz, Wz, Wpl z, It, Ct as printed
RECTANGULAR = [
    (40, 20, 2, "1.68", "2.14", "4.05", "2.02", "2.61", "1.34", "1.34", "1.60", "3.45", "2.36"),
    (40, 20, 3, "2.36", "3.01", "5.21", "2.60", "3.50", "1.68", "1.68", "2.12", "4.57", "3.00"),
    (50, 30, 2, "2.31", "2.94", "9.54", "3.81", "4.74", "4.29", "2.86", "3.33", "9.77", "4.84"),
    (50, 30, 3, "3.30", "4.21", "12.83", "5.13", "6.57", "5.70", "3.80", "4.58", "13.53", "6.49"),
    (60, 40, 2, "2.93", "3.74", "18.41", "6.14", "7.47", "9.83", "4.92", "5.65", "20.70", "8.12"),
]

# outside diameter, wall [mm]; kg/m, A mm^2, I cm^4, Wel cm^3, Wpl cm^3, i mm
PRECISION = [
    (12, 1, "0.271", "34.6", "0.053", "0.088", "0.121", "3.91"),
    (15, 1.5, "0.499", "63.6", "0.147", "0.196", "0.275", "4.80"),
    (16, 1.5, "0.536", "68.3", "0.182", "0.227", "0.317", "5.15"),
    (18, 1.5, "0.610", "77.8", "0.267", "0.296", "0.409", "5.86"),
    (20, 1.5, "0.684", "87.2", "0.375", "0.375", "0.514", "6.56"),
    (20, 2, "0.888", "113.1", "0.464", "0.464", "0.651", "6.40"),
    (22, 1.5, "0.758", "96.6", "0.510", "0.464", "0.631", "7.27"),
    (22, 2, "0.986", "125.7", "0.635", "0.577", "0.803", "7.11"),
    (25, 1.5, "0.869", "110.7", "0.768", "0.614", "0.830", "8.33"),
    (25, 2, "1.134", "144.5", "0.963", "0.770", "1.061", "8.16"),
    (25, 2.5, "1.387", "176.7", "1.132", "0.906", "1.271", "8.00"),
    (28, 1.5, "0.980", "124.9", "1.100", "0.786", "1.054", "9.38"),
    (28, 2, "1.282", "163.4", "1.389", "0.992", "1.355", "9.22"),
    (30, 1.5, "1.054", "134.3", "1.367", "0.912", "1.220", "10.09"),
    (30, 2, "1.381", "175.9", "1.733", "1.155", "1.571", "9.92"),
    (32, 2, "1.480", "188.5", "2.130", "1.331", "1.803", "10.63"),
    (35, 1.5, "1.239", "157.9", "2.219", "1.268", "1.685", "11.86"),
    (35, 2, "1.628", "207.3", "2.833", "1.619", "2.181", "11.69"),
    (38, 2, "1.776", "226.2", "3.676", "1.935", "2.595", "12.75"),
    (40, 2, "1.874", "238.8", "4.322", "2.161", "2.891", "13.45"),
    (40, 2.5, "2.312", "294.5", "5.200", "2.600", "3.521", "13.29"),
    (45, 2, "2.121", "270.2", "6.258", "2.781", "3.701", "15.22"),
    (50, 2, "2.368", "301.6", "8.701", "3.480", "4.611", "16.99"),
    (50, 3, "3.477", "443.0", "12.281", "4.912", "6.636", "16.65"),
    (60, 2, "2.861", "364.4", "15.342", "5.114", "6.731", "20.52"),
    (60, 3, "4.217", "537.2", "21.878", "7.293", "9.756", "20.18"),
]

# outside diameter, wall [in]; kg/m, lb/ft, A mm^2, I cm^4, Wel cm^3
INCH = [
    (0.500, 0.035, "0.258", "0.174", "33.0", "0.0578", "0.0911"),
    (0.625, 0.049, "0.448", "0.301", "57.2", "0.154", "0.194"),
    (0.750, 0.035, "0.397", "0.267", "50.7", "0.210", "0.220"),
    (0.750, 0.049, "0.545", "0.366", "69.6", "0.277", "0.291"),
    (0.750, 0.065, "0.707", "0.475", "90.2", "0.345", "0.362"),
    (0.875, 0.035, "0.467", "0.314", "59.6", "0.340", "0.306"),
    (0.875, 0.049, "0.643", "0.432", "82.0", "0.453", "0.408"),
    (0.875, 0.065, "0.836", "0.562", "106.7", "0.568", "0.511"),
    (1.000, 0.035, "0.536", "0.360", "68.5", "0.515", "0.405"),
    (1.000, 0.049, "0.740", "0.497", "94.4", "0.691", "0.544"),  # ERRATUM: prints 94.5: 94.448 rounded twice
    (
        1.000,
        0.058,
        "0.867",
        "0.583",
        "110.7",
        "0.795",
        "0.626",
    ),  # ERRATUM: prints 0.796: 0.79546 rounded twice
    (1.000, 0.065, "0.965", "0.648", "123.2", "0.873", "0.687"),
    (
        1.000,
        0.083,
        "1.208",
        "0.812",
        "154.3",
        "1.055",
        "0.830",
    ),  # ERRATUM: prints 0.831: 0.83046 rounded twice
    (1.125, 0.049, "0.837", "0.562", "106.9", "1.000", "0.700"),
    (1.125, 0.058, "0.983", "0.660", "125.4", "1.155", "0.808"),
    (1.250, 0.049, "0.934", "0.628", "119.3", "1.390", "0.875"),
    (1.250, 0.065, "1.223", "0.822", "156.1", "1.773", "1.117"),
    (1.250, 0.095, "1.742", "1.171", "222.4", "2.409", "1.517"),
    (1.375, 0.065, "1.352", "0.908", "172.6", "2.394", "1.371"),
    (1.500, 0.049, "1.129", "0.759", "144.1", "2.450", "1.286"),
    (1.500, 0.065, "1.481", "0.995", "189.1", "3.146", "1.651"),
    (1.500, 0.083, "1.867", "1.255", "238.4", "3.873", "2.033"),
    (1.500, 0.095, "2.119", "1.424", "270.5", "4.326", "2.271"),
    (1.500, 0.120, "2.629", "1.767", "335.6", "5.194", "2.726"),
]


def agree(values, printed) -> bool:
    """Whether each value is the printed one to its last digit."""
    return all(
        abs(value - float(text)) <= 0.5000001 * 10 ** -len(text.partition(".")[2])
        for value, text in zip(values, printed, strict=True)
    )


def ring(od, wall):
    """A, I, i, Wel, Wpl of a ring by the closed forms of any handbook."""
    inner = od - 2 * wall
    a = pi / 4 * (od**2 - inner**2)
    i = pi / 64 * (od**4 - inner**4)
    return a, i, (i / a) ** 0.5, 2 * i / od, (od**3 - inner**3) / 6


def rounded(depth, width, radius):
    """A, I, Wpl about the axis along the width of a rectangle with round corners.

    The rectangle less four corners: each a square of the radius less its quarter circle, area
    (1 - pi/4) r^2, first and second moment about the side (5/6 - pi/4) r^3 and (1 - 5 pi/16) r^4.
    """
    corner = (1 - pi / 4) * radius**2
    arm = (5 / 6 - pi / 4) * radius / (1 - pi / 4)
    own = (1 - 5 * pi / 16) * radius**4 - corner * arm**2
    lever = depth / 2 - arm
    inertia = width * depth**3 / 12 - 4 * (own + corner * lever**2)
    return depth * width - 4 * corner, inertia, width * depth**2 / 4 - 4 * corner * lever


def hollow(depth, width, wall):
    """A, I, Wel, Wpl of a box with EN 10219-2 corners for walls to 6 mm: radii 2 t and t."""
    outside = rounded(depth, width, 2 * wall)
    inside = rounded(depth - 2 * wall, width - 2 * wall, wall)
    a, i, wpl = (o - n for o, n in zip(outside, inside, strict=True))
    return a, i, 2 * i / depth, wpl


def twisted(depth, width, wall):
    """It, Ct of EN 10219-2 Annex B for walls to 6 mm."""
    rc = 1.5 * wall
    h = 2 * ((depth - wall) + (width - wall)) - 2 * rc * (4 - pi)
    ah = (depth - wall) * (width - wall) - rc**2 * (4 - pi)
    k = 2 * ah * wall / h
    it = wall**3 * h / 3 + 2 * k * ah
    return it, it / (wall + k / wall)


def mass(a, density=7850):
    """kg/m of an area in mm^2."""
    return a * density * 1e-6


@pytest.mark.parametrize("row", ROUND, ids=str)
def test_round_hollow_section(row):
    """EN 10219-2 tables of a tube maker."""
    od, wall, *printed = row
    a, i, gyration, wel, wpl = ring(od, wall)
    assert agree((mass(a), a / 100, i / 1e4, gyration / 10, wel / 1e3, wpl / 1e3), printed)
    ours = tube(od, wall, 0.3)
    size = area("tube", (od, wall))
    assert agree((mass(size), size / 100, ours.iy / 1e4, ours.modulus_y / 1e3), [*printed[:3], printed[4]])


@pytest.mark.parametrize("row", SQUARE, ids=str)
def test_square_hollow_section(row):
    """EN 10219-2 tables of a reference site."""
    side, wall, *printed = row
    a, i, wel, wpl = hollow(side, side, wall)
    it, ct = twisted(side, side, wall)
    values = (mass(a), a / 100, i / 1e4, (i / a) ** 0.5 / 10, wel / 1e3, wpl / 1e3, it / 1e4, ct / 1e3)
    assert agree(values, printed)
    ours, size = box(side, side, wall, 0.3), area("square", (side, wall))
    _, modulus = torsion_and_modulus(side, side, wall)
    assert agree(
        (mass(size), size / 100, ours.iz / 1e4, ours.modulus_z / 1e3, ours.torsion / 1e4, modulus / 1e3),
        [*printed[:3], printed[4], *printed[6:]],
    )


@pytest.mark.parametrize("row", RECTANGULAR, ids=str)
def test_rectangular_hollow_section(row):
    """EN 10219-2 tables."""
    depth, width, wall, *printed = row
    a, iy, wy, wply = hollow(depth, width, wall)
    _, iz, wz, wplz = hollow(width, depth, wall)
    it, ct = twisted(depth, width, wall)
    inertias = (iy / 1e4, wy / 1e3, wply / 1e3, iz / 1e4, wz / 1e3, wplz / 1e3)
    assert agree((mass(a), a / 100, *inertias, it / 1e4, ct / 1e3), printed)
    ours, size = box(depth, width, wall, 0.3), area("box", (depth, width, wall))
    assert agree(
        (mass(size), size / 100, ours.iy / 1e4, ours.modulus_y / 1e3, ours.iz / 1e4, ours.modulus_z / 1e3),
        [*printed[:4], *printed[5:7]],
    )


def test_hot_finished_table_is_another():
    """A hot-finished 40 x 40 x 4 is printed with 4.39 kg/m (EN 10210-2): not what is computed here."""
    assert not agree((mass(area("square", (40, 4))),), ["4.39"])


@pytest.mark.parametrize("row", PRECISION, ids=str)
def test_precision_tube(row):
    """Rows worked out by others from the closed forms; each size is in the stock list."""
    od, wall, *printed = row
    a, i, gyration, wel, wpl = ring(od, wall)
    assert agree((mass(a), a, i / 1e4, wel / 1e3, wpl / 1e3, gyration), printed)
    metal = find_metal("E235+N")
    (size,) = [one for one in stock("tube", metal) if one.dimensions == (od, wall)]
    assert agree((size.mass(metal.density), size.area), printed[:2])


@pytest.mark.parametrize("row", INCH, ids=str)
def test_inch_tube(row):
    """Rows worked out by others at 7833 kg/m^3; each size is in the stock list, written in inches."""
    od, wall, *printed = row
    a, i, _, wel, _ = ring(25.4 * od, 25.4 * wall)
    kg = mass(a, 7833)
    assert agree((kg, kg * 0.3048 / 0.45359237, a), printed[:3])
    assert agree((i / 1e4, wel / 1e3), printed[3:])
    metal = find_metal("4130-N")
    (size,) = [one for one in stock("tube", metal) if one.text == f"tube {od:g} x {wall:g} in"]
    assert size.dimensions == pytest.approx((25.4 * od, 25.4 * wall))
    assert agree((size.mass(metal.density), size.area), (printed[0], printed[2]))


def test_plate_and_bar():
    """7.85 kg/m^2 per mm of steel, 2.70 of aluminium (trade practice); a bar by pi/4 d^2."""
    for shape, name, thickness, kg in (("flat", "S235JR", 6, 47.1), ("flat", "6082-T651", 16, 43.2)):
        metal = find_metal(name)
        (size,) = [one for one in stock(shape, metal) if one.dimensions == (thickness,)]
        assert size.mass(metal.density) == pytest.approx(kg)
    axle = find_metal("42CrMo4+QT")
    (bar,) = [one for one in stock("bar", axle) if one.dimensions == (17,)]
    assert bar.mass(axle.density) == pytest.approx(7.85e-3 * pi / 4 * 17**2)


@pytest.mark.parametrize(
    ("od", "wall", "kg", "a", "i", "w"),
    [
        (21.3, 2.6, "1.199", "152.7", "0.681", "0.639"),
        (26.9, 2.3, "1.395", "177.8", "1.356", "1.008"),
        (33.7, 2.6, "1.994", "254.0", "3.093", "1.835"),
        (42.4, 2.6, "2.552", "325.1", "6.464", "3.049"),
        (48.3, 3.2, "3.559", "453.4", "11.586", "4.797"),
        (60.3, 3.2, "4.506", "574.0", "23.468", "7.784"),
    ],
)
def test_pipe_walls(od, wall, kg, a, i, w):
    """EN 10220 walls, worked out by others from the closed forms; each size is in the stock list."""
    found, inertia, _, wel, _ = ring(od, wall)
    assert agree((mass(found), found, inertia / 1e4, wel / 1e3), (kg, a, i, w))
    assert (od, wall) in {one.dimensions for one in stock("tube", find_metal("S235JRH"))}


@pytest.mark.parametrize(
    ("side", "kg", "a", "i", "w", "it"),
    [
        (20, "0.826", "105.2", "0.583", "0.583", "0.985"),
        (25, "1.061", "135.2", "1.217", "0.973", "2.008"),
        (30, "1.297", "165.2", "2.196", "1.464", "3.568"),
        (40, "1.768", "225.2", "5.490", "2.745", "8.746"),
    ],
)
def test_thin_square(side, kg, a, i, w, it):
    """1.5 mm wall, worked out by others from the closed forms; each size is in the stock list."""
    found, inertia, wel, _ = hollow(side, side, 1.5)
    torsion, _ = twisted(side, side, 1.5)
    assert agree((mass(found), found, inertia / 1e4, wel / 1e3, torsion / 1e4), (kg, a, i, w, it))
    assert (side, 1.5) in {one.dimensions for one in stock("square", find_metal("S235JRH"))}
