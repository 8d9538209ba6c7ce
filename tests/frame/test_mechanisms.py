"""What can move freely is refused by name; what merely spins, or is merely soft, is not.

By statics: each frame's freedoms are counted by hand in the test's docstring or plain from its shape.
"""

import attrs
import numpy as np
import pytest

from strength.case.model import Strut, Wheel
from strength.errors import MechanismError, SolveError
from strength.frame import solve as solving
from strength.frame.layout import lay_out
from strength.frame.plan import plan
from strength.frame.solve import solve
from tests.frame.building import (
    ALL,
    PINNED,
    TUBE,
    Size,
    bars_of,
    case_of,
    even_gauge,
    member,
    pushes_of,
    rigid,
    solved,
)

PLACES = {"a": (0, 0, 0), "b": (300, 0, 0), "c": (300, 200, 0), "d": (0, 0, 250), "e": (600, 0, 0)}


def message(case, *loads):
    """Text of the MechanismError that the case raises."""
    with pytest.raises(MechanismError) as caught:
        solved(case, bars_of(case), pushes_of(case, *(loads or ({},))))
    return str(caught.value)


def test_hinged_arm_swings():
    """A hinge about y leaves the tip free up and down, nothing else."""
    arm = member("arm", "a", "b", from_end="hinge", hinge_axis=(0, 1, 0))
    assert message(case_of(PLACES, [arm], {"a": ALL})) == "arm: can swing: nothing holds b up and down"


def test_ball_ended_arm_has_two_ways():
    """A ball at one end of a lone arm: two swings, its spin is not counted."""
    arm = member("arm", "a", "b", from_end="ball")
    text = message(case_of(PLACES, [arm], {"a": ALL}))
    assert text.startswith("arm: can swing: nothing holds b ")
    assert text.endswith("(2 movements in all are free)")


def test_two_struts_leave_one_way():
    """A point on two struts in the plane z = 0 is free up and down only."""
    struts = [Strut(name="s1", start="a", end="b", stiffness=100), Strut(name="s2", start="c", end="b")]
    text = message(case_of(PLACES, [], {"a": ALL, "c": ALL}, struts))
    assert text == "s1: can swing: nothing holds b up and down"


@pytest.mark.parametrize("free", [True, False])
def test_parts_not_joined(free):
    """A second piece that touches nothing is named with its first point."""
    case = case_of(PLACES, [member("ab", "a", "b"), member("ce", "c", "e")], {} if free else {"a": ALL})
    assert message(case).startswith("ce: can move freely: it is ")
    assert "'c'" in message(case)


def test_partial_supports_that_hold_too_little():
    """Held in its plane only, a frame can leave the plane in three ways."""
    case = case_of(PLACES, [member("ab", "a", "b"), member("bc", "b", "c")], {"a": (1, 1, 0, 0, 0, 1)})
    text = message(case)
    assert "up and down" in text
    assert "(3 movements in all are free)" in text


def test_hinged_four_bar_sways():
    """Two posts and a beam on four parallel hinges sway; three hinges stand."""
    points = {"a": (0, 0, 0), "b": (0, 0, 300), "c": (400, 0, 300), "d": (400, 0, 0)}
    hinge = {"from_end": "hinge", "to_end": "hinge", "hinge_axis": (0, 1, 0)}
    posts = [member("left", "a", "b", **hinge), member("right", "d", "c", **hinge)]
    loose = case_of(points, [*posts, member("beam", "b", "c")], {"a": ALL, "d": ALL})
    text = message(loose)
    assert "can swing: nothing holds" in text
    assert "fore-and-aft" in text
    firm = attrs.evolve(loose, members=(attrs.evolve(posts[0], to_end="fixed"), *loose.members[1:]))
    moved = solved(firm, bars_of(firm), pushes_of(firm, {"b": (10, 0, 0)})).displacements
    assert moved[0, 0, 1, 0] > 0.0


def test_fixed_ends_that_let_a_tube_spin():
    """Pinned supports hold no turning: a tube between them can turn about its own line."""
    case = case_of(PLACES, [member("ab", "a", "b")], {"a": PINNED, "b": (0, 1, 1, 0, 0, 0)})
    text = message(case)
    assert text.startswith("ab: can turn: nothing keeps ")
    assert "fore-and-aft (x) axis" in text


