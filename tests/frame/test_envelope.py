"""Large frames within their envelope, and forces summed point by point, against plain dense ways."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.frame.assembly import Assembly, Block
from strength.frame.envelope import narrow
from strength.frame.factor import factorise
from strength.frame.layout import lay_out
from strength.frame.links import link
from strength.frame.plan import plan
from strength.frame.pulls import plan_pulls
from strength.frame.recovery import deformation
from strength.frame.solve import stiffness
from tests.bench.large import lattice
from tests.frame.random_frames import random_bars, random_case

seeds = st.integers(0, 10**6)
several = settings(max_examples=15, deadline=None)


def chained(rng, segments, width, unknowns):
    """Random segments that tie neighbouring unknowns together, as in a long frame; some columns held."""
    start = rng.integers(0, unknowns - width, segments)
    number = np.array([rng.permutation(n + np.arange(width)) for n in start])
    number[rng.random(number.shape) < 0.1] = -1
    vec = rng.normal(size=(segments, 6, width)) * (number >= 0)[:, None]
    ends = Block(segment=np.arange(segments), number=number, vec=vec)
    all_held = np.arange(unknowns).reshape(-1, 2)
    ground = Block(
        segment=segments + np.arange(len(all_held)),
        number=all_held,
        vec=rng.normal(size=(len(all_held), 6, 2)),
    )
    owner = np.arange(unknowns) // 3
    return Assembly(blocks=(ends, ground), unknowns=unknowns, owner=owner)


@given(seeds)
@several
def test_solves_as_lapack_does(seed):
    """Panels of 48 columns, the last one narrower, of random segments: numpy's dense solver."""
    rng = np.random.default_rng(seed)
    assembly = chained(rng, segments=260, width=7, unknowns=int(rng.integers(60, 140)) * 2)
    coefficient = rng.uniform(0.5, 2.0, (260 + assembly.unknowns // 2, 6))
    loads = rng.normal(size=(assembly.unknowns, 3))
    matrix = assembly.matrix(coefficient[None])[0]
    envelope = narrow(assembly)
    factor = factorise(envelope, envelope.fill(coefficient))
    assert 0.0 < factor.pivot <= 1.0
    expected = np.linalg.solve(matrix, loads)
    assert np.abs(factor.solve(loads) - expected).max() <= 1e-9 * np.abs(expected).max()
    least = np.min(
        np.diagonal(np.linalg.cholesky(matrix[np.ix_(envelope.order, envelope.order)])) ** 2
        / np.diagonal(matrix)[envelope.order]
    )
    assert factor.pivot == pytest.approx(least, rel=1e-6)


def test_no_factor_of_an_indefinite_matrix():
    """A segment that pushes more than it is pushed leaves the matrix indefinite: pivot 0."""
    rng = np.random.default_rng(6)
    assembly = chained(rng, segments=260, width=7, unknowns=150)
    coefficient = rng.uniform(0.5, 2.0, (260 + 75, 6))
    coefficient[17] = -900.0
    envelope = narrow(assembly)
    assert np.linalg.eigvalsh(assembly.matrix(coefficient[None])[0])[0] < 0.0
    assert factorise(envelope, envelope.fill(coefficient)).pivot == 0.0


def test_the_matrix_by_plain_loops():
    """Second way: each segment's matrix added freedom by freedom."""
    rng = np.random.default_rng(8)
    case = random_case(rng)
    layout = lay_out(case)
    ready = plan(case, layout)
    coefficient = stiffness(layout, ready.links, random_bars(rng, case, designs=2))
    expected = np.zeros((2, ready.reduction.unknowns, ready.reduction.unknowns))
    for block in ready.assembly.blocks:
        for segment, number, vec in zip(block.segment, block.number, block.vec, strict=True):
            for i, row in enumerate(number):
                for j, column in enumerate(number):
                    if row >= 0 and column >= 0:
                        product = coefficient[:, segment] * vec[:6, i] * vec[:6, j]
                        expected[:, row, column] += product.sum(axis=1)
    assert ready.assembly.matrix(coefficient) == pytest.approx(expected, rel=1e-12, abs=1e-9)


def test_a_tower_stands_level_by_level():
    """From its feet up, 4 x 4 points a level: no column reaches further than one level and one point."""
    case = lattice((4, 4, 30))
    envelope = narrow(plan(case, lay_out(case)).assembly)
    reach = [panel.last - panel.end for panel in envelope.panels]
    assert max(reach) <= 6 * 17
    assert sorted(envelope.order.tolist()) == list(range(16 * 29 * 6))


@given(seeds)
@several
def test_pulls_and_strains_by_plain_loops(seed):
    """Second way: freedom by freedom, of all segments and of some."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    layout = lay_out(case)
    links = link(case, layout)
    some = np.sort(rng.permutation(layout.bar.size)[:5])
    moves = rng.normal(size=(links.freedoms, 2, 3))
    strains = deformation(links, moves)
    for chosen in (np.arange(layout.bar.size), some):
        force = rng.normal(size=(chosen.size, 6, 2, 3))
        expected = np.zeros((links.freedoms, 2, 3))
        for own, s in zip(force, chosen, strict=True):
            strain = np.zeros((6, 2, 3))
            for column, freedom in enumerate(links.freedom[s]):
                if freedom >= 0:
                    vec = links.vec[s, :6, column]
                    expected[freedom] += np.einsum("p,pdl->dl", vec, own)
                    strain += vec[:, None, None] * moves[freedom]
            assert strains[s] == pytest.approx(strain, rel=1e-12, abs=1e-12)
        assert plan_pulls(links, chosen).summed(force) == pytest.approx(expected, rel=1e-12, abs=1e-12)
