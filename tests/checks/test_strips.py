"""Flats that are no strips, and lugs that are plates: ratios and stresses by hand."""

import numpy as np
import pytest

from strength.case.model import Bolt, BoltSize, HandForce, Hole, Load, Strut
from strength.case.shape import Flat, Tube
from strength.checks.lug_bending import lug_bending
from strength.checks.yielding import rupture, yielding
from tests.checks.loaded import Context, case_of, context_of, member, rows_of, weld

POINTS = {"root": (10.0, -20.0, 30.0), "tip": (10.0, 60.0, 30.0), "far": (300.0, 60.0, 30.0)}
LONG = 80.0


def told(
    *holes: Hole, width: float = 60.0, thickness: float = 8.0, welds: tuple[object, ...] = ()
) -> tuple[bool, str]:
    """Whether `yielding` of an 80 mm flat is in range, and its note; `rupture` says the same."""
    case = case_of(
        POINTS, members=(member("lug", "root", "tip", Flat(width, thickness)),), holes=holes, welds=welds
    )
    context = context_of(case, {"lug": [[[900.0, 0, 400.0, 0, 4e4, 0], [900.0, 0, 400.0, 0, 7e4, 0]]]})
    row = rows_of(context, list(yielding(context)))["lug/0"]
    assert rows_of(context, list(rupture(context)))["lug/0"].in_range == row.in_range
    return row.in_range, row.note


def hole(name: str = "bore", along: float = 0.5, diameter: float = 20.0, **rest: object) -> Hole:
    """A hole in the lug."""
    return Hole(name=name, member="lug", along=along, diameter=diameter, **rest)  # type: ignore[arg-type]


def test_length_beside_width() -> None:
    """80 mm on 106 mm of width is 0.7547; on 107 it is 0.7477."""
    assert told(width=106.0)[0]
    covered, note = told(width=107.0)
    assert not covered
    assert "its free length is 0.75 of its width, where a strip needs 0.75" in note


def test_welds_take_their_insets_off() -> None:
    """80 less 24 and 16: 40 mm free on 60."""
    near = weld("near", "lug", "from", inset=24.0)
    assert told(welds=(near,))[0]
    covered, note = told(welds=(near, weld("off", "lug", "to", inset=16.0)))
    assert not covered
    assert "free length is 0.67 of its width" in note


@pytest.mark.parametrize(
    ("holes", "why"),
    [
        ((hole(diameter=30.0),), ""),
        ((hole(diameter=31.2),), "bore takes 0.52 of the width, over 0.5"),
        ((hole(diameter=20.0, off_centre=15.0),), ""),
        ((hole(diameter=20.0, off_centre=-16.0),), "beside bore stand 0.20 diameters of metal, under 0.25"),
        ((hole(diameter=4.5, across="width"),), "bore takes 0.56 of the thickness, over 0.5"),
        # 30 mm apart: 10 mm of metal, half the larger diameter of 22 would be 11
        (
            (hole(diameter=22.0, along=0.3), hole("pin", 0.675, 18.0)),
            "between bore and pin stand 0.45 diameters",
        ),
        ((hole(diameter=20.0, along=0.3), hole("pin", 0.675, 18.0)), ""),
        # across from one another: hypot(12, 16) = 20 mm apart, 6 mm of metal beside 14
        (
            (hole(diameter=14.0, along=0.4, off_centre=-8.0), hole("pin", 0.55, 14.0, off_centre=8.0)),
            "between bore and pin stand 0.43 diameters of metal, under 0.5",
        ),
    ],
)
def test_holes(holes: tuple[Hole, ...], why: str) -> None:
    """How much of the side, and what is left beside it and between two."""
    covered, note = told(*holes)
    assert covered is (not why)
    assert why in note


def test_round_parts_are_no_flats() -> None:
    """A stub of a tube is as it was."""
    case = case_of(POINTS, members=(member("lug", "root", "tip", Tube(100.0, 4.0)),))
    context = context_of(case, {"lug": [[[1e3, 0, 0, 0, 0, 0]] * 2]})
    assert rows_of(context, list(yielding(context)))["lug/0"].in_range


