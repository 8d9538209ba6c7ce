"""Wishbones: coordinates by hand in skew positions; proportions as the case file's tables state them.

The pivot axis runs along (6, -2, -3)/7, a unit vector in whole numbers.
"""

import math

import pytest

from strength.case.shape import Box, Tube
from tests.case.trade.expanding import expanded, sound

PLACES = 'front = "110 90 170 mm", rear = "-100 160 275 mm", ball = "7 330 181 mm"'
AXIS = (6 / 7, -2 / 7, -3 / 7)


def wishbone(rest: str, name: str = "lower.left", places: str = PLACES) -> str:
    """A wishbones table with one line."""
    return f'[wishbones]\n{name} = {{{places}, tube = "tube 25 x 2 mm", {rest}}}\n'


def test_rod_end_makes_points_legs_studs_bolts_and_welds_before_the_side() -> None:
    """Rod end makes points legs studs bolts and welds before the side."""
    found = sound(wishbone('pivot = "rod end M10"'))
    assert found.at("lower-front.left") == (110, 90, 170)
    assert found.at("lower-rear.left") == (-100, 160, 275)
    assert found.at("lower-ball.left") == (7, 330, 181)
    assert found.names("member") == ["lower-front.left", "lower-rear.left"]
    assert found.names("stud") == ["lower-front-rodend.left", "lower-rear-rodend.left"]
    assert found.names("bolt") == ["lower-front-pivot.left", "lower-rear-pivot.left"]
    assert sorted(found.names("weld")) == [
        "lower-front-cup.left",
        "lower-front-pivot.left",
        "lower-rear-cup.left",
        "lower-rear-pivot.left",
    ]


def test_rod_end_leg_is_free_at_its_pivot_only() -> None:
    """Rod end leg is free at its pivot only."""
    found = sound(wishbone('pivot = "rod end M10"'))
    for side in ("front", "rear"):
        leg = found[f"member lower-{side}.left"]
        assert leg["from"] == f"lower-{side}.left"
        assert leg["to"] == "lower-ball.left"
        assert leg["section"] == Tube(25, 2)
        assert leg["from_end"] == "ball"
        assert "to_end" not in leg
        assert "up" not in leg


@pytest.mark.parametrize("side", ["front", "rear"])
def test_rod_end_proportions_follow_the_bolt(side: str) -> None:
    """Rod end proportions follow the bolt."""
    found = sound(wishbone('pivot = "rod end M10"'))
    stud = found[f"stud lower-{side}-rodend.left"]
    assert (stud["reach"], stud["engaged"], stud["into"]) == (20, 15, "S235JR")
    assert (stud["member"], stud["end"], stud["size"].text) == (f"lower-{side}.left", "from", "M10")
    assert "axis" not in stud
    bolt = found[f"bolt lower-{side}-pivot.left"]
    assert bolt["axis"] == pytest.approx(AXIS, abs=1e-15)
    assert (bolt["member"], bolt["end"], bolt["shear_planes"]) == (f"lower-{side}.left", "from", 2)
    assert "plates" not in bolt
    weld = found[f"weld lower-{side}-pivot.left"]
    assert (weld["inset"], weld["end"], weld["pattern"]) == (30, "from", "around")
    assert weld["onto"] == {"thickness": 5, "material": "S235JR"}
    cup = found[f"weld lower-{side}-cup.left"]
    assert (cup["inset"], cup["end"], cup["pattern"]) == (25, "to", "around")
    assert cup["onto"] == {"thickness": 6, "material": "S235JR"}


def test_given_reach_engagement_and_cup_are_kept() -> None:
    """Given reach engagement and cup are kept."""
    found = sound(
        wishbone(
            'pivot = "rod end M8", pivot_reach = "19 mm", pivot_engaged = "13 mm", cup = "31 mm", '
            'cup_wall = "7 mm", cup_material = "S355J2"'
        )
    )
    stud = found["stud lower-rear-rodend.left"]
    assert (stud["reach"], stud["engaged"]) == (19, 13)
    cup = found["weld lower-rear-cup.left"]
    assert (cup["inset"], cup["onto"]) == (31, {"thickness": 7, "material": "S355J2"})
    for key in ("pivot_reach", "pivot_engaged", "cup", "cup_wall", "cup_material"):
        assert ("lower.left", key) not in found.assumed


def test_a_cheek_gives_the_bolt_its_plates() -> None:
    """A cheek gives the bolt its plates."""
    bolt = sound(wishbone('pivot = "rod end M10", cheek = "4 mm"'))["bolt lower-front-pivot.left"]
    cheek = bolt["plates"][1]
    assert cheek["thickness"] == 4
    assert cheek["edge"] == pytest.approx(17)
    assert cheek["hole"] == pytest.approx(10.2)


