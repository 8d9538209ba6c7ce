"""Points that nearly meet and joints that nothing checks."""

import pytest

from strength.case.model import Warned
from tests.case.cases import BENCH, TRIKE, read

POST = "[[member]]\nname = 'post'\nfrom = '{}'\nto = '{}'\nsection = 'tube 30 x 2 mm'\n"


def warnings(text: str) -> list[str]:
    """Part and text of each warning."""
    return [f"{warning.part}: {warning.text}" for warning in read(text).warnings]


@pytest.mark.parametrize(
    ("start", "expected"),
    [
        ("300 40 120.009 mm", []),
        ("300 40 120.02 mm", ["0.02 mm"]),
        ("300 43 124 mm", ["5 mm"]),
        ("300 43 124.1 mm", []),
        ("-1 0 0 mm", ["1 mm"]),
    ],
)
def test_points_that_nearly_meet(start, expected):
    """Between 0.01 and 5 mm apart, with no part between them: most likely meant to be one."""
    found = [text for text in warnings(BENCH + POST.format(start, "0 300 900 mm")) if "not joined" in text]
    assert len(found) == len(expected)
    for text, gap in zip(found, expected, strict=True):
        assert f"it is {gap} from" in text
        assert "no part runs between the two" in text


def test_points_joined_by_a_part():
    """A rigid step of 4 mm joins two middle planes: nothing to warn of."""
    step = "[[member]]\nname = 'step'\nfrom = 'tip'\nto = '300 40 124 mm'\nsection = 'rigid'\n"
    text = BENCH + step + POST.format("300 40 124 mm", "0 300 900 mm")
    assert not [each for each in warnings(text) if "not joined" in each]


def test_two_names_for_one_place():
    """Two points typed at the same place are two points all the same."""
    text = BENCH.replace("[members]", 'again = "300 40 120 mm"\n[members]') + POST.format(
        "again", "0 300 900 mm"
    )
    assert any("not joined: it is 0 mm from 'tip'" in each for each in warnings(text))


def test_a_point_beside_the_road():
    """A part that ends on another one's line is not joined to it by that."""
    text = BENCH + POST.format("150 20 60 mm", "150 20 -400 mm")
    assert (
        "post-from: lies on the line of 'arm' but is not joined to it: add it to that part's `via`"
        in warnings(text)
    )
    joined = text.replace('section = "tube 25', 'via = ["150 20 60 mm"], section = "tube 25')
    assert not [each for each in warnings(joined) if "lies on the line" in each]


def test_a_weld_onto_a_part_that_is_not_there():
    """A weld onto a part that has no point at that end joins nothing."""
    text = BENCH + POST.format("150 20 60 mm", "150 20 -400 mm") + "weld_from = 'arm'\n"
    told = (
        "post-from: joins its member to 'arm', but 'post-from' is no point of that part: "
        "add it to the `via` of 'arm', or check `onto`"
    )
    assert told in warnings(text)
    joined = text.replace('section = "tube 25', 'via = ["150 20 60 mm"], section = "tube 25')
    assert not [each for each in warnings(joined) if "joins its member" in each]


JOINED = [
    ("", 2),
    ("[[weld]]\nname='w'\nmember='arm'\nend='to'\nonto='post'\n", 0),
    ("[[weld]]\nname='w'\nmember='post'\nend='from'\nonto='arm'\n", 0),
    ("[[weld]]\nname='w'\nmember='post'\nend='from'\n", 0),
    ("[[weld]]\nname='w'\nmember='post'\nend='to'\n", 2),
    ("[[weld]]\nname='w'\nmember='arm'\nend='from'\n", 2),
    ("[[bolt]]\nname='b'\nmember='post'\nend='from'\naxis='1 0 0'\nsize='M8'\n", 0),
    ("[[stud]]\nname='s'\nmember='arm'\nend='to'\nsize='M8'\nreach='9 mm'\nengaged='12 mm'\n", 0),
    ("[[clamp]]\nname='c'\nmember='post'\nend='from'\ndiameter='30 mm'\nbolts='2 x M6'\n", 0),
    ("[[sleeve]]\nname='v'\nmember='arm'\nend='to'\nouter='post'\noverlap='50 mm'\n", 0),
    ("[[hole]]\nname='h'\nmember='lug'\nalong=0.5\ndiameter='8 mm'\n", 2),
]


@pytest.mark.parametrize(("joint", "count"), JOINED)
def test_fixed_ends_that_nothing_joins(joint, count):
    """A fixed end that meets another part has a weld, bolt, stud, clamp or sleeve, or is listed."""
    lug = (
        "[[member]]\nname='lug'\nfrom='9 9 -900 mm'\nto='9 9 -960 mm'\nsection='flat 30 x 5 mm'\nup='1 0 0'\n"
    )
    case = read(BENCH + POST.format("tip", "0 300 900 mm") + lug + joint)
    assert len(case.not_checked) == count
    assert {skipped.part for skipped in case.not_checked} == ({"arm", "post"} if count else set())
    for skipped in case.not_checked:
        assert skipped.kind == "joint"
        assert "meets" in skipped.why
        text = f"{skipped.why}: how it is joined is not checked"
        assert Warned(part=skipped.part, text=text) in case.warnings


