"""Sleeves and clamps on whole parts."""

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case.model import Basis
from strength.case.shape import Bar, Tube
from strength.errors import CaseError
from tests.checks.jointed import END, START, UP, across_flat, arm, bolt, clamp, rows, size, skipped, sleeve
from tests.checks.loaded import METALS, member, weld

INNER = Tube(40.0, 2.0)
LIMIT_STATE = Basis(method="limit-state")
LENGTH = float(np.linalg.norm(np.subtract(END, START)))
# bending grows along the part: 20 to 90 N*m in My, -60 to 30 in Mz; shear 240 and 320 N
BENT = [[[800.0, 240.0, 320.0, 0.0, 2e4, -6e4], [800.0, 240.0, 320.0, 0.0, 9e4, 3e4]]]


def middle(overlap, end):
    """Moments at mid-overlap by straight interpolation."""
    share = overlap / 2.0 / LENGTH if end == "from" else 1.0 - overlap / 2.0 / LENGTH
    return np.hypot(2e4 + share * 7e4, -6e4 + share * 9e4)


@pytest.mark.parametrize("end", ["from", "to"])
def test_bearing_and_wall_by_hand(end):
    """V 400 N, M at mid-overlap: V/(d s) + 6 M/(d s^2) against 240/1.67; V/2 + 1.5 M/s against 24 fy t^2."""
    found = rows(arm(BENT, shape=INNER, sleeves=(sleeve(end=end),)))
    moment = middle(70.0, end)
    bearing, wall = found["sleeve-bearing", 0], found["sleeve-wall", 0]
    assert bearing.demand == pytest.approx(400.0 / 2800.0 + 6.0 * moment / (40.0 * 4900.0))
    assert bearing.limit == pytest.approx(240.0 / 1.67)
    assert wall.demand == pytest.approx(200.0 + 1.5 * moment / 70.0)
    assert wall.limit == pytest.approx(24.0 * 240.0 * 4.0 / 1.67)
    assert wall.where.startswith("inner tube")


def test_weaker_tube_decides():
    """Lesser yield for the pressure, lesser fy t^2 for the wall, over the greater divisor."""
    light = member("outer", "c", "d", Tube(48.0, 1.9), "light", up=UP, path="members.outer")
    axes = across_flat()
    points = {"c": tuple(np.array(END) - 90.0 * axes[0]), "d": tuple(np.array(END) + 200.0 * axes[0])}
    own = sleeve(outer="outer")
    parts = {"members": (light,), "points": points, "sleeves": (own,)}
    found = rows(arm(BENT, shape=INNER, **parts))
    # steel 240 is the lesser yield; 255 x 1.9^2 is less than 240 x 2^2
    assert found["sleeve-bearing", 0].limit == pytest.approx(240.0 / 1.67)
    assert found["sleeve-wall", 0].limit == pytest.approx(24.0 * 255.0 * 1.9**2 / 1.67)
    assert found["sleeve-wall", 0].where.startswith("outer tube")
    code = rows(arm(BENT, shape=INNER, basis=LIMIT_STATE, **parts))
    assert code["sleeve-bearing", 0].limit == pytest.approx(240.0 / 1.1)
    heated = rows(arm(BENT, shape=INNER, welds=(weld("seam", "outer", "from", inset=5.0),), **parts))
    assert heated["sleeve-bearing", 0].limit == pytest.approx(125.0 / 1.67)
    assert "outer tube: welded strength" in heated["sleeve-bearing", 0].note
    beyond = rows(arm(BENT, shape=INNER, welds=(weld("seam", "outer", "to", inset=5.0),), **parts))
    assert beyond["sleeve-bearing", 0].limit == pytest.approx(240.0 / 1.67)


def test_outer_section_has_the_metal_of_the_part():
    """Light in light: 255; heated where the inner tube is."""
    plain = rows(arm(BENT, shape=INNER, material="light", sleeves=(sleeve(),)))["sleeve-bearing", 0]
    assert plain.limit == pytest.approx(255.0 / 1.67)
    hot = arm(
        BENT, shape=INNER, material="light", sleeves=(sleeve(),), welds=(weld("s", "arm", "to", inset=80.0),)
    )
    assert rows(hot)["sleeve-bearing", 0].limit == pytest.approx(125.0 / 1.67)


def test_minimum_walls():
    """The typed outer tube loses its tolerance as members do; `unknown` standards take a tenth at least."""
    basis = Basis(wall="minimum")
    own = sleeve(outer=Tube(44.0, 1.8))
    nominal = rows(arm(BENT, shape=INNER, sleeves=(own,)))["sleeve-wall", 0]
    least = rows(arm(BENT, shape=INNER, sleeves=(own,), basis=basis))["sleeve-wall", 0]
    assert nominal.limit == pytest.approx(24.0 * 240.0 * 1.8**2 / 1.67)
    assert least.limit < 0.97 * nominal.limit


def test_outer_wall_that_its_metal_is_not_held_for():
    """Says path and part."""
    row = attrs.evolve(METALS["steel"].rows[0], over=1.0, up_to=2.2)
    thin = attrs.evolve(METALS["steel"], rows=(row,))
    context = arm(BENT, shape=INNER, sleeves=(sleeve(path="sleeves.nose"),), metals=METALS | {"steel": thin})
    with pytest.raises(CaseError, match="over 1 to 2") as caught:
        rows(context)
    assert str(caught.value).startswith("sleeves.nose.outer: nose: ")


