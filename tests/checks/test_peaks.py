"""Stresses at stations: one design or many, only where a worst place may be."""

import attrs
import hypothesis.extra.numpy as arrays
import hypothesis.strategies as st
import numpy as np
from hypothesis import given, settings
from numpy.typing import NDArray

from strength.case.model import Hole, Shoulder, Support
from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.context import Context
from strength.checks.divisors import yield_divisors
from strength.checks.factors import factors_for
from strength.checks.section_groups import station_matrix
from strength.checks.stations import place_stations
from strength.checks.yielding import rupture, yielding
from strength.frame.response import Response
from strength.sections import resized
from tests.checks.loaded import case_of, context_of, member, weld

POINTS = {"a": (0.0, 0.0, 0.0), "b": (300.0, 40.0, -20.0), "c": (900.0, 120.0, -60.0)}
SHAPES = {
    "tube": Tube(28.0, 2.0),
    "bar": Bar(16.0),
    "box": Box(40.0, 25.0, 2.0),
    "flat": Flat(50.0, 8.0),
    "lying": Flat(6.0, 40.0),
}


def loaded(seed: int, count: int) -> Context:
    """Every kind of section, with a via point, a weld, a hole and a shoulder, under chance forces."""
    rng = np.random.default_rng(seed)
    parts = tuple(member(name, "a", "c", shape, "light", via=("b",)) for name, shape in SHAPES.items())
    case = case_of(
        POINTS,
        members=parts,
        supports=(Support(name="a", at="a", hold=(True,) * 6),),
        welds=tuple(weld(f"w {name}", name, "to", inset=12.0) for name in SHAPES),
        holes=(Hole(name="bore", member="flat", along=0.6, diameter=14.0, off_centre=5.0),),
        shoulders=(Shoulder(name="step", member="bar", end="from", inset=5.0, larger=20.0, fillet=1.0),),
    )
    scale = np.array([6e3, 1e3, 2e3, 4e4, 9e4, 5e4]) * 10.0 ** rng.uniform(-2.0, 0.0, size=(count, 2, 6))
    ends = {name: (rng.normal(size=(count, 2, 6)) * scale).tolist() for name in SHAPES}
    return context_of(case, ends, ["routine"] * count)


def test_what_is_skipped_cannot_govern() -> None:
    """Worst stress over strength of each part, with every station worked out one by one."""
    context = loaded(3, 60)
    stations, bars = context.stations, context.bars
    every = np.stack(
        [
            station_matrix(context.case, bars, int(b), stations.gaps[n], int(stations.shoulder[n])).von_mises(  # type: ignore[union-attr]
                stations.forces[:, :, n]
            )
            for n, b in enumerate(stations.bar)
        ],
        axis=-1,
    )
    for check, strength in ((yielding, stations.yield_), (rupture, stations.ultimate)):
        for verdict in check(context):
            own = stations.of(bars.names.index(verdict.part))
            expected = (every[:, :, own] / strength[:, None, own]).max(axis=-1)
            divisor = {"yielding": 1.67, "rupture": 2.0}[verdict.kind]
            assert np.allclose(verdict.utilisation, expected * divisor, rtol=1.5e-3)
    assert (stations.peak <= every * (1.0 + 1.5e-3)).all()


def test_many_designs() -> None:
    """Each design of a batch has the rows it has alone."""
    context = loaded(5, 7)
    factors = (1.0, 0.93, 1.08)
    designs = [
        [
            Tube(28.0, 2.0 * k),
            Bar(16.0 * k),
            Box(40.0, 25.0, 2.0 * k),
            Flat(50.0, 8.0 * k),
            Flat(6.0 * k, 40.0),
        ]
        for k in factors
    ]
    bars = resized(context.bars, context.case.basis, designs)
    forces = np.concatenate([context.response.forces * k for k in (1.0, 1.3, 0.8)])
    response = Response(
        displaced=lambda: np.zeros((3, 7, 3, 6)), forces=forces, reactions=np.zeros((3, 7, 1, 6))
    )
    together = attrs.evolve(
        context,
        bars=bars,
        response=response,
        stations=place_stations(context.case, context.layout, bars, response, ()),
        amplified=np.ones((3, 7)),
    )
    for n, shapes in enumerate(designs):
        own = resized(context.bars, context.case.basis, [shapes])
        alone = attrs.evolve(response, forces=forces[n : n + 1])
        one = attrs.evolve(
            context, bars=own, stations=place_stations(context.case, context.layout, own, alone, ())
        )
        for check in (yielding, rupture):
            for many, single in zip(check(together), check(one), strict=True):
                assert np.allclose(many.utilisation[n], single.utilisation[0], rtol=1e-3)


FORCES = arrays.arrays(
    np.float64, (2, 6, 10, 2, 6), elements=st.sampled_from([0.0, -1.0, 0.02, 0.3, -0.5, 0.71, 1.0, -0.003])
)


@settings(max_examples=40)
@given(FORCES)
def test_loads_that_are_skipped_cannot_govern(chance: NDArray[np.float64]) -> None:
    """Where only the worst over the loads is asked for, it is the worst of all that are worked out."""
    context = loaded(4, 6)
    factors = factors_for(context.case.basis, ("routine", "abuse", "hard", "abuse", "routine", "hard"))
    bars = resized(context.bars, context.case.basis, [tuple(SHAPES.values())] * 2)
    response = attrs.evolve(context.response, forces=chance * [6e3, 1e3, 2e3, 4e4, 9e4, 5e4])
    stations, brief = (
        place_stations(context.case, context.layout, bars, response, (), brief=asked)
        for asked in (None, factors)
    )
    divisor = yield_divisors(context.case, bars, factors)[stations.bar].transpose(2, 1, 0)
    for strength, by in ((stations.yield_, divisor), (stations.ultimate, factors.on_ultimate()[:, None])):
        all_, few = (each.peak * by / strength[:, None] for each in (stations, brief))
        assert (few <= all_ * (1.0 + 1.5e-4)).all()  # points round a section miss its peak, a bound may not
        for number in range(len(SHAPES)):
            own = stations.of(number)
            worst, told = (each[..., own].max(axis=(1, 2)) for each in (all_, few))
            np.testing.assert_allclose(told, worst, rtol=1e-9)
