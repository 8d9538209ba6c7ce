"""Sums of internal forces at places, against the forces themselves at the same places."""

import numpy as np
import pytest

from strength.case.model import Member
from strength.case.shape import Tube
from strength.frame.layout import lay_out
from strength.frame.response import Layout, Response, at_places
from strength.frame.sums import sums_at
from tests.checks.loaded import case_of

LOADS, DESIGNS = 3, 4


def bent_bars() -> Layout:
    """A bar with a via point at 170 mm of 400 mm, and a plain one of 350 mm."""
    points = {"a": (0.0, 0.0, 0.0), "b": (0.0, 170.0, 0.0), "c": (0.0, 400.0, 0.0), "d": (350.0, 400.0, 0.0)}
    spine = Member(name="spine", start="a", end="c", via=("b",), shape=Tube(30.0, 2.5), material="steel")
    arm = Member(name="arm", start="c", end="d", shape=Tube(25.0, 2.0), material="steel")
    return lay_out(case_of(points, members=(spine, arm)))


def forces(layout: Layout, designs: int, *, turned: bool) -> Response:
    """Any forces, laid out in memory either way."""
    values = np.random.default_rng(11).normal(size=(designs, LOADS, layout.bar.size, 2, 6))
    if turned:
        values = np.ascontiguousarray(values.transpose(2, 3, 4, 0, 1)).transpose(3, 4, 0, 1, 2)
    return Response(displaced=lambda: np.zeros(0), forces=values, reactions=np.zeros(0))


PLACES = {
    "alike": [[170.0, 170.0, 55.0, 400.0, 31.0]],
    "sliding": [[170.0, 170.0, 55.0 + n, 400.0, 31.0 - 2.0 * n] for n in range(DESIGNS)],
    "past a via point": [[150.0 + 15.0 * n, 170.0, 55.0, 400.0, 0.0] for n in range(DESIGNS)],
}


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize(
    ("name", "designs"), [(name, DESIGNS) for name in PLACES] + [("alike", 1), ("sliding", 1)]
)
def test_as_summed_afterwards(name: str, designs: int, *, turned: bool) -> None:
    """Linear algebra: rows times what `at_places` gives."""
    layout, place = bent_bars(), np.array(PLACES[name])
    response = forces(layout, designs, turned=turned)
    bar, later = np.array([0, 0, 0, 0, 1]), np.array([0, 1, 0, 0, 1])
    rows = np.random.default_rng(23).normal(size=(bar.size, 2, 6))
    found = sums_at(layout, response, bar, place, later, rows)
    inside = at_places(layout, response, bar, place, later)
    np.testing.assert_allclose(found, np.einsum("psi,dlpi->psld", rows, inside), rtol=1e-12, atol=1e-12)
