"""The different values of an array, against numpy's own slower-to-load functions."""

import hypothesis.extra.numpy as arrays
import hypothesis.strategies as st
import numpy as np
from hypothesis import given
from numpy.typing import NDArray

from strength.distinct import distinct, numbered, others

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
