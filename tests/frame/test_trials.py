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
        trials.add(n, *trials.moved(pull))
        pull = trials.pull(soft, trials.held[:, n] + 1e-3 * trials.held[:, 0])
    every = ready.assembly.matrix(rest)[design]
    energy = trials.moves[:, :10] @ every @ trials.moves[:, :10].transpose(0, 2, 1)
    there = np.any(trials.moves[:, :10], axis=2)
    assert there[:, :3].all()
    expected = np.eye(10) * there[:, None, :]
    assert energy == pytest.approx(expected, abs=1e-6)
    strains = np.einsum("lnp,lp,lmp->lnm", trials.held, trials.stiff, trials.held)[:, :10, :10]
    assert strains == pytest.approx(expected, abs=1e-9)


def test_some_of_the_items():
    """They keep their shapes, get room for more, and move under a pull as among all, bit for bit nearly."""
    rng = np.random.default_rng(12)
    case = random_case(rng, count=9)
    layout = lay_out(case)
    bars, pushes = random_bars(rng, case, designs=3), random_pushes(rng, case, loads=1)
    ready = plan_buckling(case, layout, pushes)
    rest = Softening.of(layout, ready.links, bars, 3).under(np.arange(3), np.zeros((3, layout.bar.size)))
    trials = Trials.of(ready, rest, np.array([0, 1, 1, 2]), 4)
    pull = rng.normal(size=(4, ready.assembly.unknowns))
    for n in range(3):
        trials.add(n, *trials.moved((n + 1.0) ** 0.5 * pull**n))
    wanted = np.array([False, True, False, True])
    some = trials.some(wanted, 3, 7)
    assert (trials.room, some.room) == (4, 7)
    assert np.array_equal(some.moves[:, :3], trials.moves[wanted, :3])
    assert np.array_equal(some.held[:, :3], trials.held[wanted, :3])
    assert not some.held[:, 3:].any()
    for mine, theirs in zip(some.moved(pull[wanted]), trials.moved(pull), strict=True):
        assert mine == pytest.approx(theirs[wanted], rel=1e-9, abs=1e-12 * np.abs(theirs).max())
    assert some.lowest(3, some.stiff)[1] == pytest.approx(trials.lowest(3, trials.stiff)[1][wanted])
