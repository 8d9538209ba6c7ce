"""What is lost with each part: by hand on a wheel's corner, and by taking parts out of calfem's frames."""

import attrs
import numpy as np
import pytest
from scipy.linalg import null_space

from strength.case.model import Mass, Strut, Tow, Wheel
from strength.frame.layout import lay_out
from strength.frame.loss import Loss, losses
from tests.frame.building import TUBE, case_of, member
from tests.frame.second_way import Frame
from tests.frame.test_mechanisms import corner


def lost(case):
    """Parts and what goes with them."""
    found = losses(case, lay_out(case))
    assert found is not None
    return {loss.part: (loss.wheels, loss.brakes, loss.tows) for loss in found}


def test_corner_of_a_wheel():
    """Wishbones, knuckle, axle, tie rod and shock each lose the wheel; the rigid step is no part."""
    whole = corner(step=True)
    parts = [part.name for part in (*whole.members, *whole.struts) if part.name != "step"]
    assert lost(whole) == dict.fromkeys(parts, (("w",), (), ()))


def test_struts_that_hold_their_length_are_lost_like_others():
    """A tie rod and a shock that give nowhere are as needed as springs; two shocks spare each other."""
    whole = corner(step=True)
    holding = tuple(attrs.evolve(strut, shape=None, stiffness=None) for strut in whole.struts)
    parts = [part.name for part in (*whole.members, *whole.struts) if part.name != "step"]
    assert lost(attrs.evolve(whole, struts=holding)) == dict.fromkeys(parts, (("w",), (), ()))
    shock = next(strut for strut in holding if strut.name == "shock")
    twice = attrs.evolve(whole, struts=(*holding, attrs.evolve(shock, name="spare")))
    assert set(lost(twice)) == set(parts) - {"shock"}


def test_what_is_there_twice_is_not_the_only_path():
    """A second shock on the tower, and a third leg in the lower wishbone, each spare the other."""
    whole = corner(step=True)
    points = (*whole.points, attrs.evolve(whole.points[0], name="middle", at=(10.0, 190.0, 215.0)))
    middle = attrs.evolve(whole.supports[0], name="middle", at="middle")
    spare = Strut(name="spare shock", start="ball", end="tower", stiffness=15)
    leg = member("lower-middle", "middle", "ball", from_end="ball")
    twice = attrs.evolve(
        whole,
        points=points,
        members=(*whole.members, leg),
        supports=(*whole.supports, middle),
        struts=(*whole.struts, spare),
    )
    alone = set(lost(twice))
    assert alone == {"upper-front", "upper-rear", "axle", "steering-arm", "knuckle", "tie-rod"}


def trike(**rest):
    """A backbone with a cross tube, three stub axles, a seat post, and a rack that carries no wheel."""
    points = {
        "head": (0, 0, 300), "seat": (-420, 10, 310), "tail": (-1000, 0, 290), "left": (20, 300, 295),
        "right": (15, -310, 305), "hub-left": (22, 390, 250), "hub-right": (12, -395, 252),
        "hub-rear": (-1150, 30, 255), "rider": (-430, 0, 520), "rack": (-700, -20, 480),
        "eye": (-1260, 0, 240), "shoe": (60, 330, 310),
    }  # fmt: skip
    members = [
        member("front", "head", "seat"), member("back", "seat", "tail"), member("cross-left", "head", "left"),
        member("cross-right", "head", "right"), member("stub-left", "left", "hub-left"),
        member("stub-right", "right", "hub-right"), member("tail-arm", "tail", "hub-rear"),
        member("seat-post", "seat", "rider"), member("rack-post", "tail", "rack"),
        member("hitch", "tail", "eye"), member("brake-arm", "left", "shoe"),
    ]  # fmt: skip
    wheels = (
        Wheel(name="l", centre="hub-left", radius=250.0, braked=True, caliper="shoe"),
        Wheel(name="r", centre="hub-right", radius=250.0),
        Wheel(name="t", centre="hub-rear", radius=250.0),
    )
    masses = (
        Mass(name="frame", mass=20.0, at=(-400.0, 0.0, 300.0), carried_by=("seat",)),
        Mass(name="load", mass=12.0, at=(-700.0, 0.0, 500.0), carried_by=("rack",)),
    )
    given = {"wheels": wheels, "masses": masses, "tows": (Tow(name="eye", at="eye"),), **rest}
    return case_of(points, members, None, (), **given)


def test_free_vehicle_by_hand():
    """Stubs, cross tubes and backbone lose wheels, the brake arm its brake, the hitch the tow."""
    assert lost(trike()) == {
        "front": (("l", "r"), (), ()),
        "back": (("t",), (), ("eye",)),
        "cross-left": (("l",), (), ()),
        "cross-right": (("r",), (), ()),
        "stub-left": (("l",), (), ()),
        "stub-right": (("r",), (), ()),
        "tail-arm": (("t",), (), ()),
        "hitch": ((), (), ("eye",)),
        "brake-arm": ((), ("l",), ()),
    }