def test_a_third_part_at_a_joint():
    """A weld of one part onto another says nothing of a third."""
    third = "[[member]]\nname='stay'\nfrom='0 0 800 mm'\nto='tip'\nsection='tube 20 x 2 mm'\n"
    weld = "[[weld]]\nname='w'\nmember='arm'\nend='to'\nonto='post'\n"
    case = read(BENCH + POST.format("tip", "0 300 900 mm") + third + weld)
    assert [skipped.part for skipped in case.not_checked] == ["stay"]


def test_ends_that_turn_are_not_fixed():
    """A ball or hinge at the meeting place is no fixed end; the other part's is."""
    ball = BENCH.replace('section = "tube', 'to_end = "ball", section = "tube')
    case = read(ball + POST.format("tip", "0 300 900 mm"))
    assert [skipped.part for skipped in case.not_checked] == ["post"]


def test_joined_through_a_rigid_step():
    """Two plates joined by a rigid step meet each other there; the step itself is no part to join."""
    step = "[[member]]\nname = 'step'\nfrom = 'tip'\nto = '300 40 140 mm'\nsection = 'rigid'\n"
    case = read(BENCH + step + POST.format("300 40 140 mm", "0 300 900 mm"))
    assert {skipped.part for skipped in case.not_checked} == {"arm", "post"}
    bolt = "[[bolt]]\nname='b'\nmember='arm'\nend='to'\naxis='0 0 1'\nsize='M8'\n"
    assert read(BENCH + step + POST.format("300 40 140 mm", "0 300 900 mm") + bolt).not_checked == ()


def test_warnings_of_images_once():
    """What is said of a left part is not said again of its image; what is not checked is, for both."""
    text = (
        TRIKE + "[[member]]\nname='stay.left'\nfrom='hub.left'\nto='0 0 700 mm'\nsection='tube 20 x 2 mm'\n"
    )
    case = read(text)
    assert [warning.part for warning in case.warnings].count("stay.left") == 1
    assert "stay.right" not in [warning.part for warning in case.warnings]
    assert {"stay.left", "stay.right"} <= {skipped.part for skipped in case.not_checked}


UPS = [
    ("flat 40 x 8 mm", "300 40 120 mm", "`up` is left out: its width of 40 mm is taken to point up"),
    ("box 50 x 30 x 2 mm", "300 40 120 mm", "`up` is left out: its depth of 50 mm is taken to point up"),
    ("flat 40 x 8 mm", "20 0 300 mm", "its width of 40 mm is taken to point forward, as the part is upright"),
    ("square 40 x 2 mm", "300 40 120 mm", None),
    ("tube 25 x 2 mm", "300 40 120 mm", None),
]


@pytest.mark.parametrize(("section", "tip", "text"), UPS)
def test_up_left_out(section, tip, text):
    """On a flat or a box that is not square it makes a difference which way `up` is taken."""
    case = BENCH.replace("tube 25 x 2 mm", section).replace("300 40 120 mm", tip)
    found = [each for each in warnings(case) if "`up` is left out" in each]
    assert len(found) == (text is not None)
    assert all(text in each for each in found)
    assert not [e for e in warnings(case.replace("section =", 'up = "0 1 0", section =')) if "`up`" in e]


@pytest.mark.parametrize(
    ("axis", "warned"), [("0 1 0", False), ("0 -3 1", False), ("0 0 1", True), ("1 0.5 0", True)]
)
def test_bolt_along_its_flat(axis, warned):
    """The bolt of a flat goes through its thickness: here y, with the width upright and x along it."""
    flat = BENCH.replace("tube 25 x 2 mm", "flat 40 x 8 mm").replace("300 40 120 mm", "300 0 0 mm")
    bolt = f"[bolts]\nb = {{member = 'arm', end = 'to', axis = '{axis}', size = 'M8'}}\n"
    assert (
        any("its axis lies in the plane of its flat 'arm'" in each for each in warnings(flat + bolt))
        is warned
    )


def test_brakes_and_calipers():
    """A caliper without a brake and a brake without a caliper are doubtful."""
    assert any("front.left: is braked without a `caliper`" in each for each in warnings(TRIKE))
    with_caliper = TRIKE.replace("braked = true", "braked = true, caliper = 'middle'")
    assert not [each for each in warnings(with_caliper) if "caliper" in each]
    idle = TRIKE.replace("braked = true", "caliper = 'middle'")
    assert any("front.left: has a `caliper` but is not braked" in each for each in warnings(idle))


def test_clamp_of_another_size():
    """A clamp that is not as wide as its tube is doubtful."""
    clamp = "[clamps]\nc = {member='arm', end='from', diameter='28 mm', bolts='2 x M6'}\n"
    assert "c: its diameter is 28 mm, but 'arm' is 25 mm across" in warnings(BENCH + clamp)
