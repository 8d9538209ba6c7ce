"""Where stresses are looked at."""

import numpy as np
import pytest

from strength.case.model import Hole, Shoulder, Strut
from strength.case.shape import Bar, Flat, Rigid, Tube
from strength.checks.context import Context
from tests.checks.loaded import case_of, context_of, member, weld

POINTS = {
    "pivot": (0.0, 300.0, 120.0),
    "foot": (240.0, 300.0, 120.0),
    "ball": (600.0, 300.0, 120.0),
    "top": (240.0, 300.0, 420.0),
}
# N falls from 600 to 0 along the arm, so that a station's force tells its place
RAMP = [[(600.0, 0.0, 0.0, 0.0, 0.0, 0.0), (0.0,) * 6]]


def stations(context: Context, part: str) -> list[tuple[float, str, bool]]:
    """Place, label and whether heated, of each station of a part."""
    found = context.stations
    own = found.of(context.bars.names.index(part))
    return [
        (float(place), label, bool(hot))
        for place, label, hot in zip(
            found.place[0, own], found.labels[own], found.heated[0, own], strict=True
        )
    ]


def test_ends_and_via_points() -> None:
    """The ends, and a via point once on either side."""
    arm = member("arm", "pivot", "ball", Tube(25.0, 2.0), via=("foot",))
    context = context_of(case_of(POINTS, members=(arm,)), {"arm": RAMP})
    assert stations(context, "arm") == [
        (0.0, "at pivot", False),
        (240.0, "at foot", False),
        (240.0, "at foot", False),
        (600.0, "at ball", False),
    ]
    assert context.stations.later.tolist() == [0, 0, 1, 0]
    assert context.stations.forces[0, 0, :, 0] == pytest.approx([600.0, 360.0, 360.0, 0.0])


def test_insets_and_heat() -> None:
    """Aluminium, MIG, 4 mm wall: 20 mm on either side of the weld's plane (EN 1999-1-1 6.1.6.3)."""
    arm = member("arm", "pivot", "ball", Flat(40.0, 4.0), "light", via=("foot",))
    case = case_of(POINTS, members=(arm,), welds=(weld("cup", "arm", "to", inset=35.0),))
    assert stations(context_of(case, {"arm": RAMP}), "arm") == [
        (0.0, "at pivot", False),
        (240.0, "at foot", False),
        (240.0, "at foot", False),
        (545.0, "55 mm from ball, edge of the heat from cup", True),
        (565.0, "35 mm from ball, cup", True),
        (585.0, "15 mm from ball, edge of the heat from cup", True),
        (600.0, "at ball", False),
    ]


def test_heat_that_reaches_the_end() -> None:
    """Cut off at the end: the end itself is heated, and no station stands twice."""
    arm = member("arm", "pivot", "ball", Flat(40.0, 4.0), "light")
    case = case_of(POINTS, members=(arm,), welds=(weld("cup", "arm", "from", inset=12.5),))
    assert stations(context_of(case, {"arm": RAMP}), "arm") == [
        (0.0, "at pivot", True),
        (12.5, "12.5 mm from pivot, cup", True),
        (32.5, "32.5 mm from pivot, edge of the heat from cup", True),
        (600.0, "at ball", False),
    ]


def test_via_point_in_the_heat() -> None:
    """Both sides of a via point that stands inside are heated, and a boundary counts as inside."""
    points = {**POINTS, "foot": (20.0, 300.0, 120.0)}
    arm = member("arm", "pivot", "ball", Flat(40.0, 4.0), "light", via=("foot",))
    case = case_of(points, members=(arm,), welds=(weld("cup", "arm", "from"),))
    assert [hot for _, _, hot in stations(context_of(case, {"arm": RAMP}), "arm")] == [
        True,
        True,
        True,
        False,
    ]


