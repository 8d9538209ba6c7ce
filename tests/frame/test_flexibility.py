"""Movements block by block against those of the whole matrix, by numpy's least squares."""

import numpy as np
import pytest

from strength.frame.buckling import plan_buckling
from strength.frame.flexibility import Flexibility
from strength.frame.layout import lay_out
from strength.frame.softening import Softening
from strength.library.data import cases_folder
from strength.studies.prepared import prepare
from strength.studies.typed import typed_case
from tests.frame.building import ALL, Size, bars_of, case_of, member, pushes_of
from tests.frame.random_frames import random_bars, random_case, random_pushes


def unloaded(layout, ready, bars, designs):
    """Coefficients (designs, segments, 8) without axial force."""
    every = np.arange(designs)
    return Softening.of(layout, ready.links, bars, designs).under(every, np.zeros((designs, layout.bar.size)))


def agree(ready, coefficient, columns):
    """Some forces that balance, on every design, all with columns of their own."""
    rng = np.random.default_rng(3)
    force = rng.normal(size=(coefficient.shape[0], ready.assembly.unknowns, columns))
    force -= ready.amount.T @ (ready.rigid.T @ force)
    found = Flexibility.of(ready, coefficient).moved(force)
    found -= ready.rigid @ (ready.amount @ found)
    for matrix, push, movement in zip(ready.assembly.matrix(coefficient), force, found, strict=True):
        scale = np.sqrt(np.diag(matrix))  # unknowns are lengths and turns
        scaled = matrix / scale[:, None] / scale
        exact = np.linalg.lstsq(scaled, push / scale[:, None], rcond=1e-13)[0] / scale[:, None]
        exact -= ready.rigid @ (ready.amount @ exact)
        assert movement == pytest.approx(exact, rel=1e-7, abs=1e-7 * np.abs(exact).max())


@pytest.mark.parametrize("seed", range(6))
def test_held_frames(seed):
    """Random frames on supports, three designs at once."""
    rng = np.random.default_rng(60 + seed)
    case = random_case(rng, count=int(rng.integers(9, 22)))
    layout = lay_out(case)
    bars, pushes = random_bars(rng, case, designs=3), random_pushes(rng, case, loads=1)
    ready = plan_buckling(case, layout, pushes)
    agree(ready, unloaded(layout, ready, bars, 3), 4)


def test_a_free_frame():
    """The trike, which nothing holds: parted into several blocks, none with points that its gauge sees."""
    ready = prepare(typed_case(cases_folder() / "bracken-revised" / "case.toml").case)
    plan = ready.buckling
    blocks = plan.blocks
    assert blocks.own.shape[0] > 2
    inside = blocks.own[blocks.own < plan.assembly.unknowns]
    assert np.sort(np.append(inside, blocks.between)).tolist() == list(range(plan.assembly.unknowns))
    assert not np.any(plan.amount[:, inside])
    which = np.full(plan.assembly.unknowns, -1)
    for n, own in enumerate(blocks.own):
        which[own[own < plan.assembly.unknowns]] = n
    matrix = plan.assembly.matrix(unloaded(ready.layout, plan, ready.bars, 1))[0]
    rows, columns = np.nonzero(matrix)
    between = (which[rows] < 0) | (which[columns] < 0)
    assert np.all(between | (which[rows] == which[columns]))
    agree(plan, unloaded(ready.layout, plan, ready.bars, 1), 2)


def test_designs_that_differ_in_a_few_segments():
    """Blocks alike in all designs are inverted once for all, the others for each."""
    ready = prepare(typed_case(cases_folder() / "bracken-revised" / "case.toml").case)
    plan = ready.buckling
    coefficient = np.repeat(unloaded(ready.layout, plan, ready.bars, 1), 3, axis=0)
    first, second = np.flatnonzero(plan.blocks.touched[:, 1])[:2]
    coefficient[1, first] *= 1.7
    coefficient[2, second, 2:] *= 0.6
    alike, varied = Flexibility.of(plan, coefficient).parts
    assert alike.give.shape[0] == 1
    assert varied.give.shape[0] == 3
    assert alike.own.shape[0] + varied.own.shape[0] == plan.blocks.own.shape[0]
    agree(plan, coefficient, 2)


def test_one_bar():
    """A cantilever by its end's movement, P L^3 / 3 EI + P L / GA: nothing there to part."""
    size = Size(youngs=2e5, shear=8e4, area=300.0, iy=2e4, iz=7e4, torsion=5e4)
    case = case_of({"a": (0, 0, 0), "b": (500, 0, 0)}, [member("m", "a", "b")], {"a": ALL})
    layout, bars = lay_out(case), bars_of(case, size)
    ready = plan_buckling(case, layout, pushes_of(case, {"b": (-1, 0, 0)}))
    force = np.zeros((1, ready.assembly.unknowns, 1))
    force[0, ready.assembly.unknowns - 4] = 7.0  # across, in z: the last six are x, y, z and the turns
    found = Flexibility.of(ready, unloaded(layout, ready, bars, 1)).moved(force)
    ga = float(bars.shear[0, 0] * bars.shear_z[0, 0])
    assert found[0, -4, 0] == pytest.approx(7.0 * (500.0**3 / (3 * 2e5 * 2e4) + 500.0 / ga), rel=1e-9)
