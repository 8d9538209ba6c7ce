"""Worst von Mises stresses against plain formulas walked point by point."""

import hypothesis.extra.numpy as arrays
import hypothesis.strategies as st
import numpy as np
import pytest
from hypothesis import given

from strength.sections.box import box, torsion_and_modulus
from strength.sections.box_stress import box_matrix
from strength.sections.flat_stress import flat_matrix
from strength.sections.net_stress import net_matrix
from strength.sections.nominal import nominal, nominal_box, nominal_flat
from strength.sections.round import tube
from strength.sections.round_stress import round_bounds, round_matrix, unit_round
from strength.sections.stress import StressMatrix
from tests.sections import by_hand

BOX = ("depth", "width", "wall", "area", "iy", "iz")
# N, Vy, Vz, T, My, Mz: all different, some ruled by one kind of force
FORCES = [
    (3100.0, -420.0, 900.0, 21e3, -64e3, 35e3),
    (-5200.0, 130.0, -60.0, -4e3, 12e3, 91e3),
    (150.0, 2900.0, 3300.0, 1.5e3, -2e3, 900.0),
    (40.0, -70.0, 90.0, 88e3, 3e3, -5e3),
    (800.0, 4100.0, -350.0, -61e3, 20e3, -8e3),
]


def of_one(*values: float) -> list[np.ndarray]:
    """Each value as the one design of an array."""
    return [np.array([value]) for value in values]


def worst(matrix: StressMatrix, forces: tuple[float, ...]) -> float:
    """Worst von Mises of one design under one load."""
    return float(matrix.von_mises(np.array([[forces]]))[0, 0])


@pytest.mark.parametrize("forces", FORCES)
@pytest.mark.parametrize(("od", "wall"), [(25.0, 2.0), (42.4, 3.2), (20.0, 10.0)])
def test_round(od: float, wall: float, forces: by_hand.Six) -> None:
    """Tubes and a bar."""
    found = tube(od, wall, 0.3)
    matrix = round_matrix(*of_one(float(found.area), float(found.modulus_y), 1.0 - 2.0 * wall / od))
    assert worst(matrix, forces) == pytest.approx(by_hand.round_worst(od, od - 2.0 * wall, forces), rel=4e-4)


@pytest.mark.parametrize("forces", FORCES)
@pytest.mark.parametrize(("width", "thickness"), [(70.0, 16.0), (30.0, 25.0), (60.0, 6.0)])
def test_flat(width: float, thickness: float, forces: by_hand.Six) -> None:
    """Flats standing up."""
    matrix = flat_matrix(*of_one(width, thickness))
    assert worst(matrix, forces) == pytest.approx(by_hand.flat_worst(width, thickness, forces), rel=2e-3)


@pytest.mark.parametrize("forces", FORCES)
def test_flat_on_its_side(forces: by_hand.Six) -> None:
    """A flat laid over is the same flat seen from axes turned a quarter: y to z, z to -y."""
    n, vy, vz, t, my, mz = forces
    standing, lying = flat_matrix(*of_one(48.0, 11.0)), flat_matrix(*of_one(11.0, 48.0))
    assert worst(lying, forces) == pytest.approx(worst(standing, (n, -vz, vy, t, -mz, my)), rel=3e-4)


def test_flats_of_both_kinds_at_once() -> None:
    """A batch may hold both upright and lying flats."""
    forces = np.array([[FORCES[0]]])
    both = flat_matrix(np.array([48.0, 11.0]), np.array([11.0, 48.0])).von_mises(forces)
    alone = [worst(flat_matrix(*of_one(*sizes)), FORCES[0]) for sizes in ((48.0, 11.0), (11.0, 48.0))]
    assert both[:, 0] == pytest.approx(alone, rel=5e-4)


