"""Trial shapes: of unit energy each and at right angles, whatever they grow from."""

import numpy as np
import pytest

from strength.frame.buckling import compression, plan_buckling
from strength.frame.layout import lay_out
from strength.frame.softening import Softening
from strength.frame.solve import solve
from strength.frame.trials import Trials
from tests.frame.random_frames import random_bars, random_case, random_pushes


@pytest.mark.parametrize("seed", range(5))
def test_energies(seed):
    """By the whole matrix: shapes of three items, two of one design, softened ever more of one kind.

    Ten shapes from forces that hardly differ: those with nothing new in them are left out, as zeros.
    """
    rng = np.random.default_rng(80 + seed)
    case = random_case(rng, count=11)
    layout = lay_out(case)
    bars, pushes = random_bars(rng, case, designs=2), random_pushes(rng, case, loads=2)
    ready = plan_buckling(case, layout, pushes)
    softening = Softening.of(layout, ready.links, bars, 2)
    rest = softening.under(np.arange(2), np.zeros((2, layout.bar.size)))
    design = np.array([0, 0, 1])
    trials = Trials.of(ready, rest, design, 12)
    push = compression(solve(case, layout, bars, pushes))[design, [0, 1, 1]]
    near = 0.9999 * softening.limit(design, push)
    soft = trials.stiff - softening.under(design, near[:, None] * push).reshape(3, -1)
    pull = np.tile(rng.normal(size=ready.assembly.unknowns), (3, 1))
    for n in range(10):
        trials.add(n, *trials.moved(pull), np.array([True, True, n < 5]))
        pull = trials.pull(soft, trials.held[:, n] + 1e-3 * trials.held[:, 0])
    every = ready.assembly.matrix(rest)[design]
    energy = trials.moves[:, :10] @ every @ trials.moves[:, :10].transpose(0, 2, 1)
    there = np.any(trials.moves[:, :10], axis=2)
    assert there[:, :3].all()
    assert not there[2, 5:].any()
    expected = np.eye(10) * there[:, None, :]
    assert energy == pytest.approx(expected, abs=1e-6)
    strains = np.einsum("lnp,lp,lmp->lnm", trials.held, trials.stiff, trials.held)[:, :10, :10]
    assert strains == pytest.approx(expected, abs=1e-9)
