"""Bolts, screws and pins on whole parts: single figures by hand, and what is told beside them."""

import attrs
import numpy as np
import pytest

from strength.case.model import Basis
from strength.case.shape import Bar, Flat, Tube
from strength.checks import register
from strength.checks.bolts import bolt_effects
from strength.checks.tear_out import tear_out
from strength.errors import CaseError
from tests.checks.jointed import CHECKS, END, START, TELLERS, UP, across_flat, arm, bolt, plate, rows, skipped
from tests.checks.loaded import METALS, STEEL, member, weld

ACROSS = tuple(across_flat()[1])
FORCE = [1500.0, 0.0, 2000.0, 0.0, 0.0, 0.0]  # 2500 N across a bolt through the flat
LIMIT_STATE = Basis(method="limit-state")
KINDS = ("bolt-shear", "bolt-tension", "bolt-combined", "pull-through", "bearing", "tear-out", "net-section")


def test_every_check_of_a_joint_is_in_the_register():
    """A check that is not registered is never run."""
    assert set(CHECKS) <= set(register.CHECKS)
    assert set(TELLERS) <= set(register.TELLERS)


def test_two_planes_with_a_couple():
    """2500/2 + 24000/(6 + 8 + 2 x 1.5) = 2661.8 N a plane; the carried plate takes 2500 N."""
    own = bolt(plates=(plate(8.0), plate(6.0)), shear_planes=2, gap=1.5)
    found = rows(arm([1500.0, 0.0, 2000.0, 14400.0, 0.0, 19200.0], bolts=(own,)))
    assert found["bolt-shear", 0].demand == pytest.approx(1250.0 + 24000.0 / 17.0)
    assert found["bolt-shear", 0].limit == pytest.approx(0.6 * 800.0 * 57.99 / 2.0, rel=1e-4)
    assert found["bearing", 0].demand == pytest.approx(1250.0 + 24000.0 / 17.0)
    assert found["bearing", 0].where.startswith("cheeks (6 mm steel)")
    # 2500 x (8 + 6 + 12)/8 + 24000 (1.5 + 3)/17, on the root of 8.160 mm
    bent = 2500.0 * 26.0 / 8.0 + 24000.0 * 4.5 / 17.0
    carried = 1.5 * np.pi * 8.1597**3 / 32.0 * 640.0 / 1.67
    expected = np.hypot(bent / carried, found["bolt-shear", 0].utilisation)
    assert found["bolt-bending", 0].demand == pytest.approx(expected, rel=1e-4)
    assert found["bolt-bending", 0].fails == "bends"


def test_bolt_without_a_gap_does_not_bend():
    """Neither is it listed."""
    context = arm(FORCE, bolts=(bolt(plates=(plate(8.0), plate(6.0)), shear_planes=2),))
    assert {kind for kind, _ in rows(context)} == set(KINDS)
    assert skipped(context) == {}


@pytest.mark.parametrize(("in_thread", "core"), [(True, 8.1597), (False, 10.0)])
def test_bends_on_its_root_where_the_thread_is_sheared(in_thread, core):
    """One plane, gap 2: 2500 x (2 + 4) N*mm."""
    own = bolt(plates=(plate(8.0),), gap=2.0, thread_in_shear=in_thread)
    found = rows(arm(FORCE, bolts=(own,)))
    carried = 1.5 * np.pi * core**3 / 32.0 * 640.0 / 1.67
    shear = found["bolt-shear", 0].utilisation
    assert found["bolt-bending", 0].demand == pytest.approx(np.hypot(15000.0 / carried, shear), rel=1e-4)


def test_one_bolt_in_single_shear_bears_less():
    """At most 1.5 d t fu = 1.5 x 10 x 6 x 370; two bolts 2.4 d t fu; on either basis."""
    plates = (plate(8.0, edge=40.0), plate(6.0, edge=40.0))
    one = rows(arm(FORCE, bolts=(bolt(plates=plates),)))["bearing", 0]
    assert one.limit == pytest.approx(1.5 * 10.0 * 6.0 * 370.0 / 2.0)
    group = ((0.0, 0.0, 0.0), (0.0, 40.0, 0.0))
    two = rows(arm(FORCE, bolts=(bolt(plates=plates, group=group, axis=(1.0, 0.0, 0.0)),)))["bearing", 0]
    assert two.limit == pytest.approx(2.4 * 10.0 * 6.0 * 370.0 / 2.0)
    code = rows(arm(FORCE, bolts=(bolt(plates=plates),), basis=LIMIT_STATE))["bearing", 0]
    assert code.limit == pytest.approx(1.5 * 10.0 * 6.0 * 370.0 / 1.25)
    assert code.demand == pytest.approx(3750.0)


