"""Tables of cold-formed hollow sections, to their last printed digit.

EN 10219-2: Cold formed welded structural hollow sections of non-alloy and fine grain steels, Part 2:
Tolerances, dimensions and sectional properties. Rows as printed in tube makers' and reference tables of
circular, square and rectangular sections (outer corner radius 2 T, inner T), steel of 7850 kg/m^3.
"""

import pytest

from strength.sections.box import box, torsion_and_modulus
from strength.sections.round import tube

DENSITY = 7850e-9  # kg/mm^3

# D, T | kg/m, A cm2, I cm4, i cm, Wel cm3
CIRCULAR = """
21.3 2.0 | 0.95 1.21 0.571 0.7 0.54
21.3 2.5 | 1.16 1.48 0.664 0.7 0.62
26.9 2.5 | 1.50 1.92 1.44 0.9 1.07
33.7 2.0 | 1.56 1.99 2.51 1.1 1.49
33.7 3.0 | 2.27 2.89 3.44 1.1 2.04
42.4 2.0 | 1.99 2.54 5.19 1.4 2.45
48.3 3.0 | 3.35 4.27 11.0 1.6 4.55
48.3 4.0 | 4.37 5.57 13.8 1.6 5.70
60.3 3.0 | 4.24 5.40 22.2 2.0 7.37
"""
# B, T | kg/m, A cm2, I cm4, i cm, Wel cm3, It cm4, Ct cm3
SQUARE = """
20 2 | 1.05 1.34 0.692 0.72 0.692 1.21 1.06
25 2 | 1.36 1.74 1.48 0.924 1.19 2.53 1.80
25 2.5 | 1.64 2.09 1.69 0.899 1.35 2.97 2.07
30 2 | 1.68 2.14 2.72 1.13 1.81 4.54 2.75
30 3 | 2.36 3.01 3.50 1.08 2.34 6.15 3.58
40 2 | 2.31 2.94 6.94 1.54 3.47 11.3 5.23
40 3 | 3.30 4.21 9.32 1.49 4.66 15.8 7.07
40 4 | 4.20 5.35 11.1 1.44 5.54 19.4 8.48
60 3 | 5.19 6.61 35.1 2.31 11.7 57.1 17.7
"""
# H, B, T | kg/m, A cm2, Iy cm4, Wy cm3, Iz cm4, Wz cm3, It cm4, Ct cm3
RECTANGULAR = """
40 20 2 | 1.68 2.14 4.05 2.02 1.34 1.34 3.45 2.36
40 20 3 | 2.36 3.01 5.21 2.60 1.68 1.68 4.57 3.00
50 30 2 | 2.31 2.94 9.54 3.81 4.29 2.86 9.77 4.84
50 30 3 | 3.30 4.21 12.83 5.13 5.70 3.80 13.53 6.49
60 40 2 | 2.93 3.74 18.41 6.14 9.83 4.92 20.70 8.12
"""


def rows(table: str) -> list[tuple[list[float], list[str]]]:
    """Sizes and printed figures of each row."""
    found = []
    for line in table.strip().splitlines():
        sizes, printed = line.split("|")
        found.append(([float(size) for size in sizes.split()], printed.split()))
    return found


def as_printed(value: float, printed: str) -> str:
    """A value with as many decimals as the printed figure has."""
    return f"{float(value):.{len(printed.partition('.')[2])}f}"


@pytest.mark.parametrize(("sizes", "printed"), rows(CIRCULAR), ids=lambda part: "x".join(map(str, part)))
def test_circular(sizes: list[float], printed: list[str]) -> None:
    """Mass, area, second moment, radius of gyration and modulus."""
    found = tube(*sizes, 0.3)
    i = (found.iy / found.area) ** 0.5
    values = [found.area * DENSITY * 1e3, found.area / 1e2, found.iy / 1e4, i / 10.0, found.modulus_y / 1e3]
    assert [as_printed(value, text) for value, text in zip(values, printed, strict=True)] == printed


@pytest.mark.parametrize(("sizes", "printed"), rows(SQUARE), ids=lambda part: "x".join(map(str, part)))
def test_square(sizes: list[float], printed: list[str]) -> None:
    """The same, with the torsion constant and modulus."""
    side, wall = sizes
    found = box(side, side, wall, 0.3)
    torsion, modulus = torsion_and_modulus(found.depth, found.width, found.wall)
    i = (found.iy / found.area) ** 0.5
    values = [
        found.area * DENSITY * 1e3,
        found.area / 1e2,
        found.iy / 1e4,
        i / 10.0,
        found.modulus_y / 1e3,
        torsion / 1e4,
        modulus / 1e3,
    ]
    assert [as_printed(value, text) for value, text in zip(values, printed, strict=True)] == printed


@pytest.mark.parametrize(("sizes", "printed"), rows(RECTANGULAR), ids=lambda part: "x".join(map(str, part)))
def test_rectangular(sizes: list[float], printed: list[str]) -> None:
    """Both axes: depth along z_m gives Iy."""
    found = box(*sizes, 0.3)
    torsion, modulus = torsion_and_modulus(found.depth, found.width, found.wall)
    values = [
        found.area * DENSITY * 1e3,
        found.area / 1e2,
        found.iy / 1e4,
        found.modulus_y / 1e3,
        found.iz / 1e4,
        found.modulus_z / 1e3,
        torsion / 1e4,
        modulus / 1e3,
    ]
    assert [as_printed(value, text) for value, text in zip(values, printed, strict=True)] == printed
    assert found.torsion == torsion


@pytest.mark.parametrize(
    ("sizes", "area", "inertia", "modulus"),
    [
        ((25.0, 2.0), "144.5", "0.963", "0.770"),
        ((12.0, 1.0), "34.6", "0.053", "0.088"),
        ((38.0, 2.0), "226.2", "3.676", "1.935"),
        ((40.0, 2.5), "294.5", "5.200", "2.600"),
        ((60.0, 3.0), "537.2", "21.878", "7.293"),
    ],
)
def test_precision_tube(sizes: tuple[float, float], area: str, inertia: str, modulus: str) -> None:
    """Metric precision tube, preferred sizes of EN 10305-1, computed from the closed forms."""
    found = tube(*sizes, 0.3)
    assert as_printed(found.area, area) == area
    assert as_printed(found.iy / 1e4, inertia) == inertia
    assert as_printed(found.modulus_z / 1e3, modulus) == modulus
