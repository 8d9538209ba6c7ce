"""Nominal stresses for the record: parts of the stress where `yielding` is worst."""

from math import hypot, pi, sqrt

import pytest

from strength.case.model import Hole, Shoulder
from strength.case.shape import Bar, Bare, Box, Flat, Shape, Tube
from strength.checks.stresses import StressRow, stress_rows
from strength.checks.yielding import yielding
from tests.checks.loaded import LIMIT_STATE, case_of, context_of, member, rows_of, weld

POINTS = {"a": (0.0, 0.0, 0.0), "b": (500.0, 40.0, 0.0)}
SIX = (-6000.0, 310.0, -900.0, 45e3, 120e3, -70e3)


def rows(shape: Shape, **parts: object) -> StressRow:
    """The row of a member with the same forces all along."""
    case = case_of(POINTS, members=(member("m", "a", "b", shape),), **parts)
    return stress_rows(context_of(case, {"m": [[SIX, SIX]]}))[0]


def test_tube() -> None:
    """N/A, hypot(My, Mz)/W, k hypot(V)/A with k = 1.9771 for m = 0.76, |T|/2W."""
    row = rows(Tube(50.0, 6.0))
    area, inner = pi / 4.0 * (50.0**2 - 38.0**2), 38.0
    modulus = pi / 32.0 * (50.0**4 - inner**4) / 50.0
    k = 4.0 / 3.0 * (1.0 + 0.76 + 0.76**2) / (1.0 + 0.76**2)
    assert row.axial == pytest.approx(-6000.0 / area)
    assert row.bending == pytest.approx(hypot(120e3, 70e3) / modulus)
    assert row.shear == pytest.approx(k * hypot(310.0, 900.0) / area)
    assert row.torsion == pytest.approx(45e3 / (2.0 * modulus))
    assert (
        sqrt((row.bending - row.axial) ** 2)
        <= row.von_mises
        <= sqrt((row.bending - row.axial) ** 2 + 3.0 * (row.shear + row.torsion) ** 2)
    )


def test_flat() -> None:
    """Corner bending 6M/(b h^2) both ways, 1.5 V/A, torsion at the middle of the long side."""
    row = rows(Flat(60.0, 15.0))
    assert row.axial == pytest.approx(-6000.0 / 900.0)
    assert row.bending == pytest.approx(120e3 * 6.0 / (15.0 * 3600.0) + 70e3 * 6.0 / (60.0 * 225.0))
    assert row.shear == pytest.approx(1.5 * hypot(310.0, 900.0) / 900.0)
    # Timoshenko's table, long/short 4: stress T/(0.282 b c^2)
    assert row.torsion == pytest.approx(45e3 / (0.282 * 60.0 * 225.0), rel=2e-3)


def test_box() -> None:
    """Bending at the corner arc: between the flat sides' sum and the sharp corner's; torsion T/Ct."""
    row = rows(Box(50.0, 30.0, 3.0))
    # EN 10219-2 table: A 421 mm2, Wy 5.13, Wz 3.80, Ct 6.49 cm3
    assert row.axial == pytest.approx(-6000.0 / 421.0, rel=2e-3)
    assert row.torsion == pytest.approx(45e3 / 6490.0, rel=2e-3)
    sharp = 120e3 / 5130.0 + 70e3 / 3800.0
    assert 0.88 * sharp < row.bending < 0.98 * sharp


def test_shoulder_and_hole() -> None:
    """Parts on the smaller diameter, and on the net section."""
    row = rows(
        Bar(30.0),
        shoulders=(Shoulder(name="step", member="m", end="to", inset=9.0, larger=22.0, fillet=2.0),),
    )
    assert (row.where, row.axial) == ("step", pytest.approx(-6000.0 / (pi * 121.0)))
    assert row.bending == pytest.approx(32.0 * hypot(120e3, 70e3) / (pi * 22.0**3), rel=1e-4)
    assert row.torsion == pytest.approx(16.0 * 45e3 / (pi * 22.0**3))
    bored = rows(Flat(60.0, 15.0), holes=(Hole(name="bore", member="m", along=0.3, diameter=20.0),))
    assert (bored.where, bored.axial) == ("bore", pytest.approx(-6000.0 / 600.0))
    assert bored.bending == pytest.approx(
        120e3 * 30.0 / (15.0 * (60.0**3 - 20.0**3) / 12.0) + 70e3 * 6.0 / (40.0 * 225.0)
    )


def test_place_is_that_of_yielding_and_stress_without_load_factor() -> None:
    """Beside a weld rather than where stress is greatest; without the load factor that the row has."""
    flat = Flat(40.0, 10.0)
    case = case_of(
        POINTS,
        members=(member("m", "a", "b", flat, "light"),),
        welds=(weld("w", "m", "from"),),
        basis=LIMIT_STATE,
    )
    context = context_of(case, {"m": [[(40e3, *SIX[1:]), (41e3, *SIX[1:])]] * 2}, ["routine", "abuse"])
    told = stress_rows(context)
    checked = rows_of(context, list(yielding(context)))
    assert [row.load for row in told] == ["load 0", "load 1"]
    for n, (row, factor) in enumerate(zip(told, (1.5, 1.25), strict=True)):
        assert row.where == checked[f"m/{n}"].where
        assert row.von_mises * factor == pytest.approx(checked[f"m/{n}"].demand)


def test_bare_sections_have_none() -> None:
    """No form, no stresses."""
    case = case_of(POINTS, members=(member("m", "a", "b", Bare(area=9.0, iy=9.0, iz=8.0, torsion=7.0)),))
    assert stress_rows(context_of(case, {"m": [[SIX, SIX]]})) == ()


def test_figures_are_worked_out_when_asked_for_and_only_of_the_part() -> None:
    """Part and load are known at once; a figure brings those of its part in all loads, and no other's."""
    case = case_of(
        {**POINTS, "c": (0.0, 300.0, 20.0)},
        members=(member("m", "a", "b", Bar(30.0)), member("n", "a", "c", Bar(22.0))),
    )
    told = stress_rows(context_of(case, {"m": [[SIX, SIX]] * 2, "n": [[SIX, SIX]] * 2}, ["routine", "abuse"]))
    assert [(row.member, row.load) for row in told] == [(m, f"load {n}") for m in "mn" for n in (0, 1)]
    assert all("axial" not in vars(row) for row in told)
    assert told[1].axial == pytest.approx(-6000.0 / (pi * 15.0**2))
    assert told[2].axial == pytest.approx(-6000.0 / (pi * 11.0**2))
    assert told[0] != told[1]
    assert not hasattr(told[0], "fibre")
