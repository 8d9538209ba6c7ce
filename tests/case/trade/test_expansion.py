"""Order of expansion, names of points, welded ends, changes and names given twice."""

import math

import pytest

from strength.case import case_from_text
from strength.errors import CaseError
from tests.case.trade.expanding import expanded, sound

BALL = "7 330 181 mm"
PLACES = f'front = "110 90 170 mm", rear = "-100 160 275 mm", ball = "{BALL}"'
WISHBONE = f'[wishbones]\nlower.left = {{{PLACES}, tube = "tube 25 x 2 mm", pivot = "rod end M10"}}\n'
DEFAULTS = """title = "t"
[defaults]
material = {tube = "E235+N", flat = "S235JR", bar = "42CrMo4+QT", box = "S235JRH"}
filler = "ER70S-6"
class = "8.8"
"""


def test_wheels_name_a_shared_place_before_wishbones() -> None:
    """Wheels name a shared place before wishbones."""
    found = sound(f'[wheels]\nfront.left = {{centre = "{BALL}", radius = "250 mm"}}\n' + WISHBONE)
    assert found["member lower-front.left"]["to"] == "front-hub.left"
    assert "lower-ball.left" not in found.names("point")


def test_wishbones_name_a_shared_place_before_members_and_struts() -> None:
    """Wishbones name a shared place before members and struts."""
    text = WISHBONE + '[struts]\nlink = {from = "7.004 330 180.995 mm", to = "0 0 500 mm"}\n'
    text += '[members]\nstay = {from = "0 0 500 mm", to = "110 90 170.005 mm", section = "bar 9 mm"}\n'
    found = sound(text)
    assert found["strut link"]["from"] == "lower-ball.left"
    assert found["member stay"]["to"] == "lower-front.left"
    assert found["strut link"]["to"] == "stay-from"


def test_wishbones_name_a_shared_place_before_brackets() -> None:
    """Wishbones name a shared place before brackets."""
    text = f'[brackets]\nlug = {{on = "beam", tip = "{BALL}", plate = "flat 30 x 5 mm", wide = "z"}}\n'
    text += '[members]\nbeam = {from = "-80 300 181 mm", to = "90 310 170 mm", section = "bar 20 mm"}\n'
    found = sound(text + WISHBONE)
    assert found["member lug"]["to"] == "lower-ball.left"


def test_a_place_over_a_hundredth_away_is_its_own() -> None:
    """A place over a hundredth away is its own."""
    text = WISHBONE + '[struts]\nlink = {from = "7 330.011 181 mm", to = "0 0 500 mm"}\n'
    assert sound(text)["strut link"]["from"] == "link-from"


def test_typed_points_come_first() -> None:
    """Typed points come first."""
    found = sound(f'[points]\nball = "{BALL}"\n' + WISHBONE)
    assert found["member lower-rear.left"]["to"] == "ball"


def test_generated_points_and_members_can_be_named_anywhere() -> None:
    """A point on a generated leg, a caliper at a point of the knuckle, a strut from the spreader."""
    text = f"""[points]
half = {{on = "lower-front.left", at = 0.25}}
above = {{from = "lower-spreader.left", by = "1 2 30 mm"}}
[struts]
link = {{from = "lower-spreader.left", to = "above"}}
[wishbones]
lower.left = {{{PLACES}, tube = "tube 25 x 2 mm", pivot = "fixed", spreader = 0.4}}
"""
    found = sound(text)
    assert found.at("half") == pytest.approx((84.25, 150, 172.75))
    assert found.at("above") == pytest.approx((6.8, 209, 235.9))
    assert found["strut link"]["from"] == "lower-spreader.left"
    assert found["member lower-front.left"]["via"] == ("half", "lower-spreader-front.left")


def test_a_wishbone_is_a_place_on_the_other_side_too() -> None:
    """A wishbone is a place on the other side too."""
    text = WISHBONE + '[struts]\nlink = {from = "lower.left", to = "lower.right"}\n'
    found = sound(text, mirror=True)
    assert (found["strut link"]["from"], found["strut link"]["to"]) == ("lower-ball.left", "lower-ball.right")


