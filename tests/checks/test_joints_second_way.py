"""Random joints, every row against `joints_by_hand`: skew parts, three loads, both bases."""

import numpy as np
import pytest

from strength.case.model import Basis
from strength.case.shape import Bar, Flat
from tests.checks.jointed import across_flat, arm, bolt, plate, rows, stud
from tests.checks.joints_by_hand import Factors, bolt_rows, diameter_of, stud_rows
from tests.checks.loaded import METALS

SEVERITIES = ("routine", "hard", "abuse")


def unit(rng: np.random.Generator) -> np.ndarray:
    """A random direction."""
    found = rng.normal(size=3)
    return found / np.linalg.norm(found)


def forces(rng: np.random.Generator) -> np.ndarray:
    """N Vy Vz T My Mz of three loads."""
    return rng.normal(size=(3, 6)) * [3e3, 9e2, 14e2, 2e4, 6e4, 4e4]


def plain(one) -> dict:
    """A plate's own figures."""
    metal = METALS[one.material]
    row = metal.rows[0]
    return {
        "t": one.thickness,
        "fu": row.ultimate,
        "fy": row.yield_,
        "kind": metal.kind,
        "brittle": row.elongation is None or row.elongation < 0.1,
        "edge": one.edge,
        "hole": one.hole,
    }


@pytest.mark.parametrize("seed", range(60))
def test_bolts(seed):
    """Threads, pins, both planes, gaps, groups in and out of plane, brittle and light plates."""
    rng = np.random.default_rng(seed)
    text = str(rng.choice(["M8", "M10", "M12x1.25", "pin 12 mm", "pin 9 mm", "M6"]))
    grade = str(rng.choice(["4.6", "5.8", "8.8", "10.9", "A2-70"]))
    planes, gap = int(rng.integers(1, 3)), float(rng.choice([0.0, 1.3]))
    in_thread = text.startswith("M") and bool(rng.integers(2))
    d = diameter_of(text)
    shape = Flat(70.0, 8.0) if rng.integers(2) else Bar(30.0)
    axes = across_flat()
    axis = axes[1] if rng.integers(2) else unit(rng)
    places = None
    if rng.integers(2):
        flat = rng.normal(size=(int(rng.integers(3, 6)), 2)) * [25.0, 40.0]
        one, two = (np.linalg.svd(axis[None])[2][n] for n in (1, 2))
        places = flat[:, :1] * one + flat[:, 1:] * two + 6.0 * axis
        if rng.integers(3) == 0:  # all in one line
            places = flat[:, :1] * one + flat[:1, 1:] * two
    made = [
        plate(float(rng.uniform(4, 9)), str(m), edge=float(rng.uniform(1.3, 2.5)) * d, hole=d + 0.4)
        for m in rng.choice(["steel", "light", "brittle"], size=int(rng.integers(1, 3)))
    ]
    method = str(rng.choice(["allowable", "limit-state"]))
    only = bool(rng.integers(2))
    loads = forces(rng)
    own = bolt(
        text,
        grade=grade,
        axis=tuple(axis),
        shear_planes=planes,
        thread_in_shear=in_thread,
        gap=gap,
        group=() if places is None else tuple(map(tuple, places)),
        plates=tuple(made),
        end=str(rng.choice(["from", "to"])),
    )
    context = arm(
        loads, shape=shape, bolts=(own,), severities=SEVERITIES, basis=Basis(method=method), only_path=only
    )
    found = rows(context)
    width = 70.0 if isinstance(shape, Flat) and abs(axis @ axes[1]) > np.cos(np.radians(45)) else None
    plates = [plain(one) for one in made]
    kinds = set()
    for n, severity in enumerate(SEVERITIES):
        expected = bolt_rows(
            text, grade, Factors(method, severity), list(loads[n]), axes, axis, planes, in_thread, gap,
            None if places is None else list(places), plates, width,
        )  # fmt: skip
        for kind, (demand, limit) in expected.items():
            row = found[kind, n]
            kinds.add(kind)
            assert row.demand == pytest.approx(demand, rel=1e-5, abs=1e-6), (kind, n)
            assert row.limit == pytest.approx(limit, rel=1e-5), (kind, n)
            assert row.utilisation == pytest.approx(
                demand / limit * (1.25 if only else 1.0), rel=1e-5, abs=1e-9
            )
    assert {kind for kind, _ in found} == kinds


@pytest.mark.parametrize("seed", range(25))
def test_studs(seed):
    """Along and across the part, in its own metal or another."""
    rng = np.random.default_rng(1000 + seed)
    text = str(rng.choice(["M8", "M10", "M12"]))
    grade = str(rng.choice(["5.8", "8.8", "10.9", "A2-70"]))
    axes = across_flat()
    axis = None if rng.integers(2) else unit(rng)
    into = str(rng.choice(["", "light", "brittle"]))
    method = str(rng.choice(["allowable", "limit-state"]))
    reach, engaged = float(rng.uniform(5, 30)), float(rng.uniform(9, 25))
    loads = forces(rng)
    own = stud(
        text,
        grade=grade,
        axis=None if axis is None else tuple(axis),
        reach=reach,
        engaged=engaged,
        into=into,
        end=str(rng.choice(["from", "to"])),
    )
    context = arm(loads, shape=Bar(30.0), studs=(own,), severities=SEVERITIES, basis=Basis(method=method))
    found = rows(context)
    row = METALS[into or "steel"].rows[0]
    tapped = {"fu": row.ultimate, "fy": row.yield_, "kind": METALS[into or "steel"].kind}
    for n, severity in enumerate(SEVERITIES):
        expected = stud_rows(
            text, grade, Factors(method, severity), list(loads[n]), axes, axes[0] if axis is None else axis,
            reach, engaged, tapped,
        )  # fmt: skip
        for kind, (demand, limit) in expected.items():
            row = found[kind, n]
            # thread areas are tabled to two decimals
            assert row.demand == pytest.approx(demand, rel=1e-5), (kind, n)
            assert row.limit == pytest.approx(limit, rel=5e-4), (kind, n)
