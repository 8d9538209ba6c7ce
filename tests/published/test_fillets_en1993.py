"""Fillet welds by EN 1993-1-8:2005, 4.5.3.

beta_w: Table 4.1, read in a national edition; gamma_M2 = 1.25 read in the notes of SCI P363.
Equations 4.1 to 4.4 from memory. Resistances per length: SCI P363, Steel building design, fillet
weld tables (fu 410 and 470), from memory, throat = 0.7 leg there. The reference problems are
evaluated from the equations.
"""

import numpy as np
import pytest

from strength.case.model import Plate
from strength.case.shape import Flat
from strength.checks.weld_throat import weld_throat
from strength.joints.draw import THROAT
from strength.joints.fillet import throat_rules
from strength.joints.forms import form_at
from strength.joints.parents import Parent
from strength.library import Filler
from tests.joints.bench import LIMIT_STATE, bench, metal, weld

ROD = Filler(name="strong", kind="steel", strength=900.0)
GRADES = {"S235": 0.80, "S275": 0.85, "S355": 0.90, "S460": 1.00}
TABLE = [
    ("S235", 360.0, 207.8, 254.6, 360.0),
    ("S275", 410.0, 222.8, 272.9, 385.9),
    ("S275", 430.0, 233.7, 286.2, 404.7),
    ("S355", 470.0, 241.2, 295.4, 417.8),
    ("S355", 490.0, 251.5, 308.0, 435.6),
    ("S355", 510.0, 261.7, 320.6, 453.3),
    ("S460", 540.0, 249.4, 305.5, 432.0),
]
P363 = [
    (3.0, 0.47, 0.57, 0.51, 0.62),
    (4.0, 0.62, 0.76, 0.68, 0.83),
    (5.0, 0.78, 0.96, 0.84, 1.03),
    (6.0, 0.94, 1.15, 1.01, 1.24),
    (8.0, 1.25, 1.53, 1.35, 1.65),
    (10.0, 1.56, 1.91, 1.69, 2.07),
    (12.0, 1.87, 2.29, 2.03, 2.48),
]


def parent(name, fu, beta):
    """A joined part of ultimate strength fu."""
    return Parent(
        name=name,
        metal=metal(name, beta_w=beta),
        ultimate=np.array([fu]),
        yield_=np.array([fu / 1.5]),
        wall=np.array([6.0]),
        brittle=False,
        in_range=np.array([True]),
    )


def use(q, throat, fu, beta, *, hollow=False, gamma=1.25):
    """Utilisation of force per length q_x, q_s, q_n [N/mm] by the worst rule."""
    rules, known = throat_rules(
        np.array([throat]),
        "limit-state",
        filler=ROD,
        brazed=False,
        hollow=hollow,
        own=parent("leg", fu, beta),
        onto=None,
    )
    assert known
    return max(float(np.sqrt(form_at(rule.form[0, 0], *q)) / rule.limit[0] * gamma) for rule in rules)


@pytest.mark.parametrize(("grade", "fu", "simple", "across", "normal"), TABLE)
def test_resistances_by_grade(grade, fu, simple, across, normal):
    """fvw,d along the weld (both methods), fu/(sqrt(2) beta_w gM2) across it, fu/(beta_w gM2)."""
    beta = GRADES[grade]
    assert use([0.0, simple, 0.0], 1.0, fu, beta) == pytest.approx(1.0, rel=1e-3)
    assert use([0.0, simple, 0.0], 1.0, fu, beta, hollow=True) == pytest.approx(1.0, rel=1e-3)
    assert use([across, 0.0, 0.0], 1.0, fu, beta) == pytest.approx(1.0, rel=1e-3)
    assert use([0.0, 0.0, -across], 1.0, fu, beta) == pytest.approx(1.0, rel=1e-3)
    assert simple * np.sqrt(3.0) == pytest.approx(normal, rel=1e-3)


