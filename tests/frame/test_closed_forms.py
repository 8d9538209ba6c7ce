"""Deflections that follow from the integrals of beam theory (Timoshenko; Roark's Formulas; Gere).

From memory, recomputed by integration.
"""

import numpy as np
import pytest

from strength.frame.layout import lay_out
from strength.frame.solve import solve
from tests.frame.building import ALL, PLATE, TUBE, Size, at, bars_of, case_of, member, pushes_of

SLENDER = Size(youngs=205000.0, shear=79000.0, area=1e9, iy=8000.0, iz=8000.0, torsion=16000.0)


def test_bent_cantilever_out_of_plane():
    """Right-angle bent: P a^3/3EI + P b^3/3EI + P a^2 b/GJ, a the free leg, b the clamped one."""
    a, b, push = 240.0, 370.0, 90.0
    case = case_of(
        {"wall": (10, 20, 30), "knee": (10, 20 + b, 30), "tip": (10 + a, 20 + b, 30)},
        [member("b", "wall", "knee"), member("a", "knee", "tip")],
        {"wall": ALL},
    )
    response = solve(case, lay_out(case), bars_of(case, SLENDER), pushes_of(case, {"tip": (0, 0, -push)}))
    ei, gj = SLENDER.youngs * SLENDER.iy, SLENDER.shear * SLENDER.torsion
    expected = push * (a**3 / (3 * ei) + b**3 / (3 * ei) + a**2 * b / gj)
    assert -at(case, response, "tip")[2] == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("axis", [1, 2])
def test_timoshenko_cantilever(axis):
    """P L^3/3EI + P L/(kappa G A), each plane with its own I and shear area."""
    length, push = 150.0, 730.0
    direction = np.array([0.36, 0.48, 0.8])
    case = case_of(
        {"wall": (5, -7, 11), "tip": np.array([5, -7, 11]) + length * direction},
        [member("m", "wall", "tip", up=(0.3, -1.0, 0.2))],
        {"wall": ALL},
    )
    layout = lay_out(case)
    across = layout.axes[0, axis]
    response = solve(case, layout, bars_of(case, PLATE), pushes_of(case, {"tip": push * across}))
    inertia, area = ((PLATE.iz, PLATE.shear_y), (PLATE.iy, PLATE.shear_z))[axis - 1]
    expected = push * length**3 / (3 * PLATE.youngs * inertia) + push * length / (PLATE.shear * area)
    assert at(case, response, "tip")[:3] @ across == pytest.approx(expected, rel=1e-10)


def quarter_circle(count):
    """In-plane radial and out-of-plane tip deflection of a clamped quarter circle of short members."""
    radius = 300.0
    turn = np.linspace(0, np.pi / 2, count + 1)
    case = case_of(
        {f"p{n}": (radius * np.sin(t), 40, radius * np.cos(t)) for n, t in enumerate(turn)},
        [member(f"m{n}", f"p{n}", f"p{n + 1}") for n in range(count)],
        {"p0": ALL},
    )
    tip = f"p{count}"
    push = pushes_of(case, {tip: (70, 0, 0)}, {tip: (0, 50, 0)})
    response = solve(case, lay_out(case), bars_of(case, SLENDER), push)
    ei, gj = SLENDER.youngs * SLENDER.iy, SLENDER.shear * SLENDER.torsion
    exact = (
        np.pi * 70 * radius**3 / (4 * ei),
        50 * radius**3 * (np.pi / (4 * ei) + (3 * np.pi / 4 - 2) / gj),
    )
    return abs(at(case, response, tip, 0)[0] / exact[0] - 1), abs(
        at(case, response, tip, 1)[1] / exact[1] - 1
    )


def test_quarter_circle_converges_with_order_two():
    """Chords for arcs: halving the members' length divides the error by four, in and out of plane."""
    errors = np.array([quarter_circle(count) for count in (8, 16, 32)])
    order = np.log2(errors[:-1] / errors[1:])
    assert order == pytest.approx(2.0, abs=0.05)
    assert np.all(errors[-1] < 1e-3)


def test_hinged_portal_beam_is_simply_supported():
    """A beam with ball ends between two stiff posts carries P L/4 and sags P L^3/48EI + P L/4GA."""
    span, push = 800.0, 500.0
    case = case_of(
        {"a": (0, 0, 0), "b": (0, span, 0), "mid": (0, span / 2, 0)},
        [member("beam", "a", "b", via=("mid",), from_end="ball", to_end="ball")],
        {"a": ALL, "b": ALL},
    )
    response = solve(case, lay_out(case), bars_of(case, TUBE), pushes_of(case, {"mid": (0, 0, -push)}))
    sag = push * span**3 / (48 * TUBE.youngs * TUBE.iy) + push * span / (4 * TUBE.shear * TUBE.shear_z)
    assert -at(case, response, "mid")[2] == pytest.approx(sag, rel=1e-10)
    assert abs(response.forces[0, 0, 0, 1, 4]) == pytest.approx(push * span / 4, rel=1e-10)
    assert response.forces[0, 0, :, :, 3] == pytest.approx(np.zeros((2, 2)), abs=1e-12)


def test_propped_cantilever_by_a_hinge():
    """Fixed and hinged: the root takes 3 P L/16 (midspan load) about the hinge's axis."""
    span, push = 640.0, 400.0
    case = case_of(
        {"a": (0, 0, 0), "b": (span, 0, 0), "mid": (span / 2, 0, 0)},
        [member("beam", "a", "b", via=("mid",), to_end="hinge", hinge_axis=(0, 1, 0))],
        {"a": ALL, "b": ALL},
    )
    slender = Size(youngs=2e5, shear=8e4, area=150, iy=9000.0, iz=7000.0, torsion=5000.0)
    push_at = pushes_of(case, {"mid": (0, 0, -push)}, {"mid": (0, push, 0)})
    response = solve(case, lay_out(case), bars_of(case, slender), push_at)
    assert abs(response.forces[0, 0, 0, 0, 4]) == pytest.approx(3 * push * span / 16, rel=1e-10)
    assert abs(response.forces[0, 0, 1, 1, 4]) == pytest.approx(0.0, abs=1e-9 * push * span)
    # Across the hinge the beam is clamped at both ends: P L/8.
    assert np.abs(response.forces[0, 1, [0, 1], [0, 1], 5]) == pytest.approx(push * span / 8, rel=1e-10)


def test_sign_of_internal_forces():
    """Internal force at `to` is the load put there; at `from` it balances it over the length.

    Statics alone: a cantilever along x with every load component at its tip.
    """
    length = 100.0
    case = case_of({"a": (0, 0, 0), "b": (length, 0, 0)}, [member("m", "a", "b")], {"a": ALL})
    load = (3.0, 5.0, 7.0, 110.0, 130.0, 170.0)
    response = solve(case, lay_out(case), bars_of(case, TUBE), pushes_of(case, {"b": load}))
    start, end = response.forces[0, 0, 0]
    assert end == pytest.approx(load, rel=1e-12)
    assert start == pytest.approx((3, 5, 7, 110, 130 - 7 * length, 170 + 5 * length), rel=1e-12)
    assert response.reactions[0, 0, 0] == pytest.approx(-start, rel=1e-12)