@pytest.mark.parametrize("forces", FORCES)
@pytest.mark.parametrize(
    ("depth", "width", "wall", "outer"),
    [(40.0, 20.0, 2.0, 4.0), (30.0, 50.0, 3.0, 6.0), (90.0, 120.0, 8.0, 20.0), (25.0, 25.0, 2.5, 5.0)],
)
def test_box(depth: float, width: float, wall: float, outer: float, forces: by_hand.Six) -> None:
    """Boxes of both proportions and two corner rules (EN 10219-2: 2 t, over 6 mm 2.5 t)."""
    found = box(depth, width, wall, 0.3)
    torsion = torsion_and_modulus(found.depth, found.width, found.wall)[1]
    figures = (float(found.area), float(found.iy), float(found.iz), float(torsion))
    matrix = box_matrix(*of_one(depth, width, wall, *figures[:3]))
    expected = by_hand.box_worst(depth, width, wall, outer, figures, forces)
    assert worst(matrix, forces) == pytest.approx(expected, rel=1e-3)


def test_box_shear_balances_its_force() -> None:
    """The shear flow adds up to the force: middle line alone, so to the part that the corners leave."""
    found = box(60.0, 40.0, 1.0, 0.3)
    matrix = box_matrix(*of_one(60.0, 40.0, 1.0, float(found.area), float(found.iy), float(found.iz)))
    parts = nominal(matrix, np.array([[[0.0, 0.0, 1000.0, 0.0, 0.0, 0.0]]]))
    # two webs of height h: (bh/4 + h^2/12) h t 2/Iy = 1 for a thin box with sharp corners
    h, b = 59.0, 39.0
    sharp = 1000.0 * (b * h / 4.0 + h * h / 8.0) / (h**3 / 6.0 + b * h * h / 2.0)
    assert float(parts.shear[0, 0]) == pytest.approx(sharp, rel=0.03)


@pytest.mark.parametrize("forces", FORCES)
def test_nominal_flat_two_ways(forces: by_hand.Six) -> None:
    """Closed forms of the parts, and the same read off the matrix."""
    sizes = of_one(55.0, 9.0)
    one = nominal_flat(np.array([[forces]]), *sizes)
    other = nominal(flat_matrix(*sizes), np.array([[forces]]))
    for name in ("axial", "bending", "shear", "torsion"):
        assert getattr(one, name) == pytest.approx(getattr(other, name), rel=2e-3)


@pytest.mark.parametrize("forces", FORCES)
@pytest.mark.parametrize("sizes", [(40.0, 20.0, 2.0), (30.0, 50.0, 3.0)])
def test_nominal_box_two_ways(sizes: tuple[float, float, float], forces: by_hand.Six) -> None:
    """The same for boxes; the matrix has no points between a straight wall and its corner."""
    found = box(*sizes, 0.3)
    figures = of_one(float(found.area), float(found.iy), float(found.iz))
    one = nominal_box(np.array([[forces]]), tuple(of_one(*sizes)), *figures)  # type: ignore[arg-type]
    other = nominal(box_matrix(*of_one(*sizes), *figures), np.array([[forces]]))
    for name in ("axial", "bending", "torsion"):
        assert getattr(one, name) == pytest.approx(getattr(other, name), rel=1e-3)
    assert one.shear == pytest.approx(other.shear, rel=5e-3)


def test_many_designs_at_once() -> None:
    """A batch gives each design what it gives alone, to the accuracy of its points."""
    rng = np.random.default_rng(7)
    thickness = np.linspace(4.0, 12.0, 9)
    width = np.linspace(50.0, 64.0, 9)
    forces = rng.normal(size=(9, 3, 40, 6)) * [900.0, 300.0, 200.0, 5e3, 9e3, 4e3]
    together = flat_matrix(width, thickness).von_mises(forces)
    for n in range(9):
        alone = flat_matrix(width[n : n + 1], thickness[n : n + 1]).von_mises(forces[n : n + 1])
        assert np.allclose(together[n], alone[0], rtol=1e-3)


