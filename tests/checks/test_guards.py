"""Warnings about joints: each on a part that calls for it and on one that does not.

The limits are common practice; no source was found for them.
"""

import numpy as np
import pytest

from strength.case.model import Plate, Shoulder, Wheel
from strength.case.shape import Bar, Flat, Tube
from strength.checks import (
    guards_bolts,
    guards_loads,
    guards_sleeves,
    guards_studs,
    guards_welds,
    guards_wheels,
)  # fmt: skip
from strength.checks.guards import GUARDS, guarded
from tests.checks.jointed import END, START, across_flat, arm, bolt, plate, skipped, sleeve, stud
from tests.checks.loaded import member, weld

FORCE = [1500.0, 0.0, 2000.0, 0.0, 0.0, 0.0]
X, Y, Z = across_flat()


def texts(guard, context):
    """What one guard says."""
    return [warning.text for warning in guard(context)]


def parts(guard, context):
    """Of which parts."""
    return [warning.part for warning in guard(context)]


@pytest.mark.parametrize(
    ("edge", "force", "told"),
    [
        (14.9, FORCE, "under 1.5 d"),
        (15.0, FORCE, "under 1.7 d"),
        (16.9, FORCE, "under 1.7 d"),
        (17.0, FORCE, None),
        (17.0, [1500.0 * 5, 0.0, 2000.0 * 5, 0.0, 0.0, 0.0], "under 2 d"),
        (20.0, [1500.0 * 8, 0.0, 2000.0 * 8, 0.0, 0.0, 0.0], None),
    ],
)
def test_edges(edge, force, told):
    """1.5 d by machine, 1.7 d by hand, 2 d where over half used (12.5 of 21 kN); once per plate."""
    found = texts(guards_bolts.edges, arm(force, bolts=(bolt(plates=(plate(8.0, edge=edge),)),)))
    assert len(found) == (told is not None)
    assert all(told in text and "no source" in text and "carried plate" in text for text in found)


def test_edges_of_both_plates():
    """Each is told by its own word."""
    own = bolt(plates=(plate(8.0, edge=12.0), plate(6.0, edge=16.0)), shear_planes=2)
    found = texts(guards_bolts.edges, arm(FORCE, bolts=(own,)))
    assert [text.split(":")[0] for text in found] == ["carried plate", "cheeks"]


def test_single_shear():
    """One bolt in one plane; not two planes, not a group."""
    group = (tuple(-20.0 * Z), tuple(20.0 * Z))
    for given, count in (({}, 1), ({"shear_planes": 2}, 0), ({"group": group}, 0)):
        assert len(texts(guards_bolts.single_shear, arm(FORCE, bolts=(bolt(**given),)))) == count


def test_thread_in_shear():
    """A thread in the plane; not a shank, not a pin, not a shoulder."""
    for text, given, count in (
        ("M10", {}, 1),
        ("M10", {"thread_in_shear": False}, 0),
        ("pin 10 mm", {"thread_in_shear": True}, 0),
        ("shoulder 10 mm", {}, 0),
    ):
        assert len(texts(guards_bolts.thread_in_shear, arm(FORCE, bolts=(bolt(text, **given),)))) == count


def test_steel_in_aluminium():
    """A bolt through a light plate, a stud in one; not in steel."""
    for metal, expected in (("light", ["bolt", "stud"]), ("steel", [])):
        context = arm(FORCE, bolts=(bolt(plates=(plate(8.0, metal),)),), studs=(stud(into=metal),))
        assert parts(guards_bolts.steel_in_aluminium, context) == expected


def test_uneven_group():
    """Stepped along the axis by over a millimetre and a fifth of the spread; a slight lean is not told."""
    for step, count in ((0.0, 0), (7.0, 0), (9.0, 1)):
        group = (tuple(-20.0 * Z), tuple(20.0 * Z + step * Y))
        assert len(texts(guards_bolts.uneven_group, arm(FORCE, bolts=(bolt(group=group),)))) == count


def test_shallow_thread_in_aluminium():
    """12 mm thread: 18 mm in aluminium will do, 17.9 will not; steel is not asked."""
    for into, engaged, count in (("light", 17.9, 1), ("light", 18.0, 0), ("steel", 9.0, 0)):
        context = arm(FORCE, studs=(stud(into=into, engaged=engaged),))
        assert len(texts(guards_studs.shallow_thread, context)) == count
    assert (
        "under 1.5 d (18 mm)"
        in texts(guards_studs.shallow_thread, arm(FORCE, studs=(stud(into="light", engaged=12.0),)))[0]
    )