def test_a_welded_end_reaches_a_round_hosts_face() -> None:
    """Post along (2, -3, 6), host along (3, 6, 2): at right angles; the stay 60 degrees off its host."""
    text = """[members]
host = {from = "10 20 30 mm", to = "310 620 230 mm", section = "tube 48 x 3 mm"}
post = {from = "70 140 70 mm", to = "170 -10 370 mm", section = "tube 25 x 2 mm", weld_from = "host"}
lean = {from = "0 0 600 mm", to = "100 0 426.794919243 mm", section = "bar 12 mm", weld_to = "pole"}
pole = {from = "100 0 0 mm", to = "100 0 500 mm", section = "bar 30 mm"}
"""
    found = sound(text)
    weld = found["weld post-from"]
    assert weld["inset"] == pytest.approx(24)
    assert (weld["member"], weld["end"], weld["pattern"], weld["onto"]) == ("post", "from", "around", "host")
    assert "weld_from" not in found["member post"]
    # 30 degrees between lean and pole: 15 / sin 30
    assert found["weld lean-to"]["inset"] == pytest.approx(30)
    assert found["weld lean-to"]["end"] == "to"
    assert found.entry("weld post-from").path == "members.post"


@pytest.mark.parametrize(
    ("section", "half_y", "half_z"), [("box 60 x 40 x 3 mm", 20, 30), ("flat 80 x 12 mm", 6, 40)]
)
def test_a_welded_end_reaches_the_nearer_face_of_other_hosts(
    section: str, half_y: float, half_z: float
) -> None:
    """Host along (2, -3, 6)/7, `up` (6, -2, -3)/7; the post along 2 up + n of the third, (3, 6, 2)/7."""
    text = f"""[members]
host = {{from = "10 20 30 mm", to = "70 -70 210 mm", section = "{section}", up = "6 -2 -3"}}
post.left = {{from = "40 -25 120 mm", to = "190 25 80 mm", section = "bar 12 mm", weld_from = "host"}}
"""
    # (150, 50, -40) = 10 (2 (6, -2, -3) + (3, 6, 2)) + 0 x: (150, 20, -40) is 10 (15, 2, -4)
    found = sound(text.replace("190 25 80 mm", "190 -5 80 mm"))
    inset = found["weld post-from.left"]["inset"]
    assert inset == pytest.approx(min(half_y * math.sqrt(5), half_z * math.sqrt(5) / 2))


def test_an_outline_host_counts_from_its_centroid() -> None:
    """A right-angled triangle with legs 30 (along y_m) and 60 (along z_m): centroid at a third of each."""
    text = """[members]
host = {from = "0 0 0 mm", to = "900 0 0 mm", section = {outline = ["0 0 mm", "30 0 mm", "0 60 mm"]}}
post = {from = "400 0 0 mm", to = "400 0 300 mm", section = "bar 12 mm", weld_from = "host"}
side = {from = "600 0 0 mm", to = "600 300 0 mm", section = "bar 12 mm", weld_from = "host"}
"""
    found = sound(text)
    assert found["weld post-from"]["inset"] == pytest.approx(40)
    assert found["weld side-from"]["inset"] == pytest.approx(20)


@pytest.mark.parametrize(
    ("host", "why"),
    [
        ("hst", "did you mean 'host'"),
        ("post", "onto itself"),
        ("line", "no face in this direction"),
        ("stump", "which is only 20 mm long"),
    ],
)
def test_a_welded_end_that_cannot_be_made_says_why(host: str, why: str) -> None:
    """Onto nothing, itself, a part in its own line, a part thicker than it is long."""
    text = f"""[members]
host = {{from = "-300 0 0 mm", to = "300 5 0 mm", section = "tube 48 x 3 mm"}}
line = {{from = "0 0 -100 mm", to = "0 0 -400 mm", section = "bar 20 mm"}}
stump = {{from = "-70 0 9 mm", to = "80 3 9 mm", section = "bar 41 mm"}}
post = {{from = "0 0 0 mm", to = "0 0 20 mm", section = "bar 5 mm", weld_from = "{host}"}}
"""
    assert why in expanded(text).fault("members.post.weld_from")


HOST_AND_POST = """[members]
host = {from = "-210 0 0 mm", to = "340 0 0 mm", section = "tube 48 x 3 mm"}
head = {from = "-210 0 390 mm", to = "340 0 390 mm", section = "square 30 x 2 mm"}
post = {from = "70 0 0 mm", to = "70 0 390 mm", section = "tube 25 x 2 mm"@}
"""
WORK = {"leg": 2.7, "filler": "4043", "process": "tig", "quality": "good"}
WORK_TYPED = ", leg = '2.7 mm', filler = '4043', process = 'tig', quality = 'good'"


