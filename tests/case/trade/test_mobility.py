"""What keeps a knuckle from turning and a wishbone from swinging; each mistake beside one that nearly is."""

import numpy as np
import pytest

from strength.case import case_from_text
from strength.case.model import Case, Member, Point, Strut, Support
from strength.case.shape import Rigid
from strength.case.trade.bodies import bodies_of
from strength.errors import CaseError

HEAD = """title = "corner"
mirror = true
[defaults]
material = {tube = "E235+N", flat = "S235JR", bar = "42CrMo4+QT"}
filler = "ER70S-6"
class = "8.8"
[wheels]
front.left = {centre = "4 392 251 mm", radius = "250 mm", axle = "0 1 0.03"}
"""
LOWER = 'front = "112 95 171 mm", rear = "-95 101 176 mm", ball = "3 301 165 mm", tube = "tube 25 x 2 mm"'
UPPER = 'front = "90 120 331 mm", rear = "-75 125 329 mm", ball = "-7 289 341 mm", tube = "tube 20 x 2 mm"'
PLATE = 'plate = "flat 70 x 16 mm", axle = "bar 20 mm", ball = "M12"'
TIE = 'tie.left = {from = "arm.left", to = "-90 60 240 mm", section = "tube 14 x 2 mm"}'
SHOCK = 'shock.left = {from = "foot.left", to = "60 120 420 mm", stiffness = "60 N/mm"}'
HELD = ("lower-front", "lower-rear", "upper-front", "upper-rear")
ARM = 'arm.left = {on = "knuckle.left", tip = "-95 310 235 mm", plate = "flat 40 x 10 mm", wide = "z"}'
FOOT = 'foot.left = {on = "lower-front.left", tip = "40 230 205 mm", plate = "flat 40 x 5 mm", wide = "x"}'


def corner(
    struts: tuple[str, ...] = (TIE, SHOCK),
    pivots: tuple[str, str] = ("rod end M10", "bush M8"),
    more: str = "",
    held: tuple[str, ...] = ("tie-to", "shock-to"),
    hold: str = "x y z",
) -> str:
    """Both wishbones, a knuckle with a steering arm and a shock foot; pivots and strut ends on the bench."""
    supports = "".join(f'"{name}.left" = "{hold}"\n' for name in (*HELD, *held))
    return (
        HEAD
        + f'[wishbones]\nlower.left = {{{LOWER}, pivot = "{pivots[0]}"}}\n'
        + f'upper.left = {{{UPPER}, pivot = "{pivots[1]}"}}\n'
        + '[knuckles]\nknuckle.left = {lower = "lower.left", upper = "upper.left", '
        + f'wheel = "front.left", {PLATE}}}\n'
        + f"[brackets]\n{ARM}\n{FOOT}\n[struts]\n"
        + "\n".join(struts)
        + f"\n{more}\n[supports]\n{supports}"
    )


def faults(text: str) -> dict[str, str]:
    """Faults of a case, the path before the text."""
    with pytest.raises(CaseError) as raised:
        case_from_text(text)
    return dict(raised.value.faults)


def test_a_whole_corner_is_held() -> None:
    """A whole corner is held."""
    case = case_from_text(corner())
    assert {"knuckle.left", "knuckle.right"} <= {member.name for member in case.members}


def test_no_tie_rod_names_the_knuckle() -> None:
    """No tie rod names the knuckle."""
    found = faults(corner(struts=(SHOCK,), held=("shock-to",)))
    assert set(found) == {"knuckles.knuckle.left"}
    assert found["knuckles.knuckle.left"].startswith("no tie rod: nothing keeps knuckle.left from turning")


def test_no_shock_names_both_wishbones_of_the_corner() -> None:
    """No shock names both wishbones of the corner."""
    found = faults(corner(struts=(TIE,), held=("tie-to",)))
    assert set(found) == {"wishbones.lower.left", "wishbones.upper.left"}
    assert found["wishbones.lower.left"].startswith("no shock: nothing keeps lower.left from swinging")


def test_neither_names_both() -> None:
    """Neither names both."""
    found = faults(corner(struts=(), held=()))
    assert set(found) == {"knuckles.knuckle.left", "wishbones.lower.left", "wishbones.upper.left"}


def test_fixed_pivots_need_no_shock() -> None:
    """Fixed pivots need no shock."""
    case_from_text(corner(struts=(TIE,), pivots=("fixed", "fixed"), held=("tie-to",), hold="all"))


def test_one_fixed_pivot_holds_the_other_wishbone_through_the_knuckle() -> None:
    """One fixed pivot holds the other wishbone through the knuckle."""
    case_from_text(corner(struts=(TIE,), pivots=("rod end M10", "fixed"), held=("tie-to",), hold="all"))


def test_a_tie_rod_from_side_to_side_alone_holds_neither_knuckle() -> None:
    """Both knuckles turn together: nobody holds the steering."""
    across = 'tie = {from = "arm.left", to = "arm.right", section = "tube 14 x 2 mm"}'
    found = faults(corner(struts=(across, SHOCK), held=("shock-to",)))
    assert set(found) == {"knuckles.knuckle.left"}
    assert "no tie rod" in found["knuckles.knuckle.left"]


