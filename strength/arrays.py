"""Small functions on arrays, where numpy's own are slow to load or to call.

numpy's own do the same, but `np.unique` and `np.setdiff1d` load masked arrays (6 ms of a start), and
the others take 6 to 30 us a call, of which a run makes thousands on arrays of a few numbers.
"""

from collections.abc import Sequence
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from strength.values import evolve, fields

CACHED = 1 << 16  # numbers of an array that stays in a processor's cache (own choice from timing)
LONG = 1 << 9  # numbers from which a row is taken through at full speed
Number = TypeVar("Number", bound=np.generic)
Value = TypeVar("Value")


def distinct(values: NDArray[Number]) -> NDArray[Number]:
    """Each value of an array of any shape once, ascending (n,): `np.unique`.

    >>> distinct(np.array([7, 2, 7, 5]))
    array([2, 5, 7])
    """
    ordered = np.sort(values, axis=None)
    new = np.ones(ordered.size, dtype=bool)
    new[1:] = ordered[1:] != ordered[:-1]
    return ordered[new]


def numbered(values: NDArray[Any]) -> tuple[NDArray[Any], NDArray[np.intp]]:
    """Each value once, ascending, and for every value its number among them, in the shape given."""
    found = distinct(values)
    return found, np.searchsorted(found, values)


def others(count: int, taken: NDArray[np.intp]) -> NDArray[np.intp]:
    """The numbers from 0 to count - 1 that are not taken, ascending: `np.setdiff1d`.

    >>> others(5, np.array([3, -1, 0]))
    array([1, 2, 4])
    """
    return np.flatnonzero(~np.isin(np.arange(count), taken))


def few(count: int, each: int) -> list[slice]:
    """Slices over so many items of so many numbers each, that what is made of one stays in the cache.

    >>> few(5, CACHED // 2)
    [slice(0, 2, None), slice(2, 4, None), slice(4, 5, None)]
    """
    pieces = -(-count // max(1, CACHED // max(each, 1)))
    step = -(-count // max(pieces, 1)) or 1
    return [slice(at, min(at + step, count)) for at in range(0, count, step)]


def greatest(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Greatest size over the first axis (n, ...) to (...), nan where any is: `np.abs(values).max(axis=0)`.

    >>> greatest(np.array([[1.0, -4.0], [-3.0, 2.0]]))
    array([3., 4.])
    """
    flat = values.reshape(values.shape[0], -1)
    step = max(1, LONG // max(flat.shape[1], 1))
    whole = flat.shape[0] - flat.shape[0] % step
    top = np.zeros(flat.shape[1])
    for part in (flat[:whole].reshape(-1, step * flat.shape[1]), flat[whole:]):
        if part.shape[0]:
            sizes = np.maximum(part.max(axis=0), -part.min(axis=0)).reshape(-1, flat.shape[1])
            top = np.maximum(top, sizes.max(axis=0))
    return top.reshape(values.shape[1:])


def spread(values: NDArray[Number], shape: tuple[int, ...]) -> NDArray[Number]:
    """Values in a shape that they broadcast to, not to be written to: `np.broadcast_to`."""
    return values if values.shape == shape else np.broadcast_to(values, shape)


def behind(parts: Sequence[Value]) -> Value:
    """Values of arrays, all of one class, behind one another along the first axis."""
    if len(parts) == 1:
        return parts[0]
    names = [field.name for field in fields(type(parts[0]))]
    return evolve(
        parts[0], **{name: np.concatenate([getattr(part, name) for part in parts]) for name in names}
    )


def rows_of(value: Value, own: NDArray[Any] | slice) -> Value:
    """Some rows of every array of a value: numbers, flags or a slice."""
    return evolve(value, **{field.name: getattr(value, field.name)[own] for field in fields(type(value))})


def in_designs(values: NDArray[Number], own: NDArray[np.intp] | slice) -> NDArray[Number]:
    """Rows of some designs of values (designs or 1, ...); the one row of all stays.

    >>> in_designs(np.array([1.5, 2.5, 3.5]), np.array([2, 0])), in_designs(np.array([4.5]), np.array([2, 0]))
    (array([3.5, 1.5]), array([4.5]))
    """
    return values if values.shape[0] == 1 else values[own]


def settled(values: NDArray[Number]) -> list[NDArray[Number]]:
    """Columns of values (designs, n), each as one row (1,) where it is the same in all designs.

    >>> settled(np.array([[2.5, 1.0], [2.5, 3.5]]))
    [array([2.5]), array([1. , 3.5])]
    """
    one = (values == values[:1]).all(axis=0).tolist()
    return [values[:1, n] if same else values[:, n] for n, same in enumerate(one)]


def picked(values: NDArray[Number], number: NDArray[np.intp]) -> NDArray[Number]:
    """The one of each last axis at its number: (..., n) at (...) to (...), by `np.take_along_axis`.

    >>> picked(np.array([[1.5, 2.5], [3.5, 4.5]]), np.array([1, 0]))
    array([2.5, 3.5])
    """
    if values.shape[:-1] != number.shape:
        return np.take_along_axis(values, number[..., None], axis=-1)[..., 0]
    flat = values.reshape(number.size, -1)
    found: NDArray[Number] = flat[np.arange(number.size), number.reshape(-1)].reshape(number.shape)
    return found


def last_maxima(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Greatest along the last axis (..., n) to (...): `values.max(axis=-1)`, quicker where n is short.

    >>> last_maxima(np.array([[1.0, 4.0, 2.0], [3.0, -2.0, 5.0]]))
    array([4., 5.])
    """
    count = values.shape[-1]
    while count > 1:
        half = count // 2
        left = np.maximum(values[..., :half], values[..., half : 2 * half])
        if count % 2:
            np.maximum(left[..., 0], values[..., -1], out=left[..., 0])
        values, count = left, half
    return values[..., 0]


def cross(one: NDArray[np.float64], other: NDArray[np.float64]) -> NDArray[np.float64]:
    """Vector product of (..., 3) and (..., 3), which broadcast: `np.cross`."""
    x1, y1, z1 = one[..., 0], one[..., 1], one[..., 2]
    x2, y2, z2 = other[..., 0], other[..., 1], other[..., 2]
    found = np.empty(np.broadcast_shapes(one.shape, other.shape))
    found[..., 0] = y1 * z2 - z1 * y2
    found[..., 1] = z1 * x2 - x1 * z2
    found[..., 2] = x1 * y2 - y1 * x2
    return found


def run_maxima(values: NDArray[Number], first: NDArray[np.intp]) -> NDArray[Number]:
    """Greatest of each run of rows (rows, ...), a run from each of `first` to the next: (runs, ...).

    `np.maximum.reduceat` along the first axis, which takes each number by itself.

    >>> run_maxima(np.array([[1.5, 7.0], [2.5, 4.0], [0.5, 3.0]]), np.array([0, 2])).tolist()
    [[2.5, 7.0], [0.5, 3.0]]
    """
    count = np.diff(first, append=values.shape[0])
    found = values[first]
    for n in range(1, int(count.max(initial=0))):
        longer = np.flatnonzero(count > n)
        found[longer] = np.maximum(found[longer], values[first[longer] + n])
    return found
