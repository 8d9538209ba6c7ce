"""Timoshenko, S. P.; Gere, J. M.: Theory of Elastic Stability, 2nd ed.

Euler columns (chapter 2) and the single-bay portal of article 2.12, whose transcendental roots are
solved here from their equations; tabled roots from memory, recomputed.
"""

import numpy as np
import pytest
from scipy.optimize import brentq

from strength.frame.buckling import at_least, critical_multiplier
from strength.frame.layout import lay_out
from strength.frame.solve import solve
from strength.frame.stability import bending
from tests.frame.building import ALL, Size, bars_of, case_of, member, pushes_of

LENGTH = 900.0
STRONG = Size(youngs=2e5, shear=8e4, area=500.0, iy=2e4, iz=9e4, torsion=1e5)


def multiplier(case, size, push):
    """Critical multiplier of one load."""
    layout, bars = lay_out(case), bars_of(case, size)
    response = solve(case, layout, bars, push)
    alpha = float(critical_multiplier(case, layout, bars, push, response)[0, 0])
    assert at_least(case, layout, bars, push, response, 0.999 * alpha).all()
    assert not at_least(case, layout, bars, push, response, 1.001 * alpha).any()
    return alpha


@pytest.mark.parametrize(
    ("hold", "ends", "k"),
    [
        ((0, 1, 1, 1, 0, 0), ("ball", "fixed"), 1.0),
        ((0, 1, 1, 1, 1, 1), ("fixed", "fixed"), 0.5),
        ((0, 1, 1, 1, 0, 0), ("fixed", "fixed"), 0.699156),
        ((0, 1, 1, 1, 1, 1), ("ball", "fixed"), 0.699156),
        ((0, 0, 0, 0, 0, 0), ("fixed", "fixed"), 2.0),
        ((0, 1, 0, 1, 1, 1), ("fixed", "fixed"), 1.0),
        ((0, 1, 0, 1, 1, 1), ("ball", "fixed"), 2.0),
        ((0, 1, 1, 1, 1, 1), ("ball", "ball"), 1.0),
    ],
)
def test_euler_columns(hold, ends, k):
    """pi^2 EI / (K L)^2 for pinned, clamped, clamped-pinned, free, guided ends; the weak axis governs."""
    case = case_of(
        {"a": (3, 4, 5), "b": (3 + LENGTH, 4, 5)},
        [member("m", "a", "b", from_end=ends[0], to_end=ends[1])],
        {"a": ALL, "b": hold},
    )
    alpha = multiplier(case, STRONG, pushes_of(case, {"b": (-10, 0, 0)}))
    assert 10 * alpha == pytest.approx(np.pi**2 * STRONG.youngs * STRONG.iy / (k * LENGTH) ** 2, rel=2e-6)


def test_split_column_is_the_same_column():
    """A via point or a real point along a column changes nothing."""
    points = {"a": (0, 0, 0), "c": (0, 0, 500), "b": (0, 0, LENGTH)}
    whole = [member("m", "a", "b", via=("c",))]
    split = [member("m1", "a", "c"), member("m2", "c", "b")]
    for members in (whole, split):
        case = case_of(points, members, {"a": ALL, "b": (1, 1, 0, 0, 0, 1)})
        alpha = multiplier(case, STRONG, pushes_of(case, {"b": (0, 0, -100)}))
        assert 100 * alpha == pytest.approx((4.493409458 / LENGTH) ** 2 * STRONG.youngs * STRONG.iy, rel=1e-7)


def test_shear_lowers_the_load():
    """Engesser: P / (1 + P / GA), article 2.17."""
    case = case_of(
        {"a": (0, 0, 0), "b": (0, LENGTH, 0)}, [member("m", "a", "b")], {"a": ALL, "b": (1, 0, 1, 0, 1, 0)}
    )
    size = Size(youngs=2e5, shear=8e4, area=500.0, iy=2e4, iz=9e4, torsion=1e5, shear_y=2.0, shear_z=3.0)
    euler = 4.493409458**2 * size.youngs * size.iy / LENGTH**2
    alpha = multiplier(case, size, pushes_of(case, {"b": (0, -1, 0)}))
    clamped = {"a": ALL, "b": (1, 0, 1, 1, 1, 1)}
    both = case_of({"a": (0, 0, 0), "b": (0, LENGTH, 0)}, [member("m", "a", "b")], clamped)
    in_plane = [4 * np.pi**2 * size.youngs * i / LENGTH**2 for i in (size.iy, size.iz)]
    lowest = min(p / (1 + p / (size.shear * s)) for p, s in zip(in_plane, (3.0, 2.0), strict=True))
    assert multiplier(both, size, pushes_of(both, {"b": (0, -1, 0)})) == pytest.approx(lowest, rel=1e-6)
    assert alpha < euler


