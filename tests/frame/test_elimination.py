"""Eliminating point after point gives what LAPACK's dense solver gives, design by design."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.case import read_case
from strength.errors import SolveError
from strength.frame.elimination import eliminate
from strength.frame.layout import lay_out
from strength.frame.ordering import bits, group_nodes
from strength.frame.plan import plan
from strength.frame.solve import scaled_forces, stiffness
from strength.library.data import cases_folder
from strength.studies.prepared import prepare
from tests.frame.random_frames import random_bars, random_case, random_pushes

DEMOS = sorted(path.parent.name for path in cases_folder().glob("*/case.toml"))
seeds = st.integers(0, 10**6)
several = settings(max_examples=25, deadline=None)


def close(found, expected):
    """Movements (designs, unknowns, loads) equal to 1e-9 of the greatest in each load."""
    size = np.abs(expected).max(axis=1, keepdims=True, initial=0.0)
    assert found.shape == expected.shape
    assert np.all(np.abs(found - expected) <= 1e-9 * size)


def solved(fronts, coefficient, loads):
    """Unknowns of all designs."""
    return eliminate(fronts, coefficient, loads).unknowns


def dense(ready, coefficient, loads):
    """The plain way: the whole matrix of every design."""
    return np.linalg.solve(ready.assembly.matrix(coefficient), loads)


@given(seeds, st.booleans())
@several
def test_random_frames(seed, free):
    """Skew frames with hinges, balls, rigid parts and struts; loads alike in all designs or not."""
    rng = np.random.default_rng(seed)
    case = random_case(rng, free=free)
    layout = lay_out(case)
    ready = plan(case, layout)
    coefficient = stiffness(layout, ready.links, random_bars(rng, case, designs=3))
    forces = scaled_forces(ready.links, random_pushes(rng, case))
    loads = ready.reduction.gather(forces).transpose(1, 0, 2)
    close(solved(ready.fronts, coefficient, loads), dense(ready, coefficient, loads))
    own = loads * np.array([1.0, -0.3, 2.7])[:, None, None] + rng.normal(size=(3, *loads.shape[1:]))
    close(solved(ready.fronts, coefficient, own), dense(ready, coefficient, own))
    close(solved(ready.fronts, coefficient[1:2], own), dense(ready, coefficient[1:2], own))


@given(seeds)
@several
def test_few_members_differ(seed):
    """Fronts alike in all designs are worked out once: each design as by itself, but for the last bits."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    layout = lay_out(case)
    ready = plan(case, layout)
    one = stiffness(layout, ready.links, random_bars(rng, case))
    coefficient = np.repeat(one, 5, axis=0)
    coefficient[:, rng.integers(layout.bar.size)] *= rng.uniform(0.3, 3.0, (5, 1))
    loads = rng.normal(size=(1, ready.reduction.unknowns, 3))
    found = solved(ready.fronts, coefficient, loads)
    close(found, dense(ready, coefficient, loads))
    for n in range(5):
        alone = solved(ready.fronts, coefficient[n : n + 1], loads)
        size = np.abs(alone).max(axis=1, keepdims=True)
        assert np.all(np.abs(found[n : n + 1] - alone) <= 1e-11 * size)


@pytest.mark.parametrize("name", DEMOS)
def test_shipped_cases(name):
    """Every shipped case under its own loads, its members' stiffness varied part by part."""
    ready = prepare(read_case(cases_folder() / name / "case.toml"))
    one = stiffness(ready.layout, ready.plan.links, ready.bars)
    coefficient = one * np.random.default_rng(3).uniform(0.7, 1.4, (5, *one.shape[1:]))
    forces = scaled_forces(ready.plan.links, ready.pushes)
    loads = ready.plan.reduction.gather(forces).transpose(1, 0, 2)
    close(solved(ready.plan.fronts, coefficient, loads), dense(ready.plan, coefficient, loads))


def test_singular():
    """Members without stiffness leave a front singular, which is told."""
    case = random_case(np.random.default_rng(2))
    ready = plan(case, lay_out(case))
    loads = np.ones((1, ready.reduction.unknowns, 2))
    with pytest.raises(SolveError, match="singular"):
        eliminate(ready.fronts, np.zeros((2, ready.links.freedom.shape[0], 6)), loads)


def joined(count, pairs):
    """Bits of the neighbours of each node."""
    out = [0] * count
    for one, other in pairs:
        out[one] |= 1 << other
        out[other] |= 1 << one
    return out


def test_a_tree_fills_nothing():
    """A tree has a perfect elimination order (Parter 1961, from memory): no node is joined to two others."""
    rng = np.random.default_rng(4)
    name = rng.permutation(40).tolist()
    pairs = [(name[n], name[int(rng.integers(n))]) for n in range(1, 40)]
    groups = group_nodes(joined(40, pairs), [50] * 40)
    assert sorted(node for group in groups for node in group.own) == list(range(40))
    assert all(len(group.own) == 1 and len(group.border) <= 1 for group in groups)


@given(seeds)
def test_borders_are_what_elimination_joins(seed):
    """Second way: fill by Boolean elimination in the same order (George & Liu 1981, from memory)."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(2, 25))
    pairs = [(int(a), int(b)) for a, b in rng.integers(count, size=(2 * count, 2)) if a != b]
    size = rng.integers(1, 7, count).tolist()
    groups = group_nodes(joined(count, pairs), size)
    matrix = np.eye(count, dtype=bool)
    for one, other in pairs:
        matrix[one, other] = matrix[other, one] = True
    parent = {child: n for n, group in enumerate(groups) for child in group.children}
    gone = []
    for n, group in enumerate(groups):
        border = set()
        for node in group.own:
            gone.append(node)
            around = [k for k in np.flatnonzero(matrix[node]).tolist() if k not in gone]
            matrix[np.ix_(around, around)] = True
            border.update(around)
        assert set(group.border) == border - set(group.own)
        assert (n in parent) == bool(group.border)
        if group.border:
            assert n < parent[n]
            assert set(group.border) <= {*groups[parent[n]].own, *groups[parent[n]].border}
    assert sorted(gone) == list(range(count))


def test_bits():
    """Against Python's own binary digits."""
    mask = 0b1011_0000_0000_0001_0110
    assert list(bits(mask)) == [n for n, digit in enumerate(reversed(f"{mask:b}")) if digit == "1"]
