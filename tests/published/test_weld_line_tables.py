"""Welds treated as lines: tables and examples of machine design books.

Blodgett, Design of Welded Structures (1966), "Determining weld size", Table 5.
Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed. (2008) and 9th ed. (2011),
chapter 9, Tables 9-1 and 9-2. Rows read in scans, each also integrated by hand; the bending form
of the circle, examples 9-1 and 9-4 are from memory.
Khurmi and Gupta, A Textbook of Machine Design, chapter on welded joints, from memory.
"""

import numpy as np
import pytest

from strength.joints.forms import Forms
from strength.joints.peak import peaks
from strength.joints.traction import pull
from tests.joints.bench import weld
from tests.joints.lines import line, round_line

B, D = 60.0, 100.0
TOP, FOOT = (-30.0, 50.0, 30.0, 50.0), (-30.0, -50.0, 30.0, -50.0)
LEFT, RIGHT = (-30.0, -50.0, -30.0, 50.0), (30.0, -50.0, 30.0, 50.0)
WEB = (0.0, -50.0, 0.0, 50.0)
RESULTANT = np.array([1.0, 1.0, 1.0, 0.0])[None, None, None]

# id: lines, (distance from the centroid, Sw)..., Jw
TABLE = {
    "WL1 one vertical": ([WEB], [(50.0, D**2 / 6)], D**3 / 12),
    "WL2 two vertical": ([LEFT, RIGHT], [(50.0, D**2 / 3)], D * (3 * B**2 + D**2) / 6),
    "WL3 two horizontal": ([TOP, FOOT], [(50.0, B * D)], B * (3 * D**2 + B**2) / 6),
    "WL4 L": (
        [TOP, LEFT],
        [("top", (4 * B * D + D**2) / 6), ("foot", D**2 * (4 * B + D) / (6 * (2 * B + D)))],
        ((B + D) ** 4 - 6 * B**2 * D**2) / (12 * (B + D)),
    ),
    "WL5 C": (
        [LEFT, TOP, FOOT],
        [(50.0, B * D + D**2 / 6)],
        (2 * B + D) ** 3 / 12 - B**2 * (B + D) ** 2 / (2 * B + D),
    ),
    "WL6 inverted U": (
        [TOP, LEFT, RIGHT],
        [("top", (2 * B * D + D**2) / 3), ("foot", D**2 * (2 * B + D) / (3 * (B + D)))],
        (B + 2 * D) ** 3 / 12 - D**2 * (B + D) ** 2 / (B + 2 * D),
    ),
    "WL7 box": ([TOP, LEFT, RIGHT, FOOT], [(50.0, B * D + D**2 / 3)], (B + D) ** 3 / 6),
    "WL8 T": (
        [TOP, TOP, WEB, WEB],
        [("top", (4 * B * D + D**2) / 3), ("foot", (4 * B * D**2 + D**3) / (6 * B + 3 * D))],
        D**3 * (4 * B + D) / (6 * (B + D)) + B**3 / 6,
    ),
    "WL9 I": ([TOP, FOOT, WEB, WEB], [(50.0, B * D + D**2 / 3)], (B**3 + 3 * B * D**2 + D**3) / 6),
}
# the printed formulas at b = 60, d = 100
NUMBERS = {
    "WL1 one vertical": ([1666.667], 83333.33),
    "WL2 two vertical": ([3333.333], 346666.67),
    "WL3 two horizontal": ([6000.0], 336000.0),
    "WL4 L": ([5666.667, 2575.758], 228833.33),
    "WL5 C": ([7666.667], 468424.24),
    "WL6 inverted U": ([7333.333, 4583.333], 480051.28),
    "WL7 box": ([9333.333], 682666.67),
    "WL8 T": ([11333.333, 5151.515], 390166.67),
    "WL9 I": ([9333.333], 502666.67),
}


@pytest.mark.parametrize("name", TABLE)
def test_table_of_line_properties(name):
    """Sw = I/c about the horizontal axis and polar Jw, moved off the origin so that the centroid counts."""
    lines, section, polar = TABLE[name]
    moved = [(y1 + 17.0, z1 - 9.0, y2 + 17.0, z2 - 9.0) for y1, z1, y2, z2 in lines]
    found = line(*moved)
    middle = found.centroid[0, 2] + 9.0
    reach = {"top": 50.0 - middle, "foot": 50.0 + middle}
    for (place, formula), number in zip(section, NUMBERS[name][0], strict=True):
        c = reach.get(place, 50.0)
        assert formula == pytest.approx(number, rel=1e-6)
        assert found.spread[0, 1, 1] / c == pytest.approx(formula, rel=1e-9)
    assert polar == pytest.approx(NUMBERS[name][1], rel=1e-7)
    assert found.spread[0, 0, 0] == pytest.approx(polar, rel=1e-9)


@pytest.mark.parametrize(("name", "arm"), [("WL4 L", 11.25), ("WL5 C", 16.3636)])
def test_centroids(name, arm):
    """b^2/(2 (b + d)) and b^2/(2 b + d) from the left line."""
    found = line(*TABLE[name][0])
    assert found.centroid[0, 1] + 30.0 == pytest.approx(arm, rel=1e-5)


