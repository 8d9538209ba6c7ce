"""Whole cases that fly free, from the file to the forces in their members: closed forms and Newton by hand.

d'Alembert's principle, any text on dynamics (Meriam, Dynamics; from memory).
"""

import itertools

import numpy as np
import pytest

from strength.case import case_from_text
from strength.case.model import Case
from strength.errors import StrengthError
from strength.frame.layout import lay_out
from strength.frame.response import Layout, Response
from strength.frame.solve import solve
from strength.sections import measure
from strength.values import evolve
from strength.vehicle import balance, into_structure

ROD = """
title = "A rod with a mass at each end"
[defaults]
material = {tube = "E235+N"}
[points]
a = "100 50 300 mm"
push = "340 -10 320 mm"
b = "900 -150 366.6666666666667 mm"
[members]
rod = {from = "a", to = "b", via = ["push"], section = "tube 25 x 2 mm"}
[masses]
one = {mass = "3 kg", at = "100 50 300 mm", carried_by = "a"}
two = {mass = "7 kg", at = "900 -150 366.6666666666667 mm", carried_by = "b"}
[supports]
a = "all"
[loads]
across = {forces = [{at = "push", force = "20 80 0 N"}]}
"""
TRIKE = """
title = "Three wheels on a backbone"
mirror = true
[defaults]
material = {tube = "E235+N", bar = "C45+N"}
[points]
hub.left = "20 420 250 mm"
knee.left = "10 330 255 mm"
head = "0 0 320 mm"
seat = "-520 0 330 mm"
post = "-560 0 610 mm"
tail = "-1050 0 270 mm"
[members]
stub.left = {from = "knee.left", to = "hub.left", section = "bar 20 mm"}
cross.left = {from = "head", to = "knee.left", section = "tube 40 x 3 mm"}
front = {from = "head", to = "seat", section = "tube 50 x 2 mm"}
back = {from = "seat", to = "tail", section = "tube 50 x 2 mm"}
post = {from = "seat", to = "post", section = "tube 35 x 2 mm"}
[wheels]
front.left = {centre = "hub.left", radius = "250 mm", braked = true}
rear = {centre = "tail", radius = "270 mm", driven = true}
[masses]
rider = {mass = "80 kg", at = "-590 0 720 mm", carried_by = ["seat", "post"], gyration = "260 mm"}
nose = {mass = "14 kg", at = "40 0 330 mm", carried_by = "head", gyration = "120 mm"}
box = {mass = "22 kg", at = "-930 0 450 mm", carried_by = ["tail", "seat"]}
"""
LOADS = """
[loads]
standing = {}
bump = {vertical = 1.9}
stop = {severity = "hard", braking = "0.35 g"}
bend = {cornering = "0.2 g", turn = "left"}
"""
HELD = """
[supports]
head = "all"
"""
STRUCK = """
[loads]
pothole = {severity = "abuse", strike = {wheel = "front.left", up = 2.6, back = 0.9, inward = 0.4}}
"""


def solved(case: Case) -> tuple[Layout, Response]:
    """Balance, loads on the structure, and the frame's answer."""
    layout = lay_out(case)
    return layout, solve(case, layout, measure(case), into_structure(case, balance(case)))


def let_go(text: str) -> tuple[Case, Layout, Response]:
    """A rod read on a support, then let go: without wheels it flies on its hand forces alone."""
    held = case_from_text(text)
    held = evolve(held, basis=evolve(held.basis, shear_flexible=False))
    case, layout = evolve(held, supports=()), lay_out(held)
    return case, layout, solve(case, layout, measure(case), into_structure(case, balance(held)))


