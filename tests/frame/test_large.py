"""Frames of thousands of members: the envelope gives what eliminating gives, and memory grows with length."""

import tracemalloc

import numpy as np
import pytest

from strength.frame.layout import lay_out
from strength.frame.solve import solve
from strength.sections import measure
from tests.bench.large import lattice, pushes, whole


def test_dense_and_sparse_agree(monkeypatch):
    """A block of 252 points, 1 260 unknowns: each way to 1e-9 of the greatest."""
    case = lattice((6, 6, 7))
    bars, layout, loads = measure(case), lay_out(case), pushes(case)
    monkeypatch.setattr("strength.frame.solve.LARGE", 10**6)
    dense = solve(case, layout, bars, loads)
    monkeypatch.setattr("strength.frame.solve.LARGE", 10)
    sparse = solve(case, layout, bars, loads)
    for name in ("displacements", "forces", "reactions"):
        one, other = getattr(dense, name), getattr(sparse, name)
        for k in (slice(0, 3), slice(3, 6)):
            size = np.abs(one[..., k]).max()
            assert np.abs(one[..., k] - other[..., k]).max() <= 1e-9 * size, name


def test_sparse_against_scipy():
    """Second way: scipy's general sparse solver on the same matrix."""
    from scipy.sparse.linalg import splu

    from strength.frame.plan import plan
    from tests.bench.large import matrix_and_forces

    case = lattice((4, 4, 40))
    bars, layout, loads = measure(case), lay_out(case), pushes(case)
    matrix, forces = matrix_and_forces(case, loads)
    ready = plan(case, layout)
    moves = ready.reduction.expand(splu(matrix).solve(forces)) / ready.links.unit[:, None]
    found = solve(case, layout, bars, loads).displacements[0]
    expected = moves[: 6 * len(case.points)].reshape(len(case.points), 6, -1).transpose(2, 0, 1)
    assert ready.reduction.unknowns > 1500
    assert found == pytest.approx(expected, rel=1e-7, abs=1e-9 * float(np.abs(expected).max()))


def test_a_tall_tower_is_in_balance():
    """46 m high, 5 584 members: moments about its middle are large, and so is their round-off."""
    case = lattice((4, 4, 140))
    layout, loads = lay_out(case), pushes(case)
    found = solve(case, layout, measure(case), loads)
    up = np.array([point.at for point in case.points])
    held = [found.reactions[0, :, n] for n in range(len(case.supports))]
    force = loads.forces.sum(axis=1)[:, :3] + sum(each[:, :3] for each in held)
    assert np.abs(force).max() < 1e-9 * np.abs(loads.forces[..., :3]).sum()
    feet = [up[layout.names.index(support.at)] for support in case.supports]
    turn = np.cross(up, loads.forces[..., :3]).sum(axis=1) + loads.forces[..., 3:].sum(axis=1)
    turn += sum(np.cross(at, each[:, :3]) + each[:, 3:] for at, each in zip(feet, held, strict=True))
    assert np.abs(turn).max() < 1e-9 * np.abs(np.cross(up, loads.forces[..., :3])).sum()


def test_memory_is_linear():
    """Twice the height, twice the peak: 1.9 to 2.1 times, from 60 to 120 points high."""
    peaks = []
    for high in (60, 120):
        case = lattice((3, 3, high))
        bars, loads = measure(case), pushes(case)
        whole(case, bars, loads)
        tracemalloc.start()
        whole(case, bars, loads)
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    assert 1.8 <= peaks[1] / peaks[0] <= 2.2