@pytest.mark.parametrize("key", list(WORK))
def test_a_members_own_weld_keys_go_to_each_weld_it_makes(key: str) -> None:
    """Leg, filler, process and quality of a member are those of its welds, and not the member's."""
    text = HOST_AND_POST.replace("@", ", weld_from = 'host', weld_to = 'head'" + WORK_TYPED)
    found = sound(text)
    assert (found["weld post-from"]["inset"], found["weld post-to"]["inset"]) == (24, 15)
    assert [found[f"weld post-{end}"][key] for end in ("from", "to")] == [WORK[key]] * 2
    assert key not in found["member post"]


@pytest.mark.parametrize("key", list(WORK))
def test_a_weld_key_on_a_member_without_a_weld_is_told(key: str) -> None:
    """Nothing that is typed is passed over."""
    found = expanded(HOST_AND_POST.replace("@", WORK_TYPED))
    assert "say what this member is welded onto" in found.fault(f"members.post.{key}")


def test_a_change_welds_a_member_on_and_says_how() -> None:
    """Keys of a member's weld may be changed on the member, whichever block is first."""
    text = HOST_AND_POST.replace("@", ", weld_to = 'head'")
    block = '[[change]]\npart = "member post"\n'
    found = sound(text + block + 'leg = "4 mm"\n' + block + 'weld_from = "host"\nbuckling_factor = 1.5\n')
    assert [found[f"weld post-{end}"]["leg"] for end in ("from", "to")] == [4, 4]
    assert found["weld post-from"]["onto"] == "host"
    assert found["member post"]["buckling_factor"] == 1.5


def test_a_change_of_a_generated_members_weld_points_to_the_weld() -> None:
    """The legs of a wishbone have welds of their own names."""
    found = expanded(WISHBONE + '[[change]]\npart = "member lower-front.left"\nleg = "4 mm"\n')
    why = "wishbone lower.left makes lower-front.left and its welds: change the weld and not the member"
    assert [each for _, each in found.faults] == [why]


def test_a_weld_at_an_end_on_the_right_alone_is_told() -> None:
    """Welds at ends are made before the right side is."""
    found = expanded(
        HOST_AND_POST.replace("@", "") + '[[change]]\npart = "member post.right"\nweld_from = "host"\n',
        mirror=True,
    )
    assert "change the weld itself, such as 'weld post-from.right'" in found.fault("change[0].weld_from")


def test_a_change_sets_a_key_of_a_generated_part() -> None:
    """A change sets a key of a generated part."""
    found = sound(
        WISHBONE + '[[change]]\npart = "weld lower-front-cup.left"\nleg = "4 mm"\ninset = "33 mm"\n'
    )
    assert found["weld lower-front-cup.left"]["leg"] == 4
    assert found["weld lower-front-cup.left"]["inset"] == 33
    assert found["weld lower-front-cup.left"]["onto"] == {"thickness": 6, "material": "S235JR"}
    assert "leg" not in found["weld lower-rear-cup.left"]


def test_a_change_takes_a_part_out() -> None:
    """A change takes a part out."""
    found = sound(WISHBONE + '[[change]]\npart = "stud lower-rear-rodend.left"\nremove = true\n')
    assert found.names("stud") == ["lower-front-rodend.left"]


def test_a_change_of_a_typed_part() -> None:
    """A change of a typed part."""
    text = '[[strut]]\nname = "link"\nfrom = "1 2 3 mm"\nto = "9 8 7 mm"\nstiffness = "60 N/mm"\n'
    found = sound(text + '[[change]]\npart = "strut link"\nto = "40 2 3 mm"\nsection = "tube 14 x 2 mm"\n')
    assert "stiffness" not in found["strut link"]
    assert found.at(found["strut link"]["to"]) == (40, 2, 3)


def test_a_change_of_a_trade_part_comes_before_it_is_made() -> None:
    """A change of a trade part comes before it is made."""
    found = sound(WISHBONE + '[[change]]\npart = "wishbone lower.left"\npivot = "bush M8"\n')
    assert found.names("stud") == []
    assert found["weld lower-front-pivot.left"]["inset"] == 8


def test_a_change_of_a_hinge_takes_its_axis_along() -> None:
    """A change of a hinge takes its axis along."""
    text = WISHBONE.replace("rod end M10", "bush M8")
    found = sound(text + '[[change]]\npart = "member lower-front.left"\nfrom_end = "fixed"\n')
    assert "hinge_axis" not in found["member lower-front.left"]


