"""Combined stress of tubes.

J. E. Shigley (Budynas and Nisbett), Mechanical Engineering Design, Example 5-4: aluminium tube 42 x 5 mm,
cantilever of 120 mm with 1.75 kN at its tip, 9.0 kN tension and 72 N m torsion.
S. Timoshenko and J. Gere, Mechanics of Materials: greatest shear stress of hollow circles (computed from
V Q/(I b)).
"""

import numpy as np
import pytest

from strength.sections.nominal import nominal_round
from strength.sections.round import tube
from strength.sections.round_stress import round_matrix, shear_peak


def test_shigley_example_5_4() -> None:
    """Shear is left out at the outer fibre: sigma' = 60.43 MPa, n = 4.57 on 276 MPa."""
    found = tube(42.0, 5.0, 0.33)
    m = np.array([32.0 / 42.0])
    forces = np.array([[[9000.0, 0.0, 0.0, 72e3, 1750.0 * 120.0, 0.0]]])
    matrix = round_matrix(found.area.reshape(1), found.modulus_y.reshape(1), m)
    worst = float(matrix.von_mises(forces)[0, 0])
    assert worst == pytest.approx(60.43, rel=1e-4)
    assert 276.0 / worst == pytest.approx(4.57, abs=0.005)
    parts = nominal_round(forces[0, 0], found.area, found.modulus_y, m[0])
    assert float(parts.axial + parts.bending) == pytest.approx(59.031, abs=5e-4)
    assert float(parts.torsion) == pytest.approx(7.465, abs=5e-4)


def test_shigley_section_table() -> None:
    """His table, cm: 42 x 5 I 10.130, Z 4.825, J 20.255; 42 x 4 A 4.773, I 8.717, Z 4.151.

    The table rounds on the way: its Z is not its I over 21 mm.
    """
    thick, thin = tube(42.0, 5.0, 0.33), tube(42.0, 4.0, 0.33)
    assert [float(thick.iy / 1e4), float(thick.modulus_y / 1e3), float(thick.torsion / 1e4)] == pytest.approx(
        [10.130, 4.825, 20.255], rel=6e-4
    )
    assert [float(thin.area / 1e2), float(thin.iy / 1e4), float(thin.modulus_y / 1e3)] == pytest.approx(
        [4.773, 8.717, 4.151], rel=6e-4
    )


@pytest.mark.parametrize(("m", "expected"), [(0.0, 1.3333), (0.8, 1.9837), (0.9, 1.9963), (1.0, 2.0)])
def test_shear_peak(m: float, expected: float) -> None:
    """Greatest shear stress over V/A."""
    assert float(shear_peak(m)) == pytest.approx(expected, abs=5e-5)
