"""Segments, their axes and lengths, by hand."""

import attrs
import numpy as np
import pytest

from strength.case.model import Strut, Wheel
from strength.errors import CaseError
from strength.frame.layout import lay_out
from strength.frame.response import Response
from strength.frame.wheels import wheel_movement
from tests.frame.building import case_of, member

POINTS = {"o": (10, 20, 30), "x": (310, 20, 30), "y": (10, -380, 30), "z": (10, 20, 230), "v": (110, 20, 30)}


@pytest.mark.parametrize(
    ("end", "up", "x_m", "y_m", "z_m"),
    [
        ("x", None, (1, 0, 0), (0, 1, 0), (0, 0, 1)),
        ("y", None, (0, -1, 0), (1, 0, 0), (0, 0, 1)),
        ("z", None, (0, 0, 1), (0, -1, 0), (1, 0, 0)),
        ("x", (5, 2, 0), (1, 0, 0), (0, 0, -1), (0, 1, 0)),
    ],
)
def test_axes(end, up, x_m, y_m, z_m):
    """x_m from to; z_m the part of `up` across it; y_m = z_m x x_m. Upright: `up` is body x."""
    layout = lay_out(case_of(POINTS, [member("m", "o", end, up=up)]))
    assert layout.axes[0] == pytest.approx(np.array([x_m, y_m, z_m], dtype=float))


@pytest.mark.parametrize(("lean", "upright"), [(7.9, True), (8.1, False)])
@pytest.mark.parametrize("down", [1, -1])
def test_upright_within_eight_degrees(lean, upright, down):
    """Within 8 degrees of body z, either way, `up` defaults to body x; beyond to body z."""
    angle = np.radians(lean)
    tip = (0, 500 * np.sin(angle), down * 500 * np.cos(angle))
    z_m = lay_out(case_of({"a": (0, 0, 0), "b": tip}, [member("m", "a", "b")])).axes[0, 2]
    assert bool(abs(z_m[0]) > 0.99) is upright
    assert z_m @ np.array(tip) == pytest.approx(0.0, abs=1e-9)


def test_segments_of_members_and_struts():
    """Members are cut at `via`, struts follow; `along` counts from `from`."""
    case = case_of(
        POINTS,
        [member("a", "y", "o"), member("b", "x", "o", via=("v",))],
        struts=[Strut(name="s", start="z", end="x")],
    )
    layout = lay_out(case)
    assert layout.bar.tolist() == [0, 1, 1, 2]
    assert layout.start.tolist() == [2, 1, 4, 3]
    assert layout.end.tolist() == [0, 4, 0, 1]
    assert (layout.first.tolist(), layout.last.tolist()) == ([0, 1, 3], [0, 2, 3])
    assert layout.along == pytest.approx(np.array([[0, 400], [0, 200], [200, 300], [0, np.hypot(200, 300)]]))
    assert layout.bar_length == pytest.approx([400, 300, np.hypot(200, 300)])
    assert layout.length == pytest.approx([400, 200, 100, np.hypot(200, 300)])


@pytest.mark.parametrize(
    ("members", "text"),
    [
        ([member("m", "o", "o")], "m has two of its points at the same place"),
        ([member("m", "o", "x", up=(2, 0, 0))], "m has its `up` along its own line"),
        ([member("m", "o", "x", via=("v", "o"))], ""),
    ],
)
def test_refused(members, text):
    """No length, or an `up` along the part: told with the part's name."""
    if not text:
        layout = lay_out(case_of(POINTS, members))
        assert layout.length.tolist() == [100, 100, 300]
        return
    with pytest.raises(CaseError, match=text):
        lay_out(case_of(POINTS, members))


def test_wheel_movement():
    """toe-in = -sign(y) t_z, camber = -sign(y) t_x, sign(0) = 1: toes point inward in front, tops outward."""
    points = {"l": (0, 400, 250), "r": (0, -410, 250), "m": (-900, 0, 200)}
    wheels = tuple(Wheel(name=f"w{p}", centre=p, radius=250) for p in points)
    case = attrs.evolve(case_of(points, [member("a", "l", "r"), member("b", "r", "m")]), wheels=wheels)
    moves = np.arange(18.0).reshape(1, 1, 3, 6) + 1.0
    response = Response(
        displaced=lambda: moves, forces=np.zeros((1, 1, 2, 2, 6)), reactions=np.zeros((1, 1, 0, 6))
    )
    found = wheel_movement(case, lay_out(case), response)
    assert found.names == ("wl", "wr", "wm")
    assert found.moved[0, 0] == pytest.approx(moves[0, 0, :, :3])
    # A left wheel turned left (t_z > 0) toes out, one rolled left-over (t_x < 0) leans its top out.
    assert found.toe[0, 0] == pytest.approx([-6, 12, -18])
    assert found.camber[0, 0] == pytest.approx([-4, 10, -16])
