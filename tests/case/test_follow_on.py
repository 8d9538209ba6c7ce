"""One mistake, one message: what follows from it is not told as well. All cases are invented."""

import pytest

from tests.case.cases import BENCH, faults, only_fault

CORNER = """
title = "Bracken corner"
mirror = true
[defaults]
material = {tube = "E235+N", flat = "S235JR", bar = "S355J2"}
filler = "ER70S-6"
class = "8.8"
[wheels]
front.left = {centre = "3 395 251 mm", radius = "251 mm"}
rear = {centre = "-1210 0 251 mm", radius = "251 mm"}
[wishbones.low.left]
front = "112 104 164 mm"
rear = "-121 107 166 mm"
ball = "2 312 171 mm"
tube = "tube 25 x 2 mm"
pivot = "rod end M10"
[wishbones.high.left]
front = "88 131 338 mm"
rear = "-97 133 341 mm"
ball = "-7 301 329 mm"
tube = "tube 22 x 2 mm"
pivot = "rod end M10"
[knuckles.upright.left]
lower = "low.left"
upper = "high.left"
wheel = "front.left"
plate = "flat 72 x 13 mm"
axle = "bar 21 mm"
ball = "M12"
[brackets.arm.left]
on = "upright.left"
tip = "-84 324 212 mm"
plate = "flat 46 x 9 mm"
wide = "z"
bolts = "2 x M8"
apart = "23 mm"
edge = "15 mm"
[welds]
root.left = {member = "upright-axle.left", end = "from", inset = "6.5 mm", onto = "upright.left"}
[masses]
rider = {mass = "81 kg", at = "-560 0 640 mm", carried_by = "rear-hub"}
[loads]
standing = {}
"""
SEVERAL = [
    ('ball = "2 312 171 mm"', 'ball = "2 312 171"', "wishbones.low.left.ball"),
    ('lower = "low.left"', 'lower = "lov.left"', "knuckles.upright.left.lower"),
    ('wheel = "front.left"', 'wheel = "front"', "knuckles.upright.left.wheel"),
    ('plate = "flat 72 x 13 mm"', 'plate = "flat 13 x 72 mm"', "knuckles.upright.left"),
    ('wide = "z"', 'wide = "up"', "brackets.arm.left.wide"),
    ('bolts = "2 x M8"', 'bolts = "M8"', "brackets.arm.left.bolts"),
    ('on = "upright.left"', 'on = "low.left"', "brackets.arm.left.on"),
    ('apart = "23 mm"', 'apart = "38 mm"', "brackets.arm.left"),
    ('class = "8.8"', "class = 8.8", "defaults.class"),
    ('class = "8.8"', 'class = "8,8"', "defaults.class"),
    ("mirror = true", 'mirror = "yes"', "mirror"),
]


@pytest.mark.parametrize(("right", "wrong", "path"), SEVERAL)
def test_one_mistake_one_message(right: str, wrong: str, path: str) -> None:
    """Parts that the part at fault would have made, and keys left unread, are not told as missing."""
    assert CORNER.count(right) == 1
    found = faults(CORNER.replace(right, wrong))
    assert list(found) == [path]
    assert len(found[path]) == 1


def test_key_that_does_not_exist() -> None:
    """A misspelt key that would have made parts: what names them is not told."""
    text = CORNER.replace("[wishbones.high.left]", "spredder = 0.4\n[wishbones.high.left]").replace(
        'on = "upright.left"', 'on = "low-spreader.left"'
    )
    assert only_fault(text) == ("wishbones.low.left.spredder", "unknown key; did you mean 'spreader'?")


