"""The worst place of a line, against a dense look at all of it that is zoomed in on twice."""

from collections.abc import Callable

import numpy as np
import pytest

from strength.joints.contest import ALONE, Contest
from strength.joints.forms import Forms
from strength.joints.peak import peaks
from strength.joints.traction import Pull, pull
from strength.joints.weld_line import WeldLine
from tests.joints.bench import weld
from tests.joints.lines import saddle
from tests.joints.test_alike import box_on_tube

LOADS, RIVALS = 120, 4
SIZES = np.array([1.0, 0.8, 0.5, 21.0, 17.0, 12.0])
FORMS = [(1, 1, 1, 0), (3, 3, 1, 0), (1, 3, 3, 0), (2, 3, 2, 2), (2, 3, 2, -2), (0.4, 1.2, 0, 0)]
Made = Callable[[np.random.Generator], WeldLine]


def gentle(rng: np.random.Generator) -> WeldLine:
    """A tube on a stouter one."""
    radius = rng.uniform(20.0, 40.0)
    return saddle(radius * rng.uniform(0.3, 0.78), radius, rng.uniform(50.0, 90.0))


def steep(rng: np.random.Generator) -> WeldLine:
    """A tube on one not much stouter."""
    radius = rng.uniform(20.0, 40.0)
    return saddle(radius * rng.uniform(0.8, 0.999), radius, rng.uniform(45.0, 90.0))


def box(rng: np.random.Generator) -> WeldLine:
    """A box on a slanting tube."""
    return box_on_tube(rng.uniform(10.0, 24.0), rng.uniform(10.0, 20.0))


def heights(line: WeldLine, force: np.ndarray, form: np.ndarray, u: np.ndarray) -> np.ndarray:
    """A form of loads (loads, 6), per length, at u of all pieces: (loads, pieces, places)."""
    place, frame = line.all_at(u)
    arm = place[0] - line.centroid[0]
    spun = np.cross(force[:, None, None, 3:], arm)
    q = np.einsum("pnij,lpnj->lpni", frame[0], force[:, None, None, :3] + spun)
    x, s, n = np.moveaxis(q, -1, 0)
    found: np.ndarray = form[0] * x * x + form[1] * s * s + form[2] * n * n + form[3] * x * n
    return found


def dense(line: WeldLine, through: Pull, form: np.ndarray) -> np.ndarray:
    """Greatest height of each load."""
    force = through.both[0]
    grid = 0.5 - 0.5 * np.cos(np.pi * np.linspace(0.0, 1.0, 401))
    whole = heights(line, force, form, grid)
    found = np.empty(len(force))
    for load, own in enumerate(whole):
        piece, at = np.unravel_index(own.argmax(), own.shape)
        low, high = grid[max(at - 1, 0)], grid[min(at + 1, grid.size - 1)]
        for _ in range(2):
            closer = np.linspace(low, high, 101)
            near = heights(line, force[load : load + 1], form, closer)[0, piece]
            top = int(near.argmax())
            low, high = closer[max(top - 1, 0)], closer[min(top + 1, 100)]
        found[load] = near.max()
    return found


@pytest.mark.parametrize("made", [gentle, steep, box])
def test_worst_place(made: Made) -> None:
    """Every load by itself, and the worst of those that stand against each other."""
    rng = np.random.default_rng(17)
    for n in range(12):
        line = made(rng)
        form = np.array(FORMS[n % len(FORMS)], dtype=float)
        load = rng.normal(size=(1, LOADS, 6)) * rng.uniform(0.0, 1.0, (1, LOADS, 6)) ** 2 * SIZES
        through = pull(line, load, [weld()], tuple(map(str, range(LOADS))))
        every = np.broadcast_to(form, (1, 1, line.pieces.span.size, 4)).copy()
        group = Forms(forms=every, scales=np.ones((1, 1)))
        expected = dense(line, through, form)
        alone = peaks(line, through, [group], ALONE)[0].height[0]
        assert alone == pytest.approx(expected, rel=1e-9)
        contest = Contest(rivals=RIVALS, factor=np.ones((1, RIVALS)))
        many = peaks(line, through, [group], contest)[0].height[0]
        worst = expected.reshape(-1, RIVALS).max(axis=1)
        assert many.reshape(-1, RIVALS).max(axis=1) == pytest.approx(worst, rel=1e-9)


def beside_an_end(line: WeldLine, through: Pull, form: np.ndarray) -> np.ndarray:
    """Numbers of the loads whose worst place lies a little inside an end of a piece."""
    grid = np.linspace(0.0, 1.0, 201)
    whole = heights(line, through.both[0], form, grid)
    place = grid[whole.reshape(len(whole), -1).argmax(axis=1) % grid.size]
    off = np.minimum(place, 1.0 - place)
    return np.flatnonzero((off > 0.0) & (off < 0.15))


@pytest.mark.parametrize("made", [gentle, steep, box])
def test_worst_place_beside_an_end(made: Made) -> None:
    """Between an end of a piece, the greatest of its samples, and the next sample."""
    rng = np.random.default_rng(23)
    form, looked_at = np.array([1.0, 3.0, 3.0, 0.0]), 0
    for _ in range(6):
        line = made(rng)
        load = rng.normal(size=(1, 1500, 6)) * rng.uniform(0.0, 1.0, (1, 1500, 6)) ** 2 * SIZES
        through = pull(line, load, [weld()], tuple(map(str, range(1500))))
        some = beside_an_end(line, through, form)[:80]
        few = Pull(both=through.both[:, some])
        every = np.broadcast_to(form, (1, 1, line.pieces.span.size, 4)).copy()
        group = Forms(forms=every, scales=np.ones((1, 1)))
        expected = dense(line, few, form)
        assert peaks(line, few, [group], ALONE)[0].height[0] == pytest.approx(expected, rel=1e-9)
        two = Pull(both=np.repeat(few.both, 2, axis=1))  # a rival that is the same
        both = peaks(line, two, [group], Contest(rivals=2, factor=np.ones((1, 2))))[0].height
        assert both.reshape(-1, 2).max(axis=1) == pytest.approx(expected, rel=1e-9)
        looked_at += some.size
    assert looked_at > 100
