"""One matrix for drilled flats of many thicknesses, against a matrix for each of them."""

import numpy as np
import pytest

from strength.sections.net_stress import Gap, net_matrix
from strength.sections.net_unit import unit_net
from strength.values import evolve

DESIGNS = 23


def gap(centre: float, breadth: float) -> Gap:
    """A gap that all designs have."""
    return np.full(DESIGNS, centre), np.full(DESIGNS, breadth)


def thicknesses(middle: float, either_way: float) -> np.ndarray:
    """Thicknesses of all designs [mm]."""
    return middle * np.exp(np.random.default_rng(4).uniform(-either_way, either_way, DESIGNS))


@pytest.mark.parametrize("either_way", [0.0, 0.06, 0.19])
@pytest.mark.parametrize(
    ("width", "thickness", "gaps"),
    [
        (60.0, 9.0, [gap(4.0, 12.0)]),
        (50.0, 4.0, [gap(-8.0, 11.0), gap(14.0, 7.0)]),
        (20.0, 26.0, [gap(-3.0, 7.0)]),
    ],
)
def test_serves_all_as_each_by_itself(
    width: float, thickness: float, gaps: list[Gap], either_way: float
) -> None:
    """Stresses of any forces and of torsion alone; whatever the proportion, within its range."""
    sides = np.full(DESIGNS, width), thicknesses(thickness, either_way)
    found = unit_net(*sides, gaps, [])
    assert found is not None
    unit, scale = found
    assert unit.is_common
    forces = np.random.default_rng(5).normal(size=(DESIGNS, 7, 6)) * [9e2, 7e2, 8e2, 2e4, 3e4, 1e4]
    forces[:, 3] = [0.0, 0.0, 0.0, 5e4, 0.0, 0.0]
    each = net_matrix(*sides, gaps, []).von_mises(forces)
    assert evolve(unit, scale=scale).von_mises(forces) == pytest.approx(each, rel=1e-9)


def test_bounds_hold() -> None:
    """What the worst is said to lie between holds it, of shared torsion too."""
    sides, gaps = (np.full(DESIGNS, 45.0), thicknesses(6.0, 0.1)), [gap(5.0, 9.0)]
    found = unit_net(*sides, gaps, [])
    assert found is not None
    unit, scale = found
    forces = np.random.default_rng(6).normal(size=(DESIGNS, 6)) * [9e2, 7e2, 8e2, 2e4, 3e4, 1e4]
    low, high = unit.bounds((forces[:, unit.source] * scale).T)
    square = net_matrix(*sides, gaps, []).von_mises(forces) ** 2
    assert np.all(low <= square * (1.0 + 1e-9))
    assert np.all(square <= high * (1.0 + 1e-9))


def test_what_one_matrix_cannot_serve() -> None:
    """Holes that take another share of a side, proportions far apart, or on both sides of the square."""
    whole, sheet = np.full(DESIGNS, 40.0), thicknesses(8.0, 0.1)
    assert unit_net(whole, sheet, [], [gap(0.0, 3.0)]) is None
    assert unit_net(thicknesses(40.0, 0.1), np.full(DESIGNS, 8.0), [gap(2.0, 9.0)], []) is None
    assert unit_net(whole, thicknesses(8.0, 0.3), [gap(2.0, 9.0)], []) is None
    assert unit_net(whole, thicknesses(40.0, 0.1), [gap(2.0, 9.0)], []) is None
