"""Laws of the geometry, and second ways: least squares, marching along a ray, turning the whole vehicle."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from strength.case.model import BoltSize, Vector
from strength.case.shape import Bar, Box, Flat, Outline, Shape, Tube
from strength.case.trade.axes import Axes, centroid, face_distance, half_sizes, member_axes
from strength.case.trade.bracket import LaidBracket, lay_bracket
from strength.case.trade.knuckle_geometry import KnuckleGeometry, lay_knuckle, nearest_on_line
from strength.case.trade.parts import BoltRow, Bracket
from strength.case.trade.placed import Host

PLACE = st.tuples(*[st.floats(-500, 500)] * 3)
WAY = st.tuples(*[st.floats(-1, 1)] * 3)


def as_vector(values: np.ndarray) -> Vector:
    """Three plain floats."""
    x, y, z = (float(value) for value in values)
    return (x, y, z)


def turned(turn: np.ndarray, at: Vector, moved: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Vector:
    """A place turned about the origin and moved."""
    return as_vector(turn @ np.array(at) + np.array(moved))


def rotation(way: Vector, angle: float) -> np.ndarray:
    """Rodrigues' rotation matrix about a direction."""
    x, y, z = np.array(way) / np.linalg.norm(way)
    k = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.eye(3) + math.sin(angle) * k + (1 - math.cos(angle)) * k @ k


@given(PLACE, PLACE, PLACE, WAY)
def test_nearest_place_on_a_line_against_least_squares(
    start: Vector, end: Vector, through: Vector, direction: Vector
) -> None:
    """Parameters of the common normal from numpy's least squares of start + t way = through + s direction."""
    way, along = np.array(end) - np.array(start), np.array(direction)
    assume(np.linalg.norm(way) > 10 and np.linalg.norm(along) > 0.1)
    along = along / np.linalg.norm(along)
    assume(np.linalg.norm(np.cross(way / np.linalg.norm(way), along)) > 0.05)
    found = nearest_on_line(start, end, through, as_vector(along))
    assert found is not None
    matrix, apart = np.column_stack([way, -along]), np.array(through) - np.array(start)
    (t, s), *_ = np.linalg.lstsq(matrix, apart, rcond=None)
    assert found[0] == pytest.approx(t, rel=1e-6, abs=1e-6)
    assert found[1] == pytest.approx(float(np.linalg.norm(apart - matrix @ [t, s])), rel=1e-6, abs=1e-6)


def inside(shape: Shape, y: float, z: float) -> bool:
    """Whether a point of the cross-section plane lies in the outline of a shape."""
    match shape:
        case Tube():
            return math.hypot(y, z) <= shape.od / 2
        case Bar():
            return math.hypot(y, z) <= shape.diameter / 2
        case Box():
            return abs(y) <= shape.width / 2 and abs(z) <= shape.depth / 2
        case Flat():
            return abs(y) <= shape.thickness / 2 and abs(z) <= shape.width / 2
        case _:
            raise TypeError(shape)


@given(st.sampled_from([Tube(42.0, 2.0), Bar(17.0), Box(60.0, 40.0, 3.0), Flat(70.0, 16.0)]), PLACE, WAY, WAY)
def test_face_distance_against_marching_along_the_ray(
    shape: Shape, end: Vector, up: Vector, direction: Vector
) -> None:
    """Bisection for where a ray from the centre line leaves the outline."""
    assume(math.hypot(*end) > 1.0)
    axes = member_axes((0.0, 0.0, 0.0), end, up)
    assume(axes is not None and math.hypot(*end) > 1 and math.hypot(*direction) > 0.1)
    assert axes is not None
    e = np.array(direction) / math.hypot(*direction)
    y, z = float(np.dot(e, axes.y)), float(np.dot(e, axes.z))
    assume(math.hypot(y, z) > 0.05)
    low, high = 0.0, 5000.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if inside(shape, middle * y, middle * z) else (low, middle)
    assert face_distance(shape, axes, as_vector(e)) == pytest.approx(low, rel=1e-9)


