"""Proof that a frame stands, point after point, against the least eigenvalue of the whole matrix."""

import numpy as np
import pytest

from strength.frame.buckling import compression, critical_multiplier, plan_buckling
from strength.frame.layout import lay_out
from strength.frame.proof import definite, stands
from strength.frame.softening import Softening
from strength.frame.solve import solve
from tests.frame.building import Size, bars_of, case_of, even_gauge, member, pushes_of
from tests.frame.random_frames import random_bars, random_case, random_pushes

SIZE = Size(youngs=2e5, shear=8e4, area=300.0, iy=2e4, iz=7e4, torsion=5e4)


def least(ready, coefficient) -> list[float]:
    """Least eigenvalue of each whole matrix on the movements that keep the gauge at zero."""
    _, size, turned = np.linalg.svd(ready.amount, full_matrices=True)
    free = turned[np.count_nonzero(size > 1e-12 * size.max(initial=0.0)) :]
    return [
        float(np.linalg.eigvalsh(free @ matrix @ free.T)[0]) for matrix in ready.assembly.matrix(coefficient)
    ]


@pytest.mark.parametrize("seed", range(8))
def test_held_frames(seed):
    """Random frames on supports, just below and just above each multiplier, all in one call."""
    rng = np.random.default_rng(40 + seed)
    case = random_case(rng, count=int(rng.integers(9, 14)))
    layout = lay_out(case)
    bars, pushes = random_bars(rng, case), random_pushes(rng, case, loads=3)
    response = solve(case, layout, bars, pushes)
    ready = plan_buckling(case, layout, pushes)
    alpha = critical_multiplier(case, layout, bars, pushes, response, ready)[0]
    push = np.repeat(compression(response)[0], 3, axis=0)
    share = np.repeat(np.where(np.isfinite(alpha), alpha, 1.0), 3) * np.tile([0.3, 1 - 1e-3, 1 + 1e-3], 3)
    softening = Softening.of(layout, ready.links, bars, 1)
    here = np.zeros(push.shape[0], dtype=np.intp)
    below = np.all(share[:, None] * push < softening.pole, axis=1)
    coefficient = softening.under(here[below], (share[:, None] * push)[below])
    assert ready.fronts.early == len(ready.fronts.fronts)
    found = stands(ready, coefficient)
    assert found.tolist() == [value > 0.0 for value in least(ready, coefficient)]


def test_a_free_frame():
    """A free bent bar with uneven masses, pressed along its chord: judged on what keeps the gauge at zero."""
    points = {
        "p0": (0, 30, 20),
        "p1": (350, 31, 45),
        "p2": (650, 28, 40),
        "p3": (1000, 30, 20),
        "p4": (640, 200, 90),
    }
    names = [("p0", "p1"), ("p1", "p2"), ("p2", "p3"), ("p2", "p4")]
    case = case_of(points, [member(f"m{n}", *ends) for n, ends in enumerate(names)])
    gauge = even_gauge(case) * np.array([0.0, 3.0, 1.0, 0.0, 2.0])[:, None]  # masses at three of the points
    pushes = pushes_of(case, {"p0": (70, 0, 0), "p3": (-70, 0, 0)}, gauge=gauge)
    layout, bars = lay_out(case), bars_of(case, SIZE)
    ready = plan_buckling(case, layout, pushes)
    response = solve(case, layout, bars, pushes)
    softening = Softening.of(layout, ready.links, bars, 1)
    alpha = critical_multiplier(case, layout, bars, pushes, response, ready)[0, 0]
    share = np.array([0.2, 1 - 1e-3, 1 + 1e-3, 1.4]) * alpha
    coefficient = softening.under(np.zeros(4, dtype=np.intp), share[:, None] * compression(response)[0])
    assert 0 < ready.fronts.early < len(ready.fronts.fronts)
    assert stands(ready, coefficient).tolist() == [True, True, False, False]
    assert [value > 0.0 for value in least(ready, coefficient)] == [True, True, False, False]


def test_definite():
    """Which of several matrices are positive definite, one by one."""
    rng = np.random.default_rng(3)
    parts = rng.normal(size=(9, 4, 4))
    matrices = parts @ parts.transpose(0, 2, 1) - rng.uniform(0.0, 1.0, 9)[:, None, None] * np.eye(4)
    expected = np.linalg.eigvalsh(matrices)[:, 0] > 0.0
    assert 0 < expected.sum() < 9
    assert definite(matrices).tolist() == expected.tolist()
