"""Axle flats in dropouts: the pressure against its integral, rows by hand, reading, mirroring, warnings.

1.5 fy in bearing: EN 1993-1-8:2005 Table 3.10, as read in extracts.
"""

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case.dropout import Dropout
from strength.case.expanded import expand_text
from strength.case.model import Wheel
from strength.case.shape import Flat
from strength.checks.dropouts import dropout, little_torque, loose_flats, unchecked_dropouts
from strength.errors import CaseError
from strength.joints.dropout import flank_pressure, flat_length
from strength.run import run
from strength.vehicle.sheet import WheelForce
from tests.case.cases import read
from tests.checks.jointed import arm
from tests.checks.loaded import LIMIT_STATE, weld

OWN = Dropout(
    name="slot", member="arm", end="to", thickness=7.0, slot=10.1, flats=10.0, diameter=14.0, torque=40e3
)
LENGTH = np.sqrt(14.0**2 - 10.0**2)
PRESSURE = 6.0 * 40e3 / (7.0 * LENGTH**2)  # 357.1 MPa
NONE = [0.0] * 6


@given(st.floats(4.0, 20.0), st.floats(0.3, 0.95), st.floats(2.0, 15.0), st.floats(1e3, 2e5))
def test_pressure_balances_the_torque(diameter, share, thickness, torque):
    """The moment of a pressure that rises linearly over one half of each of both flats, summed in strips."""
    length = flat_length(diameter, share * diameter)
    assert (length / 2.0) ** 2 + (share * diameter / 2.0) ** 2 == pytest.approx((diameter / 2.0) ** 2)
    most = flank_pressure(torque, thickness, length)
    x = (np.arange(20000) + 0.5) / 20000.0 * length / 2.0
    moment = 2.0 * (most * x / (length / 2.0) * thickness * x).sum() * length / 2.0 / 20000.0
    assert moment == pytest.approx(torque, rel=1e-6)


def row(own=OWN, **given):
    """Its row in the first load."""
    context = arm(given.pop("forces", NONE), dropouts=(own,), **given)
    return next(iter(dropout(context))).rows(context.load_names)[0]


def test_allowable():
    """1.5 x 240/1.67, by hand; 24 elongation of steel, routine."""
    found = row()
    assert found.demand == pytest.approx(PRESSURE)
    assert found.demand == pytest.approx(357.142857)
    assert found.limit == pytest.approx(1.5 * 240.0 / 1.67)
    assert (found.unit, found.kind, found.fails, found.in_range) == ("MPa", "dropout", "slips", True)
    assert "taken as no softer" in found.note


def test_every_load_alike_by_its_severity():
    """The motor may pull in any of them; abuse may bend: 1.25."""
    context = arm([NONE, [9e3, 500.0, 0.0, 0.0, 4e4, 0.0]], severities=("hard", "abuse"), dropouts=(OWN,))
    (found,) = dropout(context)
    assert found.demand[0] == pytest.approx([PRESSURE, PRESSURE])
    assert found.limit[0] == pytest.approx([1.5 * 240.0 / 1.67, 1.5 * 240.0 / 1.25])


def test_limit_state():
    """Load factor 1.5 on the torque; gamma_M0 1.00 of steel, gamma_M1 1.10 of aluminium."""
    found = row(basis=LIMIT_STATE)
    assert (found.demand, found.limit) == pytest.approx((1.5 * PRESSURE, 1.5 * 240.0))
    assert row(attrs.evolve(OWN, material="light"), basis=LIMIT_STATE).limit == pytest.approx(
        1.5 * 255.0 / 1.10
    )


def test_the_softer_of_dropout_and_axle():
    """Either may be; a brittle one keeps 1.67 in abuse."""
    assert row(attrs.evolve(OWN, axle_material="light")).limit == pytest.approx(1.5 * 240.0 / 1.67)
    soft = row(attrs.evolve(OWN, material="brittle", axle_material="steel"), severities=("abuse",))
    assert soft.limit == pytest.approx(1.5 * 240.0 / 1.67)
    assert "softer steel" in soft.note


def test_beside_a_weld():
    """Welded yield where the member's end is heat-affected (20 mm, MIG to 6 mm): 125, not 255."""
    light = attrs.evolve(OWN, material="light")
    made = {"shape": Flat(60.0, 5.0), "material": "light"}
    for inset, fy in ((10.0, 125.0), (40.0, 255.0)):
        found = row(light, welds=(weld("seam", "arm", "to", inset=inset),), **made)
        assert found.limit == pytest.approx(1.5 * fy / 1.67)
        assert ("welded" in found.note) is (fy < 200.0)


def test_only_path():
    """1.25 on the utilisation, from the member or of its own."""
    plain = row().utilisation
    assert row(only_path=True).utilisation == pytest.approx(1.25 * plain)
    assert row(attrs.evolve(OWN, only_path=False), only_path=True).utilisation == pytest.approx(plain)


