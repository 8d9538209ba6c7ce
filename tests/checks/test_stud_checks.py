"""Studs, ball joints and rod ends on whole parts."""

import numpy as np
import pytest

from strength.case.model import Basis
from strength.case.shape import Bar, Flat, Rigid, Tube
from tests.checks.jointed import END, UP, across_flat, arm, bolt, rows, skipped, stud
from tests.checks.loaded import member, weld

LIMIT_STATE = Basis(method="limit-state")
# 4000 N along, 500 N across, 12 N*m across, none about
FORCE = [-4000.0, 300.0, 400.0, 0.0, 7200.0, -9600.0]
RATED = {"rating_radial": 17000.0, "rating_axial": 4000.0}


def test_shank_by_hand():
    """M12 8.8, 22 mm out: (500 x 22 + 12000) 32/(pi 9.853^3) + 4000/84.27 against 640/1.67, abuse too."""
    for severity in ("routine", "abuse"):
        row = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(),), severities=(severity,)))["stud-bending", 0]
        assert row.demand == pytest.approx(32.0 * 23000.0 / (np.pi * 9.853**3) + 4000.0 / 84.267, rel=1e-4)
        assert row.limit == pytest.approx(640.0 / 1.67)
        assert (row.unit, row.fails) == ("MPa", "bends")


def test_seat_by_hand():
    """(500 (6 x 22 + 4 x 18) + 6 x 12000)/(12 x 18^2) against the tapped metal's 240/1.67."""
    row = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(),)))["stud-rocking", 0]
    assert row.demand == pytest.approx((500.0 * 204.0 + 72000.0) / (12.0 * 324.0))
    assert row.limit == pytest.approx(240.0 / 1.67)
    light = rows(arm(FORCE, studs=(stud(),), material="light", basis=LIMIT_STATE))["stud-rocking", 0]
    assert light.demand == pytest.approx(1.5 * row.demand)
    assert light.limit == pytest.approx(255.0 / 1.1)


def test_thread_by_hand():
    """0.6 (18 - 1.75) x min(26.12 x 300, 18.98 x 800) over 2.00."""
    row = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(into="light"),)))["thread-strip", 0]
    assert row.demand == pytest.approx(4000.0)
    assert row.limit == pytest.approx(0.6 * 16.25 * 26.117 * 300.0 / 2.0, rel=1e-4)
    assert row.in_range
    short = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(into="light", engaged=1.5),)))["thread-strip", 0]
    assert not short.in_range
    assert short.utilisation > 10.0


def test_stud_across_its_part():
    """Along y of the flat: 300 N along; 4000 and 400 N across; 9.6 N*m of My stays, Mz about... none."""
    own = stud(axis=tuple(across_flat()[1]))
    found = rows(arm(FORCE, studs=(own,)))
    assert found["thread-strip", 0].demand == pytest.approx(300.0)
    across = np.hypot(4000.0, 400.0)
    bent = across * 22.0 + 9600.0  # My turns it in its thread, Mz bends it
    expected = 32.0 * bent / (np.pi * 9.853**3) + 300.0 / 84.267
    assert found["stud-bending", 0].demand == pytest.approx(expected, rel=1e-4)
    told = skipped(arm(FORCE, studs=(own,)))["stud"]
    assert told[0].startswith("thread-strip: a moment about its own axis, up to 7.2 N*m")


@pytest.mark.parametrize(
    ("inset", "reach", "hot"),
    [(25.0, 22.0, True), (75.0, 22.0, True), (95.0, 22.0, False), (95.0, 38.0, True)],
)
def test_stud_inside_the_heat(inset, reach, hot):
    """MIG on 30 mm bar: 40 mm either side of the weld; the thread ends at reach + 18 mm."""
    welds = (weld("seam", "arm", "to", inset=inset),)
    context = arm(FORCE, shape=Bar(30.0), material="light", studs=(stud(reach=reach),), welds=welds)
    found = rows(context)
    assert found["stud-rocking", 0].limit == pytest.approx((125.0 if hot else 255.0) / 1.67)
    fu = 185.0 if hot else 300.0
    assert found["thread-strip", 0].limit == pytest.approx(0.6 * 16.25 * 26.117 * fu / 2.0, rel=1e-4)
    assert ("welded strength" in found["thread-strip", 0].note) is hot


def test_stud_on_a_rigid_step_screws_into_the_plate_it_stands_on():
    """The tapped metal is a part that meets the step; its heat counts."""
    end = np.array(END)
    low = tuple(end + 100.0 * across_flat()[1])
    plate_ = member("plate", "b", "c", Flat(70.0, 12.0), "light", up=UP, path="members.plate")
    for inset, strength in ((20.0, 125.0), (80.0, 255.0)):
        context = arm(
            FORCE,
            shape=Rigid(),
            material="",
            members=(plate_,),
            points={"c": low},
            studs=(stud(into="light", end="from", axis=(1.0, 0.0, 0.0)),),
            welds=(weld("seam", "plate", "from", inset=inset),),
        )
        assert rows(context)["stud-rocking", 0].limit == pytest.approx(strength / 1.67)


