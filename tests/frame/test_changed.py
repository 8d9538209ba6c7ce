"""Designs that differ in a few parts, worked out from one frame: as each by itself, by elimination."""

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.case import read_case
from strength.case.shape import Bar, Box, Flat, Tube
from strength.frame.changed import FEW, MANY, changed
from strength.frame.layout import lay_out
from strength.frame.plan import plan
from strength.frame.solve import scaled_forces, solve, stiffness
from strength.library.data import cases_folder
from strength.studies.prepared import prepare
from tests.frame.random_frames import random_bars, random_case, random_pushes

DEMOS = sorted(path.parent.name for path in cases_folder().glob("*/case.toml"))
seeds = st.integers(0, 10**6)
several = settings(max_examples=25, deadline=None)
STIFF = ("area", "iy", "iz", "torsion", "shear_y", "shear_z")


def varied(rng, bars, numbers, designs, wide=10.0):
    """Bars of many designs: each figure of some of them its own way, up to `wide` times."""
    own = {}
    for name in STIFF:
        values = np.repeat(getattr(bars, name)[:1], designs, axis=0)
        values[:, numbers] *= wide ** rng.uniform(-0.5, 0.5, (designs, len(numbers)))
        own[name] = values
    return attrs.evolve(bars, **own)


def of_design(bars, number):
    """The bars of one design."""
    return attrs.evolve(bars, **{name: getattr(bars, name)[number : number + 1] for name in STIFF})


def hold(case, layout, ready, bars, pushes, tolerance):
    """All designs at once against each alone, in shares of the greatest figure of a kind."""
    together = solve(case, layout, bars, pushes, ready)
    assert together.alike is not None
    for design in range(bars.area.shape[0]):
        alone = solve(case, layout, of_design(bars, design), pushes, ready)
        for name, digits in (("forces", 1.0), ("displacements", 10.0), ("reactions", 1.0)):
            mine, one = getattr(together, name)[design], getattr(alone, name)[0]
            for kind in (slice(0, 3), slice(3, 6)):
                size = np.abs(one[..., kind]).max(initial=0.0)
                assert np.abs(mine - one)[..., kind].max(initial=0.0) <= digits * tolerance * size
    return together


@given(seeds)
@several
def test_random_frames(seed):
    """Skew frames with hinges, balls, rigid parts and struts; one or two bars varied in every figure."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    layout = lay_out(case)
    numbers = rng.choice(len(case.members), 2, replace=False)[: rng.integers(1, 3)]
    bars = varied(rng, random_bars(rng, case), numbers, MANY)
    hold(case, layout, plan(case, layout), bars, random_pushes(rng, case), 1e-9)


@pytest.mark.parametrize("name", DEMOS)
def test_shipped_cases(name):
    """Every shipped case under its own loads; what is told to be still is the same to the last bit."""
    ready = prepare(read_case(cases_folder() / name / "case.toml"))
    rng = np.random.default_rng(8)
    sized = (Tube, Bar, Box, Flat)  # figures of an outline do not go each their own way
    stressed = [n for n, shape in enumerate(ready.bars.shapes) if isinstance(shape, sized)]
    for number in rng.choice(stressed, min(3, len(stressed)), replace=False):
        bars = varied(rng, ready.bars, [number], MANY)
        segments = np.count_nonzero(ready.layout.bar == number)
        if 6 * segments > FEW or not np.any(bars.area[1:] != bars.area[:1]):
            continue
        found = hold(ready.case, ready.layout, ready.plan, bars, ready.pushes, 1e-12)
        still = found.forces[:, :, found.alike.still]
        assert np.all(still == still[:1])


def test_all_alike():
    """Where nothing varies, every segment is still."""
    ready = prepare(read_case(cases_folder() / "one-arm" / "case.toml"))
    bars = varied(np.random.default_rng(1), ready.bars, [], MANY)
    assert np.all(hold(ready.case, ready.layout, ready.plan, bars, ready.pushes, 1e-12).alike.still)


def test_a_determinate_part_is_still():
    """What one end of a part carries hangs on no size; what a loop of parts carries does."""
    rng = np.random.default_rng(4)
    ready = prepare(read_case(cases_folder() / "bracken" / "case.toml"))
    number = ready.bars.names.index("hoop-rear")
    bars = varied(rng, ready.bars, [number], MANY)
    found = solve(ready.case, ready.layout, bars, ready.pushes, ready.plan)
    names = np.array([ready.bars.names[n] for n in ready.layout.bar])
    assert np.all(found.alike.still[names == "stay.left"])  # to a wheel, held by nothing else
    assert not np.any(found.alike.still[names == "hoop-rear"])


def test_only_where_it_pays():
    """Few designs, many parts and loads of their own go the plain way."""
    rng = np.random.default_rng(5)
    case = random_case(rng)
    layout = lay_out(case)
    ready = plan(case, layout)
    forces = scaled_forces(ready.links, random_pushes(rng, case))
    bars = varied(rng, random_bars(rng, case), [1], MANY)
    many = stiffness(layout, ready.links, bars)
    assert changed(ready, many, forces) is not None
    assert changed(ready, many[: MANY - 1], forces) is None
    assert changed(ready, many, np.repeat(forces, MANY, axis=1)) is None
    every = stiffness(
        layout, ready.links, varied(rng, random_bars(rng, case), range(len(case.members)), MANY)
    )
    assert changed(ready, every, forces) is None