def test_bent_rod_end_is_told_with_its_numbers():
    """M12, 22 mm out, 700 N across: 32 x 15400/(pi 9.853^3) = 164 MPa, in the second load."""
    loads = [[5000.0, 60.0, 80.0, 0.0, 0.0, 0.0], [-900.0, 420.0, -560.0, 0.0, 0.0, 0.0]]
    (text,) = texts(guards_studs.bent_rod_end, arm(loads, shape=Bar(30.0), studs=(stud(),)))
    for piece in ("700 N across", "22 mm from the face", "164 MPa", "'load 1'"):
        assert piece in text


def test_rod_end_that_is_pulled_only():
    """Neither a straight pull nor a ball joint, which stands across its part, is told."""
    pulled = [[9000.0, 60.0, 80.0, 0.0, 0.0, 0.0]]
    assert texts(guards_studs.bent_rod_end, arm(pulled, shape=Bar(30.0), studs=(stud(),))) == []
    across = stud(axis=tuple(Y))
    assert texts(guards_studs.bent_rod_end, arm(FORCE, studs=(across,))) == []


@pytest.mark.parametrize(("reach", "count"), [(0.5, 1), (0.0, 0)])
def test_the_threaded_end_of_an_axle_is_no_rod_end(reach, count):
    """Without reach there is no ball; 90 N m bend an M12 far over a tenth of its yield either way."""
    bent = [[0.0, 0.0, 2000.0, 0.0, 9e4, 0.0]]
    context = arm(bent, shape=Bar(30.0), studs=(stud(reach=reach),))
    assert len(texts(guards_studs.bent_rod_end, context)) == count


@pytest.mark.parametrize(
    ("own", "into", "beside", "meets", "count"),
    [
        ("steel", "", "light", "b", 1),
        ("steel", "steel", "light", "b", 0),  # said so
        ("steel", "light", "light", "b", 0),
        ("steel", "", "steel", "b", 0),
        ("light", "", "light", "b", 0),
        ("steel", "", "light", "a", 0),  # at the other end
    ],
)
def test_thread_taken_to_be_in_the_harder_of_two_metals(own, into, beside, meets, count):
    """A steel axle's stud in the middle of a light plate."""
    plate_ = member("plate", "c", "d", Flat(70.0, 16.0), beside, via=(meets,))
    places = {"c": (200.0, 70.0, 200.0), "d": (250.0, 80.0, 420.0)}
    context = arm(
        FORCE, shape=Bar(30.0), material=own, studs=(stud(into=into),), members=(plate_,), points=places
    )
    found = texts(guards_studs.softer_beside, context)
    assert len(found) == count
    assert all("plate" in text and '"light"' in text for text in found)


@pytest.mark.parametrize(
    ("wall", "process", "onto", "count"),
    [
        (1.4, "mig", None, 1),
        (1.5, "mig", None, 0),
        (1.4, "tig", None, 0),
        (2.0, "mig", Plate(thickness=1.2, material="steel"), 1),
        (2.0, "mig", Plate(thickness=3.0, material="steel"), 0),
        (2.0, "mig", "host", 1),
    ],
)
def test_thin_wall_by_mig(wall, process, onto, count):
    """The thinner of what is joined, under 1.5 mm."""
    host = member("host", "b", "c", Tube(40.0, 1.0))
    context = arm(
        FORCE,
        shape=Tube(25.0, wall),
        members=(host,),
        points={"c": (400.0, -200.0, 310.0)},
        welds=(weld("seam", "arm", "to", process=process, onto=onto, inset=20.0),),
    )
    assert len(texts(guards_welds.thin_wall_by_mig, context)) == count


@pytest.mark.parametrize(
    ("grade", "inset", "end", "count"),
    [
        ("8.8", 0.0, "to", 1),
        ("8.8", 9.0, "to", 1),
        ("8.8", 10.0, "to", 0),
        ("8.8", 0.0, "from", 0),
        ("4.6", 0.0, "to", 0),
    ],
)
def test_quenched_bolt_beside_a_weld(grade, inset, end, count):
    """Within a diameter of the weld's plane, at the same end, of a quenched class."""
    context = arm(FORCE, bolts=(bolt(grade=grade),), welds=(weld("seam", "arm", end, inset=inset),))
    found = texts(guards_welds.quenched_bolt, context)
    assert len(found) == count
    assert all("seam" in text for text in found)