def test_steel_that_loses_nothing_has_no_heat() -> None:
    """No stations more than the inset."""
    arm = member("arm", "pivot", "ball", Flat(40.0, 4.0))
    case = case_of(POINTS, members=(arm,), welds=(weld("cup", "arm", "from", inset=30.0),))
    assert stations(context_of(case, {"arm": RAMP}), "arm") == [
        (0.0, "at pivot", False),
        (30.0, "30 mm from pivot, cup", False),
        (600.0, "at ball", False),
    ]


def test_hole_at_a_via_point_counts_on_both_sides() -> None:
    """Forces jump at a via point: the bored section is looked at on either side."""
    plate = member("plate", "pivot", "ball", Flat(70.0, 16.0), via=("foot",))
    bore = Hole(name="bore", member="plate", along=0.4, diameter=25.0)
    context = context_of(case_of(POINTS, members=(plate,), holes=(bore,)), {"plate": RAMP})
    assert [label for _, label, _ in stations(context, "plate")] == [
        "at pivot",
        "bore",
        "bore",
        "at ball",
    ]
    bored = [later for later, gaps in zip(context.stations.later, context.stations.gaps, strict=True) if gaps]
    assert bored == [0, 1]


def test_neighbouring_holes_share_a_plane() -> None:
    """The plane through one hole cuts a hole 6 mm further on, of 20 mm, along a chord of 16 mm."""
    plate = member("plate", "pivot", "ball", Flat(90.0, 10.0))
    holes = (
        Hole(name="one", member="plate", along=0.5, diameter=12.0, off_centre=-22.0),
        Hole(name="two", member="plate", along=0.51, diameter=20.0, off_centre=15.0),
        Hole(name="far", member="plate", along=0.6, diameter=20.0),
    )
    context = context_of(case_of(POINTS, members=(plate,), holes=holes), {"plate": RAMP})
    gaps = dict(zip(context.stations.labels, context.stations.gaps, strict=True))
    assert gaps["one"] == ((0, pytest.approx(12.0)), (1, pytest.approx(16.0)))
    # 6 mm is just where the smaller hole ends
    assert gaps["two"] == ((1, pytest.approx(20.0)),)
    assert gaps["far"] == ((2, pytest.approx(20.0)),)


def test_shoulder() -> None:
    """A shoulder is a station under its own name."""
    axle = member("axle", "pivot", "ball", Bar(20.0))
    step = Shoulder(name="root", member="axle", end="to", inset=8.0, larger=25.0, fillet=1.5)
    context = context_of(case_of(POINTS, members=(axle,), shoulders=(step,)), {"axle": RAMP})
    assert [label for _, label, _ in stations(context, "axle")] == ["at pivot", "root", "at ball"]
    assert float(context.stations.place[0, 1]) == pytest.approx(592.0)


def test_shoulder_at_the_end_stands_for_the_end() -> None:
    """At inset 0 the row names the shoulder, not the point."""
    axle = member("axle", "pivot", "ball", Bar(20.0))
    step = Shoulder(name="root", member="axle", end="from", larger=25.0, fillet=1.5)
    context = context_of(case_of(POINTS, members=(axle,), shoulders=(step,)), {"axle": RAMP})
    assert [label for _, label, _ in stations(context, "axle")] == ["root", "at ball"]


def test_parts_without_a_section() -> None:
    """They have their ends, and no stress."""
    case = case_of(
        POINTS,
        members=(member("step", "pivot", "foot", Rigid()), member("arm", "foot", "ball", Tube(25.0, 2.0))),
        struts=(Strut(name="shock", start="foot", end="top", stiffness=60.0),),
    )
    context = context_of(case, {"arm": RAMP})
    found = context.stations
    assert found.bar.tolist() == [0, 0, 1, 1, 2, 2]
    assert np.isnan(found.peak[0, 0]).tolist() == [True, True, False, False, True, True]
    # 600 N on 25 x 2 mm: 144.5 mm^2
    assert float(found.peak[0, 0, 2]) == pytest.approx(600.0 / 144.51, rel=1e-4)
