"""Quadratic forms of the force per length that are compared along a weld's line."""

import numpy as np
from numpy.typing import NDArray

from strength.arrays import in_designs
from strength.values import evolve, frozen

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@frozen(kw_only=True, eq=False)
class Forms:
    """Forms that are compared, c_xx qx^2 + c_ss qs^2 + c_nn qn^2 + c_xn qx qn, times a scale.

    forms: (designs or 1, forms, pieces or 1, 4), each non-negative for every q. scales: (designs or 1,
    forms), such as 1/limit^2, or (designs, loads, forms) where they go with the load. sizes: likewise, what
    a form's value is multiplied by to be a stress squared; None: 1. each: so many loads behind one another
    have the same scales and sizes, which are given once.
    """

    forms: Array
    scales: Array
    sizes: Array | None = None
    each: int = 1

    def some(self, rows: slice) -> "Forms":
        """Some rows; what has one row for all stays as it is."""
        return evolve(
            self,
            forms=in_designs(self.forms, rows),
            scales=in_designs(self.scales, rows),
            sizes=None if self.sizes is None else in_designs(self.sizes, rows),
        )

    @property
    def even(self) -> bool:
        """Whether they are the same on all pieces."""
        return self.forms.shape[2] == 1 or bool((self.forms == self.forms[:, :, :1]).all())

    def only(self, kept: Index) -> "Forms":
        """Some of the forms; those that are the same on all pieces as of one."""
        return evolve(
            self,
            forms=self.shapes(kept),
            scales=self.scales[..., kept],
            sizes=None if self.sizes is None else self.sizes[..., kept],
        )

    def shapes(self, kept: Index) -> Array:
        """Some of the forms alone (designs or 1, kept, pieces or 1, 4); of one piece where all are alike."""
        forms = self.forms[:, kept]
        same = forms.shape[2] > 1 and bool((forms == forms[:, :, :1]).all())
        return forms[:, :, :1] if same else forms

    def of(self, row: Index, load: Index, form: Index) -> tuple[Array, Array]:
        """Scale and size of forms, each of a row and load (n,)."""
        load = load // self.each
        return _of(self.scales, row, load, form), (
            np.ones(1) if self.sizes is None else _of(self.sizes, row, load, form)
        )

    def by_load(self) -> "Forms":
        """The same, with scales and sizes given for every load."""
        if self.each == 1:
            return self
        return evolve(
            self,
            scales=np.repeat(self.scales, self.each, axis=1),
            sizes=None if self.sizes is None else np.repeat(self.sizes, self.each, axis=1),
            each=1,
        )

    def coefficients(self, row: Index, form: Index, piece: Index) -> Array:
        """Forms on pieces, each of a row: (n, 4)."""
        rows, _, pieces, _ = self.forms.shape
        return np.asarray(self.forms[np.minimum(row, rows - 1), form, np.minimum(piece, pieces - 1)])

    def stress(self, form: Index, height: Array) -> Array:
        """Stress squared of forms, scaled heights (rows, loads): over their limits, of their sizes."""
        row, load = np.arange(form.shape[0])[:, None], np.arange(form.shape[1])
        scale, size = self.of(row, load, form)
        return np.asarray(height / np.where(scale > 0.0, scale, 1.0) * size)

    def needed(self) -> Index:
        """Numbers of the forms that may be the greatest somewhere.

        One whose every coefficient times its scale is no more than that of another, in all designs, loads and
        pieces, never is; of two alike the first stays. Forms with a mixed part are all kept.
        """
        return self.governing(self.scales, self.scales)

    def governing(self, low: Array, high: Array) -> Index:
        """The same where scales are no more than known to lie between two, each as `scales`."""
        count = self.forms.shape[1]
        if np.any(self.forms[..., 3]):
            return np.arange(count)
        kept: list[int] = []
        for n in range(count):
            others = [*kept, *range(n + 1, count)]
            if not any(
                self._covers(other, n, low[..., other], high[..., n], strictly=other > n) for other in others
            ):
                kept.append(n)
        return np.array(kept, dtype=np.intp)

    def _covers(self, one: int, other: int, mine: Array, yours: Array, *, strictly: bool) -> bool:
        """Whether form `one` is nowhere less than `other`; strictly: and somewhere more."""
        gain = np.where(yours > 0.0, mine / np.where(yours > 0.0, yours, 1.0), np.inf)
        gain = gain if gain.ndim == 1 else gain.min(axis=1)
        left = self.forms[:, one] * np.where(np.isfinite(gain), gain, 0.0)[:, None, None]
        more = left >= self.forms[:, other] * np.isfinite(gain)[:, None, None]
        if not np.all(more):
            return False
        return not strictly or bool(np.any(left > self.forms[:, other]))


def _of(values: Array, row: Index, load: Index, form: Index) -> Array:
    """Of values (rows or 1, forms) or (rows, loads, forms), those of a row, load and form each."""
    row = np.minimum(row, values.shape[0] - 1)
    return np.asarray(values[row, form] if values.ndim == 2 else values[row, load, form])


def form_at(coefficients: Array, x: Array, s: Array, n: Array) -> Array:
    """Value of forms (..., 4) of force per length q_x, q_s, q_n (...)."""
    found: Array = coefficients[..., 0] * (x * x)
    found += coefficients[..., 1] * (s * s)
    found += coefficients[..., 2] * (n * n)
    mixed = coefficients[..., 3]
    if mixed.any():
        found += mixed * (x * n)
    return found
