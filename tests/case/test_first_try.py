"""What a builder meets who starts from an empty file: parts that hang in the air, a forgotten mirror.

The cases are invented; each is short of one thing, and the message names it.
"""

from strength.case import case_from_text
from tests.case.cases import TRIKE, faults

FRONT = """
title = "Heron front end"
mirror = true
[defaults]
material = {tube = "E235+N", box = "S235JRH", flat = "S235JR"}
filler = "ER70S-6"
class = "8.8"
[wishbones.low.left]
front = "90 80 150 mm"
rear = "-80 82 150 mm"
ball = "0 285 140 mm"
tube = "tube 22 x 2 mm"
pivot = "rod end M10"
[struts]
shock.left = {from = "low.left", to = "shock-top.left", stiffness = "50 N/mm"}
[points]
shock-top.left = "0 110 330 mm"
[members]
rail.left = {from = "low-front.left", to = "low-rear.left", section = "square 30 x 2 mm"}
post.left = {from = "low-front.left", to = "shock-top.left", section = "square 30 x 2 mm"}
[supports]
low-rear.left = "all"
[loads]
push = {forces = [{at = "low.left", force = "0 0 300 N"}, {at = "low.right", force = "0 0 300 N"}]}
"""


def test_front_is_whole() -> None:
    """With nothing missing it is read; both sides are there."""
    assert {strut.name for strut in case_from_text(FRONT).struts} == {"shock.left", "shock.right"}


def test_pivot_in_the_air() -> None:
    """A pivot that no part of the frame reaches is named, and nothing else is told of what it carries."""
    found = faults(
        FRONT.replace(
            'from = "low-front.left", to = "low-rear.left"', 'from = "shock-top.left", to = "low-rear.left"'
        ).replace('post.left = {from = "low-front.left"', 'post.left = {from = "low-rear.left"')
    )
    assert list(found) == ["wishbones.low.left"]
    (why,) = found["wishbones.low.left"]
    assert why.startswith(
        "its front pivot 'low-front.left' meets no other part: let a member of the frame end"
    )


def test_strut_in_the_air() -> None:
    """The upper end of a shock that stands nowhere is named, rather than a missing shock."""
    found = faults(FRONT.replace('to = "shock-top.left", section', 'to = "50 110 330 mm", section'))
    assert list(found) == ["struts.shock.left"]
    assert "its end 'shock-top.left' meets no other part" in found["struts.shock.left"][0]


def test_forgotten_mirror() -> None:
    """Three wheels typed as two: the message says what repeats the left one."""
    found = faults(TRIKE.replace("mirror = true", "mirror = false"))
    assert "it stands on 2 wheels" in found["loads.standing"][0]
    assert "`mirror = true` repeats what ends in .left on the right" in found["loads.standing"][0]
    unsided = faults(TRIKE.replace("mirror = true", "mirror = false").replace("front.left", "front"))
    assert "mirror" not in unsided["loads.standing"][0]


def test_bracket_on_a_typed_via_vector() -> None:
    """A bracket whose root falls on a `via` point typed as a vector uses that point, on both sides."""
    lug = 'lug.left = {on = "rail.left", tip = "5 81 80 mm", plate = "flat 30 x 6 mm", wide = "x"}'
    text = FRONT.replace("[struts]", f"[brackets]\n{lug}\n[struts]").replace(
        'to = "low-rear.left", section', 'to = "low-rear.left", via = ["5 81 150 mm"], section'
    )
    down = 'force = "0 0 -9 N"'
    text += f'hang = {{forces = [{{at = "lug.left", {down}}}, {{at = "lug.right", {down}}}]}}\n'
    case = case_from_text(text)
    members = {member.name: member for member in case.members}
    places = {point.name: point.at for point in case.points}
    for side, sign in (("left", 1.0), ("right", -1.0)):
        (passed,) = members[f"rail.{side}"].via
        assert passed == f"rail-via.{side}" == members[f"lug.{side}"].start
        assert places[passed] == (5.0, sign * 81.0, 150.0)


def test_a_post_that_only_touches_is_named() -> None:
    """A tie rod whose far end stands on a post that is joined to nothing: the post is named as well."""
    found = faults(
        FRONT.replace('to = "shock-top.left", section', 'to = "50 110 330 mm", section')
        .replace(
            "[supports]",
            'mast.left = {from = "11 81 150 mm", to = "shock-top.left", section = "bar 20 mm", '
            'material = "S355J2"}\n[supports]',
        )
        .replace(
            'rail.left = {from = "low-front.left", to = "low-rear.left"',
            'rail.left = {from = "90 80 150 mm", to = "-80 82 150 mm"',
        )
    )
    assert "no shock" in found["wishbones.low.left"][0]
    told = "lies on the line of 'rail.left' but is not joined to it: add it to that part's `via`"
    assert found["members.mast.left"] == [f"'mast-from.left': {told}"]
