"""Laws of free bodies and of critical multipliers, on random frames of every kind of part."""

import attrs
import numpy as np
import pytest
from hypothesis import given

from strength.frame.buckling import at_least, critical_multiplier
from strength.frame.layout import lay_out
from tests.frame.building import ALL, even_gauge
from tests.frame.random_frames import random_bars, random_case, random_pushes, turned
from tests.frame.test_laws import answer, close, seeds, several, turn_of


def balanced(rng, case, loads=3):
    """Loads whose resultant is zero: the last point takes what is left of force and moment."""
    pushes = random_pushes(rng, case, loads, even_gauge(case))
    places = np.array([p.at for p in case.points])
    forces = pushes.forces.copy()
    forces[:, -1, :3] -= forces[..., :3].sum(1)
    forces[:, -1, 3:] -= forces[..., 3:].sum(1) + np.cross(places, forces[..., :3]).sum(1)
    return attrs.evolve(pushes, forces=forces)


@given(seeds)
@several
def test_free_body_equals_determinate_supports(seed):
    """In free flight internal forces are those on six statically determinate holds; the gauge is met."""
    rng = np.random.default_rng(seed)
    case = random_case(rng, free=True)
    bars, pushes = random_bars(rng, case, designs=2), balanced(rng, case)
    free = answer(case, bars, pushes)
    names = [p.name for p in case.points]
    held = random_case(np.random.default_rng(seed)).supports[0]
    on_point = attrs.evolve(case, supports=(attrs.evolve(held, at=names[3], hold=ALL),))
    stood = answer(on_point, bars, attrs.evolve(pushes, gauge=None))
    close(free.forces, stood.forces)
    assert np.abs(stood.reactions).max() < 1e-6 * np.abs(pushes.forces).max()
    size = np.abs(pushes.gauge).max() * np.abs(free.displacements).max()
    zero = np.einsum("gpk,dlpk->dlg", pushes.gauge, free.displacements)
    assert zero == pytest.approx(np.zeros_like(zero), abs=1e-9 * size)
    # The two differ by a rigid movement: distances between points change alike.
    here, there = free.displacements[..., :3], stood.displacements[..., :3]
    places = np.array([p.at for p in case.points])
    for a, b in ((0, 5), (2, 7)):
        line = places[b] - places[a]
        stretch = (here[:, :, b] - here[:, :, a]) @ line
        assert stretch == pytest.approx(
            (there[:, :, b] - there[:, :, a]) @ line, abs=1e-7 * np.abs(there).max() * 1000
        )


@pytest.mark.parametrize("carriers", [["p0"], ["p0", "p3"], ["p0", "p1", "p5"]])
def test_gauge_of_few_masses(carriers):
    """One or two masses leave turning unseen: the gauge still holds, and the points move least about it.

    Least: no small further turn about the masses lowers the sum of squared displacements.
    """
    rng = np.random.default_rng(11)
    case = random_case(rng, free=True)
    bars, pushes = random_bars(rng, case), balanced(rng, case)
    places = np.array([p.at for p in case.points])
    at = [[p.name for p in case.points].index(name) for name in carriers]
    gauge = np.zeros((6, len(places), 6))
    for n, weight in zip(at, (40.0, 25.0, 70.0), strict=False):
        for k, axis in enumerate(np.eye(3)):
            gauge[k, n, k] = weight
            gauge[3 + k, n, :3] = weight * np.cross(axis, places[n])
    moved = answer(case, bars, attrs.evolve(pushes, gauge=gauge)).displacements[0]
    sums = np.einsum("gpk,lpk->lg", gauge, moved)
    size = np.abs(gauge).max() * np.abs(moved).max()
    assert sums == pytest.approx(np.zeros_like(sums), abs=1e-9 * size)
    free_axes = {1: np.eye(3), 2: (places[at[-1]] - places[at[0]])[None]}.get(len(at), np.zeros((0, 3)))
    for axis in free_axes:
        turn = np.cross(axis, places - places[at[0]])
        slope = np.einsum("lpk,pk->l", moved[..., :3], turn)
        steep = np.linalg.norm(turn) * np.linalg.norm(moved[..., :3], axis=(1, 2))
        assert slope == pytest.approx(np.zeros_like(slope), abs=1e-7 * steep.max())


@given(seeds)
@several
def test_critical_multiplier_of_a_scaled_load(seed):
    """Twice the load, half the multiplier; turned in space, the same multiplier."""
    rng = np.random.default_rng(seed)
    case = random_case(rng)
    case = attrs.evolve(
        case,
        supports=(attrs.evolve(case.supports[0], hold=ALL),),
        members=tuple(attrs.evolve(m, up=m.up or (0.3, 0.2, 1.0)) for m in case.members),
    )
    bars, pushes = random_bars(rng, case), random_pushes(rng, case, loads=2)
    layout = lay_out(case)

    def alpha(case, pushes):
        return critical_multiplier(case, layout_of(case), bars, pushes, answer(case, bars, pushes))

    def layout_of(one):
        return layout if one is case else lay_out(one)

    plain = alpha(case, pushes)
    assert np.all(plain > 0.0)
    assert alpha(case, attrs.evolve(pushes, forces=2.5 * pushes.forces)) == pytest.approx(
        plain / 2.5, rel=1e-6
    )
    turn = turn_of(rng)
    twist = np.kron(np.eye(2), turn)
    moved = turned(case, turn, np.array([100.0, -50.0, 70.0]))
    assert alpha(moved, attrs.evolve(pushes, forces=pushes.forces @ twist.T)) == pytest.approx(
        plain, rel=1e-5
    )
    response = answer(case, bars, pushes)
    least = float(plain.min())
    assert at_least(case, layout, bars, pushes, response, 0.999 * least).all()
    assert not at_least(case, layout, bars, pushes, response, 1.001 * least).all()
