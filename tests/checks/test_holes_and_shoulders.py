"""Net sections at holes, smaller diameters at shoulders."""

from math import pi, sqrt

import pytest

from strength.case.model import Hole, Shoulder
from strength.case.shape import Bar, Flat
from strength.checks.context import Context
from strength.checks.yielding import rupture, yielding
from strength.library import thread
from tests.checks.loaded import case_of, context_of, member, rows_of

POINTS = {"a": (0.0, 0.0, 0.0), "b": (400.0, 30.0, 0.0)}
W, T = 60.0, 8.0  # mm, the plate


def plate(*holes: Hole, forces: tuple[float, ...]) -> Context:
    """A plate with holes under the same forces all along."""
    case = case_of(POINTS, members=(member("plate", "a", "b", Flat(W, T)),), holes=holes)
    return context_of(case, {"plate": [[forces, forces]]})


def hole(name: str = "bore", diameter: float = 20.0, **rest: object) -> Hole:
    """A hole half way along the plate."""
    return Hole(name=name, member="plate", along=0.5, diameter=diameter, **rest)  # type: ignore[arg-type]


def demand(context: Context) -> float:
    """Demand of the worst row of `yielding`, which stands at the hole."""
    row = rows_of(context, list(yielding(context)))["plate/0"]
    assert row.where == "bore"
    return row.demand


def test_tension() -> None:
    """N/((w - d) t); ultimate x 0.9 there (EN 1993-1-1 6.2.3), yield as it is."""
    context = plate(hole(), forces=(48e3, 0.0, 0.0, 0.0, 0.0, 0.0))
    assert demand(context) == pytest.approx(48e3 / (40.0 * 8.0))
    assert rows_of(context, list(yielding(context)))["plate/0"].limit == pytest.approx(240.0 / 1.67)
    parted = rows_of(context, list(rupture(context)))["plate/0"]
    assert (parted.where, parted.limit) == ("bore", pytest.approx(0.9 * 370.0 / 2.0))


def test_bending_in_the_plane() -> None:
    """Iy less the hole: t (w^3 - d^3)/12, at the outer edge."""
    context = plate(hole(), forces=(0.0, 0.0, 0.0, 0.0, 300e3, 0.0))
    assert demand(context) == pytest.approx(300e3 * 30.0 / (T * (W**3 - 20.0**3) / 12.0))


def test_bending_out_of_the_plane() -> None:
    """Iz less the hole: (w - d) t^3/12."""
    context = plate(hole(), forces=(0.0, 0.0, 0.0, 0.0, 0.0, 50e3))
    assert demand(context) == pytest.approx(50e3 * 6.0 / (40.0 * T**2))


def test_off_centre() -> None:
    """About the centroid of what is left: N through the middle of the whole then bends it."""
    context = plate(hole(off_centre=12.0), forces=(30e3, 0.0, 0.0, 0.0, 90e3, 0.0))
    # ligaments from -30 to 2 and from 22 to 30
    low, high = (32.0, -14.0), (8.0, 26.0)
    area = (low[0] + high[0]) * T
    centre = (low[0] * low[1] + high[0] * high[1]) / (low[0] + high[0])
    inertia = sum(T * (b**3 / 12.0 + b * (z - centre) ** 2) for b, z in (low, high))
    moment = 90e3 - 30e3 * centre
    stresses = [30e3 / area + moment * (z - centre) / inertia for z in (-30.0, 2.0, 22.0, 30.0)]
    assert demand(context) == pytest.approx(max(abs(stress) for stress in stresses))


def test_through_the_width() -> None:
    """Drilled along the width, the hole takes from the thickness."""
    thick = case_of(
        POINTS,
        members=(member("plate", "a", "b", Flat(30.0, 20.0)),),
        holes=(hole(diameter=8.0, across="width", off_centre=2.0),),
    )
    forces = (12e3, 0.0, 0.0, 0.0, 40e3, 0.0)
    context = context_of(thick, {"plate": [[forces, forces]]})
    # what is left across: -10 to -2 and 6 to 10 mm; bending along the width keeps its arm
    left = 12.0
    centre = (8.0 * -6.0 + 4.0 * 8.0) / left
    about = sum(b**3 / 12.0 + b * (y - centre) ** 2 for b, y in ((8.0, -6.0), (4.0, 8.0))) * 30.0
    pull = 12e3 / (left * 30.0) + 12e3 * centre * (-10.0 - centre) / about * -1.0
    other = 12e3 / (left * 30.0) - 12e3 * centre * (10.0 - centre) / about
    bend = 40e3 * 6.0 / (left * 30.0**2)
    assert demand(context) == pytest.approx(max(abs(pull), abs(other)) + bend)


