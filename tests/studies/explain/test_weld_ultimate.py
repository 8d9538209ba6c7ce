"""The centre on a sheet of a weld in its plane: the three sums by quadrature along the weld, and off it.

Law of Lesik and Kennedy as in AISC 360-16 J2.4(b)(2), equations J2-7 to J2-9 (from memory).
"""

import numpy as np
import pytest
from scipy.integrate import quad

from strength.studies.explain.register import explain_row
from strength.studies.explain.sheet import Explained, Given, Step
from strength.studies.explain.table import Table
from tests.studies.explain.worked import OWN, named, outcome_of

PATH = next(path for path in OWN if named(path) == "lapped")
LAP = ((-8, -40, -8, 44), (-8, -40, 22, -40), (-8, 44, 31, 44))  # lines of `lap` in the case file
FILLER, LEG, DIVISOR, QUALITY = 480.0, 5.0, 2.0, 0.8  # ER70S-6, as in the case file


def sheet_of(load: str) -> tuple[Explained, dict[str, float]]:
    """The sheet of `lap`, and its numbers."""
    outcome = outcome_of(PATH)
    assert outcome.context is not None
    row = next(row for row in outcome.rows if row.id == f"lap/weld-throat/{load}")
    found = explain_row(outcome.context, row)
    return found, {line.symbol: line.value for line in found.lines if isinstance(line, Given | Step)}


def along(line: tuple[int, ...], u: float, centre: np.ndarray) -> tuple[np.ndarray, float, float, float]:
    """Offset from the centre, radius, angle in degrees and run of a line at u."""
    start, run = np.array(line[:2], dtype=float), np.subtract(line[2:], line[:2])
    off = start + u * run - centre
    radius, size = float(np.hypot(*off)), float(np.hypot(*run))
    across = np.array([-off[1], off[0]]) / radius
    angle = float(np.degrees(np.arccos(min(1.0, abs(across @ run) / size))))
    return off, radius, angle, size


def rupture(angle: float) -> float:
    """Movement at rupture over the leg."""
    return min(1.087 * (angle + 6.0) ** -0.65, 0.17)


def sums(centre: np.ndarray) -> np.ndarray:
    """Forces along y and z and moment about a centre as the first place of the weld ruptures."""
    ends = [along(line, u, centre) for line in LAP for u in np.linspace(0.0, 1.0, 2001)]
    turn = min(rupture(angle) / radius for _, radius, angle, _ in ends)

    def one(u: float, line: tuple[int, ...], part: int) -> float:
        off, radius, angle, size = along(line, u, centre)
        p = turn * radius / (0.209 * (angle + 2.0) ** -0.32)
        carried = 1.0 + 0.5 * np.sin(np.radians(angle)) ** 1.5
        force = 0.60 * FILLER * 0.707 * LEG * size * carried * max(p * (1.9 - 0.9 * p), 0.0) ** 0.3
        return float(force * (-off[1] / radius, off[0] / radius, radius)[part])

    return np.array([sum(quad(one, 0.0, 1.0, (line, n), limit=200)[0] for line in LAP) for n in range(3)])


@pytest.mark.parametrize("load", ["skew", "turn"])
def test_three_sums_balance_at_the_centre(load: str) -> None:
    """A force of size P on the line of the applied one balances all three; 0.1 % for the short pieces.

    Of the strength of all its length along itself, at a radius of 40 mm. A millimetre beside the centre
    they are out of balance.
    """
    found, told = sheet_of(load)
    centre = np.array([told["y_0"], told["z_0"]])
    force = told["P"] * np.array([told["e_y"], told["e_z"]])
    place = np.array([told["c_y"], told["c_z"]]) + told["arm"] * np.array([told["e_z"], -told["e_y"]])
    off = place - centre
    wanted = np.array([*force, off[0] * force[1] - off[1] * force[0]])
    largest = 0.60 * FILLER * 0.707 * LEG * 153.0 * np.array([1.0, 1.0, 40.0])
    assert np.abs((sums(centre) - wanted) / largest).max() < 1e-3
    beside = sums(centre + np.array([0.8, -0.6]))
    assert np.abs((beside - wanted) / largest).max() > 2e-2
    assert found.utilisation == pytest.approx(found.row.utilisation, rel=1e-9)


def test_force_and_moment_from_the_load() -> None:
    """The force at the arm's tip, 1300 and -2600 N, and its moment about the weld's own centroid."""
    _, told = sheet_of("skew")
    assert told["F"] == pytest.approx(np.hypot(1300.0, 2600.0))
    lengths = np.array([84.0, 30.0, 39.0])
    assert told["L"] == pytest.approx(lengths.sum())
    assert told["c_y"] == pytest.approx((lengths * [-8.0, 7.0, 11.5]).sum() / lengths.sum())
    assert told["c_z"] == pytest.approx((lengths * [2.0, -40.0, 44.0]).sum() / lengths.sum())
    assert told["u"] == pytest.approx(told["F"] / abs(told["P"]) * DIVISOR / QUALITY)


def test_pieces_lie_on_the_weld() -> None:
    """Their lengths sum to that of the lines, first moments and all."""
    found, told = sheet_of("skew")
    (table,) = (line for line in found.lines if isinstance(line, Table))
    y, z, length, s_y, s_z = np.array(table.rows)[:, :5].T
    assert length.sum() == pytest.approx(told["L"])
    assert [(y * length).sum(), (z * length).sum()] == pytest.approx(
        [told["c_y"] * told["L"], told["c_z"] * told["L"]]
    )
    assert np.hypot(s_y, s_z) == pytest.approx(np.ones(y.size))
    on_upright = np.isclose(y, -8.0) & (np.abs(s_z) > 0.5)
    assert length[on_upright].sum() == pytest.approx(84.0)


def test_out_of_the_plane_the_line_method_is_written() -> None:
    """It says so, prints no centre, and comes to the row all the same."""
    found, told = sheet_of("aside")
    assert not found.row.in_range
    assert told["q_out"] > 0.02
    assert "y_0" not in told
    assert told["u"] == pytest.approx(told["stress"] / told["limit"])
    assert any("line method" in getattr(line, "text", "") for line in found.lines)
    assert found.agrees
