"""Shear coefficients of Timoshenko beams.

G. R. Cowper, The shear coefficient in Timoshenko's beam theory, Journal of Applied Mechanics 33 (1966)
335-340. The box is checked against Cowper's own integral, solved on a mesh by scikit-fem.
"""

import numpy as np
import pytest
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    FacetBasis,
    Functional,
    LinearForm,
    MeshQuad,
    condense,
    solve,
)
from skfem.helpers import dot, grad

from strength.sections.box import box, cowper_box
from strength.sections.flat import cowper_rectangle
from strength.sections.round import bar, cowper_round, tube


@pytest.mark.parametrize(
    ("m", "expected"),
    [(0.0, 0.8864), (0.8, 0.5411), (0.9, 0.5330), (1.0, 0.5306)],
    ids=["solid", "m 0.8", "m 0.9", "thin"],
)
def test_round(m: float, expected: float) -> None:
    """Hollow circles, v = 0.3."""
    assert float(cowper_round(np.float64(m), 0.3)) == pytest.approx(expected, abs=5e-5)


def test_rectangle() -> None:
    """Rectangle, v = 0.3."""
    assert float(cowper_rectangle(0.3)) == pytest.approx(0.8497, abs=5e-5)


def test_of_whole_shapes() -> None:
    """The shapes hand their own proportions on."""
    assert float(bar(17.0, 0.3).kappa_y) == pytest.approx(0.8864, abs=5e-5)
    assert float(tube(30.0, 3.0, 0.3).kappa_z) == pytest.approx(0.5411, abs=5e-5)


def ring(depth: float, width: float, wall: float) -> MeshQuad:
    """Mesh of a box with sharp corners on the middle line depth x width; x along the depth."""

    def lines(side: float) -> np.ndarray:
        outer, inner = (side + wall) / 2.0, (side - wall) / 2.0
        edge = np.linspace(inner, outer, 3)
        return np.concatenate([-edge[::-1], np.linspace(-inner, inner, 41)[1:-1], edge])

    whole = MeshQuad.init_tensor(lines(depth), lines(width))
    middles = whole.p[:, whole.t].mean(axis=1)
    void = (np.abs(middles[0]) < (depth - wall) / 2.0) & (np.abs(middles[1]) < (width - wall) / 2.0)
    return whole.remove_elements(np.flatnonzero(void))


def cowper_integral(mesh: MeshQuad, v: float) -> float:
    """Cowper's equation for load along x: a flexure function chi, harmonic, with a given slope at the edge.

    K = 2 (1 + v) I / (v/2 (Ix - Iy) - (A/I) integral x (chi + x y^2)), I = integral x^2 = Iy here,
    d chi/dn = -nx (v x^2/2 + (1 - v/2) y^2) - ny (2 + v) x y.
    """
    basis, edge = Basis(mesh, ElementQuad2()), FacetBasis(mesh, ElementQuad2())

    @BilinearForm
    def laplace(u, w, _):
        return dot(grad(u), grad(w))

    @LinearForm
    def slope(w, f):
        x, y = f.x
        return (-f.n[0] * (v * x**2 / 2.0 + (1.0 - v / 2.0) * y**2) - f.n[1] * (2.0 + v) * x * y) * w

    @Functional
    def area(f):
        return 1.0 + 0.0 * f.x[0]

    @Functional
    def along(f):
        return f.x[0] ** 2

    @Functional
    def across(f):
        return f.x[1] ** 2

    @Functional
    def warp(f):
        return f.x[0] * (f["chi"] + f.x[0] * f.x[1] ** 2)

    chi = solve(*condense(laplace.assemble(basis), slope.assemble(edge), D=np.array([0])))
    inertia = along.assemble(basis)
    below = v / 2.0 * (across.assemble(basis) - inertia) - area.assemble(basis) / inertia * warp.assemble(
        basis, chi=basis.interpolate(chi)
    )
    return float(2.0 * (1.0 + v) * inertia / below)


def test_integral_gives_the_rectangle() -> None:
    """The mesh way itself: 10 (1 + v)/(12 + 11 v) for a solid rectangle, whatever its proportions."""
    mesh = MeshQuad.init_tensor(np.linspace(-20.0, 20.0, 17), np.linspace(-7.0, 7.0, 13))
    assert cowper_integral(mesh, 0.3) == pytest.approx(13.0 / 15.3, rel=1e-4)


@pytest.mark.parametrize(
    ("depth", "width", "v"), [(40.0, 20.0, 0.3), (20.0, 40.0, 0.3), (35.0, 35.0, 0.33), (50.0, 30.0, 0.0)]
)
def test_box(depth: float, width: float, v: float) -> None:
    """Thin boxes: the closed form is the limit of walls of no thickness."""
    thick, thin = (cowper_integral(ring(depth, width, wall), v) for wall in (0.4, 0.2))
    limit = 2.0 * thin - thick
    assert float(cowper_box(np.float64(depth), np.float64(width), v)) == pytest.approx(limit, rel=2e-3)


def test_box_shear_goes_with_its_walls() -> None:
    """Of a deep box the shear along the depth finds the longer walls: the larger shear area."""
    found = box(60.0, 30.0, 2.0, 0.3)
    assert float(found.kappa_z) == pytest.approx(float(cowper_box(58.0, 28.0, 0.3)))
    assert float(found.kappa_y) == pytest.approx(float(cowper_box(28.0, 58.0, 0.3)))
    assert found.kappa_z > found.kappa_y