@pytest.mark.parametrize(
    ("right", "wrong", "words"),
    [
        (
            'on = "upright.left"',
            'on = "low.left"',
            "is a wishbone: name one of its members, 'low-front.left'",
        ),
        ('plate = "flat 72 x 13 mm"', 'plate = "flat 13 x 72 mm"', "is it the wrong way round?"),
        ('plate = "flat 72 x 13 mm"', 'plate = "flat 21 x 13 mm"', "take a wider one"),
        ('ball = "M12"', 'ball = "M12"\nup = "0 0 1"', "`up` points from ball to ball"),
        ('apart = "23 mm"', 'apart = "38 mm"', "2 x M8 in a row take 46.2 mm, but the plate is only 46 mm"),
        ('onto = "upright.left"', 'onto = "6 mm"', "a plate is written onto = {thickness = '6 mm'"),
        ('pivot = "rod end M10"\n[wi', 'pivot = "rod end M9"\n[wi', "nearest are 'M8', 'M8x1', 'M10'"),
    ],
)
def test_it_says_what_to_do(right: str, wrong: str, words: str) -> None:
    """The one message names the likely cause."""
    assert CORNER.count(right) == 1
    _, why = only_fault(CORNER.replace(right, wrong))
    assert words in why


def test_a_forgotten_mirror_is_named_where_the_right_side_is() -> None:
    """A place that only mirroring makes."""
    text = CORNER.replace("mirror = true", "mirror = false") + (
        '[struts]\nlink = {from = "low.left", to = "low.right"}\n'
    )
    (why,) = faults(text)["struts.link.to"]
    assert why.startswith("no point, bracket or wishbone is named 'low.right'; with `mirror = true` on top")


def test_a_block_is_told_by_its_name_too() -> None:
    """Nobody counts blocks; a name that stands in the text already is not repeated."""
    block = '[[hole]]\nname = "bore"\nmember = "arm"\nalong = 0.4\ndiameter = "6 mm"\n'
    assert only_fault(BENCH + block) == (
        "hole[0].member",
        "'arm' is no flat: only holes in flats are worked out (in 'bore')",
    )


def test_a_plate_thicker_than_wide_is_asked_about() -> None:
    """The width stands first in a flat; a thicker one may be meant, so it is a warning."""
    from tests.case.cases import read

    arm = 'arm = {from = "foot", to = "tip", section = "flat 8 x 40 mm", up = "0 0 1"}'
    text = "\n".join(arm if line.startswith("arm = ") else line for line in BENCH.splitlines())
    (warned,) = [each.text for each in read(text).warnings if "wrong way round" in each.text]
    assert warned.startswith("its plate is 8 mm wide and 40 mm thick: is it the wrong way round?")


def test_what_many_parts_have_alike_is_told_once() -> None:
    """Every path still stands in the message."""
    from strength.case import case_from_text
    from strength.errors import CaseError

    with pytest.raises(CaseError) as caught:
        case_from_text(CORNER.replace('filler = "ER70S-6"\n', ""))
    assert len(caught.value.faults) == 3
    assert len(str(caught.value).splitlines()) == 3
    twice = CORNER.replace('filler = "ER70S-6"\n', "") + (
        '[welds.two.left]\nmember = "low-front.left"\nend = "from"\ninset = "40 mm"\n'
    )
    with pytest.raises(CaseError) as caught:
        case_from_text(twice)
    assert len(caught.value.faults) == 4
    (line,) = str(caught.value).splitlines()
    assert line.startswith(
        "wishbones.low.left, wishbones.high.left, welds.root.left, welds.two.left: `filler` is"
    )


def test_a_member_is_no_place() -> None:
    """Who welds a post onto a rail names the rail; the message says how to name a place on it."""
    text = CORNER + '[struts]\nlink = {from = "rear-hub", to = "low-front.left"}\n[members]\n'
    text += 'rail = {from = "rear-hub", to = "3 0 260 mm", section = "tube 31 x 2 mm"}\n'
    text += 'post = {from = "rail", to = "0 9 460 mm", section = "tube 20 x 2 mm"}\n'
    (why,) = faults(text)["members.post.from"]
    assert why == (
        "'rail' is a member, not a place: name the point at one of its ends, or put a point on it with "
        '{on = "rail", at = 0.5}'
    )