def test_circle():
    """WL10, d = 50: length pi d, Sw = pi d^2/4, I = pi r^3, Jw = pi d^3/4."""
    found = round_line(50.0)
    assert found.length[0] == pytest.approx(np.pi * 50.0, rel=1e-12)
    assert found.spread[0, 1, 1] / 25.0 == pytest.approx(1963.4954, rel=1e-7)
    assert found.spread[0, 2, 2] == pytest.approx(49087.385, rel=1e-7)
    assert found.spread[0, 0, 0] == pytest.approx(98174.770, rel=1e-7)


def _worst(found, force, throat):
    load = np.array(force, dtype=float)[None, None]
    through = pull(found, load, [weld()], ("load",))
    return through, float(
        peaks(found, through, [Forms(forms=RESULTANT, scales=np.ones((1, 1)))])[0].value[0, 0]
    ) / throat


def test_u_weld_of_a_bracket():
    """WB1, Shigley Example 9-1: 44.0 MPa at the corners, 37.0 at the free tips (0.5 %, rounding)."""
    found = line((0.0, -95.0, 0.0, 95.0), (0.0, 95.0, 56.0, 95.0), (0.0, -95.0, 56.0, -95.0))
    throat = 0.707 * 6.0
    assert found.length[0] * throat == pytest.approx(1280.0, rel=5e-3)
    assert found.centroid[0, 1] == pytest.approx(10.4, rel=5e-3)
    assert found.spread[0, 0, 0] * throat == pytest.approx(7.07e6, rel=5e-3)
    through, corner = _worst(found, [0.0, 0.0, 25e3, -100.0 * 25e3, 0.0, 0.0], throat)
    assert corner == pytest.approx(44.0, rel=5e-3)
    tip = through.at((np.array([0.0, 56.0, 95.0]) - found.centroid[0])[None, None])[0, 0]
    assert np.linalg.norm(tip) / throat == pytest.approx(37.0, rel=5e-3)


def test_cantilever_bar_on_two_lines():
    """WB3, Shigley Example 9-4 (inch, lbf): 8.51 ksi, shear 472 psi, I = 0.353 in^4 on the throat."""
    throat = 0.707 * 0.375
    found = line((-0.25, -1.0, -0.25, 1.0), (0.25, -1.0, 0.25, 1.0))
    assert found.spread[0, 1, 1] * throat == pytest.approx(0.353, rel=5e-3)
    through, worst = _worst(found, [0.0, 0.0, -500.0, 0.0, 500.0 * 6.0, 0.0], throat)
    assert abs(through.direct[0, 0, 2]) / throat == pytest.approx(472.0, rel=5e-3)
    assert worst == pytest.approx(8510.0, rel=5e-3)
    assert 0.577 * 50e3 / worst == pytest.approx(3.39, rel=5e-3)


def test_two_lines_twisted_in_their_plane():
    """WB4, Shigley 8th ed. Problem 9-5: 9.22 ksi per kip; 2.17 kip at 20 ksi, 1.19 kip at 11 ksi."""
    throat = 0.707 * 5.0 / 16.0
    found = line((-1.0, -1.0, -1.0, 1.0), (1.0, -1.0, 1.0, 1.0))
    assert found.spread[0, 0, 0] == pytest.approx(5.333, rel=1e-3)
    _, worst = _worst(found, [0.0, 0.0, 1.0, 7.0, 0.0, 0.0], throat)
    assert worst == pytest.approx(9.22, rel=5e-3)
    assert 20.0 / worst == pytest.approx(2.17, rel=5e-3)
    assert 11.0 / worst == pytest.approx(1.19, rel=5e-3)


@pytest.mark.parametrize(
    ("leg", "allowed", "total", "name"),
    [
        (3.0 / 8.0, 0.30 * 70.0, 22.28, "WB2, Shigley Example 9-2"),
        (5.0 / 16.0, 20.0, 17.7, "WB6, Problem 9-1"),
        (5.0 / 16.0, 21.0, 18.56, "WB6, Problem 9-2"),
    ],
)
def test_two_lines_pulled(leg, allowed, total, name):
    """Four inches of fillet in plain shear: the printed load brings the throat to its limit (kip, in)."""
    found = line((-0.5, -1.0, -0.5, 1.0), (0.5, -1.0, 0.5, 1.0))
    _, worst = _worst(found, [0.0, 0.0, total, 0.0, 0.0, 0.0], 0.707 * leg)
    assert worst == pytest.approx(allowed, rel=3e-3), name


def test_shaft_welded_all_round_in_torsion():
    """WB7, Khurmi and Gupta: d = 50 mm, s = 10 mm, 80 MPa at 2.22 kN m."""
    _, worst = _worst(round_line(50.0), [0.0, 0.0, 0.0, 2.22e6, 0.0, 0.0], 0.707 * 10.0)
    assert worst == pytest.approx(80.0, rel=3e-3)
