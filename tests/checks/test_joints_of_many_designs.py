"""Joint checks over designs: two at once are each as one alone."""

import attrs
import numpy as np
import pytest

from strength.case.shape import Bar, Flat, Tube
from strength.checks.verdict import Verdict
from tests.checks.jointed import CHECKS, across_flat, arm, bolt, clamp, plate, size, sleeve, stud
from tests.checks.loaded import weld

ONE = np.array([[1500.0, 700.0, -2000.0, 9e3, 8e3, -4e3], [-400.0, 100.0, 900.0, -2e4, 1e3, 7e3]])
X, Y, Z = across_flat()
GROUP = (tuple(-10.0 * X + 5.0 * Z), tuple(3.0 * X - 20.0 * Z), tuple(12.0 * X + 18.0 * Z))
SEAM = (weld("seam", "arm", "to", inset=30.0),)


def covered(verdict: Verdict) -> np.ndarray:
    """Where a verdict is in its source's range (designs, loads)."""
    return np.ones(verdict.demand.shape, dtype=bool) if verdict.in_range is None else verdict.in_range


@pytest.mark.parametrize(
    ("shapes", "parts"),
    [
        (
            (Flat(60.0, 8.0), Flat(72.0, 11.0)),
            {"bolts": (bolt(plates=(plate(6.0), plate(5.0, "light")), shear_planes=2, gap=1.0),)},
        ),
        ((Flat(60.0, 6.0), Flat(72.0, 7.0)), {"bolts": (bolt(plates=(plate(5.0, "light"),), group=GROUP),)}),
        ((Bar(30.0), Bar(34.0)), {"bolts": (bolt("pin 12 mm", plates=(plate(6.0, "light"),)),)}),
        ((Bar(30.0), Bar(34.0)), {"studs": (stud(rating_radial=9e3, rating_axial=2e3),)}),
        (
            (Tube(40.0, 2.0), Tube(40.0, 2.6)),
            {"sleeves": (sleeve(bolt=size("M8"), grade="8.8"),), "clamps": (clamp(),)},
        ),
    ],
    ids=["two planes", "group", "pin", "stud", "sleeve and clamp"],
)
def test_each_as_alone(shapes, parts):
    """Sizes and forces both differ; light metal, heated."""
    alone = [
        arm(k * ONE, shape=shape, material="light", welds=SEAM, severities=("hard", "abuse"), **parts)
        for shape, k in zip(shapes, (1.0, 1.8), strict=True)
    ]
    first = alone[0]
    sized = {
        field.name: np.concatenate([getattr(context.bars, field.name) for context in alone])
        for field in attrs.fields(type(first.bars))
        if isinstance(getattr(first.bars, field.name), np.ndarray)
        and getattr(first.bars, field.name).ndim == 2
    }
    both = attrs.evolve(
        first,
        bars=attrs.evolve(first.bars, **sized),
        response=attrs.evolve(
            first.response, forces=np.concatenate([context.response.forces for context in alone])
        ),
    )
    seen = 0
    for check in CHECKS:
        for n, together in enumerate(check(both)):
            for d, context in enumerate(alone):
                single = list(check(context))[n]
                assert covered(together)[d].tolist() == covered(single)[0].tolist()
                for field in ("demand", "limit", "utilisation", "where"):
                    assert getattr(together, field)[d] == pytest.approx(getattr(single, field)[0]), field
                seen += 1
    assert seen >= 4
