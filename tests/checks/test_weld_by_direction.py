"""Welds with `directional` or `method = "ultimate"`: rows against figures by hand, and what is refused."""

import numpy as np
import pytest

from strength.case.expanded import expand_text
from strength.case.shape import Flat
from strength.checks.weld_throat import weld_throat
from strength.checks.weld_toe import weld_toe
from strength.errors import CaseError
from strength.run import run
from strength.studies.explain.register import explain_row
from tests.case.cases import read
from tests.joints.bench import LIMIT_STATE, PLATE, bench, weld

LINES = ((-3.0, 40.0, -3.0, -40.0), (3.0, 40.0, 3.0, -40.0))
C = ((0.0, -40.0, 0.0, 40.0), (0.0, -40.0, 40.0, -40.0), (0.0, 40.0, 40.0, 40.0))  # k = 0.5, L = 80


def row(force, **given):
    """The first row of a weld on a flat under one load."""
    own = weld(**({"pattern": "lines", "lines": LINES, "filler": "E70", "onto": PLATE} | given))
    return next(iter(weld_throat(bench(Flat(90.0, 6.0), [force], own)))).rows(("load 0",))[0]


def test_pulled_across_it_carries_half_as_much_again():
    """AISC Example J.2 in form: 1.5 at 90 degrees; 0.60 x 70 ksi x 0.8/2.00 x 1.5."""
    plain = row([8e3, 0, 0, 0, 0, 0])
    gained = row([8e3, 0, 0, 0, 0, 0], directional=True)
    assert gained.demand == pytest.approx(8e3 / 160.0 / (4.0 / np.sqrt(2.0)))
    assert gained.limit == pytest.approx(0.60 * 482.633 * 0.8 / 2.0 * 1.5)
    assert gained.utilisation == pytest.approx(plain.utilisation / 1.5)
    assert "J2.4" in gained.source
    assert (gained.in_range, gained.unit) == (True, "MPa")


def test_pulled_along_it_gains_nothing():
    """0 degrees."""
    plain = row([0, 0, 8e3, 0, 0, 0])
    assert row([0, 0, 8e3, 0, 0, 0], directional=True).utilisation == pytest.approx(plain.utilisation)


def test_at_an_angle():
    """30 degrees: 1.1768 (computed from the formula)."""
    force = [8e3 * 0.5, 0, 8e3 * np.sqrt(0.75), 0, 0, 0]
    plain = row(force)
    assert row(force, directional=True).utilisation == pytest.approx(plain.utilisation / 1.1768, rel=1e-4)


def test_the_metal_beside_it_gains_nothing():
    """`weld-toe` stays as it is."""
    found = [
        next(iter(weld_toe(bench(Flat(90.0, 6.0), [[8e3, 900, 700, 0, 0, 0]], own)))).utilisation
        for own in (weld(pattern="sides", onto=PLATE), weld(pattern="sides", onto=PLATE, directional=True))
    ]
    assert np.array_equal(*found)


def test_ultimate_of_a_c_shape():
    """Table 8-8, k = 0.5, a = 0.5: an elastic 1.572 against 2.849 (the latter recomputed from AISC 360).

    Leg 4 mm of E70, quality ordinary: u = 2.00/0.8 x P/(C D L).
    """
    centroid = 0.5**2 / (2 * 0.5 + 1) * 80.0
    force = 9000.0
    moment = (centroid + 0.5 * 80.0) * force
    given = {"pattern": "lines", "lines": C}
    found = row([0, 0, force, moment, 0, 0], method="ultimate", **given)
    strength = 2.849 * (4.0 / 25.4 * 16.0) * (80.0 / 25.4) * 4448.2216
    assert found.utilisation == pytest.approx(2.0 / 0.8 * force / strength, rel=5e-3)
    assert (found.unit, found.in_range, found.limit) == ("1", True, 1.0)
    assert "40 mm from its centroid" in found.note
    elastic = row([0, 0, force, moment, 0, 0], **given)
    assert elastic.utilisation / found.utilisation == pytest.approx(2.849 / 1.572, rel=5e-3)


def test_out_of_its_plane_the_line_method_stands():
    """A bending moment about the line: out of range, and no lower than the line method."""
    given = {"pattern": "lines", "lines": C}
    force = [0, 0, 9e3, 5e5, 2e5, 0]
    found = row(force, method="ultimate", **given)
    assert found.utilisation == pytest.approx(row(force, **given).utilisation)
    assert not found.in_range
    assert "line method" in found.note


