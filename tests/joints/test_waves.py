"""The crest of a constant and two waves, against the roots of its derivative as a polynomial."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.joints.waves import crest

AMOUNT = st.floats(-50.0, 50.0).map(lambda v: round(v, 2))


def value(waves: np.ndarray, angle: np.ndarray) -> np.ndarray:
    """1, cos, sin, cos 2, sin 2 times the waves."""
    zero, c, s, c2, s2 = waves
    found: np.ndarray = zero + c * np.cos(angle) + s * np.sin(angle)
    return found + c2 * np.cos(2.0 * angle) + s2 * np.sin(2.0 * angle)


def by_roots(waves: np.ndarray) -> float:
    """The greatest where the derivative is 0, with z = e^(i angle) a polynomial of degree 4, and a grid."""
    _, c, s, c2, s2 = waves
    first, second = complex(s, c), complex(2.0 * s2, 2.0 * c2)
    roots = np.roots([second, first, 0.0, first.conjugate(), second.conjugate()])
    angles = np.concatenate([np.angle(roots), np.linspace(0.0, 2.0 * np.pi, 721)])
    return float(value(waves, angles).max())


@given(waves=st.lists(AMOUNT, min_size=5, max_size=5))
def test_crest_of_any_waves(waves: list[float]) -> None:
    """As high as the highest root, and there."""
    given_ = np.array(waves)
    found = crest(given_[:, None])
    size = np.abs(given_).sum()
    assert found.value[0] == pytest.approx(by_roots(given_), rel=1e-12, abs=1e-12 * size)
    angle = found.angle(np.array([0]))
    assert value(given_, angle)[0] == pytest.approx(found.value[0], rel=1e-12, abs=1e-12 * size)


@given(
    off=st.floats(-12.0, 0.0),
    beside=st.floats(-12.0, 0.0),
    turn=st.floats(0.0, 6.2),
    side=st.sampled_from([-1.0, 1.0]),
)
def test_crest_that_is_nearly_flat(off: float, beside: float, turn: float, side: float) -> None:
    """Cos t + r cos 2 (d - t), where r is about 1/4 and d about a quarter of a turn: the top is flat."""
    second, gap = 0.25 * (1.0 + side * 10.0**off), np.pi / 2.0 - 10.0**beside
    waves = np.array(
        [
            1.0,
            np.cos(turn),
            np.sin(turn),
            second * np.cos(2.0 * (turn + gap)),
            second * np.sin(2.0 * (turn + gap)),
        ]
    )
    assert crest(waves[:, None]).value[0] == pytest.approx(by_roots(waves), rel=1e-13)


def test_crests_written_out() -> None:
    """One wave alone, the other alone, neither, and both at one angle."""
    waves = np.array(
        [
            [2.0, 3.0, 4.0, 0.0, 0.0],
            [2.0, 0.0, 0.0, -6.0, 2.5],
            [2.0, 0.0, 0.0, 0.0, 0.0],
            [-1.0, 0.0, 3.0, -0.5, 0.0],
        ]
    ).T
    assert crest(waves).value == pytest.approx([7.0, 8.5, 2.0, 2.5], rel=1e-15)
