"""Brackets in whole numbers.

The host is a flat along x = (2, -3, 6)/7, its width along w = (6, -2, -3)/7, its thickness along
n = (3, 6, 2)/7, an orthonormal set.
"""

import math

import pytest

from strength.case.shape import Flat, Rigid
from strength.case.trade.material_of import MaterialOf
from tests.case.trade.expanding import expanded, sound

N = (3 / 7, 6 / 7, 2 / 7)
X = (2 / 7, -3 / 7, 6 / 7)
W = (6 / 7, -2 / 7, -3 / 7)
# 210 mm from (100, -50, 40); the root 70 mm along it is (120, -80, 100)
FROM, TO = "100 -50 40 mm", "160 -140 220 mm"
# root + 84 w + 21 n = root + (72, -24, -36) + (9, 18, 6)
TIP = "201 -86 70 mm"


def bracket(
    rest: str = "",
    tip: str = TIP,
    wide: str = "2 -3 6",
    plate: str = "flat 60 x 14 mm",
    section: str = "flat 70 x 14 mm",
    name: str = "lug.left",
) -> str:
    """A host and a bracket on it."""
    return (
        f'[members]\nbeam = {{from = "{FROM}", to = "{TO}", section = "{section}", up = "8 -5 3"}}\n'
        f'[brackets]\n{name} = {{on = "beam", tip = "{tip}", plate = "{plate}"'
        + (f', wide = "{wide}"' if wide else "")
        + (f", {rest}" if rest else "")
        + "}\n"
    )


BOLTS = 'bolts = "3 x M8", apart = "21 mm", edge = "14 mm"'


def test_welded_stands_on_the_foot_of_the_perpendicular() -> None:
    """Welded stands on the foot of the perpendicular."""
    found = sound(bracket())
    assert found.at("lug-root.left") == pytest.approx((120, -80, 100))
    assert found.at("lug.left") == (201, -86, 70)
    plate = found["member lug.left"]
    assert (plate["from"], plate["to"]) == ("lug-root.left", "lug.left")
    assert plate["section"] == Flat(60, 14)
    assert plate["up"] == pytest.approx(X)
    assert found["member beam"]["via"] == ("lug-root.left",)


def test_welded_on_a_flat_reaches_the_nearer_pair_of_faces() -> None:
    """Along (84 w + 21 n)/(21 sqrt 17): 7 / (1 / sqrt 17) against 35 / (4 / sqrt 17)."""
    weld = sound(bracket())["weld lug-weld.left"]
    assert weld["inset"] == pytest.approx(7 * math.sqrt(17))
    assert (weld["member"], weld["end"], weld["pattern"], weld["onto"]) == (
        "lug.left",
        "from",
        "sides",
        "beam",
    )


def test_welded_on_a_box_takes_its_own_half_sizes() -> None:
    """Depth 60 along w, width 44 along n: 30 sqrt(17) / 4 against 22 sqrt(17)."""
    weld = sound(bracket(section="box 60 x 44 x 3 mm"))["weld lug-weld.left"]
    assert weld["inset"] == pytest.approx(30 * math.sqrt(17) / 4)


@pytest.mark.parametrize("section", ["tube 42 x 2 mm", "bar 42 mm"])
def test_welded_on_a_round_host_reaches_its_radius(section: str) -> None:
    """Welded on a round host reaches its radius."""
    found = sound(bracket(section=section))
    assert found["weld lug-weld.left"]["inset"] == pytest.approx(21)
    # two straight lines do not lie on a round part: all round, and said so
    assert found["weld lug-weld.left"]["pattern"] == "around"


def test_at_makes_it_oblique() -> None:
    """From 0.5 of the host, (130, -95, 130), 35 mm further along it than the foot."""
    found = sound(bracket("at = 0.5", section="tube 42 x 2 mm"))
    assert found.at("lug-root.left") == pytest.approx((130, -95, 130))
    across = math.hypot(84, 21)
    sine = across / math.hypot(across, 35)
    assert found["weld lug-weld.left"]["inset"] == pytest.approx(21 / sine)


def test_foot_beyond_the_host_is_its_end() -> None:
    """A tip 35 mm short of the host's start: root at the end point, which joins no `via`."""
    # (100, -50, 40) - 5 (2, -3, 6) + 84 w + 21 n
    found = sound(bracket(tip="171 -41 -20 mm"))
    assert found["member lug.left"]["from"] == "beam-from"
    assert "via" not in found["member beam"]