@given(overlap=st.floats(20.0, 200.0), more=st.floats(1.0, 2.0))
def test_longer_overlap_is_never_worse_in_pure_bending(overlap, more):
    """The same moment all along: both rows fall with the overlap."""
    pure = [0.0, 0.0, 0.0, 0.0, 5e4, 2e4]
    short, long = (
        rows(arm(pure, shape=INNER, sleeves=(sleeve(overlap=s),))) for s in (overlap, overlap * more)
    )
    for key, row in short.items():
        assert long[key].utilisation <= row.utilisation * (1.0 + 1e-9)


def test_bolt_across_the_sleeve():
    """Each side: half the pull and torque over the diameter, together; M10 8.8, its thread sheared."""
    force = [3000.0, 0.0, 0.0, 80e3, 0.0, 0.0]
    own = sleeve(bolt=size("M10"), grade="8.8")
    context = arm(force, shape=INNER, sleeves=(own,))
    row = rows(context)["bolt-shear", 0]
    assert row.demand == pytest.approx(np.hypot(1500.0, 2000.0))
    assert row.limit == pytest.approx(0.6 * 800.0 * 57.99 / 2.0, rel=1e-4)
    assert skipped(context)["nose"][0].startswith("bearing: the bolt's edge distances")


@pytest.mark.parametrize(
    ("force", "welds", "told"),
    [
        (
            [3000.0, 0.0, 400.0, 80e3, 0.0, 0.0],
            (),
            ["sleeve: pull or push up to 3000 N, torque up to 80 N*m"],
        ),
        ([0.0, 0.0, 400.0, 0.0, 9e4, 0.0], (), []),
        ([3000.0, 0.0, 400.0, 80e3, 0.0, 0.0], (weld("seam", "arm", "to", inset=70.0),), []),
    ],
)
def test_sleeve_that_nothing_holds(force, welds, told):
    """Pull and torque without bolt or weld are told; without them nothing is."""
    found = skipped(arm(force, shape=INNER, sleeves=(sleeve(),), welds=welds)).get("nose", [])
    assert len(found) == len(told)
    for why, start in zip(found, told, strict=True):
        assert why.startswith(start)


def test_clamp_by_hand():
    """2 x M6 8.8: 0.15 x 2 x 0.7 x 800 x 20.12 x 40 mm over 2.00, against 25 N*m."""
    force = [0.0, 0.0, 0.0, -25e3, 0.0, 0.0]
    row = rows(arm(force, shape=Bar(40.0), clamps=(clamp(),)))["clamp-slip", 0]
    assert row.demand == pytest.approx(25e3)
    assert row.limit == pytest.approx(0.15 * 2 * 0.7 * 800.0 * 20.123 * 40.0 / 2.0, rel=1e-4)
    assert (row.unit, row.fails, row.in_range) == ("N*mm", "slips", True)
    assert "10 N*m" in row.note
    code = rows(arm(force, shape=Bar(40.0), clamps=(clamp(),), basis=LIMIT_STATE))["clamp-slip", 0]
    assert code.utilisation / row.utilisation == pytest.approx(1.5 * 1.25 / 2.0)
    more = clamp(bolt_count=3, friction=0.1, diameter=35.0)
    other = rows(arm(force, shape=Bar(40.0), clamps=(more,)))["clamp-slip", 0]
    assert other.limit / row.limit == pytest.approx(1.5 * 0.1 / 0.15 * 35.0 / 40.0)


@pytest.mark.parametrize(
    ("grade", "expected"), [("8.8", True), ("10.9", True), ("4.6", False), ("A2-70", False)]
)
def test_classes_for_preload(grade, expected):
    """EN 1993-1-8 3.6.1(2) preloads 8.8 and 10.9; 0.7 of a soft bolt's ultimate is over its yield."""
    force = [0.0, 0.0, 0.0, -25e3, 0.0, 0.0]
    assert (
        rows(arm(force, shape=Bar(40.0), clamps=(clamp(grade=grade),)))["clamp-slip", 0].in_range is expected
    )


def test_what_a_clamp_does_not_check():
    """Pull and bending are told; a pin clamps nothing."""
    turned = arm([0.0, 0.0, 0.0, -25e3, 0.0, 0.0], shape=Bar(40.0), clamps=(clamp(),))
    assert skipped(turned) == {}
    for force in ([900.0, 0, 0, -25e3, 0, 0], [0.0, 0, 0, -25e3, 4e3, 0]):
        told = skipped(arm(force, shape=Bar(40.0), clamps=(clamp(),)))["grip"]
        assert told == ["clamp: the pull along its tube and bending in the clamp"]
    pinned = arm([0.0, 0.0, 0.0, -25e3, 0.0, 0.0], shape=Bar(40.0), clamps=(clamp("pin 6 mm"),))
    assert rows(pinned) == {}
    assert skipped(pinned)["grip"][0].startswith("clamp-slip: 'pin 6 mm' gives no clamping force")


def test_only_path_of_sleeves_and_clamps():
    """Own word before the part's."""
    parts = {"sleeves": (sleeve(only_path=False),), "clamps": (clamp(),)}
    plain = rows(arm(BENT, shape=INNER, **parts))
    only = rows(arm(BENT, shape=INNER, only_path=True, **parts))
    for (kind, load), row in plain.items():
        factor = 1.25 if kind == "clamp-slip" else 1.0
        assert only[kind, load].utilisation == pytest.approx(factor * row.utilisation)


def test_bolt_beside_a_sleeve_keeps_to_its_own_part():
    """Joints of one part are rows of their own names."""
    parts = {"sleeves": (sleeve(),), "bolts": (bolt(end="from"),)}
    assert {row.part for row in rows(arm(BENT, shape=INNER, **parts)).values()} == {"nose", "bolt"}
