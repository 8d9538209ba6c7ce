"""Laws of stresses and member checks: what must hold whatever the sizes and forces."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from strength.case.model import Support
from strength.case.shape import Bar, Box, Flat, Shape, Tube
from strength.checks.context import Context
from strength.checks.stability import stability
from strength.checks.yielding import rupture, yielding
from strength.sections.box import box
from strength.sections.box_stress import box_matrix
from strength.sections.flat_stress import flat_matrix
from strength.sections.round import tube
from strength.sections.round_stress import round_matrix
from strength.sections.stress import StressMatrix
from tests.checks.loaded import case_of, context_of, member

POINTS = {"a": (0.0, 0.0, 0.0), "b": (420.0, -90.0, 260.0)}
SCALES = np.array([8e3, 2e3, 3e3, 9e4, 2e5, 1e5])


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    """Plain floats between two bounds."""
    return st.floats(low, high, allow_nan=False)


FORCES = st.tuples(*[numbers(-1.0, 1.0)] * 6).map(lambda six: np.round(np.array(six), 3) * SCALES)
SHAPES = st.one_of(
    st.builds(lambda od, part: Tube(od, od * part), numbers(12.0, 60.0), numbers(0.04, 0.25)),
    st.builds(Bar, numbers(8.0, 40.0)),
    st.builds(Flat, numbers(8.0, 90.0), numbers(3.0, 30.0)),
    st.builds(
        lambda h, b, part: Box(h, b, min(h, b) * part), *[numbers(25.0, 60.0)] * 2, numbers(0.05, 0.12)
    ),
)


def matrix_of(shape: Shape) -> StressMatrix:
    """Stress matrix of a shape."""
    one = np.ones(1)
    match shape:
        case Tube():
            found = tube(shape.od, shape.wall, 0.3)
            return round_matrix(
                found.area * one, found.modulus_y * one, (1.0 - 2.0 * shape.wall / shape.od) * one
            )
        case Bar():
            found = tube(shape.diameter, shape.diameter / 2.0, 0.3)
            return round_matrix(found.area * one, found.modulus_y * one, 0.0 * one)
        case Flat():
            return flat_matrix(shape.width * one, shape.thickness * one)
        case Box():
            found = box(shape.depth, shape.width, shape.wall, 0.3)
            sizes = (shape.depth, shape.width, shape.wall, found.area, found.iy, found.iz)
            return box_matrix(*(size * one for size in sizes))
        case _:
            raise AssertionError(shape)


def worst(shape: Shape, forces: np.ndarray) -> float:
    """Worst von Mises of one section under six forces."""
    return float(matrix_of(shape).von_mises(forces[None, None])[0, 0])


def checked(shape: Shape, forces: np.ndarray, other: np.ndarray) -> Context:
    """A member held at both ends with these forces there."""
    held = tuple(Support(name=name, at=name, hold=(True,) * 6) for name in "ab")
    case = case_of(POINTS, members=(member("m", "a", "b", shape),), supports=held)
    return context_of(case, {"m": [[forces.tolist(), other.tolist()]]})


def utilisation(context: Context) -> list[float]:
    """Utilisations of yielding, rupture and stability."""
    return [float(next(check(context)).utilisation[0, 0]) for check in (yielding, rupture, stability)]


@given(SHAPES, FORCES, numbers(0.1, 30.0))
def test_stress_grows_with_the_load(shape: Shape, forces: np.ndarray, k: float) -> None:
    """Load x k, stress x k."""
    assert np.isclose(worst(shape, k * forces), k * worst(shape, forces), rtol=1e-9, atol=1e-9)


@given(SHAPES, FORCES)
def test_sign_of_the_load(shape: Shape, forces: np.ndarray) -> None:
    """All forces turned about: the same worst stress."""
    assert np.isclose(worst(shape, -forces), worst(shape, forces), rtol=1e-9)


@given(SHAPES, FORCES)
def test_mirrored(shape: Shape, forces: np.ndarray) -> None:
    """Mirrored in the plane of x_m and z_m: y changes sign, so Vy, T and Mz do; these shapes do not."""
    assert np.isclose(
        worst(shape, forces * [1.0, -1.0, 1.0, -1.0, 1.0, -1.0]), worst(shape, forces), rtol=2e-3
    )


@given(SHAPES, FORCES)
def test_seen_from_the_other_end(shape: Shape, forces: np.ndarray) -> None:
    """Turned half about z_m: x and y change sign; what one part exerts becomes what the other does."""
    assert np.isclose(
        worst(shape, forces * [1.0, 1.0, -1.0, 1.0, 1.0, -1.0]), worst(shape, forces), rtol=2e-3
    )


@given(SHAPES, FORCES)
def test_at_least_each_part(shape: Shape, forces: np.ndarray) -> None:
    """Never less than the mean stress, and never more than all parts alone together."""
    alone = [worst(shape, forces * (np.arange(6) == n)) for n in range(6)]
    assert worst(shape, forces) <= sum(alone) * (1.0 + 2e-3) + 1e-9
    assert worst(shape, forces) >= alone[0] * (1.0 - 2e-3)


@given(numbers(15.0, 60.0), numbers(0.04, 0.2), numbers(1.01, 1.2), FORCES, FORCES)
def test_more_tube_wall_never_harms(
    od: float, part: float, more: float, forces: np.ndarray, other: np.ndarray
) -> None:
    """At the same forces a thicker wall lowers every utilisation."""
    before = utilisation(checked(Tube(od, part * od), forces, other))
    after = utilisation(checked(Tube(od, part * od * more), forces, other))
    assert all(a <= b * (1.0 + 1e-9) for a, b in zip(after, before, strict=True))


@given(numbers(20.0, 80.0), numbers(4.0, 15.0), numbers(1.01, 1.3), FORCES, FORCES)
def test_more_plate_never_harms(
    width: float, thickness: float, more: float, forces: np.ndarray, other: np.ndarray
) -> None:
    """A thicker flat, within what the grid of points resolves."""
    before = utilisation(checked(Flat(width, thickness), forces, other))
    after = utilisation(checked(Flat(width, thickness * more), forces, other))
    assert all(a <= b * (1.0 + 2e-3) for a, b in zip(after, before, strict=True))


@given(SHAPES, FORCES, FORCES, numbers(1.01, 5.0))
def test_more_load_never_helps(shape: Shape, forces: np.ndarray, other: np.ndarray, k: float) -> None:
    """All utilisations grow with the load, stability more than in proportion while a part is pressed."""
    before = utilisation(checked(shape, forces, other))
    after = utilisation(checked(shape, k * forces, k * other))
    for a, b in zip(after[:2], before[:2], strict=True):
        assert np.isclose(a, k * b, rtol=1e-9, atol=1e-12)
    assert after[2] >= k * before[2] * (1.0 - 1e-9) or after[2] > 50.0


@given(SHAPES, FORCES, FORCES)
def test_member_drawn_the_other_way(shape: Shape, forces: np.ndarray, other: np.ndarray) -> None:
    """From b to a the same member carries the same, seen in its new axes."""
    one = utilisation(checked(shape, forces, other))
    case = case_of(
        POINTS,
        members=(member("m", "b", "a", shape),),
        supports=tuple(Support(name=name, at=name, hold=(True,) * 6) for name in "ab"),
    )
    seen = np.array([1.0, 1.0, -1.0, 1.0, 1.0, -1.0])
    two = utilisation(context_of(case, {"m": [[(other * seen).tolist(), (forces * seen).tolist()]]}))
    assert np.allclose(two, one, rtol=2e-3, atol=1e-9)