@pytest.mark.parametrize(("edge", "expected"), [(12.24, True), (12.2, False)])
def test_edge_under_1_2_holes_is_out_of_range(edge, expected):
    """EN 1993-1-8 Table 3.3; told of `tear-out`."""
    found = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0, edge=edge),)),), basis=LIMIT_STATE))
    assert found["tear-out", 0].in_range is expected
    assert ("Table 3.3" in found["tear-out", 0].note) is not expected
    assert found["tear-out", 0].limit == pytest.approx(1.2 * (edge - 5.1) * 8.0 * 370.0 / 1.25)


def test_net_section_by_edges_or_by_the_flats_own_width():
    """Across a flat: its 60 mm; along its width, or on a bar: twice the edge."""
    plates = (plate(8.0, edge=15.0),)
    flat = rows(arm(FORCE, bolts=(bolt(plates=plates),)))["net-section", 0]
    assert flat.limit == pytest.approx(0.9 * (60.0 - 10.2) * 8.0 * 370.0 / 2.0)
    assert "own width" in flat.note
    edge = 0.9 * (30.0 - 10.2) * 8.0 * 370.0 / 2.0
    wide = rows(arm(FORCE, bolts=(bolt(plates=plates, axis=tuple(across_flat()[2])),)))["net-section", 0]
    assert wide.limit == pytest.approx(edge)
    bar = rows(arm(FORCE, bolts=(bolt(plates=plates),), shape=Bar(30.0)))["net-section", 0]
    assert bar.limit == pytest.approx(edge)


def test_group_shares_the_width_of_its_flat():
    """Two rows of two: each cut is 60 - 2 holes wide and passes the whole 2500 N."""
    x, _, z = across_flat()
    group = tuple(tuple(a * x + b * z) for a in (-25.0, 25.0) for b in (-14.0, 14.0))
    found = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0),), group=group),)))["net-section", 0]
    assert found.demand == pytest.approx(1250.0)
    assert found.demand / found.limit == pytest.approx(2500.0 / (0.9 * (60.0 - 20.4) * 8.0 * 370.0 / 2.0))


def test_group_too_wide_for_its_flat():
    """Four 10.2 mm holes beside one another in 40 mm leave nothing: out of range, and far over."""
    z = across_flat()[2]
    group = tuple(tuple(k * z) for k in (-18.0, -6.0, 6.0, 18.0))
    context = arm(FORCE, shape=Flat(40.0, 8.0), bolts=(bolt(plates=(plate(8.0),), group=group),))
    found = rows(context)["net-section", 0]
    assert not found.in_range
    assert found.utilisation > 2.0
    assert "leave nothing" in found.note


def test_head_and_nut_stand_on_the_cheeks():
    """Two planes: no pull through the thin carried plate; one plane: it is. A wide hole: out of range."""
    pulled = [0.0, 900.0, 0.0, 0.0, 0.0, 0.0]
    plates = (plate(3.0), plate(5.0))
    for planes, t in ((2, 5.0), (1, 3.0)):
        row = rows(arm(pulled, bolts=(bolt(plates=plates, shear_planes=planes),)))["pull-through", 0]
        assert row.limit == pytest.approx(0.6 * np.pi * 16.885 * t * 370.0 / 2.0, rel=1e-5)
        assert row.demand == pytest.approx(900.0)
    wide = rows(arm(pulled, bolts=(bolt(plates=(plate(8.0, hole=17.0),)),)))["pull-through", 0]
    assert not wide.in_range


