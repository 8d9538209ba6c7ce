"""The search for the multiplier against heights whose fall is known in closed form."""

import numpy as np
import pytest

from strength.frame.search import BELOW, CALM, Search


def searched(height, pole, looks):
    """The search after so many looks at a height, by differences of it."""
    small = 1e-4 * np.where(np.isfinite(pole), pole, 1.0)
    search = Search.begin(pole, small).first(height(small))
    for _ in range(looks):
        step = 1e-7 * search.at
        fall = (height(search.at + step) - height(search.at - step)) / (2.0 * step)
        search = search.after(height(search.at), fall)
    return search


def test_a_line_and_a_pole():
    """1 - a / b falls at b; 1 - a / b - a / (c - a) where a^2 - (2 b + c) a + b c = 0: by four looks."""
    b, pole = np.array([3.7, 41.0, 0.02]), np.array([np.inf, 19.0, 7.0])
    found = searched(lambda a: 1.0 - a / b - a / (pole - a), pole, 4)
    half = (2.0 * b[1:] + pole[1:]) / 2.0
    exact = np.append(b[0], half - np.sqrt(half**2 - b[1:] * pole[1:]))
    assert found.at == pytest.approx(exact, rel=1e-9)
    assert found.near.all()


@pytest.mark.parametrize("power", [1.3, 2.0, 4.5])
def test_a_fall_that_speeds_up(power):
    """1 - (a / b)^power - (a / c): bracketed between what stood and what fell, whatever its curve."""
    pole, b = np.array([11.0, 23.0]), np.array([2.5, 22.0])
    found = searched(lambda a: 1.0 - (a / b) ** power - a / 90.0, pole, 8)
    value = 1.0 - (found.at / b) ** power - found.at / 90.0
    assert value == pytest.approx(0.0, abs=1e-9)
    assert np.all(found.at <= found.high)
    assert found.near.all()


def test_what_stands_up_to_its_pole():
    """A height that never falls: after a few looks at the bound, the pole is what is found."""
    pole = np.array([5.0, 800.0])
    found = searched(lambda a: 1.0 - 1e-3 * a / pole, pole, CALM + 3)
    assert found.rests.all()
    assert found.found.tolist() == pole.tolist()
    assert found.at == pytest.approx(BELOW * pole, rel=1e-15)


def test_what_never_falls():
    """No pole and no softening at all: nothing is found, and no figure is out of bounds."""
    found = searched(np.ones_like, np.array([np.inf]), 5)
    assert np.isinf(found.found).all()
    assert np.isfinite(found.at).all()


def test_a_height_that_hangs_on_nothing():
    """A height of nothing that does not fall with the multiplier is no fall of the frame."""
    search = Search.begin(np.array([9.0]), np.array([1e-3])).first(np.array([1.0 - 1e-4]))
    assert not search.after(np.array([1e-12]), np.array([-1e-15])).near.any()
    assert search.after(np.array([1e-12]), np.array([-0.4])).near.all()
