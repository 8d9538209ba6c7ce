"""Torsion of rectangles.

S. Timoshenko and J. N. Goodier, Theory of Elasticity, 3rd edition, section 109: table of constants for
torsion of a rectangular bar (from memory): greatest stress k G theta 2a, torque k1 G theta (2a)^3 2b,
stress T/(k2 (2a)^2 2b).
"""

import numpy as np
import pytest

from strength.sections.flat import torsion_constant
from strength.sections.flat_stress import rectangle_torsion, torsion_field, torsion_peak

TABLE = [
    (1.0, 0.675, 0.1406, 0.208),
    (1.2, 0.759, 0.166, 0.219),
    (1.5, 0.848, 0.196, 0.231),
    (2.0, 0.930, 0.229, 0.246),
    (2.5, 0.968, 0.249, 0.258),
    (3.0, 0.985, 0.263, 0.267),
    (4.0, 0.997, 0.281, 0.282),
    (5.0, 0.999, 0.291, 0.291),
    (10.0, 1.000, 0.312, 0.312),
]


@pytest.mark.parametrize(("ratio", "k", "k1", "k2"), TABLE)
def test_constants(ratio: float, k: float, k1: float, k2: float) -> None:
    """All three columns, at a size other than 1 (the table is rounded to three digits)."""
    short = 7.0
    long = ratio * short
    constant = torsion_constant(long, short)
    assert float(constant / (long * short**3)) == pytest.approx(k1, abs=6e-4)
    assert float(torsion_peak(long, short)) == pytest.approx(k, abs=6e-4)
    stress = torsion_peak(long, short) * short / constant
    assert float(1.0 / (stress * short**2 * long)) == pytest.approx(k2, abs=6e-4)


@pytest.mark.parametrize("ratio", [1.0, 1.7, 4.4, 25.0])
def test_field(ratio: float) -> None:
    """The field carries the torque, has its peak where the table has it, and leaves free faces free."""
    x, y = np.polynomial.legendre.leggauss(40)
    p, weight = x, y
    slender = np.array([ratio])
    tau_x, tau_y = (part[0] for part in torsion_field(p[None], p[None], slender))
    # T = integral (x tau_y - y tau_x), with short side 1, long side `ratio`, stresses over T/J
    moment = np.einsum("p,q,pq->", weight, weight, p[:, None] * tau_y - ratio * p * tau_x) * ratio / 8.0
    assert moment == pytest.approx(float(torsion_constant(ratio, 1.0)), rel=2e-3)
    middle = torsion_field(np.array([[1.0]]), np.array([[0.0]]), slender)
    assert float(middle[1][0, 0, 0]) == pytest.approx(float(torsion_peak(ratio, 1.0)), rel=1e-3)
    edges = np.array([[-1.0, 1.0]])
    inside = np.array([[-0.6, 0.1, 0.8]])
    assert np.abs(torsion_field(edges, inside, slender)[0]).max() < 1e-12
    assert np.abs(torsion_field(inside, edges, slender)[1]).max() < 2e-3


@pytest.mark.parametrize(("width", "thickness"), [(70.0, 16.0), (16.0, 70.0), (30.0, 29.0)])
def test_either_series(width: float, thickness: float) -> None:
    """Two different series, along one side or the other, give one field."""
    y, z = np.array([[-0.9, -0.35, 0.2, 0.7]]), np.array([[-0.8, -0.15, 0.45]])
    along_y, along_z = rectangle_torsion(y, z, np.array([width]), np.array([thickness]))
    scale = min(width, thickness)
    other_z, other_y = torsion_field(z, -y, np.array([thickness / width]))
    # the series along the other side gives stresses over T width/J
    assert np.allclose(along_y * scale, -other_y.swapaxes(-1, -2) * width, atol=2e-3 * scale)
    assert np.allclose(along_z * scale, other_z.swapaxes(-1, -2) * width, atol=2e-3 * scale)