def test_braced_vehicle():
    """A second tube from cross to tail: neither the backbone nor its own cross tube is alone any more."""
    whole = trike()
    braced = attrs.evolve(whole, members=(*whole.members, member("brace", "left", "tail")))
    assert set(lost(braced)) == {"cross-right", "stub-left", "stub-right", "tail-arm", "hitch", "brake-arm"}


def test_order_never_matters():
    """Points and parts in reverse."""
    whole = trike()
    turned = attrs.evolve(whole, points=whole.points[::-1], members=whole.members[::-1])
    assert lost(turned) == lost(whole)


def test_without_wheels_nothing_is_asked():
    """A bracket on a bench carries none."""
    assert losses(attrs.evolve(trike(), wheels=(), tows=()), lay_out(trike())) == ()


def test_large_frames_are_not_looked_at(monkeypatch):
    """None says so, rather than an empty answer."""
    monkeypatch.setattr("strength.frame.loss.LARGE", 40)
    assert losses(trike(), lay_out(trike())) is None


def by_calfem(case, sizes):
    """The same by brute force: null space of calfem's stiffness without the part, wheels against the body."""
    found = {}
    for part in (*case.members, *case.struts):
        rest = attrs.evolve(
            case,
            members=tuple(each for each in case.members if each is not part),
            struts=tuple(each for each in case.struts if each is not part),
        )
        frame = Frame(rest, sizes)
        free = frame.basis() if frame.rows or frame.held else np.eye(frame.count)
        scale = np.ones(frame.count)
        scale[: 6 * len(frame.places)].reshape(-1, 6)[:, 3:] = 1.0 / 300.0
        scale[6 * len(frame.places) :] = 1.0 / 300.0
        narrow = np.linalg.qr(free / scale[:, None])[0]
        matrix = narrow.T @ (scale[:, None] * frame.stiffness() * scale) @ narrow
        moves = scale[:, None] * (narrow @ null_space(matrix, rcond=1e-11))
        wheels = tuple(
            wheel.name
            for wheel in case.wheels
            if _against(frame, moves, wheel.centre, case.masses[0].carried_by[0]) > 1e-6
        )
        if wheels:
            found[part.name] = (wheels, (), ())
    return found


def _against(frame, moves, point, base):
    """Greatest movement of a point beside a body, rotations times 300 mm, in moves of size 1."""
    p, b = frame.names[point], frame.names[base]
    arm = frame.places[p] - frame.places[b]
    shift = (
        moves[6 * p : 6 * p + 3] - moves[6 * b : 6 * b + 3] - np.cross(moves[6 * b + 3 : 6 * b + 6].T, arm).T
    )
    turn = moves[6 * p + 3 : 6 * p + 6] - moves[6 * b + 3 : 6 * b + 6]
    return max(np.max(np.abs(shift), initial=0.0), 300.0 * np.max(np.abs(turn), initial=0.0))


@pytest.mark.parametrize("seed", range(12))
def test_random_vehicles_by_brute_force(seed):
    """Random trees of tubes with random braces, some on ball joints, and struts, of which some hold."""
    rng = np.random.default_rng(seed)
    count = 9
    points = {f"p{n}": rng.uniform((-900, -400, 150), (200, 400, 600)) for n in range(count)}
    members = [member(f"m{n}", f"p{rng.integers(n)}", f"p{n}", up=(0.2, 0.3, 1.0)) for n in range(1, count)]
    for n in range(int(rng.integers(2, 5))):
        a, b = rng.choice(count, 2, replace=False)
        ends = ("fixed", "ball") if rng.random() < 0.6 else ("fixed", "fixed")
        members.append(
            member(f"brace{n}", f"p{a}", f"p{b}", from_end=ends[0], to_end=ends[1], up=(0.2, 0.3, 1.0))
        )
    struts = [
        Strut(name=f"strut{n}", start=f"p{a}", end=f"p{b}", stiffness=None if (seed + n) % 3 else 400.0)
        for n, (a, b) in enumerate(rng.choice(count, 2, replace=False) for _ in range(2))
    ]
    centres = rng.choice(np.arange(1, count), 3, replace=False)
    wheels = tuple(Wheel(name=f"w{n}", centre=f"p{at}", radius=200.0) for n, at in enumerate(centres))
    mass = Mass(name="body", mass=50.0, at=(0.0, 0.0, 400.0), carried_by=("p0",))
    case = case_of(points, members, None, struts, wheels=wheels, masses=(mass,))
    expected = by_calfem(case, {each.name: TUBE for each in members} | {each.name: None for each in struts})
    assert expected
    assert lost(case) == expected


def test_loss_is_told_in_order_of_the_case():
    """Members, then struts."""
    found = losses(trike(), lay_out(trike()))
    assert found is not None
    assert found[0] == Loss(part="front", wheels=("l", "r"))
