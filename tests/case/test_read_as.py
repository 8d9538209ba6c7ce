"""How flats, boxes and hand forces were read, by hand from the axes."""

import pytest

from strength.case.model import HandForce
from strength.case.read_as import ReadAs, force_words, read_as
from tests.case.cases import BENCH, TRIKE, read


def arm(section: str, tip: str, up: str) -> str:
    """The bench with an arm of this section."""
    text = BENCH.replace("tube 25 x 2 mm", section).replace("300 40 120 mm", tip)
    return text.replace("section =", f'up = "{up}", section =')


@pytest.mark.parametrize(
    ("section", "tip", "up", "text"),
    [
        ("flat 70 x 16 mm", "0 0 200 mm", "1 0 0", "70 mm fore-and-aft, 16 mm across"),
        ("flat 70 x 16 mm", "5 -8 200 mm", "0 1 0", "70 mm across, 16 mm fore-and-aft"),
        ("flat 70 x 16 mm", "200 0 0 mm", "0 0 1", "70 mm up and down, 16 mm across"),
        ("box 60 x 40 x 3 mm", "0 200 0 mm", "0 0 1", "60 mm up and down, 40 mm fore-and-aft"),
        ("box 60 x 40 x 3 mm", "0 200 0 mm", "1 0 0", "60 mm fore-and-aft, 40 mm up and down"),
        (
            "flat 70 x 16 mm",
            "200 0 0 mm",
            "0 0.9 1",
            "70 mm between up and down and across, 16 mm between across and up and down",
        ),
    ],
)
def test_flats_and_boxes(section, tip, up, text):
    """The width (depth) lies along `up`, the thickness across it."""
    assert ReadAs("arm", text) in read_as(read(arm(section, tip, up)))


def test_round_parts_say_nothing():
    """A tube looks the same from all sides."""
    assert [each.part for each in read_as(read(BENCH))] == ["tip"]


@pytest.mark.parametrize(
    ("section", "material", "text"),
    [
        # 10 %, at least 0.10 mm, of EN 10305-1 for cold drawn seamless tube; from memory
        ("tube 25 x 2 mm", "E235+N", "wall 1.8 mm: 2 mm less 0.2 mm by EN 10305-1, from memory"),
        ("tube 25 x 0.8 mm", "E235+N", "wall 0.7 mm: 0.8 mm less 0.1 mm by EN 10305-1, from memory"),
        # EN 10219-2, Table 2: 10 % up to 5 mm of wall, 0.5 mm above
        ("box 60 x 40 x 3 mm", "S235JRH", "wall 2.7 mm: 3 mm less 0.3 mm by EN 10219-2"),
        ("square 80 x 6.3 mm", "S235JRH", "wall 5.8 mm: 6.3 mm less 0.5 mm by EN 10219-2"),
    ],
)
def test_walls_as_bought(section, material, text):
    """Which standard, and how much it takes off; nothing of that where walls count as written."""
    typed = BENCH.replace('section = "tube 25 x 2 mm"', f'section = "{section}", material = "{material}"')
    assert not any(" less " in each.text for each in read_as(read(typed)))
    thin = typed.replace("[points]", '[basis]\nwall = "minimum"\n[points]')
    assert ReadAs("arm", text) in read_as(read(thin))


@pytest.mark.parametrize(
    ("force", "moment", "text"),
    [
        ("0 -900 1200 N", "0 0 0 N*m", "900 N to the right, 1200 N up"),
        ("250 30 -4.5 N", "0 0 0 N*m", "250 N forward, 30 N to the left, 4.5 N down"),
        ("-1 0 0 kN", "0 0 0 N*m", "1000 N backward"),
        ("0 0 0 N", "12 0 4 N*m", "12 N*m rolling it to the right, 4 N*m turning it to the left"),
        ("0 0 0 N", "-12 0 -4 N*m", "12 N*m rolling it to the left, 4 N*m turning it to the right"),
        ("0 0 5 N", "0 -3 0 N*m", "5 N up, 3 N*m lifting its nose"),
        ("0 0 5 N", "0 3 0 N*m", "5 N up, 3 N*m pressing its nose down"),
        ("0 0 0 N", "0 0 0 N*m", "nothing"),
    ],
)
def test_hand_forces(force, moment, text):
    """X forward, y left, z up; a positive turn about x lifts the left side, about y lowers the nose."""
    case = read(BENCH.replace('force = "0 0 -700 N"', f'force = "{force}", moment = "{moment}"'))
    assert force_words(case.loads[0].forces[0]) == text
    assert read_as(case) == (ReadAs("tip", text),)


def test_inches():
    """With inch display lengths are in inches and forces in pounds-force (1 lbf = 4.448222 N)."""
    text = arm("flat 3 x 0.5 in", "200 0 0 mm", "0 0 1").replace("0 0 -700 N", "0 0 -210 lbf")
    assert read_as(read(text + '[display]\nunits = "inch"\n')) == (
        ReadAs("arm", "3 in up and down, 0.5 in across"),
        ReadAs("tip", "210 lbf down"),
    )


def test_loads_that_differ_are_named():
    """Where loads put on different things, each is told with its loads."""
    more = "".join(
        f"[[load]]\nname='{name}'\nforces=[{{at='tip', force='0 0 40 N'}}]\n" for name in ("up", "again")
    )
    assert read_as(read(BENCH + more)) == (
        ReadAs("tip", "700 N down in hang"),
        ReadAs("tip", "40 N up in up, again"),
    )


def test_images_once():
    """What reads the same on both sides is told once; a force to the other side is not the same."""
    text = TRIKE + (
        "[[member]]\nname='plate.left'\nfrom='hub.left'\nto='0 400 700 mm'\nup='1 0 0'\n"
        "section='flat 50 x 9 mm'\n"
        "[[load]]\nname='shove.left'\nforces=[{at='hub.left', force='0 5 0 N'}]\n"
    )
    assert read_as(read(text)) == (
        ReadAs("plate.left", "50 mm fore-and-aft, 9 mm across"),
        ReadAs("hub.left", "5 N to the left"),
        ReadAs("hub.right", "5 N to the right"),
    )


def test_words_of_a_force_alone():
    """A force without a case, in inch units."""
    force = HandForce(at="x", force=(0.0, 4448.2216152605, 0.0))
    assert force_words(force, "inch") == "1000 lbf to the left"
