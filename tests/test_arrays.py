"""The small functions on arrays, against the slower ones of numpy that they stand for."""

import hypothesis.extra.numpy as arrays
import hypothesis.strategies as st
import numpy as np
import pytest
from hypothesis import given
from numpy.typing import NDArray

from strength.arrays import (
    cross,
    distinct,
    few,
    greatest,
    last_maxima,
    numbered,
    others,
    picked,
    run_maxima,
    settled,
    spread,
)

SHAPES = arrays.array_shapes(min_dims=1, max_dims=3, min_side=0, max_side=6)
INTEGERS = arrays.arrays(np.intp, SHAPES, elements=st.integers(-3, 9))
FLOATS = arrays.arrays(np.float64, SHAPES, elements=st.sampled_from([-1.5, 0.0, 2.0, 2.5, np.inf]))


@given(INTEGERS | FLOATS)
def test_distinct(values: NDArray[np.float64]) -> None:
    """As `np.unique`, with the numbers in the shape given."""
    found, number = numbered(values)
    np.testing.assert_array_equal(distinct(values), np.unique(values))
    np.testing.assert_array_equal(found, np.unique(values))
    np.testing.assert_array_equal(found[number], values)


@given(st.integers(0, 9), INTEGERS)
def test_others(count: int, taken: NDArray[np.intp]) -> None:
    """As `np.setdiff1d`."""
    np.testing.assert_array_equal(others(count, taken), np.setdiff1d(np.arange(count), taken))


def test_cross_of_rising_shapes() -> None:
    """As `np.cross`, of vectors whose leading axes broadcast."""
    random = np.random.default_rng(3)
    one, other = random.normal(size=(4, 1, 3)), random.normal(size=(5, 3))
    np.testing.assert_allclose(cross(one, other), np.cross(one, other), rtol=1e-14)
    np.testing.assert_allclose(cross(one[0, 0], other[2]), np.cross(one[0, 0], other[2]), rtol=1e-14)


@pytest.mark.parametrize("shape", [(5, 3, 4), (1, 3, 4), (3, 4)])
def test_picked_along_the_last_axis(shape: tuple[int, ...]) -> None:
    """As `np.take_along_axis`, where leading axes are the same and where they broadcast."""
    random = np.random.default_rng(4)
    values, number = random.normal(size=shape), random.integers(0, 4, size=(5, 3))
    wide = np.broadcast_to(values, (5, 3, 4))
    wanted = np.take_along_axis(wide, number[..., None], axis=-1)[..., 0]
    if values.ndim == 3:
        np.testing.assert_array_equal(picked(values, number), wanted)
    np.testing.assert_array_equal(picked(wide, number), wanted)


def test_spread_over_new_axes() -> None:
    """As `np.broadcast_to`; nothing is copied where nothing is to be done."""
    values = np.array([[1.0, 2.0]])
    assert spread(values, (1, 2)) is values
    np.testing.assert_array_equal(spread(values, (3, 2)), [[1.0, 2.0]] * 3)


@given(st.lists(st.integers(1, 7), min_size=1, max_size=6), st.integers(1, 4))
def test_run_maxima(counts: list[int], width: int) -> None:
    """As `np.maximum.reduceat` along the first axis."""
    first = np.cumsum([0, *counts[:-1]], dtype=np.intp)
    values = np.random.default_rng(sum(counts)).normal(size=(sum(counts), width, 3))
    np.testing.assert_array_equal(run_maxima(values, first), np.maximum.reduceat(values, first, axis=0))


@pytest.mark.parametrize("shape", [(1, 3), (700, 2, 7), (513, 1), (4, 2000)])
def test_greatest(shape: tuple[int, ...]) -> None:
    """As the greatest of `np.abs`; no number where one is none."""
    values = np.random.default_rng(5).normal(size=shape)
    np.testing.assert_array_equal(greatest(values), np.abs(values).max(axis=0))
    values[-1, ..., -1] = np.nan
    np.testing.assert_array_equal(greatest(values), np.abs(values).max(axis=0))


@given(st.integers(0, 500), st.integers(0, 200_000))
def test_few(count: int, each: int) -> None:
    """Slices cover all items in turn, as evenly as may be."""
    covered = [np.arange(count)[some] for some in few(count, each)]
    np.testing.assert_array_equal(np.concatenate([np.zeros(0, dtype=int), *covered]), np.arange(count))
    sizes = [some.size for some in covered]
    assert all(size == sizes[0] or n == len(sizes) - 1 for n, size in enumerate(sizes))
    assert all(size == 1 or size * each <= 1 << 16 for size in sizes)


@given(arrays.arrays(np.float64, arrays.array_shapes(min_dims=1, max_dims=3, min_side=1, max_side=9)))
def test_last_maxima(values: NDArray[np.float64]) -> None:
    """As `np.max` along the last axis, numbers that are none included."""
    np.testing.assert_array_equal(last_maxima(values), values.max(axis=-1))


@given(arrays.arrays(np.intp, st.tuples(st.integers(1, 4), st.integers(0, 5)), elements=st.integers(0, 1)))
def test_settled(values: NDArray[np.intp]) -> None:
    """One row of a column that is alike; others stay."""
    found = settled(values)
    assert len(found) == values.shape[1]
    for column, own in zip(values.T, found, strict=True):
        assert own.size == (1 if len(set(column.tolist())) == 1 else column.size)
        np.testing.assert_array_equal(np.broadcast_to(own, column.shape), column)