@pytest.mark.parametrize(("leg", "along_275", "across_275", "along_355", "across_355"), P363)
def test_resistance_per_length(leg, along_275, across_275, along_355, across_355):
    """Resistance in kN per mm of weld; printed with two decimals, so half of the last place is allowed."""
    throat = 0.7 * leg
    for fu, beta, along, across in (
        (410.0, 0.85, along_275, across_275),
        (470.0, 0.90, along_355, across_355),
    ):
        assert 1.0 / use([0.0, 1e3, 0.0], throat, fu, beta) == pytest.approx(along, abs=0.0056)
        assert 1.0 / use([1e3, 0.0, 0.0], throat, fu, beta) == pytest.approx(across, abs=0.0056)


@pytest.mark.parametrize("q", [(310.0, -120.0, 95.0), (-40.0, 260.0, 180.0), (150.0, 90.0, -205.0)])
def test_directional_method_on_both_throats_by_hand(q):
    """sigma_perp, tau_perp, tau_parallel resolved on each 45 degree plane, equation 4.1."""
    throat, fu, beta = 2.8, 490.0, 0.90
    x, s, n = (component / throat for component in q)
    worst = 0.0
    for turn in (np.pi / 4.0, -np.pi / 4.0):
        normal = x * np.cos(turn) + n * np.sin(turn)
        shear = -x * np.sin(turn) + n * np.cos(turn)
        combined = np.sqrt(normal**2 + 3.0 * (shear**2 + s**2))
        worst = max(worst, combined / (fu / (beta * 1.25)), abs(normal) / (0.9 * fu / 1.25))
    assert use(q, throat, fu, beta) == pytest.approx(worst, rel=1e-12)


def test_stress_across_the_throat_governs_where_beta_is_low():
    """With x = n the whole force is normal to one throat: 0.9 fu decides at a beta_w of 0.5."""
    assert use([1.0, 0.0, 1.0], 1.0, 1.0, 0.5) == pytest.approx(np.sqrt(2.0) / 0.9 * 1.25, rel=1e-12)


@pytest.mark.parametrize(
    ("length", "factor", "expected"),
    [(100.0, 1.0, 201.2), (92.0, 1.0, 185.1)],
    ids=["EX1 full", "EX1 less 2a"],
)
def test_two_side_fillets_pulled_along(length, factor, expected):
    """EX1: a = 4, fu 490, longitudinal: 201.2 kN over 2 x 100 mm, 185.1 over 2 x 92."""
    q = expected * 1e3 / (2.0 * length)
    assert use([0.0, q, 0.0], 4.0, 490.0, 0.90) == pytest.approx(factor, rel=2e-3)


def test_double_fillet_pulled_across():
    """EX2: a = 4.2, L = 120, S275 fu 410: directional 275.0 kN, simplified 224.6 kN."""
    assert use([275.0e3 / 240.0, 0.0, 0.0], 4.2, 410.0, 0.85) == pytest.approx(1.0, rel=2e-3)
    assert use([224.6e3 / 240.0, 0.0, 0.0], 4.2, 410.0, 0.85, hollow=True) == pytest.approx(1.0, rel=2e-3)


def test_free_ends_are_cut_back_in_a_whole_check():
    """EX1 as a case: a 100 mm flat on two side fillets a = 4 carries 185.1 kN along them, L - 2a."""
    context = bench(
        Flat(100.0, 10.0),
        [[0.0, 0.0, 185.1e3 / 1.5, 0.0, 0.0, 0.0]],
        weld(
            pattern="sides",
            leg=4.0 / THROAT,
            quality="good",
            filler="strong",
            onto=Plate(thickness=10.0, material="S355"),
        ),
        material="S355",
        fillers={"strong": ROD},
        basis=LIMIT_STATE,
    )
    (row,) = next(weld_throat(context)).rows(context.load_names)
    assert row.utilisation == pytest.approx(1.0, rel=2e-3)
    assert row.limit == pytest.approx(490.0 / 0.90 / 1.25)
    assert row.in_range