def test_rod_with_two_masses() -> None:
    """The masses answer as two supports would: M = F x (L - x)/L, whatever they weigh.

    And where the middle of the masses stays, it bends by F x^2 (L - x)^2/(3 E I L).
    """
    case, layout, found = let_go(ROD)
    along = layout.axes[0, 0]
    whole, x = float(layout.bar_length[0]), float(layout.along[0, 1])
    force = np.array([20.0, 80.0, 0.0])
    across = force - (force @ along) * along
    bending = found.forces[0, 0, 0, 1, 4:]
    assert np.hypot(*bending) == pytest.approx(np.linalg.norm(across) * x * (whole - x) / whole, rel=1e-9)
    assert found.forces[0, 0, [0, 1], [0, 1], 3:] == pytest.approx(np.zeros((2, 3)), abs=1e-6)
    # along the rod each mass takes its share of the force: F m_b/(m_a + m_b) runs on to b
    pull = float(force @ along)
    ours = found.forces[0, 0, :, 0, 0]
    assert ours == pytest.approx([0.3 * pull, -0.7 * pull], rel=1e-9, abs=1e-12 * np.linalg.norm(force))
    second = np.pi / 64.0 * (25.0**4 - 21.0**4)
    modulus = case.metals["E235+N"].modulus
    sag = np.linalg.norm(across) * x**2 * (whole - x) ** 2 / (3.0 * modulus * second * whole)
    ends = found.displacements[0, 0, [0, 2], :3]
    assert ends - (ends @ along)[:, None] * along == pytest.approx(np.zeros((2, 3)), abs=1e-9)
    middle = found.displacements[0, 0, 1, :3]
    assert middle - (middle @ along) * along == pytest.approx(sag * across / np.linalg.norm(across), rel=1e-9)


@pytest.mark.parametrize("at", ["head", "tail", "knee.left"])
def test_symmetric_trike_as_if_held(at: str) -> None:
    """Wheels and masses balance: held anywhere, the support takes nothing, all parts carry the same."""
    free = case_from_text(TRIKE + LOADS)
    held = case_from_text(TRIKE + LOADS + HELD)
    held = evolve(held, supports=tuple(evolve(each, at=at) for each in held.supports))
    (_, one), (_, other) = solved(free), solved(held)
    size = np.abs(other.forces).max(axis=(0, 1, 2, 3))
    assert np.abs(one.forces - other.forces).max() <= 1e-8 * size.max()
    assert (np.abs(one.forces - other.forces).max(axis=(0, 1, 2, 3)) <= 1e-6 * size).all()
    assert np.abs(other.reactions[..., :3]).max() < 1e-6 * size[0]
    # mirrored members under a load that is alike on both sides
    names = [member.name for member in free.members]
    left, right = names.index("cross.left"), names.index("cross.right")
    layout = lay_out(free)
    bent = one.forces[0, 1, :, 0]
    assert bent[layout.first[left], 4] == pytest.approx(bent[layout.first[right], 4], rel=1e-8)


def newton(case: Case) -> tuple[np.ndarray, dict[str, np.ndarray], dict[str, float]]:
    """Acceleration, turning acceleration and each wheel's force, worked out without our arrays."""
    load = balance(case)[0]
    total = sum(mass.mass for mass in case.masses)
    centre = sum(mass.mass * np.array(mass.at) for mass in case.masses) / total
    inertia, force, turn = np.zeros((3, 3)), np.zeros(3), np.zeros(3)
    places = {point.name: np.array(point.at) for point in case.points}
    wheels = {}
    for wheel, pushed in zip(case.wheels, load.wheels, strict=True):
        hub = places[wheel.centre]
        push, axle = np.array(pushed.force), np.array(wheel.axle)
        own = np.cross([0.0, 0.0, -wheel.radius], push)
        own = own - (own @ axle) * axle  # it turns freely
        force = force + push
        turn = turn + np.cross(hub - centre, push) + own
        wheels[wheel.name] = np.append(push, own)
    for mass in case.masses:
        r = np.array(mass.at) - centre
        inertia += mass.mass * ((r @ r + (mass.gyration or 0.0) ** 2) * np.eye(3) - np.outer(r, r))
    spin = np.linalg.solve(inertia, turn)
    answers = {
        mass.name: -mass.mass * (force / total + np.cross(spin, np.array(mass.at) - centre))
        for mass in case.masses
    }
    turns = {mass.name: -mass.mass * (mass.gyration or 0.0) ** 2 * spin for mass in case.masses}
    return wheels, answers, turns


