"""`stability`, worked by hand from EN 1993-1-1 6.3.1 and EN 1999-1-1 6.3.1."""

from math import hypot, pi, sqrt

import numpy as np
import pytest

from strength.case.model import Basis, Case, Strut, Support
from strength.case.shape import Bar, Box, Flat, Outline, Shape, Tube
from strength.checks.resistances import magnifier
from strength.checks.stability import stability
from strength.checks.verdict import Row
from tests.checks.loaded import LIMIT_STATE, Ends, case_of, context_of, member, rows_of, weld

SPAN = (600.0, 300.0, 200.0)
L = sqrt(600.0**2 + 300.0**2 + 200.0**2)  # 700 mm
POINTS = {"a": (0.0, 0.0, 0.0), "b": SPAN, "c": (1200.0, 600.0, 400.0), "mid": (300.0, 150.0, 100.0)}


def perry(slenderness: float, alpha: float, plateau: float) -> float:
    """Reduction factor, EN 1993-1-1 (6.49)."""
    phi = 0.5 * (1.0 + alpha * (slenderness - plateau) + slenderness**2)
    return min(1.0, 1.0 / (phi + sqrt(phi**2 - slenderness**2)))


def case(shape: Shape, metal: str = "steel", basis: Basis | None = None, **parts: object) -> Case:
    """One member held at both ends."""
    held = tuple(Support(name=name, at=name, hold=(True,) * 6) for name in "ab")
    plain = {"members": (member("m", "a", "b", shape, metal),), "supports": held, "basis": basis or Basis()}
    return case_of(POINTS, **{**plain, **parts})


def row(found: Case, ends: Ends, severity: str = "routine") -> Row:
    """The row of member m."""
    context = context_of(found, {"m": [ends]}, [severity])
    return rows_of(context, list(stability(context)))["m/0"]


def tube_figures(od: float, wall: float) -> tuple[float, float, float]:
    """A, I, W of a tube."""
    inner = od - 2.0 * wall
    inertia = pi / 64.0 * (od**4 - inner**4)
    return pi / 4.0 * (od**2 - inner**2), inertia, 2.0 * inertia / od


def test_tube_in_compression_and_bending() -> None:
    """Curve c, one bending term with the greatest hypot along the part, n = 1.67 in the magnifier."""
    ends = ((-4000.0, 0.0, 0.0, 0.0, 60e3, -30e3), (-3000.0, 0.0, 0.0, 0.0, -20e3, 64e3))
    found = row(case(Tube(25.0, 2.0)), ends)
    area, inertia, modulus = tube_figures(25.0, 2.0)
    euler = pi**2 * 210e3 * inertia / L**2
    chi = perry(sqrt(area * 240.0 / euler), 0.49, 0.2)
    k = 1.0 / (1.0 - 1.67 * 4000.0 / euler)
    moment = max(hypot(60e3, 30e3), hypot(20e3, 64e3))
    expected = 4000.0 / (chi * area * 240.0) + k * moment / (modulus * 240.0)
    assert found.demand == pytest.approx(1.67 * expected)
    assert (found.limit, found.unit, found.fails, found.in_range) == (1.0, "1", "buckles", True)
    assert found.utilisation == pytest.approx(found.demand)
    assert found.where == "between a and b"
    assert found.note == f"buckling length 1 x 700 mm, chi {chi:.2f}"


def test_tube_in_limit_states() -> None:
    """All effects x 1.5, n = 1, divisor gM1 = 1.0."""
    ends = ((-2500.0, 0.0, 0.0, 0.0, 21e3, 35e3),) * 2
    found = row(case(Tube(25.0, 2.0), basis=LIMIT_STATE), ends)
    area, inertia, modulus = tube_figures(25.0, 2.0)
    euler = pi**2 * 210e3 * inertia / L**2
    chi = perry(sqrt(area * 240.0 / euler), 0.49, 0.2)
    n, m = 1.5 * 2500.0, 1.5 * hypot(21e3, 35e3)
    assert found.demand == pytest.approx(n / (chi * area * 240.0) + m / (1.0 - n / euler) / (modulus * 240.0))