@pytest.mark.parametrize(("off", "joins"), [("0.9", True), ("1.2", False)])
def test_a_root_within_a_millimetre_of_an_end_stands_on_it(off: str, joins: bool) -> None:
    """A root within a millimetre of an end stands on it."""
    found = sound(bracket(f"at = {float(off) / 210}"))
    root = found["member lug.left"]["from"]
    assert root == ("beam-from" if joins else "lug-root.left")
    assert ("via" in found["member beam"]) is not joins


def test_a_root_within_a_millimetre_of_a_via_point_stands_on_it() -> None:
    """The point 0.7 mm along the host from the foot."""
    text = bracket().replace('up = "8 -5 3"', 'up = "8 -5 3", via = ["stop"]')
    found = sound('[points]\nstop = "120.2 -80.3 100.6 mm"\n' + text)
    assert found["member lug.left"]["from"] == "stop"
    assert found["member beam"]["via"] == ("stop",)


def test_a_point_typed_on_the_host_counts_as_via() -> None:
    """A point typed on the host counts as via."""
    found = sound('[points]\nstop = {on = "beam", at = 0.336}\n' + bracket())
    assert found["member lug.left"]["from"] == "stop"
    assert found["member beam"]["via"] == ("stop",)


def test_two_brackets_join_in_order_along_the_host() -> None:
    """The second stands nearer to the start, the third with the first."""
    more = 'far = {on = "beam", at = 0.25, tip = "300 0 0 mm", plate = "flat 30 x 5 mm", wide = "z"}\n'
    more += 'same = {on = "beam", at = 0.334, tip = "0 0 300 mm", plate = "flat 30 x 5 mm", wide = "x"}\n'
    found = sound(bracket() + more)
    assert found["member beam"]["via"] == ("far-root", "lug-root.left")
    assert found["member same"]["from"] == "lug-root.left"


def test_bolted_steps_half_of_both_thicknesses_to_the_tips_side() -> None:
    """7 + 7 mm along n: (6, 12, 4)."""
    found = sound(bracket(BOLTS))
    assert found.at("lug-foot.left") == pytest.approx((126, -68, 104))
    step = found["member lug-step.left"]
    assert (step["from"], step["to"]) == ("lug-root.left", "lug-foot.left")
    assert step["section"] == Rigid()
    assert "from_end" not in step
    assert found["member lug.left"]["from"] == "lug-foot.left"
    assert found.names("weld") == []


def test_bolted_on_the_other_side_steps_the_other_way() -> None:
    """Tip root + 84 w - 28 n; a 10 mm plate: (14 + 10)/2 = 12 mm along -n."""
    found = sound(bracket(BOLTS, tip="180 -128 56 mm", plate="flat 60 x 10 mm"))
    assert found.at("lug-foot.left") == pytest.approx((120 - 36 / 7, -80 - 72 / 7, 100 - 24 / 7))
    assert found["bolt lug-fix.left"]["axis"] == pytest.approx([-each for each in N])


def test_bolts_stand_in_a_row_along_the_width() -> None:
    """Bolts stand in a row along the width."""
    bolt = sound(bracket(BOLTS + ', class = "10.9"'))["bolt lug-fix.left"]
    assert bolt["axis"] == pytest.approx(N)
    assert (bolt["member"], bolt["end"], bolt["shear_planes"], bolt["class"]) == (
        "lug.left",
        "from",
        1,
        "10.9",
    )
    assert bolt["size"].text == "M8"
    assert [pytest.approx(place, abs=1e-12) for place in bolt["group"]] == [
        (-6, 9, -18),
        (0, 0, 0),
        (6, -9, 18),
    ]


def test_bolts_go_through_bracket_and_host() -> None:
    """Bolts go through bracket and host."""
    bolt = sound(bracket(BOLTS, plate="flat 60 x 9 mm"))["bolt lug-fix.left"]
    carried, holding = bolt["plates"]
    assert (carried["thickness"], carried["edge"], carried["material"]) == (9, 14, MaterialOf("lug.left"))
    assert (holding["thickness"], holding["edge"], holding["material"]) == (14, 14, MaterialOf("beam"))
    assert isinstance(carried["material"], MaterialOf)
    assert isinstance(holding["material"], MaterialOf)