def corner(*, tie=True, shock=True, step=False):
    """A double wishbone corner with ball-ended knuckle."""
    points = {
        "front": (150, 200, 200), "rear": (-150, 205, 203), "ball": (0, 500, 190), "top": (-12, 480, 400),
        "upper-front": (120, 220, 390), "upper-rear": (-130, 226, 396), "hub": (-7, 560, 280),
        "inner": (20, 200, 240), "arm": (80, 492, 250), "tower": (0, 220, 500),
    }  # fmt: skip
    points["root"] = tuple(0.6 * np.array(points["ball"]) + 0.4 * np.array(points["top"]))
    points["low"] = (0, 512, 193) if step else points["ball"]
    members = [
        member("lower-front", "front", "ball", from_end="ball"),
        member("lower-rear", "rear", "ball", from_end="ball"),
        member("upper-front", "upper-front", "top", from_end="ball"),
        member("upper-rear", "upper-rear", "top", from_end="ball"),
        member("axle", "root", "hub"),
        member("steering-arm", "root", "arm"),
    ]
    if step:
        points["root"] = tuple(0.6 * np.array(points["low"]) + 0.4 * np.array(points["top"]))
        members.append(rigid("step", "ball", "low", from_end="ball"))
        members.append(member("knuckle", "low", "top", to_end="ball", via=("root",)))
    else:
        del points["low"]
        members.append(member("knuckle", "ball", "top", from_end="ball", to_end="ball", via=("root",)))
    struts = [Strut(name="tie-rod", start="arm", end="inner")] * tie
    struts += [Strut(name="shock", start="ball", end="tower", stiffness=60)] * shock
    holds = dict.fromkeys(("front", "rear", "upper-front", "upper-rear", "inner", "tower"), ALL)
    return case_of(points, members, holds, struts, wheels=(Wheel(name="w", centre="hub", radius=250),))


@pytest.mark.parametrize("step", [True, False])
def test_wishbone_corner(step):
    """Whole it stands; without its tie rod it steers, without its shock it swings."""
    whole = corner(step=step)
    push = {"hub": (10, -20, 300, 1e4, 2e3, 3e3)}
    response = solved(whole, bars_of(whole), pushes_of(whole, push))
    assert response.forces[0, 0, -1, 0, 0] < 0.0  # the shock is pressed
    no_tie = message(corner(step=step, tie=False), push)
    assert no_tie == "steering-arm: can swing: nothing holds arm sideways (no tie rod?)"
    no_shock = message(corner(step=step, shock=False), push)
    assert no_shock.startswith("lower-")
    assert no_shock.endswith("can swing: nothing holds ball up and down (no shock or spring?)")


@pytest.mark.parametrize("factor", [1e-9, 1e9])
def test_badly_scaled_but_sound(factor):
    """A long soft arm on a short stout stub with a weak strut: sound, whatever the stiffness ratio."""
    points = {"w": (0, 0, 0), "s": (2, 0, 0), "t": (2000, 300, 40), "g": (2000, 0, -900)}
    case = case_of(
        points,
        [member("stub", "w", "s"), member("arm", "s", "t", from_end="hinge", hinge_axis=(0, 0, 1))],
        {"w": ALL, "g": ALL},
        [Strut(name="prop", start="t", end="g", stiffness=factor)],
    )
    stout = Size(youngs=2e5, shear=8e4, area=5e4, iy=1e9, iz=1e9, torsion=1e9)
    push = pushes_of(case, {"t": (100, 0, -50)})
    response = solved(case, bars_of(case, {"stub": stout, "arm": TUBE}), push)
    assert np.isfinite(response.displacements).all()
    assert response.reactions[0, 0].sum(axis=0)[:3] == pytest.approx([-100, 0, 50], abs=1e-6)


def test_nearly_straight_toggle_is_sound():
    """Two bars 0.01 mm off a straight line carry a side load by a great force: soft, not a mechanism."""
    points = {"a": (0, 0, 0), "b": (300, 0, 0.01), "e": (600, 0, 0)}
    struts = [
        Strut(name="l", start="a", end="b", stiffness=1e5),
        Strut(name="r", start="b", end="e", stiffness=1e5),
        Strut(name="side", start="b", end="c", stiffness=10.0),
    ]
    case = case_of(points | {"c": (300, 500, 0.01)}, [], {"a": ALL, "e": ALL, "c": ALL}, struts)
    response = solved(case, bars_of(case), pushes_of(case, {"b": (0, 0, -1)}))
    # Statics: 2 N sin = 1 with sin = 0.01/300.
    assert response.forces[0, 0, 0, 0, 0] == pytest.approx(-0.5 * np.hypot(300, 0.01) / 0.01, rel=1e-6)
    flat = attrs.evolve(case, points=tuple(attrs.evolve(p, at=(*p.at[:2], 0.0)) for p in case.points))
    assert "nothing holds b up and down" in message(flat)