def test_abuse() -> None:
    """Buckling factor 1.50, in the divisor and in the magnifier."""
    ends = ((-4000.0, 0.0, 0.0, 0.0, 30e3, 0.0),) * 2
    found = row(case(Tube(25.0, 2.0)), ends, "abuse")
    area, inertia, modulus = tube_figures(25.0, 2.0)
    euler = pi**2 * 210e3 * inertia / L**2
    chi = perry(sqrt(area * 240.0 / euler), 0.49, 0.2)
    expected = 4000.0 / (chi * area * 240.0) + 30e3 / (1.0 - 6000.0 / euler) / (modulus * 240.0)
    assert found.demand == pytest.approx(1.5 * expected)


def test_tension_leaves_bending() -> None:
    """No compression: first term 0, k = 1."""
    ends = ((9000.0, 0.0, 0.0, 0.0, 30e3, 40e3),) * 2
    assert row(case(Tube(25.0, 2.0)), ends).demand == pytest.approx(
        1.67 * 50e3 / (tube_figures(25.0, 2.0)[2] * 240.0)
    )


def test_past_its_euler_load() -> None:
    """The magnifier stays at 100, and the row is far over its limit."""
    area, inertia, modulus = tube_figures(25.0, 2.0)
    euler = pi**2 * 210e3 * inertia / L**2
    found = row(case(Tube(25.0, 2.0)), ((-1.1 * euler, 0.0, 0.0, 0.0, 1e3, 0.0),) * 2)
    chi = perry(sqrt(area * 240.0 / euler), 0.49, 0.2)
    expected = 1.1 * euler / (chi * area * 240.0) + 100.0 * 1e3 / (modulus * 240.0)
    assert found.demand == pytest.approx(1.67 * expected)


def test_magnifier() -> None:
    """1/(1 - x) to x = 0.99, then 100 for good."""
    x = np.array([0.0, 0.5, 0.98, 0.9999, 1.0, 3.0])
    assert magnifier(x * 7.0, np.array(7.0)) == pytest.approx([1.0, 2.0, 50.0, 100.0, 100.0, 100.0])


def box_figures() -> tuple[float, float, float]:
    """A, Iy, Iz of 60 x 40 x 2 mm: EN 10219-2 table."""
    return 374.0, 184.1e3, 98.3e3


def test_box_on_both_axes() -> None:
    """Each axis has its own magnifier, chi is of the weaker; section from the table of EN 10219-2."""
    ends = ((-9000.0, 0.0, 0.0, 0.0, 250e3, -40e3), (-9000.0, 0.0, 0.0, 0.0, 100e3, 90e3))
    found = row(case(Box(60.0, 40.0, 2.0)), ends)
    area, iy, iz = box_figures()
    euler_y, euler_z = (pi**2 * 210e3 * inertia / L**2 for inertia in (iy, iz))
    chi = perry(sqrt(area * 240.0 / euler_z), 0.49, 0.2)
    ky, kz = (1.0 / (1.0 - 1.67 * 9000.0 / euler) for euler in (euler_y, euler_z))
    expected = (
        9000.0 / (chi * area * 240.0) + ky * 250e3 / (iy / 30.0 * 240.0) + kz * 90e3 / (iz / 20.0 * 240.0)
    )
    assert found.demand == pytest.approx(1.67 * expected, rel=1e-3)


@pytest.mark.parametrize(
    ("shape", "covered"),
    [(Box(90.0, 30.0, 3.0), True), (Box(100.0, 30.0, 3.0), False), (Flat(60.0, 5.0), True), (Bar(9.0), True)],
)
def test_range(shape: Shape, covered: bool) -> None:
    """A box deeper than three times its width may twist."""
    assert row(case(shape), ((-100.0, 0.0, 0.0, 0.0, 0.0, 0.0),) * 2).in_range is covered