def test_bush_turns_about_the_line_from_rear_to_front() -> None:
    """Bush turns about the line from rear to front."""
    found = sound(wishbone('pivot = "bush M8"'))
    for side in ("front", "rear"):
        leg = found[f"member lower-{side}.left"]
        assert leg["from_end"] == "hinge"
        assert leg["hinge_axis"] == pytest.approx(AXIS, abs=1e-15)
        assert found[f"bolt lower-{side}-pivot.left"]["axis"] == pytest.approx(AXIS, abs=1e-15)
        assert found[f"weld lower-{side}-pivot.left"]["inset"] == 8
    assert found.names("stud") == []


def test_fixed_has_neither_joint_nor_release() -> None:
    """Fixed has neither joint nor release."""
    found = sound(wishbone('pivot = "fixed"'))
    assert "from_end" not in found["member lower-front.left"]
    assert found.names("bolt") == found.names("stud") == []
    assert found.names("weld") == ["lower-front-cup.left", "lower-rear-cup.left"]


def test_spreader_joins_both_legs_at_the_same_fraction() -> None:
    """Spreader joins both legs at the same fraction."""
    found = sound(wishbone('pivot = "rod end M10", spreader = 0.4, spreader_tube = "tube 18 x 1.5 mm"'))
    assert found.at("lower-spreader-front.left") == pytest.approx((68.8, 186, 174.4))
    assert found.at("lower-spreader-rear.left") == pytest.approx((-57.2, 228, 237.4))
    assert found.at("lower-spreader.left") == pytest.approx((5.8, 207, 205.9))
    assert found["member lower-front.left"]["via"] == ("lower-spreader-front.left",)
    assert found["member lower-rear.left"]["via"] == ("lower-spreader-rear.left",)
    spreader = found["member lower-spreader.left"]
    assert spreader["from"] == "lower-spreader-front.left"
    assert spreader["to"] == "lower-spreader-rear.left"
    assert spreader["via"] == ("lower-spreader.left",)
    assert spreader["section"] == Tube(18, 1.5)


def test_spreader_welds_sit_on_the_legs_faces() -> None:
    """OD / (2 s), s the sine between the cross tube (along the pivot axis) and the leg."""
    found = sound(wishbone('pivot = "rod end M10", spreader = 0.4, rear_tube = "tube 30 x 2 mm"'))
    front = found["weld lower-spreader-front.left"]
    # leg (-103, 240, 11): cosine (-618 - 480 - 33) / (7 * 261.400)
    cosine = -1131 / (7 * math.sqrt(103**2 + 240**2 + 11**2))
    assert front["inset"] == pytest.approx(12.5 / math.sqrt(1 - cosine**2))
    assert front["inset"] == pytest.approx(15.90, abs=0.005)
    assert (front["end"], front["onto"]) == ("from", "lower-front.left")
    rear = found["weld lower-spreader-rear.left"]
    # leg (107, 170, -94): cosine (642 - 340 + 282) / (7 * 221.777)
    cosine = 584 / (7 * math.sqrt(107**2 + 170**2 + 94**2))
    assert rear["inset"] == pytest.approx(15 / math.sqrt(1 - cosine**2))
    assert (rear["end"], rear["onto"]) == ("to", "lower-rear.left")


SKEW = 'front = "-20 180 190 mm", rear = "-80 270 10 mm", ball = "5 300 160 mm"'


def test_legs_that_are_not_round_stand_along_the_plane_normal_upward() -> None:
    """The places lie in the plane of (2, -3, 6)/7 and (3, 6, 2)/7; its upward normal is (-6, 2, 3)/7."""
    text = wishbone('pivot = "fixed", rear_tube = "box 30 x 20 x 2 mm", spreader = 0.3', places=SKEW)
    found = sound(text.replace('tube = "tube 25 x 2 mm"', 'tube = "square 20 x 2 mm"', 1))
    for part in ("front", "rear", "spreader"):
        assert found[f"member lower-{part}.left"]["up"] == pytest.approx((-6 / 7, 2 / 7, 3 / 7))
    assert found["member lower-rear.left"]["section"] == Box(30, 20, 2)
    assert found["weld lower-rear-cup.left"]["inset"] == 30
    assert found["weld lower-front-cup.left"]["inset"] == 20
    # In that plane the square legs offer half their width, 10 mm, to the cross tube: 10 / |e_y|, with e
    # along (60, -90, 180) = 30 (2, -3, 6) and the front leg along (25, 120, -30).
    # Their angle: cosine (50 - 360 - 180) / (7 * 126.194)
    cosine = -490 / (7 * math.sqrt(25**2 + 120**2 + 30**2))
    inset = found["weld lower-spreader-front.left"]["inset"]
    assert inset == pytest.approx(10 / math.sqrt(1 - cosine**2))


