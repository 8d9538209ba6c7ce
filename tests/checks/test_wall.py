"""`wall`: EN 1993-1-1 Table 5.2, EN 1993-1-4 Table 5.2, EN 1999-1-1 Table 6.2, class 3 limits."""

from math import sqrt

import attrs
import pytest

from strength.case.shape import Bar, Box, Flat, Shape, Tube
from strength.checks.wall import wall
from strength.library import Metal
from tests.checks.loaded import LIGHT, METALS, STEEL, case_of, context_of, member, rows_of, weld

POINTS = {"a": (0.0, 0.0, 0.0), "b": (400.0, 100.0, 0.0), "c": (200.0, 50.0, 0.0), "d": (200.0, 250.0, 90.0)}
PUSH = [[(-1000.0, 0.0, 0.0, 0.0, 0.0, 0.0)] * 2]
STAINLESS = attrs.evolve(STEEL, name="stainless", kind="stainless", modulus=200e3)
CLASS_B = attrs.evolve(LIGHT, name="light B", buckling_curve="B")


def ratio(shape: Shape, metal: Metal, **parts: object) -> float:
    """Utilisation of a pressed member of this shape and metal."""
    metals = {**METALS, metal.name: metal}
    case = case_of(POINTS, metals=metals, members=(member("m", "a", "b", shape, metal.name),), **parts)
    context = context_of(case, {"m": PUSH})
    return rows_of(context, list(wall(context)))["m/0"].utilisation


def test_steel() -> None:
    """Round D/t to 90 e^2; box (side - 3t)/t of the greater side to 42 e; e^2 = 235/fy."""
    assert ratio(Tube(60.0, 1.5), STEEL) == pytest.approx(40.0 / (90.0 * 235.0 / 240.0))
    expected = (60.0 - 4.5) / 1.5 / (42.0 * sqrt(235.0 / 240.0))
    assert ratio(Box(30.0, 60.0, 1.5), STEEL) == pytest.approx(expected)
    assert ratio(Box(60.0, 30.0, 1.5), STEEL) == pytest.approx(expected)


def test_stainless() -> None:
    """e^2 = (235/fy)(E/210 GPa); box to 37 e."""
    square = 235.0 / 240.0 * 200.0 / 210.0
    assert ratio(Tube(60.0, 1.5), STAINLESS) == pytest.approx(40.0 / (90.0 * square))
    assert ratio(Box(60.0, 30.0, 1.5), STAINLESS) == pytest.approx(37.0 / (37.0 * sqrt(square)))


@pytest.mark.parametrize(
    ("metal", "welded", "limit"),
    [(LIGHT, False, 22.0), (LIGHT, True, 18.0), (CLASS_B, False, 18.0), (CLASS_B, True, 15.0)],
)
def test_aluminium(metal: Metal, welded: bool, limit: float) -> None:
    """Box (side - 2t)/t, round 3 sqrt(D/t), by class and whether it is welded; e by the parent's yield."""
    welds = (weld("w", "m", "from"),) if welded else ()
    e = sqrt(250.0 / 255.0)
    assert ratio(Box(50.0, 30.0, 2.0), metal, welds=welds) == pytest.approx(23.0 / (limit * e))
    assert ratio(Tube(50.0, 2.0), metal, welds=welds) == pytest.approx(3.0 * 5.0 / (limit * e))


def test_weld_of_another_part_counts() -> None:
    """A tab welded onto the box makes it a welded box."""
    parts = (
        member("m", "a", "b", Box(50.0, 30.0, 2.0), "light", via=("c",)),
        member("tab", "c", "d", Flat(30.0, 4.0), "light"),
    )
    welds = (weld("foot", "tab", "from", inset=20.0, onto="m"),)
    context = context_of(case_of(POINTS, members=parts, welds=welds), {"m": PUSH})
    assert rows_of(context, list(wall(context)))["m/0"].utilisation == pytest.approx(
        23.0 / (18.0 * sqrt(250.0 / 255.0))
    )


def test_rows_only_where_pressed_or_bent() -> None:
    """Tension, torsion and rounding ask nothing of the wall; other shapes have none."""
    parts = (member("m", "a", "b", Tube(60.0, 1.5)), member("bar", "a", "c", Bar(20.0)))
    pull = [(1000.0, 20.0, 0.0, 5e3, 0.0, 0.0)] * 2
    rest = [(1000.0, 0.0, 0.0, 0.0, 1e-7, -1e-7)] * 2
    bend = [(1000.0, 0.0, 0.0, 0.0, 0.0, 0.0), (1000.0, 0.0, 0.0, 0.0, 0.0, -800.0)]
    loads = ["routine"] * 4
    context = context_of(
        case_of(POINTS, members=parts), {"m": [pull, rest, bend, PUSH[0]], "bar": PUSH * 4}, loads
    )
    assert sorted(rows_of(context, list(wall(context)))) == ["m/2", "m/3"]


def test_part_in_tension_has_no_row() -> None:
    """Not even an empty verdict."""
    context = context_of(
        case_of(POINTS, members=(member("m", "a", "b", Tube(60.0, 1.5)),)),
        {"m": [[(5.0, 0.0, 0.0, 0.0, 0.0, 0.0)] * 2]},
    )
    assert list(wall(context)) == []


def test_no_divisor() -> None:
    """The ratio is the same on either basis and in any load; only_path counts."""
    case = case_of(POINTS, members=(member("m", "a", "b", Tube(60.0, 1.5), only_path=True),))
    context = context_of(case, {"m": PUSH * 3}, ["routine", "hard", "abuse"])
    rows = rows_of(context, list(wall(context)))
    expected = 40.0 / (90.0 * 235.0 / 240.0)
    assert [rows[f"m/{n}"].demand for n in range(3)] == pytest.approx([expected] * 3)
    assert rows["m/1"].utilisation == pytest.approx(1.25 * expected)
    assert (rows["m/1"].limit, rows["m/1"].fails) == (1.0, "buckles")