def test_brittle_classes_keep_1_67_in_abuse():
    """10.9 bends by 1.67 where 8.8 has 1.25; overrides lift 8.8 but never lower 10.9."""
    plates = (plate(8.0), plate(6.0))
    for grade, expected in (("8.8", 1.25), ("10.9", 1.67)):
        pin = bolt("pin 10 mm", grade=grade, plates=plates, shear_planes=2)
        context = arm(FORCE, bolts=(pin,), severities=("abuse",))
        found = rows(context)["bolt-bending", 0]
        strength = {"8.8": 640.0, "10.9": 900.0}[grade]
        bent = 2500.0 * 20.0 / 8.0 * expected / (1.5 * np.pi * 1000.0 / 32.0 * strength)
        shear = rows(context)["bolt-shear", 0].utilisation
        assert found.demand == pytest.approx(np.hypot(bent, shear))
    basis = Basis(factors={"yield_factor": (1.3, 1.3, 1.3)})
    pin = bolt("pin 10 mm", grade="10.9", plates=plates, shear_planes=2)
    again = rows(arm(FORCE, bolts=(pin,), severities=("abuse",), basis=basis))["bolt-bending", 0]
    assert again.demand == pytest.approx(found.demand)


def test_pin_bears_on_the_lesser_yield():
    """A soft pin in brittle plate: 240 of the pin, 1.67 of the plate even in abuse; light plate 255."""
    soft = bolt("pin 12 mm", grade="4.6", plates=(plate(8.0, "brittle", hole=12.2),))
    row = rows(arm(FORCE, bolts=(soft,), severities=("abuse",)))["bearing", 0]
    assert row.limit == pytest.approx(1.5 * 12.0 * 8.0 * 240.0 / 1.67)
    light = bolt("pin 12 mm", plates=(plate(8.0, "light", hole=12.2),))
    row = rows(arm(FORCE, bolts=(light,), basis=LIMIT_STATE))["bearing", 0]
    assert row.limit == pytest.approx(1.5 * 12.0 * 8.0 * 255.0 / 1.1)


@pytest.mark.parametrize("grade", ["12.9", "9.8"])
def test_classes_the_code_leaves_out(grade):
    """Rows of the bolt itself are out of range, those of its plates are not."""
    own = bolt(grade=grade, plates=(plate(8.0), plate(6.0)), shear_planes=2, gap=1.0)
    for (kind, _), row in rows(arm(FORCE, bolts=(own,))).items():
        assert row.in_range is not kind.startswith("bolt-"), kind
    if grade == "12.9":
        shear = rows(arm(FORCE, bolts=(own,)))["bolt-shear", 0]
        assert shear.limit == pytest.approx(0.5 * 1200.0 * 57.99 / 2.0, rel=1e-4)


def test_shoulder_screw():
    """ISO 7379, 10 mm: the shoulder 660 MPa x 78.54 = 51.8 kN, the 6.03 mm neck 0.9 x 1100 x 28.56."""
    own = bolt("shoulder 10 mm", grade="12.9", plates=(plate(8.0),))
    pulled = [1500.0, 700.0, 2000.0, 0.0, 0.0, 0.0]
    found = rows(arm(pulled, bolts=(own,)))
    assert found["bolt-shear", 0].limit == pytest.approx(51836.0 / 2.0, rel=1e-4)
    assert found["bolt-tension", 0].limit == pytest.approx(0.9 * 1100.0 * 28.557 / 2.0, rel=1e-4)
    assert found["bolt-tension", 0].demand == pytest.approx(700.0)
    assert not found["bolt-shear", 0].in_range
    softer = rows(arm(pulled, bolts=(attrs.evolve(own, grade="8.8"),)))
    assert softer["bolt-shear", 0].limit == pytest.approx(0.6 * 800.0 * 78.54 / 2.0, rel=1e-4)
    threaded = rows(arm(pulled, bolts=(attrs.evolve(own, thread_in_shear=True),)))
    assert threaded["bolt-shear", 0].limit == pytest.approx(0.5 * 1100.0 * 36.61 / 2.0, rel=1e-4)


def test_shoulder_that_no_table_holds():
    """Sheared by its diameter; the neck is not known, so it is told and not guessed."""
    own = bolt("shoulder 11 mm", grade="8.8", plates=(plate(8.0, hole=11.2),))
    context = arm(FORCE, bolts=(own,))
    assert {kind for kind, _ in rows(context)} == {"bolt-shear", "bearing", "tear-out", "net-section"}
    assert any("ISO 7379" in why for why in skipped(context)["bolt"])


def test_unknown_class_is_the_users_to_mend():
    """One message with path and name (a shoulder's class is looked up here)."""
    context = arm(FORCE, bolts=(bolt("shoulder 10 mm", grade="11.9", path="bolts.bolt"),))
    with pytest.raises(CaseError, match=r"11\.9") as caught:
        rows(context)
    assert str(caught.value).startswith("bolts.bolt: bolt: ")