@pytest.mark.parametrize(
    ("block", "path", "why"),
    [
        (
            'part = "weld lower-frnt-cup.left"\nleg = "4 mm"',
            "change[0].part",
            "did you mean 'lower-front-cup.left'",
        ),
        ('part = "wld lower-front-cup.left"\nleg = "4 mm"', "change[0].part", "did you mean 'weld'"),
        ('part = "lower-front-cup.left"\nleg = "4 mm"', "change[0].part", "not a kind and a name"),
        ('part = "weld lower-front-cup.left"\nlge = "4 mm"', "change[0].lge", "did you mean 'leg'"),
        ('part = "weld lower-front-cup.left"\nleg = "4"', "change[0].leg", "no unit"),
        ('part = "weld lower-front-cup.left"', "change[0]", "changes nothing"),
        ('part = "weld lower-front-cup.left"\nremove = true\nleg = "4 mm"', "change[0]", "do one of the two"),
        ('part = "weld lower-front-cup.left"\nremove = 1', "change[0].remove", "neither true nor false"),
        ('leg = "4 mm"', "change[0]", "`part` is missing"),
    ],
)
def test_a_change_that_cannot_be_made_says_why(block: str, path: str, why: str) -> None:
    """A change that cannot be made says why."""
    assert why in expanded(WISHBONE + f"[[change]]\n{block}\n").fault(path)


CASE = (
    DEFAULTS.replace("[defaults]", "mirror = true\n[defaults]")
    + WISHBONE.replace("rod end M10", "fixed")
    + """[supports]
"lower-front.left" = "all"
"lower-rear.left" = "all"
"""
)


def test_a_change_of_the_left_goes_to_both_sides() -> None:
    """A change of the left goes to both sides."""
    case = case_from_text(CASE + '[[change]]\npart = "weld lower-front-cup.left"\nleg = "4.5 mm"\n')
    legs = {weld.name: weld.leg for weld in case.welds}
    assert legs["lower-front-cup.left"] == legs["lower-front-cup.right"] == 4.5
    assert legs["lower-rear-cup.right"] != 4.5


def test_a_change_of_the_right_stays_there() -> None:
    """A change of the right stays there."""
    case = case_from_text(CASE + '[[change]]\npart = "weld lower-front-cup.right"\nleg = "4.5 mm"\n')
    legs = {weld.name: weld.leg for weld in case.welds}
    assert legs["lower-front-cup.right"] == 4.5
    assert legs["lower-front-cup.left"] != 4.5


def test_a_mirrored_wishbone_has_its_hinge_mirrored() -> None:
    """Axis (6, -2, -3)/7 on the left, (6, 2, -3)/7 on the right."""
    text = CASE.replace('"fixed"', '"bush M8"')
    text += '[struts]\nshock.left = {from = "lower.left", to = "0 100 600 mm", stiffness = "60 N/mm"}\n'
    text = text.replace("[supports]\n", '[supports]\n"shock-to.left" = "x y z"\n')
    members = {member.name: member for member in case_from_text(text).members}
    assert members["lower-rear.left"].hinge_axis == pytest.approx((6 / 7, -2 / 7, -3 / 7))
    assert members["lower-rear.right"].hinge_axis == pytest.approx((6 / 7, 2 / 7, -3 / 7))
    assert members["lower-rear.right"].end == "lower-ball.right"


def test_a_bracket_on_a_middle_part_stands_on_it_from_both_sides() -> None:
    """A cross beam through the middle plane carries a lug at y = 90 and its image at y = -90."""
    text = (
        DEFAULTS.replace("[defaults]", "mirror = true\n[defaults]")
        + """[members]
beam = {from = "30 -200 50 mm", to = "30 200 50 mm", section = "tube 40 x 2 mm"}
[brackets]
lug.left = {on = "beam", tip = "30 90 130 mm", plate = "flat 40 x 5 mm", wide = "x"}
[supports]
beam-from = "all"
"""
    )
    case = case_from_text(text)
    beam = next(member for member in case.members if member.name == "beam")
    assert beam.via == ("lug-root.right", "lug-root.left")


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_part_on_an_image_is_refused(side: str) -> None:
    """On the typed side it is taken."""
    text = f"""[points]
stop = {{on = "rail.{side}", at = 0.3}}
[members]
rail.left = {{from = "30 200 50 mm", to = "430 260 90 mm", section = "tube 40 x 2 mm"}}
[brackets]
lamp = {{on = "rail.{side}", tip = "200 0 160 mm", plate = "flat 40 x 5 mm", wide = "x"}}
"""
    found = expanded(text, mirror=True)
    if side == "left":
        assert found.faults == ()
    else:
        assert {path for path, _ in found.faults} == {"points.stop.on", "brackets.lamp.on"}
        assert "made by mirroring 'rail.left'" in found.fault("brackets.lamp.on")