PORTAL = {  # r: sway pinned, sway fixed, no sway pinned, no sway fixed: x^2 of P_cr = x^2 EI_c / h^2
    0.5: (1.4220, 6.0302, 11.598, 22.969),
    2.0: (2.1040, 8.4341, 14.660, 28.397),
    10.0: (2.3872, 9.5489, 18.417, 35.902),
}
EQUATIONS = (
    (lambda x, r: x * np.tan(x) - 6 * r, 1e-3, np.pi / 2 - 1e-9),
    (lambda x, r: x / np.tan(x) + 6 * r, np.pi / 2, np.pi - 1e-9),
    (lambda x, r: x * x * np.sin(x) + 2 * r * (np.sin(x) - x * np.cos(x)), np.pi, 4.4934),
    (
        lambda x, r: x * (np.sin(x) - x * np.cos(x)) + 2 * r * (2 - 2 * np.cos(x) - x * np.sin(x)),
        4.4935,
        2 * np.pi - 1e-6,
    ),
)


@pytest.mark.parametrize("kind", range(4))
@pytest.mark.parametrize("r", PORTAL)
def test_portal(r, kind):
    """Sway and symmetric buckling of a portal, r = (I_b/L_b) / (I_c/h), pinned and fixed bases."""
    height, span = 1000.0, 1400.0
    equation, low, high = EQUATIONS[kind]
    x = brentq(equation, low, high, args=(r,), xtol=1e-13)
    assert x * x == pytest.approx(PORTAL[r][kind], rel=5e-5)
    column = Size(youngs=2e5, shear=8e4, area=1e7, iy=1e9, iz=4e4, torsion=1e9)
    beam = Size(youngs=2e5, shear=8e4, area=1e7, iy=1e9, iz=4e4 * r * span / height, torsion=1e9)
    sway, pinned = kind < 2, kind in (0, 2)
    base = (1, 1, 1, 1, 1, not pinned)
    top = (not sway, 0, 1, 0, 0, 0)
    case = case_of(
        {"a": (0, 0, 0), "b": (0, height, 0), "c": (span, height, 0), "d": (span, 0, 0)},
        [member("left", "a", "b"), member("beam", "b", "c"), member("right", "d", "c")],
        {"a": base, "d": base, "b": top, "c": (0, 0, 1, 0, 0, 0)},
    )
    layout, bars = lay_out(case), bars_of(case, {"left": column, "beam": beam, "right": column})
    push = pushes_of(case, {"b": (0, -1, 0), "c": (0, -1, 0)})
    response = solve(case, layout, bars, push)
    alpha = critical_multiplier(case, layout, bars, push, response)[0, 0]
    assert alpha == pytest.approx(x * x * 2e5 * 4e4 / height**2, rel=2e-5)


@pytest.mark.parametrize("u", [0.3, 1.1, 1.5, 2.4])
def test_even_stiffness_from_beam_columns(u):
    """Article 1.11: under a uniform load the clamped end's moment is the pinned end's slope times stiffness.

    With u^2 = P L^2 / 4 EI: M = (w L^2/12) 3 (tan u - u) / (u^2 tan u), and
    slope = (w L^3 / 24 EI) 3 (tan u - u) / u^3.
    """
    load, length, ei = 0.2, 336.0, 1.4e7
    moment = load * length**2 / 12 * 3 * (np.tan(u) - u) / (u**2 * np.tan(u))
    slope = load * length**3 / (24 * ei) * 3 * (np.tan(u) - u) / u**3
    force = np.array(4 * u**2 * ei / length**2)
    even, _ = bending(
        force, np.array(ei), np.array(np.inf), np.array(length), np.array(False), np.array(True)
    )
    assert even * 2 * slope == pytest.approx(moment, rel=1e-9)