def test_plate_thickness_that_its_metal_is_not_held_for():
    """Says path and part."""
    thin = attrs.evolve(STEEL, rows=(attrs.evolve(STEEL.rows[0], over=2.0, up_to=6.0),))
    own = bolt(plates=(plate(8.0),), path="bolts.bolt")
    context = arm(FORCE, bolts=(own,), shape=Bar(5.0), metals=METALS | {"steel": thin})
    with pytest.raises(CaseError, match="over 2 to 6 mm") as caught:
        rows(context)
    assert str(caught.value).startswith("bolts.bolt.plates: bolt: ")


# moments: about the bolt's axis (y_m) 8 N*m; across it 5 N*m
TURNED = [1500.0, 0.0, 2000.0, 0.0, 8000.0, 0.0]
PRIED = [1500.0, 0.0, 2000.0, 3000.0, 0.0, 4000.0]


@pytest.mark.parametrize(
    ("force", "given", "told"),
    [
        (TURNED, {"plates": 2, "shear_planes": 2}, ["bolt-shear: a moment about its own axis, up to 8 N*m"]),
        (PRIED, {"plates": 2, "shear_planes": 1}, ["bolt-tension: a moment across it, up to 5 N*m"]),
        (PRIED, {"plates": 2, "shear_planes": 1, "gap": 1.0}, []),
        (PRIED, {"plates": 2, "shear_planes": 2}, []),
        (
            PRIED,
            {"plates": 0, "shear_planes": 2},
            ["bolt-shear: a moment across it, up to 5 N*m", "bearing: its plates are not given"],
        ),
        (FORCE, {"plates": 0, "shear_planes": 2}, ["bearing: its plates are not given"]),
        (FORCE, {"plates": 1, "shear_planes": 2}, ["bearing: what holds the carried plate is not given"]),
        (
            [1500.0, 300.0, 2000.0, 0.0, 0.0, 0.0],
            {"plates": 2, "text": "pin 10 mm"},
            ["bolt-tension: a force along the pin, up to 300 N"],
        ),
        (FORCE, {"plates": 2, "text": "pin 10 mm"}, []),
        (PRIED, {"plates": 2, "text": "pin 10 mm"}, []),
    ],
)
def test_what_is_not_checked(force, given, told):
    """Each told once, by kind and in words; the other rows stay."""
    given = dict(given)
    plates = (plate(8.0), plate(6.0))[: given.pop("plates")]
    context = arm(force, bolts=(bolt(given.pop("text", "M10"), plates=plates, **given),))
    found = skipped(context).get("bolt", [])
    assert len(found) == len(told)
    for why, start in zip(found, told, strict=True):
        assert why.startswith(start)
    assert ("bolt-shear", 0) in rows(context)


def test_two_planes_without_plates_share_the_force():
    """V = F_p/2, whatever the moment."""
    found = rows(arm(PRIED, bolts=(bolt(shear_planes=2),)))
    assert {kind for kind, _ in found} == {"bolt-shear", "bolt-tension", "bolt-combined"}
    assert found["bolt-shear", 0].demand == pytest.approx(1250.0)


def test_row_of_bolts_loses_the_moment_about_its_line():
    """Told with the number; taken to the middle of the row, a force beside it counts."""
    z = across_flat()[2]
    group = (tuple(-20.0 * z), tuple(20.0 * z))
    context = arm([0.0, 250.0, 0.0, 0.0, 0.0, 6000.0], bolts=(bolt(plates=(plate(8.0),), group=group),))
    assert any("line in which its bolts stand, up to 6 N*m" in why for why in skipped(context)["bolt"])
    assert skipped(arm(FORCE, bolts=(bolt(plates=(plate(8.0), plate(6.0)), group=group),))) == {}


def test_rounding_is_no_moment():
    """What a released end leaves behind is not told."""
    force = [1500.0, 0.0, 2000.0, 0.0, 1e-4, 0.0]
    assert skipped(arm(force, bolts=(bolt(plates=(plate(8.0), plate(6.0)), shear_planes=2),))) == {}


def test_only_path():
    """The bolt's own word before its part's; utilisation alone; struts have the key too."""
    plates = (plate(8.0), plate(6.0))
    plain = rows(arm(FORCE, bolts=(bolt(plates=plates),)))
    for part, own, factor in ((True, None, 1.25), (True, False, 1.0), (False, True, 1.25)):
        found = rows(arm(FORCE, bolts=(bolt(plates=plates, only_path=own),), only_path=part))
        for key, row in found.items():
            assert row.utilisation == pytest.approx(plain[key].utilisation * factor)
            assert (row.demand, row.limit) == (plain[key].demand, plain[key].limit)