def test_bolt_of_an_unknown_class_is_left_to_its_check():
    """No traceback from a warning."""
    context = arm(FORCE, bolts=(bolt(grade="11.9"),), welds=(weld("seam", "arm", "to"),))
    assert texts(guards_welds.quenched_bolt, context) == []


@pytest.mark.parametrize(
    ("outer", "count"), [(Tube(46.0, 2.6), 1), (Tube(46.0, 2.5), 0), (Tube(44.0, 2.0), 1)]
)
def test_tight_sleeve(outer, count):
    """A 40 mm tube in bores of 40.8, 41 and 40 mm: 1 mm is enough."""
    context = arm(FORCE, shape=Tube(40.0, 2.0), sleeves=(sleeve(outer=outer),))
    assert len(texts(guards_sleeves.tight_sleeve, context)) == count


@pytest.mark.parametrize(
    ("outer", "told"), [(Tube(46.0, 2.6), "0.28 mm if"), (Tube(44.0, 2.0), "-0.4 mm if")]
)
def test_tight_sleeve_with_its_tolerance(outer, told):
    """10 % of a wall whose standard is not known, on both sides: 0.8 - 0.52 and 0 - 0.4 mm."""
    (text,) = texts(
        guards_sleeves.tight_sleeve, arm(FORCE, shape=Tube(40.0, 2.0), sleeves=(sleeve(outer=outer),))
    )
    assert told in text


@pytest.mark.parametrize(("outer", "count"), [(Tube(46.0, 2.5), 0), (Tube(46.0, 2.4), 1)])
def test_loose_sleeve(outer, count):
    """A 40 mm tube in bores of 41 and 41.2 mm."""
    context = arm(FORCE, shape=Tube(40.0, 2.0), sleeves=(sleeve(outer=outer),))
    assert len(texts(guards_sleeves.loose_sleeve, context)) == count


@pytest.mark.parametrize(
    ("slot", "told"), [(None, None), (30.0, None), (31.0, "39 mm past"), (75.0, "5 mm before")]
)
def test_end_of_slot(slot, told):
    """70 mm of overlap, a 40 mm tube: it should reach 40 mm past the slot."""
    context = arm(FORCE, shape=Tube(40.0, 2.0), sleeves=(sleeve(slot=slot),))
    found = texts(guards_sleeves.end_of_slot, context)
    assert len(found) == (told is not None)
    assert all(told in text for text in found)
    assert ("slotted length" in str(skipped(context))) is (slot is not None)


@pytest.mark.parametrize(("overlap", "count"), [(59.0, 1), (60.0, 0)])
def test_short_sleeve(overlap, count):
    """1.5 diameters of 40 mm."""
    context = arm(FORCE, shape=Tube(40.0, 2.0), sleeves=(sleeve(overlap=overlap),))
    assert len(texts(guards_sleeves.short_sleeve, context)) == count


def braked(caliper, *, is_braked=True):
    """A wheel on the part's start whose axle lies along y."""
    return Wheel(
        name="wheel", centre="a", radius=250.0, axle=(0.0, 1.0, 0.0), braked=is_braked, caliper=caliper
    )


@pytest.mark.parametrize(
    ("end", "is_braked", "count"),
    [
        ((70.0, 90.0, 149.0), True, 1),  # 49.2 mm from the axle line through (40, ., 110)
        ((70.0, 90.0, 151.0), True, 0),  # 50.8 mm
        ((70.0, 90.0, 149.0), False, 0),
    ],
)
def test_caliper_near_the_axle(end, is_braked, count):
    """50 mm from the axle's line, measured square to it."""
    context = arm(FORCE, end=end, up=(1.0, 0.0, 0.0), wheels=(braked("b", is_braked=is_braked),))
    found = texts(guards_wheels.brake_near_axle, context)
    assert len(found) == count
    assert all("49 mm" in text for text in found)


def test_bolts_of_what_carries_the_caliper():
    """Any bolt of a group under 50 mm; bolts of other parts are not asked."""
    assert parts(guards_wheels.brake_near_axle, arm(FORCE, wheels=(braked("b"),), bolts=(bolt(),))) == []
    near = bolt(end="from", group=((0.0, 0.0, 80.0), (0.0, 9.0, 30.0)))
    assert parts(guards_wheels.brake_near_axle, arm(FORCE, wheels=(braked("b"),), bolts=(near,))) == ["bolt"]
    far = bolt(end="from", group=((0.0, 0.0, 80.0), (0.0, 9.0, -60.0)))
    assert parts(guards_wheels.brake_near_axle, arm(FORCE, wheels=(braked("b"),), bolts=(far,))) == []
    assert parts(guards_wheels.brake_near_axle, arm(FORCE, wheels=(braked(None),), bolts=(near,))) == []