def test_hole_in_the_heat_of_a_weld() -> None:
    """Aluminium, 8 mm, MIG: 30 mm of welded strength from the plane of the weld (EN 1999-1-1 6.1.6.3)."""
    for along, welded in ((0.49, True), (0.51, False)):  # 39.2 and 40.8 mm from the root; heat to 10 + 30
        case = case_of(
            POINTS,
            members=(member("lug", "root", "tip", Flat(60.0, 8.0), "light"),),
            holes=(hole(along=along),),
            welds=(weld("near", "lug", "from", inset=10.0),),
        )
        context = context_of(case, {"lug": [[[9e3, 0, 0, 0, 0, 0]] * 2]})
        stations = context.stations
        (at,) = [n for n, label in enumerate(stations.labels) if label == "bore"]
        assert stations.yield_[0, at] == (125.0 if welded else 255.0)
        assert stations.ultimate[0, at] == pytest.approx(0.9 * (185.0 if welded else 300.0))


def lug(width: float = 90.0, *, inset: float = 20.0, end: str = "from", **rest: object) -> Context:
    """A lug of 60 mm free length, its eye carrying a skew pull."""
    eye = Bolt(
        name="eye",
        member="lug",
        end="to" if end == "from" else "from",
        axis=(1.0, 0.0, 0.0),
        size=BoltSize(diameter=10.0, kind="thread", text="M10"),
        grade="8.8",
    )
    given = {"bolts": (eye,), **rest}
    case = case_of(
        POINTS,
        members=(member("lug", "root", "tip", Flat(width, 8.0)),),
        welds=(weld("foot", "lug", end, inset=inset),),
        **given,
    )
    root, tip = [1200.0, -50.0, 300.0, 0.0, 26e3, -9e3], [1200.0, -50.0, 300.0, 0.0, 2e3, -5e3]
    return context_of(case, {"lug": [[root, tip] if end == "from" else [tip, root]]})


def test_lug_by_hand() -> None:
    """At the weld: N/A + My/Wy + 6 Mz/(b t^2), 1/b^2 = 1/90^2 + (0.509/60)^2."""
    for end in ("from", "to"):
        context = lug(end=end)
        row = rows_of(context, list(lug_bending(context)))["lug/0"]
        my, mz = 26e3 - 0.25 * 24e3, 9e3 - 0.25 * 4e3
        spread = 1.0 / np.sqrt(1.0 / 90.0**2 + (0.509 / 60.0) ** 2)
        expected = 1200.0 / 720.0 + 6.0 * my / (8.0 * 90.0**2) + 6.0 * mz / (spread * 64.0)
        assert row.demand == pytest.approx(expected, rel=1e-9)
        assert row.limit == pytest.approx(240.0 / 1.67)
        assert row.in_range
        assert row.kind == "plate-bending"
        assert "0.67 widths from the weld, b_eff 72 mm" in row.note


def test_only_lugs_have_the_row() -> None:
    """Not where both ends or none are welded, nothing enters at the other end, or it is long."""
    assert list(lug_bending(lug()))
    assert not list(lug_bending(lug(width=29.0)))
    assert list(lug_bending(lug(width=31.0)))
    assert not list(lug_bending(lug(bolts=())))
    pushed = (Load(name="push", forces=(HandForce(at="tip", force=(1.0, 0.0, 0.0)),)),)
    assert list(lug_bending(lug(bolts=(), loads=pushed)))
    tied = (Strut(name="tie", start="far", end="tip", stiffness=50.0),)
    assert list(lug_bending(lug(bolts=(), struts=tied)))


def test_very_short_lugs_are_out_of_range() -> None:
    """60 mm on 250: 0.24 of the width."""
    context = lug(width=250.0)
    row = rows_of(context, list(lug_bending(context)))["lug/0"]
    assert not row.in_range
    assert "down to 0.25 widths only" in row.note