@pytest.mark.parametrize(
    ("metal", "strength", "e", "g", "alpha", "plateau", "curve"),
    [
        ("steel", 240.0, 210e3, 80e3, 0.76, 0.2, (0.49, 0.2)),
        ("light", 255.0, 70e3, 27e3, 0.20, 0.4, (0.20, 0.10)),
    ],
)
@pytest.mark.parametrize("lying", [False, True])
def test_flat_bent_on_edge(
    metal: str,
    strength: float,
    e: float,
    g: float,
    alpha: float,
    plateau: float,
    curve: tuple[float, float],
    *,
    lying: bool,
) -> None:
    """chi_LT on the strong axis, be that y or z: Mcr = pi sqrt(E I G J)/L."""
    w, t = 60.0, 6.0
    strong, weak = 180e3, 9e3
    moments = (weak, strong) if lying else (strong, weak)
    ends = ((-800.0, 0.0, 0.0, 0.0, *moments),) * 2
    found = row(case(Flat(t, w) if lying else Flat(w, t), metal), ends)
    area, i_strong, i_weak = w * t, t * w**3 / 12.0, w * t**3 / 12.0
    torsion = w * t**3 / 3.0 * (1.0 - 0.630 * t / w)  # Roark, long rectangles
    critical = pi * sqrt(e * i_weak * g * torsion) / L
    chi_lt = perry(sqrt(i_strong / 30.0 * strength / critical), alpha, plateau)
    euler_s, euler_w = (pi**2 * e * inertia / L**2 for inertia in (i_strong, i_weak))
    chi = perry(sqrt(area * strength / euler_w), *curve)
    k_s, k_w = (
        1.0 / (1.0 - 1.67 * 800.0 / euler) if 0.99 * euler > 1.67 * 800.0 else 100.0
        for euler in (euler_s, euler_w)
    )
    expected = 800.0 / (chi * area * strength) + k_s * strong / (chi_lt * i_strong / 30.0 * strength)
    expected += k_w * weak / (i_weak / 3.0 * strength)
    assert chi_lt < 0.95
    assert found.demand == pytest.approx(1.67 * expected, rel=2e-4)
    assert f"chi_LT {chi_lt:.2f}" in found.note


@pytest.mark.parametrize(
    ("inset", "welded"), [(0.0, False), (20.0, False), (30.0, False), (30.5, True), (350.0, True)]
)
def test_weld_away_from_the_ends(inset: float, welded: bool) -> None:
    """Welded strength where the weld lies further from an end than the least width: 30 mm here."""
    ends = ((-5000.0, 0.0, 0.0, 0.0, 0.0, 0.0),) * 2
    welds = (weld("w", "m", "to", inset=inset),)
    found = row(case(Flat(40.0, 30.0), "light", welds=welds), ends)
    f = 125.0 if welded else 255.0
    area, inertia = 1200.0, 40.0 * 30.0**3 / 12.0
    chi = perry(sqrt(area * f / (pi**2 * 70e3 * inertia / L**2)), 0.20, 0.10)
    assert found.demand == pytest.approx(1.67 * 5000.0 / (chi * area * f))
    assert ("welded strength" in found.note) is welded


def test_weld_of_another_part_onto_it() -> None:
    """A bracket's weld half way along counts as a weld on the part, TIG x 0.8 on 6xxx."""
    points = {**POINTS, "tip": (250.0, 250.0, 100.0)}
    parts = (
        member("m", "a", "b", Flat(40.0, 30.0), "light", via=("mid",)),
        member("tab", "mid", "tip", Flat(20.0, 5.0), "light"),
    )
    held = tuple(Support(name=name, at=name, hold=(True,) * 6) for name in "ab")
    loaded = case_of(
        points,
        members=parts,
        supports=held,
        welds=(weld("foot", "tab", "from", inset=20.0, onto="m", process="tig", pattern="sides"),),
    )
    found = row(loaded, ((-5000.0, 0.0, 0.0, 0.0, 0.0, 0.0),) * 2)
    f = 0.8 * 125.0
    chi = perry(sqrt(1200.0 * f / (pi**2 * 70e3 * 90e3 / L**2)), 0.20, 0.10)
    assert found.demand == pytest.approx(1.67 * 5000.0 / (chi * 1200.0 * f))


