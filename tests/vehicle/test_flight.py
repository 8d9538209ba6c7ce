"""A structure that flies free: rigid bodies of print and of particles.

A free rod struck at one end, a dumbbell, Newton-Euler about the mass centre: any text on dynamics
(Meriam, Dynamics; from memory).
"""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings

from strength.case.model import Case, HandForce, Load
from strength.errors import BalanceError
from strength.vehicle import balance, into_structure
from strength.vehicle.sheet import Balanced, Pushes
from tests.vehicle.build import Array, Triple, mass, point
from tests.vehicle.strategies import vehicles


def _fly(case: Case) -> Pushes:
    """Hand loads only: no wheels, no road."""
    loads = tuple(
        Balanced(
            name=x.name, severity=x.severity, lean=0.0, scaled_to=1.0, braking=0.0, driving=0.0,
            cornering=0.0, vertical=x.vertical, notes=(), wheels=(),
        )
        for x in case.loads
    )  # fmt: skip
    return into_structure(case, loads)


def _body(places: dict[str, tuple[float, Triple]], hand: HandForce, gyration: float = 0.0) -> Case:
    return Case(
        title="free",
        points=tuple(point(n, *at) for n, (_, at) in places.items()),
        masses=tuple(mass(n, kg, at, carried_by=(n,), gyration=gyration) for n, (kg, at) in places.items()),
        loads=(Load(name="push", forces=(hand,)),),
    )


def _moved(at: Triple, by: Array) -> Triple:
    return (at[0] + float(by[0]), at[1] + float(by[1]), at[2] + float(by[2]))


def test_dumbbell_struck_at_one_end() -> None:
    """Across the rod at one mass: that mass alone answers, the other feels nothing."""
    case = _body(
        {"a": (3.0, (100.0, 50.0, 0.0)), "b": (5.0, (700.0, 50.0, 0.0))},
        HandForce(at="a", force=(0, 120.0, -70.0)),
    )
    forces = _fly(case).forces[0]
    assert forces == pytest.approx(np.zeros((2, 6)), abs=1e-9)


def test_dumbbell_pushed_along() -> None:
    """Along the rod at one end: the rod carries the far mass's share, F m_b/(m_a + m_b)."""
    case = _body(
        {"a": (3.0, (100.0, 50.0, 0.0)), "b": (5.0, (700.0, 50.0, 0.0))},
        HandForce(at="a", force=(160.0, 0, 0)),
    )
    forces = _fly(case).forces[0]
    assert forces[:, 0] == pytest.approx([100.0, -100.0], rel=1e-12)


def test_centre_of_percussion() -> None:
    """Three equal masses on a rod struck across at q from the centre: a = F/M (1 + r q/k^2) at r."""
    spots = {"a": (2.0, (0.0, 0.0, 0.0)), "b": (2.0, (300.0, 0.0, 0.0)), "c": (2.0, (900.0, 0.0, 0.0))}
    forces = _fly(_body(spots, HandForce(at="c", force=(0.0, 0.0, 600.0)))).forces[0]
    centre, square = 400.0, (400.0**2 + 100.0**2 + 500.0**2) / 3.0
    for n, x in enumerate((0.0, 300.0, 900.0)):
        answer = -2.0 * 600.0 / 6.0 * (1.0 + (x - centre) * 500.0 / square)
        assert forces[n, 2] == pytest.approx(answer + (600.0 if n == 2 else 0.0), abs=1e-9)


def test_gyration_answers_a_moment() -> None:
    """A single mass with its own inertia, pushed off centre: all of the couple is its own, F d."""
    case = Case(
        title="free",
        points=(point("a", 0.0, 0.0, 0.0), point("tip", 0.0, 0.0, 80.0)),
        masses=(mass("m", 7.0, (0.0, 0.0, 0.0), carried_by=("a",), gyration=110.0),),
        loads=(Load(name="push", forces=(HandForce(at="tip", force=(50.0, 0.0, 0.0)),)),),
    )
    forces = _fly(case).forces[0]
    assert forces[0] == pytest.approx([-50.0, 0, 0, 0, -4000.0, 0], rel=1e-12)


def test_gyration_is_six_particles() -> None:
    """Second way: a mass of radius of gyration k is six particles m/6 at k sqrt(1.5) along the axes."""
    parts = {
        "a": (6.0, (0.0, 120.0, 310.0), 140.0),
        "b": (11.0, (520.0, -70.0, 260.0), 90.0),
        "c": (4.0, (-330.0, 210.0, 40.0), 60.0),
    }
    hand = HandForce(at="b", force=(210.0, -95.0, 330.0), moment=(8e3, -5e3, 2e3))
    points = tuple(point(n, *at) for n, (_, at, _) in parts.items())
    masses = tuple(mass(n, kg, at, carried_by=(n,), gyration=k) for n, (kg, at, k) in parts.items())
    loads = (Load(name="push", forces=(hand,)),)
    got = _fly(Case(title="free", points=points, masses=masses, loads=loads)).forces
    axes = [sign * np.eye(3)[n] for n, sign in itertools.product(range(3), (1.0, -1.0))]
    dust = tuple(
        mass(f"{n}{k}", kg / 6.0, _moved(at, gyration * np.sqrt(1.5) * d), carried_by=(n,))
        for n, (kg, at, gyration) in parts.items()
        for k, d in enumerate(axes)
    )  # fmt: skip
    want = _fly(Case(title="free", points=points, masses=dust, loads=loads)).forces
    assert got == pytest.approx(want, rel=1e-9, abs=1e-7)