def test_no_face_along_the_host_or_without_a_size() -> None:
    """No face along the host or without a size."""
    axes = Axes((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    assert face_distance(Tube(30.0, 2.0), axes, (-1.0, 0.0, 0.0)) is None
    assert face_distance(Flat(30.0, 2.0), axes, (1.0, 0.0, 0.0)) is None


def test_centroid_of_an_angle_with_a_hole() -> None:
    """Rectangle 60 x 20 less a hole 10 x 5 about (45, 10): composite areas, any sense of turning."""
    ring = ((0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (0.0, 20.0))
    hole = ((40.0, 7.5), (50.0, 7.5), (50.0, 12.5), (40.0, 12.5))
    for corners in (ring, ring[::-1]):
        for cut in (hole, hole[::-1]):
            y, z = centroid(Outline(corners, (cut,)))
            assert y == pytest.approx((1200 * 30 - 50 * 45) / 1150)
            assert z == pytest.approx(10)


def test_half_sizes_of_an_outline_take_the_greater_side() -> None:
    """A right-angled triangle: two thirds of each leg lie beyond the centroid."""
    assert half_sizes(Outline(((0.0, 0.0), (30.0, 0.0), (0.0, 60.0)))) == pytest.approx((20, 40))


@given(WAY, st.floats(-3, 3), PLACE)
def test_a_turned_vehicle_has_a_turned_knuckle(way: Vector, angle: float, moved: Vector) -> None:
    """Rigid motion of balls, wheel and `up` moves every generated place with them."""
    assume(math.hypot(*way) > 0.1)
    turn = rotation(way, angle)
    low, high, hub, axle, up = (
        (3.0, 301, 165),
        (-7.0, 289, 341),
        (9.0, 392, 251),
        (0.1, 0.99, -0.05),
        (8.0, -5, 3),
    )
    size = math.hypot(*axle)
    axle = (axle[0] / size, axle[1] / size, axle[2] / size)
    plain = lay_knuckle(low, high, hub, axle, up, 31.0)
    other = lay_knuckle(
        turned(turn, low, moved),
        turned(turn, high, moved),
        turned(turn, hub, moved),
        turned(turn, axle),
        turned(turn, up),
        31.0,
    )
    assert isinstance(plain, KnuckleGeometry)
    assert isinstance(other, KnuckleGeometry)
    for name in ("low", "high", "root"):
        assert getattr(other, name) == pytest.approx(turned(turn, getattr(plain, name), moved), abs=1e-6)
    assert other.normal == pytest.approx(turned(turn, plain.normal), abs=1e-9)
    assert other.fraction == pytest.approx(plain.fraction, abs=1e-9)


M8 = BoltSize(kind="thread", text="M8", diameter=8.0)


@pytest.mark.parametrize("bolts", [None, BoltRow(count=2, size=M8, apart=24.0, edge=14.0)])
@given(WAY, st.floats(-3, 3), PLACE)
def test_a_turned_vehicle_has_a_turned_bracket(
    bolts: BoltRow | None, way: Vector, angle: float, moved: Vector
) -> None:
    """Rigid motion of host, tip and `wide` moves root, foot and faces with them."""
    assume(math.hypot(*way) > 0.1)
    turn = rotation(way, angle)
    host = Host(
        name="h", start=(5.0, 7, -9), end=(90.0, -40, 160), shape=Flat(70.0, 16.0), up=(8.0, -5.0, 3.0)
    )
    part = Bracket(
        name="b", path="b", on="h", tip="t", plate=Flat(50.0, 6.0), wide=(85.0, -47.0, 169.0), bolts=bolts
    )
    root, tip = (47.5, -16.5, 75.5), (127.0, -32.0, 60.0)
    plain = lay_bracket(part, host, root, tip)
    other = lay_bracket(
        Bracket(
            name="b", path="b", on="h", tip="t", plate=part.plate, wide=turned(turn, part.wide), bolts=bolts
        ),
        Host(
            name="h",
            start=turned(turn, host.start, moved),
            end=turned(turn, host.end, moved),
            shape=host.shape,
            up=turned(turn, host.up or (0.0, 0.0, 1.0)),
        ),
        turned(turn, root, moved),
        turned(turn, tip, moved),
    )
    assert isinstance(plain, LaidBracket)
    assert isinstance(other, LaidBracket)
    assert other.inset == pytest.approx(plain.inset, abs=1e-9)
    assert other.foot == pytest.approx(turned(turn, plain.foot, moved), abs=1e-6)
    assert other.axes.y == pytest.approx(turned(turn, plain.axes.y), abs=1e-9)
