"""Wheel loads and loads on points of random vehicles against the second way, to 1e-8 of the greatest."""

import attrs
import numpy as np
import pytest

from strength.vehicle import balance, into_structure
from tests.second_way import wheel_loads
from tests.second_way.random_cases import vehicle

SEEDS = range(40)


def close(found, expected, scale):
    """Agreement to 1e-8 of the scale."""
    assert np.abs(np.asarray(found) - np.asarray(expected)).max() <= 1e-8 * scale


@pytest.mark.parametrize("seed", SEEDS)
def test_wheel_forces(seed):
    """Each wheel's force in each load, at the scale at which the vehicle tips."""
    case = vehicle(seed)
    for load, found in zip(case.loads, balance(case), strict=True):
        expected = wheel_loads.wheel_forces(case, load, found.scaled_to)
        if load.strike is not None:
            standing = wheel_loads.wheel_forces(case, case.loads[0])
            hub = next(w for w in case.wheels if w.name == load.strike.wheel)
            y = next(p.at[1] for p in case.points if p.name == hub.centre)
            way = np.array([-load.strike.back, -np.sign(y) * load.strike.inward, load.strike.up])
            expected[hub.name] = standing[hub.name][2] * way
        total = 9.80665 * sum(m.mass for m in case.masses)
        for pushed in (*found.wheels, *found.tows):
            close(pushed.force, expected[pushed.name], total)


@pytest.mark.parametrize("seed", SEEDS)
def test_tips_at_the_same_scale(seed):
    """The scale at which it tips, by non-negative least squares on both roads."""
    case = vehicle(seed)
    for load, found in zip(case.loads, balance(case), strict=True):
        assert found.scaled_to == pytest.approx(wheel_loads.tips_at(case, load, 24), abs=2e-8)


@pytest.mark.parametrize("seed", SEEDS)
def test_loads_on_points(seed):
    """Forces and moments on the points of a vehicle that flies free."""
    case = vehicle(seed)
    loads = balance(case)
    pushes = into_structure(case, loads)
    for n, load in enumerate(loads):
        expected = wheel_loads.loads_on_points(case, load)
        size = np.abs(expected).max(axis=0)
        close(pushes.forces[n][:, :3], expected[:, :3], size[:3].max())
        close(pushes.forces[n][:, 3:], expected[:, 3:], max(size[3:].max(), 100.0 * size[:3].max()))


@pytest.mark.parametrize("seed", range(5))
def test_least_squares_by_a_general_optimiser(seed):
    """Least sum of squares of Z by scipy's SLSQP, to its own tolerance."""
    case = vehicle(seed)
    load = case.loads[0]
    rows, right = wheel_loads.Road(case, load, 1.0).equations()
    expected = wheel_loads.by_optimiser(rows, right, len(case.tows))
    found = balance(attrs.evolve(case, loads=(load,)))[0]
    got = [w.force[2] for w in found.wheels] + [t.force[2] for t in found.tows]
    assert np.abs(np.array(got) - expected).max() < 1e-4 * right[0]