def test_a_moment_without_inertia_is_refused() -> None:
    """Two point masses on a line have no inertia about it."""
    case = _body(
        {"a": (3.0, (0.0, 0.0, 0.0)), "b": (5.0, (600.0, 0.0, 0.0))}, HandForce(at="a", moment=(900.0, 0, 0))
    )
    with pytest.raises(BalanceError, match="no inertia"):
        _fly(case)
    turned = _body(
        {"a": (3.0, (0.0, 0.0, 0.0)), "b": (5.0, (600.0, 0.0, 0.0))},
        HandForce(at="a", moment=(900.0, 0, 0)),
        50.0,
    )
    shares = _fly(turned).forces[0, :, 3]
    assert shares == pytest.approx([900.0 * (1 - 3 / 8), -900.0 * 5 / 8], rel=1e-12)


@settings(max_examples=60, deadline=None)
@given(vehicles())
def test_a_free_vehicle_is_in_balance(case: Case) -> None:
    """Law: every load's forces and moments on the structure sum to nothing."""
    points = (*case.points, point("p", 600.0, 40.0, 333.0), point("q", 210.0, -180.0, 290.0))
    masses = tuple(
        mass(m.name, m.mass, m.at, carried_by=("p", "q"), gyration=70.0 + 20 * n)
        for n, m in enumerate(case.masses)
    )
    free = Case(
        title="free", points=points, masses=masses, wheels=case.wheels, loads=case.loads, leaning=case.leaning
    )
    forces = into_structure(free, balance(free)).forces[0]
    where = np.array([p.at for p in points])
    size = np.abs(forces[:, :3]).sum()
    assert np.abs(forces[:, :3].sum(axis=0)).max() <= 1e-10 * size
    turn = np.cross(where, forces[:, :3]).sum(axis=0) + forces[:, 3:].sum(axis=0)
    assert np.abs(turn).max() <= 1e-7 * size


def _rigid(points: Array, move: Array, turn: Array, about: Array) -> Array:
    return np.hstack([move + np.cross(turn, points - about), np.broadcast_to(turn, points.shape)])


def test_gauge_of_rigid_movements() -> None:
    """Rows sum m u, sum m r x u of a rigid movement u = d + t x r: M d, (sum m (r^2 1 - r r^T)) t."""
    spots = {
        "a": (3.0, (100.0, 50.0, -20.0)),
        "b": (5.0, (700.0, -80.0, 60.0)),
        "c": (2.0, (210.0, 330.0, 90.0)),
    }
    case = _body(spots, HandForce(at="a", force=(1.0, 2.0, 3.0)), gyration=45.0)
    gauge = _fly(case).gauge
    assert gauge is not None
    m = np.array([kg for kg, _ in spots.values()])
    at = np.array([p for _, p in spots.values()])
    centre = m @ at / m.sum()
    r = at - centre
    second = sum(k * ((v @ v) * np.eye(3) - np.outer(v, v)) for k, v in zip(m, r, strict=True))
    move, turn = np.array([0.3, -0.7, 1.1]), np.array([2e-3, -5e-3, 1e-3])
    got = np.einsum("gpi,pi->g", gauge, _rigid(at, move, turn, centre))
    assert got[:3] == pytest.approx(m.sum() * move, rel=1e-12)
    assert got[3:] == pytest.approx(second @ turn, rel=1e-12)


def test_gauge_does_the_same_work() -> None:
    """A mass a fifth along between two points moves as they do, across by lever: 0.8 u_a + 0.2 u_b."""
    case = Case(
        title="free",
        points=(point("a", 0.0, 0.0, 0.0), point("b", 500.0, 0.0, 0.0)),
        masses=(mass("m", 4.0, (100.0, 0.0, 0.0), carried_by=("a", "b"), gyration=30.0),),
        loads=(Load(name="push"),),
    )
    gauge = _fly(case).gauge
    assert gauge is not None
    assert gauge[2, :, 2] == pytest.approx([4.0 * 0.8, 4.0 * 0.2], rel=1e-12)
    assert gauge[0, :, 0] == pytest.approx([2.0, 2.0], rel=1e-12)
    assert np.linalg.matrix_rank(gauge.reshape(6, -1)) == 6