def test_one_bolt_is_no_group() -> None:
    """One bolt is no group."""
    bolt = sound(bracket('bolts = "1 x M10", edge = "17 mm"'))["bolt lug-fix.left"]
    assert "group" not in bolt


def test_bolted_on_a_box_sits_on_its_nearer_side() -> None:
    """Its plate lies against the side along w of a box 60 deep (along w), 40 wide: half 30 mm + 7 mm."""
    # tip: root + 84 n + 42 w; the plate's width along x: its normal is nearer to w
    found = sound(bracket(BOLTS, tip="192 -20 106 mm", section="box 60 x 40 x 3 mm"))
    assert found.at("lug-foot.left") == pytest.approx((120 + 37 * 6 / 7, -80 - 37 * 2 / 7, 100 - 37 * 3 / 7))
    assert found["bolt lug-fix.left"]["axis"] == pytest.approx(W)
    assert found["bolt lug-fix.left"]["plates"][1]["thickness"] == 3


def test_eye_goes_across_the_plate_in_two_shear_planes() -> None:
    """The plate's thickness: x cross (4 w + n)/sqrt 17 = (4 n - w)/sqrt 17, either way round."""
    eye = sound(bracket('eye = "M10"'))["bolt lug-eye.left"]
    across = [(4 * n - w) / math.sqrt(17) for n, w in zip(N, W, strict=True)]
    assert abs(sum(a * b for a, b in zip(eye["axis"], across, strict=True))) == pytest.approx(1)
    assert (eye["member"], eye["end"], eye["shear_planes"]) == ("lug.left", "to", 2)
    (plate,) = eye["plates"]
    assert plate["thickness"] == 14
    assert plate["edge"] == pytest.approx(17)
    assert plate["hole"] == pytest.approx(10.2)
    assert plate["material"] == MaterialOf("lug.left")


def test_ball_is_a_stud_across_the_plate() -> None:
    """Ball is a stud across the plate."""
    found = sound(bracket('ball = "M10"'))
    stud = found["stud lug-ball.left"]
    across = [(4 * n - w) / math.sqrt(17) for n, w in zip(N, W, strict=True)]
    assert abs(sum(a * b for a, b in zip(stud["axis"], across, strict=True))) == pytest.approx(1)
    assert (stud["member"], stud["end"], stud["reach"], stud["engaged"]) == ("lug.left", "to", 20, 15)
    assert found.assumed["lug.left", "ball_reach"] == "20 mm"
    assert found.assumed["lug.left", "ball_engaged"] == "15 mm"


def test_ball_keeps_its_given_lengths() -> None:
    """Ball keeps its given lengths."""
    stud = sound(bracket('ball = "M10", ball_reach = "23 mm", ball_engaged = "12 mm"'))["stud lug-ball.left"]
    assert (stud["reach"], stud["engaged"]) == (23, 12)


def test_a_brackets_name_is_its_tip() -> None:
    """A brackets name is its tip."""
    text = bracket() + '[struts]\nlink.left = {from = "lug.left", to = "0 0 500 mm", stiffness = "60 N/mm"}\n'
    found = sound(text)
    assert found["strut link.left"]["from"] == "lug.left"


def test_a_named_tip_keeps_its_name() -> None:
    """A named tip keeps its name."""
    text = '[points]\neye = "201 -86 70 mm"\n' + bracket(tip="eye")
    text += '[struts]\nlink.left = {from = "lug.left", to = "0 0 500 mm", stiffness = "60 N/mm"}\n'
    found = sound(text)
    assert found["member lug.left"]["to"] == "eye"
    assert found["strut link.left"]["from"] == "eye"
    assert "lug.left" not in found.names("point")


def test_a_bracket_stands_on_a_wishbones_leg() -> None:
    """Leg from (110, 90, 170) to (7, 330, 181); a bracket at its middle."""
    text = """[wishbones]
lower.left = {front = "110 90 170 mm", rear = "-100 160 275 mm", ball = "7 330 181 mm", tube = "bar 25 mm", \
pivot = "fixed"}
[brackets]
foot.left = {on = "lower-front.left", at = 0.5, tip = "58.5 210 215.5 mm", plate = "flat 40 x 5 mm", \
wide = "x"}
"""
    found = sound(text)
    assert found.at("foot-root.left") == pytest.approx((58.5, 210, 175.5))
    assert found["member lower-front.left"]["via"] == ("foot-root.left",)
    # 12.5 / sine of the angle between z and the leg
    cosine = 11 / math.sqrt(103**2 + 240**2 + 11**2)
    assert found["weld foot-weld.left"]["inset"] == pytest.approx(12.5 / math.sqrt(1 - cosine**2))