def test_struck_wheel() -> None:
    """The stub carries the knock alone; the front half carries what its wheels and its mass leave over."""
    case = case_from_text(TRIKE + STRUCK)
    case = evolve(case, loads=case.loads[:1])
    layout, found = solved(case)
    wheels, answers, turns = newton(case)
    places = {point.name: np.array(point.at) for point in case.points}
    names = [member.name for member in case.members]
    static = 9.80665 * np.array([80.0, 14.0, 22.0])
    tail, x = -1050.0, np.array([-590.0, 40.0, -930.0])
    stands = (static @ (x - tail)) / (20.0 - tail) / 2.0  # on one front wheel, by levers about the tail
    assert wheels["front.left"][:3] == pytest.approx([-0.9 * stands, -0.4 * stands, 2.6 * stands], rel=1e-9)

    def cut(member: str, side: int) -> tuple[np.ndarray, np.ndarray]:
        segment = layout.first[names.index(member)]
        inside = found.forces[0, 0, segment, side]
        axes = layout.axes[segment]
        return inside[:3] @ axes, inside[3:] @ axes

    force, moment = cut("stub.left", 0)
    hub = wheels["front.left"]
    assert force == pytest.approx(hub[:3], rel=1e-8)
    arm = places["hub.left"] - places["knee.left"]
    assert moment == pytest.approx(hub[3:] + np.cross(arm, hub[:3]), rel=1e-8)
    # the whole front part, forward of the seat: both wheels and the nose
    force, moment = cut("front", 1)
    at = places["seat"]
    ahead = [(wheels[f"front.{side}"], places[f"hub.{side}"]) for side in ("left", "right")]
    ahead.append((np.append(answers["nose"], turns["nose"]), np.array([40.0, 0.0, 330.0])))
    total = sum(push[:3] for push, _ in ahead)
    turn = sum(push[3:] + np.cross(place - at, push[:3]) for push, place in ahead)
    scale = np.abs(total).max()
    assert -force == pytest.approx(total, rel=1e-8, abs=1e-8 * scale)
    assert -moment == pytest.approx(turn, rel=1e-8, abs=1e-5 * scale)
    assert np.abs(turns["nose"]).max() > 1e3  # its own inertia is no trifle here


def test_a_rod_cannot_answer_a_turn_about_itself() -> None:
    """Two masses in one line against a moment about it: refused with words, before anything is printed."""
    about = '{at = "push", force = "0 0 0 N", moment = "800 -200 66.66666666666667 N*mm"}'
    turned = ROD.replace('{at = "push", force = "20 80 0 N"}', about)
    with pytest.raises(StrengthError, match="no inertia"):
        let_go(turned)
    _, _, found = let_go(turned.replace('carried_by = "a"', 'carried_by = "a", gyration = "40 mm"'))
    # 3 kg answer alone, so all of the moment from `push` runs to a
    size = np.sqrt(800.0**2 + 200.0**2 + (200.0 / 3.0) ** 2)
    assert np.abs(found.forces[0, 0, :, 0, 3]) == pytest.approx([size, 0.0], rel=1e-9, abs=1e-6)


def test_the_order_of_points_never_matters() -> None:
    """Points, masses and wheels in any order: each part carries the same."""
    case = case_from_text(TRIKE + STRUCK)
    layout, found = solved(case)
    for points, masses in itertools.islice(
        zip(itertools.permutations(case.points), itertools.permutations(case.masses), strict=False), 1, 6
    ):
        other = evolve(case, points=points[::-1], masses=masses, wheels=case.wheels[::-1])
        same, again = solved(other)
        assert np.abs(again.forces - found.forces).max() <= 1e-9 * np.abs(found.forces).max()
        order = [same.names.index(name) for name in layout.names]
        moved = again.displacements[:, :, order]
        assert np.abs(moved - found.displacements).max() <= 1e-8 * np.abs(found.displacements).max()
