"""Forces at places along bars, gathered at once, against the plain interpolation."""

import attrs
import numpy as np
import pytest

from strength.case.model import Case
from strength.case.shape import Tube
from strength.checks.along import forces_along
from strength.frame.layout import lay_out
from strength.frame.response import Response, at_places
from tests.checks.loaded import case_of, member

POINTS = {
    "a": (0.0, 0.0, 0.0),
    "b": (210.0, 28.0, -14.0),
    "c": (600.0, 80.0, -40.0),
    "d": (900.0, 120.0, -60.0),
    "e": (40.0, 700.0, 30.0),
}


def frame() -> Case:
    """Two bars, one cut at two via points."""
    parts = (
        member("arm", "a", "d", Tube(28.0, 2.0), via=("b", "c")),
        member("brace", "e", "d", Tube(22.0, 1.5)),
    )
    return case_of(POINTS, members=parts)


@pytest.mark.parametrize(("places", "responses"), [(1, 1), (4, 4), (4, 1)])
def test_as_interpolated(places: int, responses: int) -> None:
    """Ends, both sides of via points, inside segments; some in another segment in some designs."""
    layout = lay_out(frame())
    rng = np.random.default_rng(8)
    forces = rng.normal(size=(responses, 3, layout.bar.size, 2, 6)) * [5e3, 700.0, 900.0, 3e4, 8e4, 6e4]
    response = Response(
        displaced=lambda: np.zeros((responses, 3, 5, 6)),
        forces=forces,
        reactions=np.zeros((responses, 3, 0, 6)),
    )
    long, short = layout.bar_length
    cut = layout.along[0, 1]
    bar = np.array([0, 0, 0, 0, 0, 0, 1, 1, 1])
    later = np.array([0, 0, 1, 0, 0, 0, 0, 0, 0])
    place = np.tile([0.0, cut, cut, 0.37 * long, 0.62 * long, long, 0.0, 0.81 * short, short], (places, 1))
    place[:, 3] += np.linspace(-150.0, 190.0, places)
    place[:, 7] += np.linspace(0.0, 12.0, places)
    found = forces_along(layout, response, bar, place, later).transpose(3, 2, 1, 0)
    whole = attrs.evolve(response, forces=np.repeat(forces, places // responses, axis=0))
    expected = at_places(layout, whole, bar, place, later)
    np.testing.assert_allclose(found, expected, rtol=0.0, atol=1e-12 * np.abs(forces).max())