def test_a_bracket_stands_on_a_bracket_typed_later() -> None:
    """On the middle of the lug, (160.5, -83, 85)."""
    first = '[brackets]\near = {on = "lug.left", at = 0.5, tip = "180 -30 160 mm", plate = "flat 30 x 5 mm", '
    first += 'wide = "x"}\n'
    text = bracket()
    head, line = text.split("[brackets]\n")
    found = sound(head + first + line)
    assert found.at("ear-root") == pytest.approx((160.5, -83, 85))
    assert found["member lug.left"]["via"] == ("ear-root",)


def test_missing_wide_asks_for_the_plates_width() -> None:
    """Missing wide asks for the plates width."""
    found = expanded(bracket(wide="", plate="flat 45 x 6 mm"))
    told = found.fault("brackets.lug.left")
    assert told == "`wide` is missing: which way does the 45 mm point, x, y or z?"


def test_wide_along_the_bracket_is_refused() -> None:
    """Wide along the bracket is refused."""
    found = expanded(bracket(wide="81 -6 -30"))
    assert "`wide` points along the bracket" in found.fault("brackets.lug.left")


def test_wide_ten_degrees_off_is_taken() -> None:
    """The bracket's way turned by 10 degrees about x."""
    way = [(4 * w + n) / math.sqrt(17) for n, w in zip(N, W, strict=True)]
    turned = [math.cos(0.1745) * a + math.sin(0.1745) * b for a, b in zip(way, X, strict=True)]
    assert expanded(bracket(wide=" ".join(f"{each:.6f}" for each in turned))).faults == ()


def test_tip_inside_the_host_is_refused_with_both_lengths() -> None:
    """20 mm along n from the middle of a bar of 41 mm: shorter than its inset."""
    found = expanded(bracket(tip="128.571428571 -62.857142857 105.714285714 mm", section="bar 41 mm"))
    told = found.fault("brackets.lug.left")
    assert "it is 20 mm long, shorter than its weld's inset" in told
    assert "20.5 mm" in told


def test_tip_just_outside_the_host_is_taken() -> None:
    """Tip just outside the host is taken."""
    text = bracket(tip="128.571428571 -62.857142857 105.714285714 mm", section="bar 39 mm")
    assert expanded(text).faults == ()


def test_tip_on_the_centre_line_is_refused() -> None:
    """Tip on the centre line is refused."""
    found = expanded(bracket(tip="120 -80 100 mm"))
    assert "has no length" in found.fault("brackets.lug.left")


def test_bolts_with_a_leg_are_refused() -> None:
    """Bolts with a leg are refused."""
    found = expanded(bracket(BOLTS + ', leg = "3 mm"'))
    assert "a bolted bracket has no weld" in found.fault("brackets.lug.left.leg")


def test_a_leg_without_bolts_is_the_welds() -> None:
    """A leg without bolts is the welds."""
    assert sound(bracket('leg = "3 mm"'))["weld lug-weld.left"]["leg"] == 3


@pytest.mark.parametrize(("apart", "right"), [("19.9 mm", False), ("20 mm", True)])
def test_bolts_stand_two_and_a_half_diameters_apart(apart: str, right: bool) -> None:
    """Bolts stand two and a half diameters apart."""
    found = expanded(bracket(f'bolts = "2 x M8", apart = "{apart}", edge = "14 mm"'))
    if right:
        assert found.faults == ()
    else:
        assert "19.9 mm is under 2.5 diameters (20 mm for M8)" in found.fault("brackets.lug.left.apart")


@pytest.mark.parametrize("key", ["apart", "edge"])
def test_bolts_need_their_pitch_and_edge(key: str) -> None:
    """Bolts need their pitch and edge."""
    given = {"apart": "21 mm", "edge": "14 mm"}
    del given[key]
    rest = 'bolts = "2 x M8", ' + ", ".join(f'{word} = "{value}"' for word, value in given.items())
    assert f"`{key}` is missing" in expanded(bracket(rest)).fault("brackets.lug.left")


def test_pitch_without_bolts_is_refused() -> None:
    """Pitch without bolts is refused."""
    assert "without `bolts`" in expanded(bracket('apart = "21 mm"')).fault("brackets.lug.left.apart")