def test_what_it_leaves_out_is_told():
    """The prongs are judged nowhere."""
    (told,) = unchecked_dropouts(arm(NONE, dropouts=(OWN,)))
    assert (told.part, told.kind) == ("slot", "dropout")
    assert "prongs" in told.why
    assert list(unchecked_dropouts(arm(NONE))) == []


@pytest.mark.parametrize(("slot", "count"), [(10.2, 0), (10.25, 1)])
def test_loose_flats(slot, count):
    """Over 0.2 mm of play."""
    context = arm(NONE, dropouts=(attrs.evolve(OWN, slot=slot),))
    assert len(list(loose_flats(context))) == count


@pytest.mark.parametrize(
    ("driving", "driven", "torque", "count"),
    [(3.0, True, 24.9e3, 2), (3.0, True, 25.1e3, 0), (3.0, False, 9e3, 0), (0.0, True, 9e3, 0)],
)
def test_little_torque(driving, driven, torque, count):
    """200 N at 250 mm are 50 N m: two dropouts at the wheel share it."""
    wheel = Wheel(name="hind", centre="b", radius=250.0, driven=driven)
    both = tuple(attrs.evolve(OWN, name=name, torque=torque) for name in ("one", "other"))
    context = arm(NONE, dropouts=both, wheels=(wheel,))
    load = attrs.evolve(
        context.loads[0],
        driving=driving,
        wheels=(WheelForce(name="hind", force=(200.0, 9.0, 700.0), slides=False, lifts=False),),
    )
    found = list(little_torque(attrs.evolve(context, loads=(load,))))
    assert [warning.part for warning in found] == ["one", "other"][:count]
    assert all("50 N*m" in warning.text for warning in found)


CASE = """
title = "Bracken motor fork"
mirror = true
[defaults]
material = "S355J2"
[points]
"hub.left" = "0 60 0 mm"
[members]
"stay.left" = {from = "0 60 300 mm", to = "hub.left", section = "flat 50 x 8 mm", up = "1 0 0"}
[supports]
"stay-from.left" = "all"
[dropouts."slot.left"]
member = "stay.left"
end = "to"
thickness = "8 mm"
slot = "10.1 mm"
AXLE
torque = "35 N*m"
[loads]
pull = {forces = [{at = "hub.left", force = "300 0 200 N"}]}
"""
AXLE = 'axle = {flats = "10 mm", diameter = "14 mm", material = "C45+C"}'


def test_read_mirrored_and_written_out():
    """Both sides; the written case comes back the same."""
    case = read(CASE.replace("AXLE", AXLE))
    left, right = case.dropouts
    assert (left.name, right.name) == ("slot.left", "slot.right")
    assert (left.member, right.member) == ("stay.left", "stay.right")
    assert (left.flats, left.diameter, left.torque, left.axle_material) == (10.0, 14.0, 35e3, "C45+C")
    again = read(expand_text(case))
    for one, other in zip(case.dropouts, again.dropouts, strict=True):
        assert attrs.evolve(one, path="") == attrs.evolve(other, path="")


def test_rows_of_a_whole_case():
    """6 x 35e3/(8 x 96) over 1.5 x 355/1.67."""
    found = [each for each in run(read(CASE.replace("AXLE", AXLE))).rows if each.kind == "dropout"]
    assert [each.part for each in found] == ["slot.left", "slot.right"]
    expected = 6.0 * 35e3 / (8.0 * 96.0) / (1.5 * 355.0 / 1.67)
    assert [each.utilisation for each in found] == pytest.approx([expected] * 2)


@pytest.mark.parametrize(
    ("old", "new", "path", "why"),
    [
        ('"10.1 mm"', '"9.9 mm"', "dropouts.slot.left.slot", "narrower than the flats"),
        ('"10.1 mm"', '"14 mm"', "dropouts.slot.left.slot", "nothing holds it"),
        ('flats = "10 mm"', 'flats = "14 mm"', "dropouts.slot.left.axle.flats", "leaves no flats"),
        ('torque = "35 N*m"', 'torque = "35 N"', "dropouts.slot.left.torque", "moment"),
        ('torque = "35 N*m"\n', "", "dropouts.slot.left", "`torque` is missing"),
        ('material = "C45+C"', 'material = "C46"', "dropouts.slot.left.axle.material", "C45"),
        ('member = "stay.left"', 'member = "stai.left"', "dropouts.slot.left.member", "stay.left"),
    ],
)
def test_refused(old, new, path, why):
    """Each with its path."""
    text = CASE.replace("AXLE", AXLE)
    assert old in text
    with pytest.raises(CaseError) as told:
        read(text.replace(old, new))
    assert any(each == path and why in text for each, text in told.value.faults), told.value.faults
