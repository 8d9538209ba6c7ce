"""The worst place on a circle, against a fine grid of the same forces written out by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from strength.joints.circle import is_circle, tops_of_circle
from strength.joints.forms import Forms
from strength.joints.pieces import arcs, straight
from strength.joints.traction import Pull
from strength.joints.weld_line import WeldLine, measured

FORMS = np.array([[[1.0, 1.0, 1.0, 0.0], [3.0, 3.0, 1.0, 0.0], [2.0, 3.0, 2.0, 2.0], [0.5, 0.0, 0.5, -1.0]]])
SCALES = np.array([[1.0, 0.55, 0.7, 1.9]])
ANGLES = np.linspace(0.0, 2.0 * np.pi, 72_001)


def pulled(direct: np.ndarray, spin: np.ndarray) -> Pull:
    """Force and moment per length."""
    return Pull(both=np.concatenate([direct, spin], axis=-1))


def circle(radius: float) -> WeldLine:
    """A circle in four quarters."""
    return measured(
        arcs(
            np.zeros((1, 4, 2)),
            np.full((1, 4), radius),
            np.arange(4.0) * np.pi / 2.0,
            np.full(4, np.pi / 2.0),
        )
    )


def by_grid(radius: float, direct: np.ndarray, spin: np.ndarray) -> float:
    """The greatest scaled form of q = d + w x r, its parts along x, the circle and its radius."""
    zero = np.zeros_like(ANGLES)
    out = np.stack([zero, np.cos(ANGLES), np.sin(ANGLES)], axis=-1)
    along = np.stack([zero, -np.sin(ANGLES), np.cos(ANGLES)], axis=-1)
    q = direct + np.cross(spin, radius * out)
    x, s, n = q[:, 0], np.sum(q * along, axis=1), np.sum(q * out, axis=1)
    forms = FORMS[0] * SCALES[0][:, None]
    return float(max((c[0] * x * x + c[1] * s * s + c[2] * n * n + c[3] * x * n).max() for c in forms))


AMOUNTS = arrays(float, 3, elements=st.floats(-100.0, 100.0).map(lambda v: round(v, 3)))


@given(direct=AMOUNTS, spin=AMOUNTS, radius=st.floats(3.0, 60.0))
def test_worst_of_any_pull(direct: np.ndarray, spin: np.ndarray, radius: float) -> None:
    """Never under the grid, and above it by no more than a grid of that step can miss."""
    line = circle(radius)
    found = tops_of_circle(
        line,
        pulled(direct[None, None], spin[None, None]),
        [Forms(forms=FORMS[:, :, None], scales=SCALES)],
    )[0]
    grid = by_grid(radius, direct, spin)
    assert found.height[0, 0] >= grid * (1.0 - 1e-12)
    assert found.height[0, 0] <= grid * (1.0 + 1e-7) + 1e-9
    form = int(found.form[0, 0])
    parts, place = found.there()
    x, s, n = parts[0, 0]
    own = FORMS[0, form] * SCALES[0, form]
    assert own @ [x * x, s * s, n * n, x * n] == pytest.approx(found.height[0, 0], rel=1e-9, abs=1e-9)
    assert np.hypot(*place[0, 0, 1:]) == pytest.approx(radius)


def test_bending_alone_has_two_worst_places() -> None:
    """Spin about y: q_x = w R sin phi, worst at top and underside alike, and both are R spin."""
    line = circle(12.0)
    pull = pulled(np.zeros((1, 1, 3)), np.array([[[0.0, 2.5, 0.0]]]))
    found = tops_of_circle(
        line, pull, [Forms(forms=np.array([[[[1.0, 0.0, 0.0, 0.0]]]]), scales=np.ones((1, 1)))]
    )[0]
    assert found.height[0, 0] == pytest.approx((12.0 * 2.5) ** 2, rel=1e-14)
    assert abs(found.there()[1][0, 0, 2]) == pytest.approx(12.0, rel=1e-9)


def test_scales_that_go_with_the_load() -> None:
    """(rows, loads, forms): each load by its own scales."""
    line = circle(9.0)
    rng = np.random.default_rng(2)
    pull = pulled(rng.normal(size=(1, 5, 3)), rng.normal(size=(1, 5, 3)))
    scales = rng.uniform(0.2, 2.0, (1, 5, 4))
    found = tops_of_circle(line, pull, [Forms(forms=FORMS[:, :, None], scales=scales)])[0]
    for load in range(5):
        one = Pull(both=pull.both[:, [load]])
        alone = tops_of_circle(line, one, [Forms(forms=FORMS[:, :, None], scales=scales[:, load])])[0]
        assert found.height[0, load] == pytest.approx(alone.height[0, 0], rel=1e-14)
        assert found.form[0, load] == alone.form[0, 0]


def test_what_is_no_circle() -> None:
    """Straight lines, half a circle and two circles are left to the samples."""
    half = arcs(np.zeros((1, 2, 2)), np.full((1, 2), 5.0), np.array([0.0, 1.5]), np.full(2, np.pi / 2.0))
    apart = arcs(np.array([[[0.0, 0.0], [9.0, 0.0]]]), np.full((1, 2), 5.0), np.zeros(2), np.full(2, np.pi))
    lines = straight(np.array([[[0.0, 10.0, 0.0, -10.0], [5.0, 10.0, 5.0, -10.0]]]))
    assert not any(is_circle(measured(pieces)) for pieces in (half, apart, lines))
    assert is_circle(circle(7.0))


@given(
    number=st.integers(0, 5),
    amount=st.floats(0.1, 300.0),
    radius=st.floats(3.0, 60.0),
    turn=st.floats(0.0, 6.2),
)
def test_place_of_one_force_or_moment_alone(number: int, amount: float, radius: float, turn: float) -> None:
    """Where only one part of q is at work its own greatest is the whole: the place must still be that one."""
    both = np.zeros((2, 3))
    both.flat[number] = amount
    c, s = np.cos(turn), np.sin(turn)
    direct, spin = both @ np.array([[1.0, 0.0, 0.0], [0.0, c, s], [0.0, -s, c]])
    plain = FORMS[:, :2] * [1.0, 1.0, 1.0, 0.0]
    pull = pulled(direct[None, None], spin[None, None])
    found = tops_of_circle(circle(radius), pull, [Forms(forms=plain[:, :, None], scales=SCALES[:, :2])])[0]
    form = int(found.form[0, 0])
    parts, _ = found.there()
    own = plain[0, form, :3] * SCALES[0, form]
    assert own @ parts[0, 0] ** 2 == pytest.approx(found.height[0, 0], rel=1e-8)