@pytest.mark.parametrize("section", ["tube 60 x 3 mm", "bar 60 mm"])
def test_bolted_on_a_round_host_is_refused(section: str) -> None:
    """Bolted on a round host is refused."""
    assert "beam is round" in expanded(bracket(BOLTS, section=section)).fault("brackets.lug.left")


def test_bolted_on_bare_properties_is_refused() -> None:
    """Bolted on bare properties is refused."""
    section = '{A = "800 mm^2", Iy = "4e5 mm^4", Iz = "2e5 mm^4", J = "1e5 mm^4"}'
    text = bracket(BOLTS).replace('"flat 70 x 14 mm"', section)
    assert "no plate or wall of known thickness" in expanded(text).fault("brackets.lug.left")


@pytest.mark.parametrize(("tilt", "flat"), [(44.0, True), (46.0, False)])
def test_a_plate_over_45_degrees_off_its_host_is_refused(tilt: float, flat: bool) -> None:
    """From the foot (126, -68, 104), 90 mm out of the host's plane by `tilt`."""
    up, out = 90 * math.cos(math.radians(tilt)), 90 * math.sin(math.radians(tilt))
    tip = [f + up * w + out * n for f, w, n in zip((126, -68, 104), W, N, strict=True)]
    found = expanded(bracket(BOLTS, tip=" ".join(f"{each:.9f}" for each in tip) + " mm"))
    if flat:
        assert found.faults == ()
    else:
        told = found.fault("brackets.lug.left")
        assert told == "does not lie flat on beam: change `wide`, or weld it"


def test_eye_and_ball_are_refused_together() -> None:
    """Eye and ball are refused together."""
    found = expanded(bracket('eye = "M8", ball = "M10"'))
    assert "`eye` and `ball` are both given" in found.fault("brackets.lug.left")


@pytest.mark.parametrize(("along", "right"), [("0.001", False), ("0.02", True)])
def test_a_bracket_at_a_leg_end_that_turns_is_refused(along: str, right: bool) -> None:
    """At the rod end it would stand on the frame's side of the joint."""
    text = f"""[wishbones]
lower.left = {{front = "110 90 170 mm", rear = "-100 160 275 mm", ball = "7 330 181 mm", \
tube = "bar 25 mm", pivot = "rod end M10"}}
[brackets]
foot.left = {{on = "lower-front.left", at = {along}, tip = "100 120 260 mm", plate = "flat 40 x 5 mm", \
wide = "x"}}
"""
    found = expanded(text)
    if right:
        assert found.faults == ()
    else:
        assert "turns freely" in found.fault("brackets.foot.left")


def test_a_bracket_on_a_knuckle_at_fault_is_silent() -> None:
    """The knuckle has no plate; only that is told."""
    text = """[wheels]
front = {centre = "0 390 250 mm", radius = "250 mm"}
[knuckles]
knuckle = {lower = "0 300 160 mm", upper = "5 290 340 mm", wheel = "front", axle = "bar 20 mm", ball = "M12"}
[brackets]
arm = {on = "knuckle", tip = "-70 300 240 mm", plate = "flat 30 x 8 mm", wide = "z"}
[struts]
tie = {from = "arm", to = "knuckle-root", stiffness = "60 N/mm"}
"""
    assert {path for path, _ in expanded(text).faults} == {"knuckles.knuckle"}


def test_unknown_host_names_the_nearest() -> None:
    """Unknown host names the nearest."""
    found = expanded(bracket().replace('on = "beam"', 'on = "bean"'))
    assert "did you mean 'beam'" in found.fault("brackets.lug.left.on")


def test_two_brackets_on_each_other_are_a_circle() -> None:
    """Two brackets on each other are a circle."""
    text = """[brackets]
one = {on = "two", tip = "10 20 30 mm", plate = "flat 30 x 5 mm", wide = "z"}
two = {on = "one", tip = "70 80 90 mm", plate = "flat 30 x 5 mm", wide = "z"}
"""
    assert any("circle" in why for _, why in expanded(text).faults)


def test_bracket_at_its_own_host_is_a_circle() -> None:
    """Bracket at its own host is a circle."""
    text = '[brackets]\none = {on = "one", tip = "10 20 30 mm", plate = "flat 30 x 5 mm", wide = "z"}\n'
    assert any("circle" in why for _, why in expanded(text).faults)