def test_ball_joint_rating():
    """Axial along the stud: 5 x 300/4000 + 5 x hypot(4000, 400)/17000; no load factor, no other divisor."""
    own = stud(axis=tuple(across_flat()[1]), **RATED)
    for basis in (Basis(), LIMIT_STATE):
        row = rows(arm(FORCE, studs=(own,), basis=basis))["rod-end", 0]
        assert row.demand == pytest.approx(5.0 * 300.0 / 4000.0 + 5.0 * np.hypot(4000.0, 400.0) / 17000.0)
        assert row.limit == 1.0


def test_rod_end_with_the_bolt_through_its_eye():
    """Its pull is radial; what runs along the bolt is axial."""
    pin = bolt(axis=tuple(across_flat()[1]), shear_planes=2)
    row = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(**RATED),), bolts=(pin,)))["rod-end", 0]
    assert row.demand == pytest.approx(5.0 * 300.0 / 4000.0 + 5.0 * np.hypot(4000.0, 400.0) / 17000.0)
    assert "bolt through its eye" in row.note


def test_rod_end_without_that_bolt_takes_the_worse():
    """4000 N along, 500 N across, which of them is axial is not known; told in the note."""
    row = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(**RATED),)))["rod-end", 0]
    assert row.demand == pytest.approx(5.0 * 4000.0 / 4000.0 + 5.0 * 500.0 / 17000.0)
    assert "write that bolt" in row.note
    said = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(axis=tuple(across_flat()[0]), **RATED),)))
    assert said["rod-end", 0].demand == pytest.approx(row.demand)
    assert said["rod-end", 0].note == ""
    side = [-200.0, 300.0, 400.0, 0.0, 0.0, 0.0]
    row = rows(arm(side, shape=Bar(30.0), studs=(stud(**RATED),)))["rod-end", 0]
    assert row.demand == pytest.approx(5.0 * 500.0 / 4000.0 + 5.0 * 200.0 / 17000.0)
    said = rows(arm(side, shape=Bar(30.0), studs=(stud(axis=tuple(across_flat()[0]), **RATED),)))
    assert said["rod-end", 0].demand == pytest.approx(5.0 * 200.0 / 4000.0 + 5.0 * 500.0 / 17000.0)


@pytest.mark.parametrize(
    ("rating", "told", "checked"),
    [
        ({}, "rod-end: the maker's static ratings are not given; cautious figures for M12: 17 kN", False),
        ({"rating_radial": 9e3}, "rod-end: the maker's axial rating is not given", True),
        ({"rating_axial": 9e3}, "rod-end: the maker's radial rating is not given", False),
    ],
)
def test_ratings_that_are_missing(rating, told, checked):
    """Told; no rating is invented."""
    context = arm(FORCE, shape=Bar(30.0), studs=(stud(**rating),))
    assert any(why.startswith(told) for why in skipped(context)["stud"])
    assert (("rod-end", 0) in rows(context)) is checked


def test_sizes_without_a_cautious_figure():
    """M14 has none in the library."""
    context = arm(FORCE, shape=Bar(30.0), studs=(stud("M14"),))
    assert skipped(context)["stud"] == ["rod-end: the maker's static ratings are not given"]


def test_stud_in_a_strut_end():
    """A part pulled straight bends nothing; a tube of a metal that the stud is not in."""
    context = arm([6000.0, 0, 0, 0, 0, 0], shape=Tube(30.0, 2.0), studs=(stud("M10", into="light", **RATED),))
    found = rows(context)
    assert found["stud-bending", 0].demand == pytest.approx(6000.0 / 57.99, rel=1e-4)
    assert found["stud-rocking", 0].demand == pytest.approx(0.0, abs=1e-6)
    assert "in light" in found["stud-rocking", 0].note


def test_only_path_and_k():
    """1.25 on the utilisation alone; loads x 3 -> utilisations x 3."""
    plain = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(**RATED),)))
    only = rows(arm(FORCE, shape=Bar(30.0), studs=(stud(**RATED),), only_path=True))
    more = rows(arm(3.0 * np.array(FORCE), shape=Bar(30.0), studs=(stud(**RATED),)))
    for key, row in plain.items():
        assert only[key].utilisation == pytest.approx(1.25 * row.utilisation)
        assert only[key].demand == row.demand
        assert more[key].utilisation == pytest.approx(3.0 * row.utilisation)