def test_a_tie_rod_from_side_to_side_and_one_to_the_frame_hold_both() -> None:
    """The frame's rod on the left; the right knuckle hangs on the rod across."""
    across = 'tie = {from = "arm.left", to = "arm.right", section = "tube 14 x 2 mm"}'
    drag = 'drag = {from = "arm.left", to = "rack", section = "tube 14 x 2 mm"}\n[points]\n'
    drag += 'rack = "-300 40 220 mm"'
    text = corner(struts=(across, SHOCK, drag), held=("shock-to",))
    case_from_text(text + 'rack = "x y z"\n')


def test_a_tie_rod_through_the_ball_line_does_not_hold() -> None:
    """On the lower ball itself the rod has no lever about the line of the balls."""
    rod = 'tie.left = {from = "lower.left", to = "-90 60 240 mm", section = "tube 14 x 2 mm"}'
    found = faults(corner(struts=(rod, SHOCK)))
    assert "no tie rod" in found["knuckles.knuckle.left"]


def test_a_tie_rod_with_a_short_lever_holds() -> None:
    """On the stub axle's root, 32 mm off the line of the balls."""
    rod = 'tie.left = {from = "knuckle-root.left", to = "-300 330 240 mm", section = "tube 14 x 2 mm"}'
    case_from_text(corner(struts=(rod, SHOCK)))


def test_a_member_holds_a_knuckle_as_well_as_a_strut() -> None:
    """A member holds a knuckle as well as a strut."""
    link = '[members]\ntie.left = {from = "arm.left", to = "-90 60 240 mm", section = "tube 14 x 2 mm", '
    link += 'from_end = "ball", to_end = "ball"}'
    case_from_text(corner(struts=(SHOCK,), more=link))


def test_a_shock_on_the_pivot_line_does_not_hold() -> None:
    """A shock on the pivot line does not hold."""
    strut = 'shock.left = {from = "lower-rear.left", to = "60 120 420 mm", stiffness = "60 N/mm"}'
    found = faults(corner(struts=(TIE, strut)))
    assert "no shock" in found["wishbones.lower.left"]


def test_a_shock_on_the_knuckle_holds_the_wishbones_too() -> None:
    """A shock on the knuckle holds the wishbones too."""
    strut = 'shock.left = {from = "arm.left", to = "-80 290 520 mm", stiffness = "60 N/mm"}'
    case_from_text(corner(struts=(TIE, strut)))


def test_a_removed_tie_rod_is_missed() -> None:
    """Taken out on the right-hand side only: the right knuckle is named."""
    text = corner() + '[[change]]\npart = "strut tie.right"\nremove = true\n'
    found = faults(text)
    assert "nothing keeps knuckle.right from turning" in found["knuckles.knuckle.left"]


def bodies_case(
    ends: tuple[str, str], axis: tuple[float, float, float] | None = None, **keys: object
) -> Case:
    """One member between two bench points, off every axis."""
    return Case(
        title="t",
        points=(Point(name="a", at=(10.0, -30.0, 70.0)), Point(name="b", at=(110.0, 50.0, -20.0))),
        members=(
            Member(
                name="m", start="a", end="b", shape=Rigid(), from_end=ends[0], to_end=ends[1], hinge_axis=axis
            ),
        ),
        supports=tuple(Support(name=name, at=name, hold=(True,) * 6) for name in ("a", "b")),
    )


@pytest.mark.parametrize(
    ("ends", "axis", "free"),
    [
        (("ball", "ball"), None, 1),  # it spins about itself
        (("fixed", "ball"), None, 0),
        (("hinge", "ball"), (3.0, 1.0, 2.0), 0),
        (("hinge", "ball"), (100.0, 80.0, -90.0), 1),  # the hinge along the member
    ],
)
def test_degrees_of_freedom_of_a_held_member(
    ends: tuple[str, str], axis: tuple[float, float, float] | None, free: int
) -> None:
    """Count of free motions against the rank found by singular values (numpy)."""
    bodies = bodies_of(bodies_case(ends, axis))
    assert 6 * bodies.count - np.linalg.matrix_rank(bodies.rows) == free
    held = bodies.held()
    body = bodies.of_member["m"]
    way = np.array([100.0, 80.0, -90.0]) / np.linalg.norm([100.0, 80.0, -90.0])
    assert held.moves(bodies.turning(body, way)) is bool(free)


@pytest.mark.parametrize("seed", [3, 11, 29])
def test_held_rows_agree_with_projection_on_the_null_space(seed: int) -> None:
    """Elimination against the null space of numpy's singular value decomposition, random rank 7 of 12."""
    random = np.random.default_rng(seed)
    from strength.case.trade.bodies import Held

    rows = random.normal(size=(9, 7)) @ random.normal(size=(7, 12))
    null = np.linalg.svd(rows)[2][7:]
    held = Held(rows)
    inside = random.normal(size=9) @ rows
    outside = inside + 0.3 * null[1]
    assert not held.moves(inside / np.linalg.norm(inside))
    assert held.moves(outside / np.linalg.norm(outside))


def test_a_strut_keeps_its_length_only() -> None:
    """A point on one strut keeps five of its six motions, three of them rotations that do not count."""
    case = Case(
        title="t",
        points=(Point(name="a", at=(1.0, 2.0, 3.0)), Point(name="b", at=(50.0, -7.0, 33.0))),
        struts=(Strut(name="s", start="a", end="b"),),
        supports=(Support(name="a", at="a", hold=(True, True, True, False, False, False)),),
    )
    bodies = bodies_of(case)
    assert 6 * bodies.count - np.linalg.matrix_rank(bodies.rows) == 2