def test_joined_members_each_have_the_row() -> None:
    """Greatest effects of both over the whole length; only_path counts for its own row."""
    pair = (member("m", "a", "b", Tube(25.0, 2.0)), member("n", "c", "b", Tube(25.0, 2.0), only_path=True))
    held = tuple(Support(name=name, at=name, hold=(True,) * 6) for name in "ac")
    joined = case_of(POINTS, members=pair, supports=held)
    push, bend = (-900.0, 0.0, 0.0, 0.0, 0.0, 0.0), (-300.0, 0.0, 0.0, 0.0, 5e3, 12e3)
    context = context_of(joined, {"m": [(push, push)], "n": [(bend, bend)]})
    rows = rows_of(context, list(stability(context)))
    area, inertia, modulus = tube_figures(25.0, 2.0)
    euler = pi**2 * 210e3 * inertia / (2.0 * L) ** 2
    chi = perry(sqrt(area * 240.0 / euler), 0.49, 0.2)
    expected = 900.0 / (chi * area * 240.0) + 13e3 / (1.0 - 1.67 * 900.0 / euler) / (modulus * 240.0)
    assert rows["m/0"].demand == pytest.approx(1.67 * expected)
    assert rows["n/0"].demand == rows["m/0"].demand
    assert rows["n/0"].utilisation == pytest.approx(1.25 * rows["m/0"].utilisation)
    assert "with n" in rows["m/0"].note


def test_strut() -> None:
    """A tie rod under compression: chi alone."""
    found = case(
        Tube(25.0, 2.0), struts=(Strut(name="rod", start="a", end="b", shape=Bar(12.0), material="steel"),)
    )
    context = context_of(found, {"rod": [((-1500.0, 0.0, 0.0, 0.0, 0.0, 0.0),) * 2]})
    area, inertia = pi * 36.0, pi / 64.0 * 12.0**4
    chi = perry(sqrt(area * 240.0 / (pi**2 * 210e3 * inertia / L**2)), 0.49, 0.2)
    assert rows_of(context, list(stability(context)))["rod/0"].demand == pytest.approx(
        1.67 * 1500.0 / (chi * area * 240.0)
    )


def test_open_outline(tmp_path: object, monkeypatch: pytest.MonkeyPatch) -> None:
    """An angle buckles about its weakest axis, askew, and its row is out of range."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    angle = Outline(((0.0, 0.0), (40.0, 0.0), (40.0, 5.0), (5.0, 5.0), (5.0, 40.0), (0.0, 40.0)))
    found = row(case(angle), ((-3000.0, 0.0, 0.0, 0.0, 0.0, 0.0),) * 2)
    # of an equal angle the weakest axis lies at 45 degrees: I - |Iyz|, from its two rectangles
    area, centre = 375.0, (200.0 * 20.0 + 175.0 * 2.5) / 375.0
    inertia = (
        5.0 * 40.0**3 / 12.0
        + 200.0 * (20.0 - centre) ** 2
        + 35.0 * 5.0**3 / 12.0
        + 175.0 * (2.5 - centre) ** 2
    )
    mixed = 200.0 * (20.0 - centre) * (2.5 - centre) + 175.0 * (2.5 - centre) * (22.5 - centre)
    chi = perry(sqrt(area * 240.0 / (pi**2 * 210e3 * (inertia - abs(mixed)) / L**2)), 0.49, 0.2)
    assert found.demand == pytest.approx(1.67 * 3000.0 / (chi * area * 240.0), rel=1e-4)
    assert not found.in_range