def test_workmanship_goes_to_the_joints_and_legs() -> None:
    """Workmanship goes to the joints and legs."""
    found = sound(
        wishbone(
            'pivot = "rod end M10", spreader = 0.5, material = "S355J2", class = "10.9", leg = "2.5 mm", '
            'filler = "ER70S-6", process = "tig", quality = "good"'
        )
    )
    for name in found.names("weld"):
        weld = found[f"weld {name}"]
        assert (weld["leg"], weld["filler"], weld["process"], weld["quality"]) == (
            2.5,
            "ER70S-6",
            "tig",
            "good",
        )
    for name in found.names("member"):
        assert found[f"member {name}"]["material"] == "S355J2"
    assert found["bolt lower-front-pivot.left"]["class"] == "10.9"
    assert found["stud lower-rear-rodend.left"]["class"] == "10.9"


def test_every_assumed_value_is_listed() -> None:
    """Every assumed value is listed."""
    assumed = sound(wishbone('pivot = "rod end M10", spreader = 0.5, cheek = "4 mm"')).assumed
    assert assumed["lower.left", "rear_tube"] == "as tube"
    assert assumed["lower.left", "spreader_tube"] == "as tube"
    assert assumed["lower.left", "pivot_reach"] == "20 mm"
    assert assumed["lower.left", "pivot_engaged"] == "15 mm"
    assert assumed["lower.left", "cup"] == "25 mm"
    assert assumed["lower.left", "cup_wall"] == "6 mm"
    assert assumed["lower.left", "cup_material"] == "S235JR"
    assert "17 mm" in assumed["lower.left", "cheek"]
    assert "30 mm" in assumed["lower.left", "pivot weld"]


def test_generated_entries_remember_the_part() -> None:
    """Generated entries remember the part."""
    found = sound(wishbone('pivot = "bush M8", spreader = 0.5'))
    for entry in found.expansion.entries:
        assert entry.path == "wishbones.lower.left"
        assert entry.maker == "wishbone lower.left"


def test_named_places_make_no_points_of_their_own() -> None:
    """Named places make no points of their own."""
    places = 'front = "a", rear = "b.left", ball = "7 330 181 mm"'
    text = '[points]\na = "110 90 170 mm"\n"b.left" = "-100 160 275 mm"\n'
    found = sound(text + wishbone('pivot = "fixed"', places=places))
    assert found.names("point") == ["lower-ball.left", "a", "b.left"]
    assert found["member lower-front.left"]["from"] == "a"
    assert found["member lower-rear.left"]["from"] == "b.left"


def test_same_front_and_rear_is_refused() -> None:
    """Same front and rear is refused."""
    places = 'front = "110 90 170 mm", rear = "110 90.004 170 mm", ball = "7 330 181 mm"'
    found = expanded(wishbone('pivot = "fixed"', places=places))
    assert "`front` and `rear` are the same place" in found.fault("wishbones.lower.left")


def test_pivots_a_little_apart_are_taken() -> None:
    """Pivots a little apart are taken."""
    places = 'front = "110 90 170 mm", rear = "110 96 170 mm", ball = "7 330 181 mm"'
    assert expanded(wishbone('pivot = "fixed"', places=places)).faults == ()


def test_ball_on_the_pivot_line_is_refused() -> None:
    """Front + 70 (6, -2, -3)/7, beyond the front pivot."""
    places = 'front = "110 90 170 mm", rear = "-100 160 275 mm", ball = "170 70 140 mm"'
    found = expanded(wishbone('pivot = "fixed"', places=places))
    assert "lies on the line through both pivots" in found.fault("wishbones.lower.left")


def test_ball_near_the_pivot_line_is_taken() -> None:
    """Ball near the pivot line is taken."""
    places = 'front = "110 90 170 mm", rear = "-100 160 275 mm", ball = "170 70 146 mm"'
    assert expanded(wishbone('pivot = "fixed"', places=places)).faults == ()


@pytest.mark.parametrize(("fraction", "right"), [(0.04, False), (0.05, True), (0.95, True), (0.96, False)])
def test_spreader_stands_between_a_twentieth_and_nineteen(fraction: float, right: bool) -> None:
    """Spreader stands between a twentieth and nineteen."""
    found = expanded(wishbone(f'pivot = "fixed", spreader = {fraction}'))
    if right:
        assert found.faults == ()
    else:
        assert f"`spreader` is {fraction}" in found.fault("wishbones.lower.left")


def test_missing_keys_say_what_they_mean() -> None:
    """Missing keys say what they mean."""
    found = expanded('[wishbones]\nlower.left = {front = "1 2 3 mm", rear = "5 2 3 mm", tube = "bar 9 mm"}\n')
    told = " ".join(why for path, why in found.faults if path == "wishbones.lower.left")
    assert "`ball` is missing" in told
    assert "`pivot` is missing" in told