HOT = {"welds": (weld("seam", "arm", "to", inset=12.0),), "material": "light"}


def test_carried_plate_beside_a_weld():
    """MIG, 8 mm: 30 mm either side of 12 mm from the end, so the end too: fu 185 in place of 300."""
    hot = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0, "light"),)),), **HOT))
    cold = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0, "light"),)),), material="light"))
    for kind in ("bearing", "tear-out", "net-section", "pull-through"):
        assert hot[kind, 0].limit / cold[kind, 0].limit == pytest.approx(185.0 / 300.0)
        assert "welded strength" in hot[kind, 0].note
        assert "welded" not in cold[kind, 0].note
    far = {**HOT, "welds": (weld("seam", "arm", "from", inset=12.0),)}
    other = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0, "light"),)),), **far))
    assert other["tear-out", 0].limit == pytest.approx(cold["tear-out", 0].limit)


def test_tig_on_a_heat_treated_plate_takes_a_fifth_more():
    """6xxx by TIG over 6 mm: 0.8 x 185, and no rule for the width."""
    welds = (weld("seam", "arm", "to", inset=12.0, process="tig"),)
    row = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0, "light"),)),), material="light", welds=welds))
    assert row["tear-out", 0].limit == pytest.approx(1.2 * (17.0 - 5.1) * 8.0 * 148.0 / 2.0)
    assert not row["tear-out", 0].in_range
    assert "TIG" in row["tear-out", 0].note


def test_only_the_bolts_of_a_group_that_lie_in_the_heat():
    """Weld 50 mm from the end: heat 20 to 80 mm; the bolt 10 mm in is cold, the one 40 mm in is not."""
    x, _, z = across_flat()
    welds = (weld("seam", "arm", "to", inset=50.0),)
    group = (tuple(-10.0 * x), tuple(-40.0 * x + 15.0 * z), tuple(-10.0 * x + 30.0 * z))
    own = bolt(plates=(plate(8.0, "light"),), group=group)
    (effect,) = bolt_effects(arm(FORCE, bolts=(own,), material="light", welds=welds))
    assert effect.plates[0].ultimate[0] == pytest.approx([300.0, 185.0, 300.0])


def test_holding_plate_is_found_among_the_parts():
    """A flat of the same metal behind the carried plate, welded near the bolt: its welded strength."""
    axes = across_flat()
    step = 8.0 * axes[1]
    end = np.array(END)
    far = end + 100.0 * axes[0]
    behind = member("behind", "c", "d", Flat(60.0, 8.0), "light", up=UP, path="members.behind")
    points = {"c": tuple(end - 20.0 * axes[0] + step), "d": tuple(far + step)}
    for inset, fu in ((15.0, 185.0), (75.0, 300.0)):
        context = arm(
            FORCE,
            shape=Flat(60.0, 8.0),
            bolts=(bolt(plates=(plate(8.0), plate(8.0, "light"))),),
            members=(behind,),
            points=points,
            welds=(weld("seam", "behind", "from", inset=inset),),
        )
        (effect,) = bolt_effects(context)
        assert effect.plates[0].ultimate[0, 0] == pytest.approx(370.0)
        assert effect.plates[1].ultimate[0, 0] == pytest.approx(fu)


def test_holding_plate_of_no_known_part_is_told():
    """Aluminium that may be welded, and nothing says so."""
    found = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0), plate(8.0, "light"))),)))
    assert "taken as not welded" in found["bearing", 0].note


def test_flat_that_grows_takes_its_plate_along():
    """Two designs of the flat, 8 and 12 mm: the carried plate is the flat, the other stays 6 mm."""
    context = arm(FORCE, bolts=(bolt(plates=(plate(8.0), plate(6.0, edge=30.0))),))
    bars = context.bars
    both = {
        field.name: np.repeat(getattr(bars, field.name), 2, axis=0)
        for field in attrs.fields(type(bars))
        if isinstance(getattr(bars, field.name), np.ndarray) and getattr(bars, field.name).ndim == 2
    }
    both["width"][1] = 12.0
    forces = np.repeat(context.response.forces, 2, axis=0)
    twice = attrs.evolve(
        context,
        bars=attrs.evolve(bars, **both),
        response=attrs.evolve(context.response, forces=forces),
        heat=(),
    )
    (effect,) = bolt_effects(twice)
    assert effect.plates[0].thickness[:, 0] == pytest.approx([8.0, 12.0])
    assert effect.plates[1].thickness[:, 0] == pytest.approx([6.0, 6.0])
    (verdict,) = tear_out(twice)
    assert verdict.utilisation.shape == (2, 1)