def test_on_limit_states_neither_counts():
    """A case read so is refused; one built so keeps the directional method of EN 1993-1-8."""
    force = [8e3, 0, 0, 0, 0, 0]
    plain, gained = (
        next(iter(weld_throat(bench(Flat(90.0, 6.0), [force], own, basis=LIMIT_STATE)))).utilisation
        for own in (weld(pattern="sides"), weld(pattern="sides", directional=True))
    )
    assert np.array_equal(plain, gained)


CASE = """
title = "Bracken test lug"
[defaults]
material = {flat = "S355J2", tube = "E235+N", bar = "S355J2", box = "S235JRH"}
filler = "ER70S-6"
[members]
lug = {from = "0 0 0 mm", to = "0 0 60 mm", up = "1 0 0", section = "flat 90 x 6 mm"}
rail = {from = "-200 0 0 mm", to = "200 0 0 mm", via = ["0 0 0 mm"], section = "flat 60 x 8 mm", up = "0 1 0"}
[supports]
rail-from = "all"
[welds]
foot = {member = "lug", end = "from", inset = "4 mm", onto = "rail", pattern = "sides", KEY}
[loads]
pull = {forces = [{at = "lug-to", force = "900 0 1800 N"}]}
"""


def fault(key, *swaps):
    """The faults that a case with such a key has."""
    text = CASE.replace("KEY", key)
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    with pytest.raises(CaseError) as told:
        read(text)
    return told.value.faults


@pytest.mark.parametrize("key", ["directional = true", 'method = "ultimate"', 'method = "line"'])
def test_accepted(key):
    """A flat on a flat in steel."""
    (own,) = read(CASE.replace("KEY", key)).welds
    assert own.directional is ("directional" in key)
    assert own.method == ("ultimate" if "ultimate" in key else "line")


@pytest.mark.parametrize("key", ["directional = true", 'method = "ultimate"'])
def test_written_out_and_worked_out_by_hand(key):
    """The written case comes back the same; its hand calculation comes to the row."""
    case = read(CASE.replace("KEY", key))
    again = read(expand_text(case)).welds[0]
    assert (again.method, again.directional) == (case.welds[0].method, case.welds[0].directional)
    outcome = run(case)
    row = next(row for row in outcome.rows if row.kind == "weld-throat")
    assert explain_row(outcome.context, row).agrees
    beside = next(row for row in outcome.rows if row.kind == "weld-toe")
    assert explain_row(outcome.context, beside).utilisation == pytest.approx(beside.utilisation, rel=2e-3)


LIMIT = ("[members]", '[basis]\nmethod = "limit-state"\n[members]')
BOX = ('section = "flat 60 x 8 mm"', 'section = "box 60 x 40 x 3 mm"')
LEG = ('section = "flat 90 x 6 mm"', 'section = "box 90 x 30 x 3 mm"')
ROUND = ('section = "flat 60 x 8 mm"', 'section = "bar 30 mm"')
L_SHAPE = ('pattern = "sides"', 'pattern = {lines = ["3 45 3 -45 mm", "3 45 -3 45 mm"]}')


@pytest.mark.parametrize("key", ["directional = true", 'method = "ultimate"'])
@pytest.mark.parametrize(
    ("swaps", "why"),
    [
        ((LIMIT,), "allowable basis only"),
        ((BOX,), "'rail' is hollow"),
        ((LEG,), "'lug' is hollow"),
        ((ROUND,), "round 'rail'"),
        ((("ER70S-6", "5356"), ("S355J2", "6082-T6")), "not for a filler of aluminium"),
    ],
)
def test_refused(key, swaps, why):
    """Each with the path of the key."""
    found = fault(key, *swaps)
    assert [(path, why in text) for path, text in found] == [(f"welds.foot.{key.split()[0]}", True)]


def test_refused_together_and_on_lines_that_turn():
    """Both at once; a directional gain of lines that do not run one way."""
    assert "leave this out" in fault('directional = true, method = "ultimate"')[0][1]
    assert "all run one way" in fault("directional = true", L_SHAPE)[0][1]
    assert read(CASE.replace("KEY", 'method = "ultimate"').replace(*L_SHAPE)).welds
    around = CASE.replace('pattern = "sides"', 'pattern = "around"')
    with pytest.raises(CaseError, match="all run one way"):
        read(around.replace("KEY", "directional = true"))
