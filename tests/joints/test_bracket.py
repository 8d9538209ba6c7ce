"""Maxima from the polynomial through a few values, against closed forms and a bounded search."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from strength.joints.bracket import NEAR, Bracket, nodes, summits


@given(
    rate=st.floats(0.02, 0.4),
    phase=st.floats(-1.5, 1.5),
    lean=st.floats(-0.3, 0.3),
    more=st.floats(0.0, 0.05),
)
def test_top_of_a_smooth_height(rate: float, phase: float, lean: float, more: float) -> None:
    """Waves and a lean, as forms are between samples; the height at the place told is right to rounding."""

    def height(t: np.ndarray) -> np.ndarray:
        wave = np.cos(2.0 * (rate * t - phase)) + more * np.sin(3.0 * rate * t)
        found: np.ndarray = 2.0 + wave + lean * rate * t
        return found

    best = minimize_scalar(
        lambda t: -float(height(np.array(t))), bounds=(-1.0, 1.0), method="bounded", options={"xatol": 1e-10}
    )
    greatest = max(-best.fun, *height(np.array([-1.0, 1.0])))
    top, place = summits(height(nodes())[None])
    assert top[0] == pytest.approx(greatest, rel=1e-7)
    assert height(place)[0] == pytest.approx(greatest, rel=1e-12)


def test_stretches_about_samples() -> None:
    """Near ones inside, a whole step from the ends, and a second look where the first stops at its border."""
    sample = np.array([0.0, 0.25, 0.5, 1.0])
    near = Bracket.about(sample, 0.25, NEAR[0])
    assert near.nodes[:, 0] == pytest.approx([0.0, 0.1, 0.35, 0.75])
    assert near.nodes[:, -1] == pytest.approx([0.25, 0.4, 0.65, 1.0])
    assert near.beyond(np.array([-1.0, 1.0, 0.4, 1.0])).tolist() == [False, True, False, False]
    far = Bracket.about(sample, 0.25, NEAR[1])
    assert far.nodes[:, 0] == pytest.approx([0.0, 0.0, 0.25, 0.75])
    assert not far.beyond(np.array([-1.0, 1.0, 1.0, 1.0])).any()
