"""Laws of the balance: what must hold whatever the vehicle."""

from random import Random

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strength.case.model import Case, Load
from strength.vehicle import balance, into_structure
from tests.vehicle.build import mass, point
from tests.vehicle.strategies import vehicles


def _mirrored(case: Case) -> Case:
    def flip(at: tuple[float, float, float]) -> tuple[float, float, float]:
        return (at[0], -at[1], at[2])

    return attrs.evolve(
        case,
        points=tuple(attrs.evolve(p, at=flip(p.at)) for p in case.points),
        masses=tuple(attrs.evolve(m, at=flip(m.at)) for m in case.masses),
        loads=tuple(attrs.evolve(x, cornering=-x.cornering) for x in case.loads),
    )


@settings(max_examples=60, deadline=None)
@given(vehicles())
def test_mirrored_vehicle_has_mirrored_forces(case: Case) -> None:
    """Left and right exchanged, turn reversed: X and Z alike, Y and lean reversed."""
    (one,), (other,) = balance(case), balance(_mirrored(case))
    assert other.lean == -one.lean
    assert other.scaled_to == pytest.approx(one.scaled_to, rel=1e-11)
    size = sum(m.mass for m in case.masses) * 10.0
    for a, b in zip(one.wheels, other.wheels, strict=True):
        assert b.force == pytest.approx((a.force[0], -a.force[1], a.force[2]), abs=1e-8 * size)


@settings(max_examples=60, deadline=None)
@given(vehicles(), st.floats(0.2, 7.0))
def test_heavier_alike_scales_forces(case: Case, factor: float) -> None:
    """All masses times k: the same accelerations tip it, all forces times k."""
    heavy = attrs.evolve(case, masses=tuple(attrs.evolve(m, mass=factor * m.mass) for m in case.masses))
    (one,), (other,) = balance(case), balance(heavy)
    assert other.scaled_to == pytest.approx(one.scaled_to, rel=1e-11)
    size = sum(m.mass for m in heavy.masses) * 10.0
    for a, b in zip(one.wheels, other.wheels, strict=True):
        assert b.force == pytest.approx([factor * v for v in a.force], abs=1e-8 * size)


@settings(max_examples=60, deadline=None)
@given(vehicles(), st.randoms(use_true_random=False))
def test_order_does_not_matter(case: Case, random: Random) -> None:
    """Wheels and masses in another order: the same force at each wheel."""
    wheels, masses = list(case.wheels), list(case.masses)
    random.shuffle(wheels)
    random.shuffle(masses)
    (one,) = balance(case)
    (other,) = balance(attrs.evolve(case, wheels=tuple(wheels), masses=tuple(masses)))
    by_name = {w.name: w for w in other.wheels}
    size = sum(m.mass for m in case.masses) * 10.0
    for w in one.wheels:
        assert by_name[w.name].force == pytest.approx(w.force, abs=1e-8 * size)
        assert by_name[w.name].lifts is w.lifts


@settings(max_examples=40, deadline=None)
@given(vehicles(leaning=False), st.floats(-800.0, 800.0), st.floats(-300.0, 300.0))
def test_origin_along_x_and_z_is_free(case: Case, along: float, up: float) -> None:
    """The whole vehicle moved along x and z: nothing changes."""

    def moved(at: tuple[float, float, float]) -> tuple[float, float, float]:
        return (at[0] + along, at[1], at[2] + up)

    other_case = attrs.evolve(
        case,
        points=tuple(attrs.evolve(p, at=moved(p.at)) for p in case.points),
        masses=tuple(attrs.evolve(m, at=moved(m.at)) for m in case.masses),
    )
    (one,), (other,) = balance(case), balance(other_case)
    size = sum(m.mass for m in case.masses) * 10.0
    assert other.scaled_to == pytest.approx(one.scaled_to, rel=1e-10)
    for a, b in zip(one.wheels, other.wheels, strict=True):
        assert b.force == pytest.approx(a.force, abs=1e-7 * size)


@settings(max_examples=40, deadline=None)
@given(vehicles(), st.floats(1.05, 4.0))
def test_asking_for_more_gives_the_same_limit(case: Case, factor: float) -> None:
    """A load that tips, asked k times as hard along the same line, ends at the same accelerations."""
    (one,) = balance(case)
    (ask,) = case.loads
    harder = attrs.evolve(
        ask, braking=factor * ask.braking, driving=factor * ask.driving, cornering=factor * ask.cornering
    )
    (other,) = balance(attrs.evolve(case, loads=(harder,)))
    assert other.scaled_to * factor >= one.scaled_to * (1.0 - 1e-10)
    if one.scaled_to < 1.0:
        assert other.scaled_to * factor == pytest.approx(one.scaled_to, rel=1e-10, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(vehicles(leaning=False))
def test_loads_stand_alone(case: Case) -> None:
    """A load beside others, in any place of the list, reaches the structure as it does alone."""
    points = (*case.points, point("p", 610.0, 40.0, 300.0), point("q", 200.0, -150.0, 320.0))
    masses = tuple(mass(m.name, m.mass, m.at, carried_by=("q", "p"), gyration=80.0) for m in case.masses)
    (load,) = case.loads
    other = Load(name="bump", vertical=2.2)
    many = attrs.evolve(case, points=points, masses=masses, loads=(other, load))
    alone = attrs.evolve(many, loads=(load,))
    got, want = into_structure(many, balance(many)), into_structure(alone, balance(alone))
    assert got.forces[1] == pytest.approx(want.forces[0], rel=1e-12, abs=1e-9)
    assert got.gauge == pytest.approx(want.gauge)
    assert np.isfinite(got.forces).all()