@pytest.mark.parametrize("kind", ["flat", "box"])
def test_bounds_and_places(kind: str) -> None:
    """The worst lies between its bounds, and a choice of places gives what all places give."""
    rng = np.random.default_rng(11)
    forces = rng.normal(size=(5, 30, 6)) * [9000.0, 3000.0, 2000.0, 5e4, 9e4, 4e4]
    first, wall = np.linspace(40.0, 60.0, 5), np.linspace(2.0, 3.0, 5)
    if kind == "flat":
        matrix = flat_matrix(first, 4.0 * wall)
    else:
        found = box(first, 30.0 + 0.0 * wall, wall, 0.3)
        matrix = box_matrix(found.depth, found.width, found.wall, found.area, found.iy, found.iz)
    whole = matrix.von_mises(forces)
    nominal = (forces[..., matrix.source] * matrix.scale[:, None]).transpose(2, 0, 1)
    low, high = (
        np.sqrt(part.reshape(whole.shape)) for part in matrix.bounds(nominal.reshape(len(nominal), -1))
    )
    assert (low <= whole * (1.0 + 1e-12)).all()
    assert (whole <= high * (1.0 + 1e-3)).all()
    where = rng.random(size=(5, 30)) < 0.3
    assert matrix.worst(nominal[None, :, where])[0] == pytest.approx(whole[where], rel=1e-12)


def test_round_bounds() -> None:
    """Alike for round sections, in closed form."""
    nominal = np.random.default_rng(12).normal(size=(3, 200, 6))
    whole = unit_round().von_mises(nominal)
    low, high = (np.sqrt(part) for part in round_bounds(np.moveaxis(nominal, -1, 0)))
    assert (low <= whole * (1.0 + 1e-3)).all()
    assert (whole <= high * (1.0 + 1e-12)).all()


def plain(matrix: StressMatrix, forces: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Worst von Mises (designs, rows) point by point, with the parabola through the best's neighbours.

    Two points may be the best to rounding, and their parabolas differ: the least and the greatest of them.
    """
    sigma, tau = matrix.at_points(forces)
    square = sigma**2 + 3.0 * tau**2
    least, most = (np.empty(square.shape[:2]) for _ in range(2))
    for place in np.ndindex(least.shape):
        own = square[place]
        every = []
        for best in np.flatnonzero(own >= own.max() * (1.0 - 1e-12)):
            gain = 0.0
            for before, after in matrix.neighbours:
                low, high = own[before[best]], own[after[best]]
                bend = 2.0 * own[best] - low - high
                gain += (high - low) ** 2 / (8.0 * bend) if bend > 1e-12 * own[best] else 0.0
            every.append(np.sqrt(own[best] + gain))
        least[place], most[place] = min(every), max(every)
    return least, most


MATRICES = {
    "round": round_matrix(*of_one(144.5, 770.0, 0.84)),
    "box": box_matrix(*(np.atleast_1d(getattr(box(40.0, 25.0, 2.0, 0.3), name)) for name in BOX)),
    "flat": flat_matrix(*of_one(48.0, 11.0)),
    "flats": flat_matrix(np.array([48.0, 11.0]), np.array([11.0, 30.0])),
    "bored": net_matrix(*of_one(60.0, 9.0), [(np.array([4.0]), np.array([12.0]))], []),
    "bored otherwise": net_matrix(
        np.array([60.0, 52.0]), np.array([9.0, 7.0]), [], [(np.array([1.0, -0.5]), np.array([3.0, 2.0]))]
    ),
}


@pytest.mark.parametrize("kind", MATRICES)
@given(
    arrays.arrays(np.float64, (2, 5, 6), elements=st.floats(-1.0, 1.0).map(lambda value: round(value, 3))),
    st.integers(0, 5),
)
def test_as_point_by_point(kind: str, chance: np.ndarray, ruling: int) -> None:
    """Chance forces, one of which may rule: sums of products against stresses at every point."""
    forces = chance * [9000.0, 3000.0, 2000.0, 5e4, 9e4, 4e4]
    forces[..., ruling] *= 20.0
    matrix = MATRICES[kind]
    found, (least, most) = matrix.von_mises(forces), plain(matrix, forces)
    off = 1e-9 * (1.0 + most.max())
    assert (least * (1.0 - 1e-9) - off <= found).all()
    assert (found <= most * (1.0 + 1e-9) + off).all()