def test_group_on_a_strut_end_and_the_from_end():
    """A part pulled straight: the same at either end; a tube carries its bolts too."""
    pulled = [-4000.0, 0.0, 0.0, 0.0, 0.0, 0.0]
    for end in ("from", "to"):
        own = bolt(end=end, plates=(plate(8.0, edge=30.0),), shear_planes=2)
        found = rows(arm(pulled, bolts=(own,), shape=Tube(30.0, 2.0)))
        assert found["bolt-shear", 0].demand == pytest.approx(2000.0)


def test_amplified_moments_are_told():
    """Where frame buckling raises bending moments, rows with moments say so."""
    own = bolt(plates=(plate(8.0),))
    assert "x 1.3" in rows(arm(FORCE, bolts=(own,), amplified=(1.3,)))["bolt-shear", 0].note


def test_torque_and_preload_in_the_notes():
    """M10 8.8, lightly oiled: 49 N*m (a maker's table); 0.75 x 580 x 57.99 = 25.2 kN."""
    note = rows(arm(FORCE, bolts=(bolt(plates=(plate(8.0),)),)))["bolt-tension", 0].note
    assert "49 N*m" in note
    assert "25.2 kN" in note


TURN = np.array([[0.36, 0.48, -0.8], [-0.8, 0.6, 0.0], [0.48, 0.64, 0.6]])


@pytest.mark.parametrize("by", [TURN, TURN.T @ TURN.T], ids=["once", "twice back"])
def test_turned_case(by):
    """Turning part, bolts and all leaves every utilisation as it is."""
    x, y, z = across_flat()
    group = np.array([-10.0 * x + 5.0 * z, 3.0 * x - 20.0 * z, 12.0 * x + 18.0 * z])
    axis = (0.8 * y + 0.6 * z) / np.linalg.norm(0.8 * y + 0.6 * z)
    force = [1500.0, 700.0, -2000.0, 9000.0, 8000.0, -4000.0]
    plates = (plate(8.0), plate(6.0))
    plain = rows(arm(force, bolts=(bolt(axis=tuple(axis), group=tuple(map(tuple, group)), plates=plates),)))
    turned = rows(
        arm(
            force,
            bolts=(bolt(axis=tuple(by @ axis), group=tuple(map(tuple, group @ by.T)), plates=plates),),
            start=tuple(by @ START),
            end=tuple(by @ END),
            up=tuple(by @ UP),
        )
    )
    assert plain.keys() == turned.keys()
    for key, row in plain.items():
        assert turned[key].utilisation == pytest.approx(row.utilisation)


@pytest.mark.parametrize("k", [0.25, 7.0])
def test_force_times_k(k):
    """Loads x k -> utilisations x k, in every row of a bolt."""
    force = np.array([1500.0, 700.0, -2000.0, 9000.0, 8000.0, -4000.0])
    own = bolt(plates=(plate(8.0), plate(6.0)), shear_planes=2, gap=1.0)
    plain, more = rows(arm(force, bolts=(own,))), rows(arm(k * force, bolts=(own,)))
    for key, row in plain.items():
        assert more[key].utilisation == pytest.approx(k * row.utilisation)


def test_more_plate_is_never_worse():
    """Thickness and edge distance: bearing, tear-out, net section and pull-through fall."""
    force = [1500.0, 700.0, -2000.0, 0.0, 0.0, 0.0]
    last = None
    for t, edge in ((4.0, 14.0), (5.0, 14.0), (5.0, 19.0), (9.0, 25.0)):
        own = bolt(plates=(plate(t, edge=edge),))
        found = rows(arm(force, bolts=(own,), shape=Bar(30.0), basis=LIMIT_STATE))
        now = [found[kind, 0].utilisation for kind in ("bearing", "tear-out", "net-section", "pull-through")]
        assert last is None or all(a <= b for a, b in zip(now, last, strict=True))
        last = now