@pytest.mark.parametrize(
    ("more", "maker", "path"),
    [
        (
            '[members]\nlower-front.left = {from = "1 2 3 mm", to = "9 2 3 mm", section = "bar 9 mm"}\n',
            "members.lower-front.left",
            "members.lower-front.left",
        ),
        ('[points]\nlower-ball.left = "1 2 3 mm"\n', "points.lower-ball.left", "wishbones.lower.left"),
        (
            (
                '[brackets]\nlower-ball.left = {on = "lower-rear.left", tip = "5 200 400 mm", '
                'plate = "flat 30 x 5 mm", wide = "x"}\n'
            ),
            "wishbone lower.left",
            "brackets.lower-ball.left",
        ),
    ],
)
def test_a_name_typed_and_generated_tells_both_makers(more: str, maker: str, path: str) -> None:
    """The member of a leg's name; the point of the ball's name elsewhere."""
    found = expanded(more + WISHBONE)
    told = " ".join(why for where, why in found.faults if where == path)
    assert maker in told
    assert "wishbone lower.left" in told or path == "wishbones.lower.left"


def test_two_trade_parts_of_one_name_are_told_once() -> None:
    """Two trade parts of one name are told once."""
    block = '[[wishbone]]\nname = "lower.left"\n' + PLACES.replace(", ", "\n")
    block += '\ntube = "bar 9 mm"\npivot = "fixed"\n'
    found = expanded(WISHBONE + block)
    assert len(found.faults) == 1
    assert "wishbones.lower.left" in found.faults[0][1]
    assert "wishbone[0]" in " ".join(found.faults[0])


def test_faults_of_several_parts_come_together() -> None:
    """A wishbone's, a knuckle's and a bracket's, each under its own path; what hangs on them is silent."""
    text = """[wheels]
front.left = {centre = "0 390 250 mm", radius = "250 mm"}
[wishbones]
lower.left = {front = "1 2 3 mm", rear = "1 2 3 mm", ball = "0 300 160 mm", tube = "bar 9 mm", \\
pivot = "fixed"}
[knuckles]
knuckle.left = {lower = "lower.left", upper = "nowhere", wheel = "front.left", plate = "flat 70 x 16 mm", \
axle = "bar 20 mm", ball = "M12"}
[brackets]
arm.left = {on = "knuckle.left", tip = "-70 300 240 mm", plate = "flat 30 x 8 mm", wide = "z"}
lug.left = {on = "lower-front.left", tip = "5 5 5 mm", plate = "flat 30 x 8 mm", wide = "z", at = 1.5}
"""
    paths = {path for path, _ in expanded(text.replace("\\\n", "")).faults}
    assert paths == {"wishbones.lower.left", "knuckles.knuckle.left.upper", "brackets.lug.left.at"}


def test_a_material_of_the_knuckle_reaches_its_studs_and_bolted_host() -> None:
    """The tapped metal of the balls and the plate behind a bolted bracket are the knuckle's own."""
    text = (
        DEFAULTS
        + """[wheels]
front = {centre = "4 392 251 mm", radius = "250 mm"}
[points]
low = "3 301 165 mm"
high = "-7 289 341 mm"
[knuckles]
knuckle = {lower = "low", upper = "high", wheel = "front", plate = "flat 70 x 16 mm", axle = "bar 20 mm", \
ball = "M12", material = "6082-T651"}
[brackets]
arm = {on = "knuckle", tip = "-70 340 240 mm", plate = "flat 60 x 8 mm", wide = "z", bolts = "2 x M8", \
apart = "30 mm", edge = "14 mm"}
[struts]
tie = {from = "arm", to = "-80 60 240 mm"}
[supports]
low = "all"
high = "all"
tie-to = "x y z"
"""
    )
    case = case_from_text(text.replace("\\\n", ""))
    assert {stud.into for stud in case.studs} == {"6082-T651"}
    (fix,) = [bolt for bolt in case.bolts if bolt.name == "arm-fix"]
    assert [plate.material for plate in fix.plates] == ["S235JR", "6082-T651"]


def test_an_unknown_name_suggests_generated_ones() -> None:
    """An unknown name suggests generated ones."""
    with pytest.raises(CaseError, match=r"did you mean 'lower-ball\.left'"):
        case_from_text(CASE + '[struts]\nlink.left = {from = "lower-bal.left", to = "0 0 900 mm"}\n')