def test_rigid_loop_is_no_mechanism_and_balances():
    """Three rigid members in a loop on one tube: their forces balance at every point."""
    case = case_of(
        PLACES,
        [rigid("ab", "a", "b"), rigid("bc", "b", "c"), rigid("ca", "c", "a"), member("ad", "a", "d")],
        {"d": ALL},
    )
    layout = lay_out(case)
    push = pushes_of(case, {"b": (1, 2, 7), "c": (3, -1, 0, 50, 0, 0)})
    response = solve(case, layout, bars_of(case), push)
    total = np.zeros(6)
    for segment, side, sign in ((0, 1, 1.0), (1, 0, -1.0)):
        local = sign * response.forces[0, 0, segment, side].reshape(2, 3)
        total += (local @ layout.axes[segment]).reshape(6)
    assert total == pytest.approx([1, 2, 7, 0, 0, 0], abs=1e-9)
    assert np.abs(response.forces[0, 0, :3]).max() > 1.0


def test_rigid_parts_that_can_fold():
    """Rigid links with ball ends in a row have no bending: they fold."""
    case = case_of(
        PLACES,
        [
            rigid("ab", "a", "b", from_end="ball", to_end="ball"),
            rigid("be", "b", "e", from_end="ball", to_end="ball"),
        ],
        {"a": PINNED, "e": ALL},
    )
    assert "ab: can swing: nothing holds b" in message(case)


def test_large_frames_name_their_mechanism(monkeypatch):
    """The sparse path finds the same mechanism as the dense one."""
    monkeypatch.setattr(solving, "LARGE", 0)
    monkeypatch.setattr("strength.frame.plan.LARGE", 0)
    monkeypatch.setattr("strength.frame.mechanism.LARGE", 0)
    assert message(corner(tie=False)) == "steering-arm: can swing: nothing holds arm sideways (no tie rod?)"
    whole = corner()
    assert np.isfinite(solved(whole, bars_of(whole), pushes_of(whole, {"hub": (1, 2, 3)})).forces).all()


def test_unbalanced_free_body_is_refused():
    """Loads on a free body that do not balance are the program's fault, and no answer is given."""
    case = case_of(PLACES, [member("ab", "a", "b"), member("bc", "b", "c")])
    push = pushes_of(case, {"a": (0, 0, 5), "c": (0, 0, -4.99)}, gauge=even_gauge(case))
    with pytest.raises(SolveError, match="the loads on the free body out of balance by"):
        solved(case, bars_of(case), push)


def test_not_a_number_is_refused():
    """A size that is not a number is not solved with."""
    case = case_of(PLACES, [member("ab", "a", "b")], {"a": ALL})
    with pytest.raises(SolveError, match="not a finite number"):
        solved(case, bars_of(case, attrs.evolve(TUBE, iy=np.nan)), pushes_of(case, {"b": (0, 0, 1)}))


def test_plan_serves_many_solves():
    """One plan, several sizes and loads: as solved afresh."""
    case = corner()
    layout = lay_out(case)
    ready = plan(case, layout)
    for k in (1.0, 3.0):
        push = pushes_of(case, {"hub": (k, -2, 300, 5, 6, 7 * k)})
        bars = bars_of(case, attrs.evolve(TUBE, iy=TUBE.iy * k))
        one = solve(case, layout, bars, push, ready)
        assert one.forces == pytest.approx(solve(case, layout, bars, push).forces, rel=1e-12)


def test_flying_corner_without_tie_rod():
    """In free flight the same part is named, seen from the body that stands still beside it."""
    whole = corner(step=True)
    frame = [
        member(f"frame-{n}", "tower", n) for n in ("front", "rear", "upper-front", "upper-rear", "inner")
    ]
    flying = attrs.evolve(whole, supports=(), members=(*whole.members, *frame))
    loose = attrs.evolve(flying, struts=flying.struts[1:])
    assert message(loose) == "steering-arm: can swing: nothing holds arm sideways (no tie rod?)"
    dropped = attrs.evolve(flying, struts=flying.struts[:1])
    assert message(dropped).endswith("up and down (no shock or spring?)")
    still = pushes_of(flying, {"hub": (0, 0, 9), "tower": (0, 0, -9, 0, 0, 0)}, gauge=even_gauge(flying))
    with pytest.raises(SolveError):  # these two forces make a couple
        solved(flying, bars_of(flying), still)


def test_a_piece_that_only_touches_says_where():
    """A post that stands on the middle of a rail without being in its `via`."""
    from strength.case import case_from_text

    text = """
title = "Bracken post"
[members]
rail = {from = "7 0 0 mm", to = "307 0 0 mm", section = "tube 30 x 2 mm", material = "E235+N"}
post = {from = "107 0 0 mm", to = "107 0 90 mm", section = "tube 20 x 2 mm", material = "E235+N"}
[supports]
rail-from = "all"
[loads]
push = {forces = [{at = "post-to", force = "9 0 0 N"}]}
"""
    told = message(case_from_text(text))
    assert told.startswith("post: can move freely")
    assert told.endswith(
        "; 'post-from' lies on the line of 'rail' but is not joined to it: add it to that part's `via`"
    )
