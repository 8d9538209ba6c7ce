"""Designs worked off in parts, here or elsewhere: the same to the last bit."""

from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest

from strength.case import read_case
from strength.case.shape import Box, Tube
from strength.library.data import cases_folder
from strength.sections import Sizes, sizes_of
from strength.studies.evaluate import evaluate_sizes, shapes_of
from strength.studies.evaluated import Evaluated
from strength.studies.prepared import Prepared, prepare

DESIGNS = 23


@pytest.fixture(scope="module")
def ready() -> Prepared:
    """The trike that stays under its limits."""
    return prepare(read_case(cases_folder() / "bracken-revised" / "case.toml"))


def walls(ready: Prepared) -> Sizes:
    """All walls of hollow parts, each its own way."""
    shapes = shapes_of(ready.case)
    sizes = sizes_of([shapes] * DESIGNS)
    hollow = np.array([isinstance(shape, Tube | Box) for shape in shapes])
    factor = np.random.default_rng(6).uniform(0.9, 1.15, sizes.wall.shape)
    wall = np.where(hollow, sizes.wall * factor, sizes.wall)
    return Sizes(depth=sizes.depth, width=sizes.width, wall=wall)


def one_wall(ready: Prepared) -> Sizes:
    """The wall of one part."""
    every, own = walls(ready), ready.bars.names.index("brace.left")
    wall = np.repeat(every.wall[:1], DESIGNS, axis=0)
    wall[:, own] = every.wall[:, own]
    return Sizes(depth=every.depth, width=every.width, wall=wall)


def hold(one: Evaluated, other: Evaluated, tolerance: float) -> None:
    """The same rows, to so much of the greatest of each design."""
    assert one.names == other.names
    off = np.abs(one.utilisation - other.utilisation)
    assert np.all(off <= tolerance * one.worst[:, None])
    assert np.array_equal(one.covered, other.covered)


@pytest.mark.parametrize("sizes", [walls, one_wall])
def test_in_parts(ready: Prepared, sizes: object) -> None:
    """All at once, in parts and one at a time to 1e-12; parts here and on threads bit for bit."""
    assert callable(sizes)
    varied = sizes(ready)
    whole = evaluate_sizes(ready, varied)
    parts = evaluate_sizes(ready, varied, most=9)
    hold(whole, parts, 1e-12)
    hold(whole, evaluate_sizes(ready, varied, most=1), 1e-12)
    with ThreadPoolExecutor(2) as threads:
        hold(parts, evaluate_sizes(ready, varied, most=9, executor=threads), 0.0)