def test_two_at_one_place() -> None:
    """Both are taken out together, and the larger one's factor is told."""
    context = plate(
        hole("bore", 12.0, off_centre=-15.0),
        hole("port", 16.0, off_centre=14.0),
        forces=(32e3, 0.0, 0.0, 0.0, 0.0, 0.0),
    )
    row = rows_of(context, list(yielding(context)))["plate/0"]
    area = (W - 28.0) * T
    centre = -(12.0 * -15.0 + 16.0 * 14.0) / (W - 28.0)
    inertia = T * (
        (W**3 - 12.0**3 - 16.0**3) / 12.0 - 12.0 * 15.0**2 - 16.0 * 14.0**2 - (W - 28.0) * centre**2
    )
    stresses = [32e3 / area - 32e3 * centre * (z - centre) / inertia for z in (-30.0, 30.0)]
    assert row.demand == pytest.approx(max(stresses))
    assert row.note.endswith("of port alone")


def test_torsion() -> None:
    """Of the whole section over 1 - d/w: Timoshenko's k2 = 0.292 at 7.5 (interpolated in his table)."""
    context = plate(hole(), forces=(0.0, 0.0, 0.0, 60e3, 0.0, 0.0))
    whole = 60e3 / (1.0 / 3.0 * (1.0 - 0.630 * T / W) * W * T**2)  # Roark: long rectangles, to 0.1 %
    # at the edges of the hole, a third of the way from the middle, the stress is that of the middle
    assert demand(context) == pytest.approx(sqrt(3.0) * whole / (1.0 - 20.0 / W), rel=3e-3)


def test_shear() -> None:
    """Half a parabola's peak in each ligament: 1.5 V over the net area."""
    context = plate(hole(), forces=(0.0, 0.0, 21e3, 0.0, 0.0, 0.0))
    assert demand(context) == pytest.approx(sqrt(3.0) * 1.5 * 21e3 / (40.0 * 8.0), rel=1e-3)


def test_concentration_is_told_with_its_range() -> None:
    """d/w = 1/3: 3 - 3.14 x + 3.667 x^2 - 1.527 x^3 = 2.30 in tension; plate bending ends at 0.3."""
    row = rows_of(
        (context := plate(hole(), forces=(48e3, 0.0, 0.0, 0.0, 0.0, 0.0))), list(yielding(context))
    )["plate/0"]
    assert row.note.startswith("net section; Kt 2.30 in tension, ")
    assert row.note.endswith("(out of its range) in plate bending")
    assert row.in_range


def stub(shoulder: Shoulder) -> Context:
    """A 25 mm axle under a moment all along."""
    forces = (0.0, 0.0, 0.0, 0.0, 240e3, 100e3)
    case = case_of(POINTS, members=(member("axle", "a", "b", Bar(25.0)),), shoulders=(shoulder,))
    return context_of(case, {"axle": [[forces, forces]]})


def test_shoulder_to_something_larger() -> None:
    """The member is the smaller side: 32 M/(pi 25^3), Kt by Peterson for 37.5/25 with r/d 0.1."""
    context = stub(Shoulder(name="root", member="axle", end="from", inset=3.0, larger=37.5, fillet=2.5))
    rows = rows_of(context, list(yielding(context)))
    assert rows["axle/0"].demand == pytest.approx(32.0 * 260e3 / (pi * 25.0**3))
    station = context.stations.labels.index("root")
    assert float(context.stations.peak[0, 0, station]) == pytest.approx(rows["axle/0"].demand)


def test_shoulder_to_something_smaller() -> None:
    """Turned down to 15 mm: the stress is on 15 mm; 25/15 with r/d 0.2 lies inside all three fits."""
    context = stub(Shoulder(name="root", member="axle", end="from", inset=3.0, larger=15.0, fillet=3.0))
    row = rows_of(context, list(yielding(context)))["axle/0"]
    assert row.where == "root"
    assert row.demand == pytest.approx(32.0 * 260e3 / (pi * 15.0**3))
    assert row.note.startswith("on 15 mm; Kt ")
    assert "out of its range" not in row.note


def test_thread_root() -> None:
    """M12 cut into the bar: ISO 898-1 core d3 = 9.853 mm."""
    context = stub(Shoulder(name="root", member="axle", end="from", inset=3.0, larger=25.0, root="M12"))
    row = rows_of(context, list(yielding(context)))["axle/0"]
    assert thread("M12").root == pytest.approx(9.853, abs=5e-4)
    assert row.where == "root"
    assert row.demand == pytest.approx(32.0 * 260e3 / (pi * 9.853**3), rel=2e-4)
    assert "thread" in row.note