@pytest.mark.parametrize(
    ("end", "inset", "root", "shape", "count"),
    [
        ("to", 18.0, "M16", Bar(20.0), 1),
        ("to", 21.0, "M16", Bar(20.0), 0),
        ("to", 5.0, None, Bar(20.0), 0),
        ("from", 5.0, "M16", Bar(20.0), 0),  # at the wheel's end
        ("to", 5.0, "M16", Flat(60.0, 8.0), 0),
    ],
)
def test_thread_at_the_root_of_a_stub_axle(end, inset, root, shape, count):
    """The wheel is at the part's start, its root at the other end."""
    fillet = None if root else 1.5
    step = Shoulder(name="step", member="arm", end=end, larger=25.0, inset=inset, root=root, fillet=fillet)
    context = arm(FORCE, shape=shape, wheels=(braked(None),), shoulders=(step,))
    assert len(texts(guards_wheels.thread_at_root, context)) == count


@pytest.mark.parametrize(("fillet", "count"), [(0.99, 1), (1.0, 0)])
def test_sharp_step_at_the_root_of_a_stub_axle(fillet, count):
    """A fillet under a twentieth of 20 mm."""
    step = Shoulder(name="step", member="arm", end="to", larger=25.0, inset=5.0, fillet=fillet)
    context = arm(FORCE, shape=Bar(20.0), wheels=(braked(None),), shoulders=(step,))
    found = texts(guards_wheels.thread_at_root, context)
    assert len(found) == count
    assert all("fillet of only 0.99 mm" in text for text in found)


def test_register_tells_each_once():
    """Every guard's words, in the order of the register, without doubles."""
    context = arm(
        FORCE,
        bolts=(bolt(plates=(plate(8.0, "light", edge=12.0),)),),
        studs=(stud(into="light", engaged=9.0),),
    )
    found = guarded(context)
    assert len(set(found)) == len(found)
    assert set(found) == {warning for guard in GUARDS for warning in guard(context)}
    assert {warning.part for warning in found} == {"bolt", "stud"}
    assert guarded(arm(FORCE)) == ()


def test_places_are_where_this_file_says():
    """The part runs from (40, -25, 110) to (220, 75, 310)."""
    assert np.allclose((START, END), ((40.0, -25.0, 110.0), (220.0, 75.0, 310.0)))
    assert np.linalg.det(np.array([X, Y, Z])) == pytest.approx(1.0)


def test_crowded_group():
    """Under 2.2 holes apart (EN 1993-1-8:2005 Table 3.3, from memory), across the axis; 24.2 mm at 11 mm."""
    plates = (plate(8.0, hole=11.0, edge=20.0),)
    for apart, count in ((24.1, 1), (24.3, 0), (0.0, 1)):
        group = (tuple(-apart / 2.0 * Z), tuple(apart / 2.0 * Z), tuple(60.0 * Z))
        context = arm(FORCE, bolts=(bolt(group=group, plates=plates),))
        assert len(texts(guards_bolts.crowded_group, context)) == count
    assert not texts(guards_bolts.crowded_group, arm(FORCE, bolts=(bolt(),)))


def test_large_leg():
    """A leg over twice the thinnest wall of part and plate: 2 x 2.5 = 5 mm, 2 x 1.5 = 3 mm."""
    for leg, thickness, count in ((5.0, 4.0, 0), (5.1, 4.0, 1), (3.1, 1.5, 1), (3.0, 1.5, 0)):
        joint = weld("joint", "arm", "to", leg=leg, onto=Plate(thickness=thickness, material="steel"))
        context = arm(FORCE, shape=Tube(od=30.0, wall=2.5), welds=(joint,))
        assert len(texts(guards_welds.large_leg, context)) == count


def test_idle_load():
    """A load without a force proves nothing; one with any force is not told."""
    assert not texts(guards_loads.idle_load, arm(FORCE))
    (text,) = texts(guards_loads.idle_load, arm([0.0] * 6))
    assert "puts nothing on any part" in text
    assert parts(guards_loads.idle_load, arm([0.0] * 6)) == list(arm(FORCE).load_names)


def test_bent_rod_end_tells_the_end_moment():
    """The moment that bends it is told beside the force across it."""
    force = [900.0, 0.0, 300.0, 0.0, 45000.0, 0.0]
    (text,) = texts(guards_studs.bent_rod_end, arm(force, studs=(stud(axis=None),)))
    assert "and 45 N*m" in text
