"""Knuckles in whole numbers.

The ball line runs along (2, -3, 6)/7, the plate's width along (6, -2, -3)/7, its thickness toward the
wheel along (3, 6, 2)/7, an orthonormal set; the axle along (62, 54, 39)/91.
With x, n, w these three, the axle is (4 x + 12 n + 3 w)/13, so its common normal with the ball line lies
along n - 4 w; the axle line is laid 7 (n - 4 w) = (-21, 14, 14) from the root.
"""

import math

import pytest

from strength.case.shape import Bar, Flat, Rigid
from strength.case.trade.material_of import MaterialOf
from tests.case.trade.expanding import Found, expanded, sound

LOWER, UPPER = "-4 301 158 mm", "46 226 308 mm"  # lower + 25 (2, -3, 6)
N = (3 / 7, 6 / 7, 2 / 7)
X = (2 / 7, -3 / 7, 6 / 7)


def knuckle(rest: str = "", hub: str = "38 336 259.5 mm", axle: str = "62 54 39", **keys: str) -> str:
    """A wheel and a knuckle; keyword arguments take the place of the usual keys."""
    usual = {
        "lower": f'"{LOWER}"',
        "upper": f'"{UPPER}"',
        "plate": '"flat 84 x 14 mm"',
        "up": '"8 -5 3"',
        "axle": '"bar 20 mm"',
        "ball": '"M12"',
        "ball_reach": '"21 mm"',
        **keys,
    }
    given = ", ".join(f"{key} = {value}" for key, value in usual.items() if value)
    return (
        f'[wheels]\nfront.left = {{centre = "{hub}", radius = "250 mm", axle = "{axle}"}}\n'
        f'[knuckles]\nknuckle.left = {{wheel = "front.left", {given}{", " if rest else ""}{rest}}}\n'
    )


def test_plate_stands_reach_and_half_its_thickness_toward_the_wheel() -> None:
    """21 + 7 = 28 mm along n: (12, 24, 8)."""
    found = sound(knuckle())
    assert found.at("knuckle-low.left") == pytest.approx((8, 325, 166))
    assert found.at("knuckle-high.left") == pytest.approx((58, 250, 316))
    assert found.assumed["knuckle.left", "set"] == "28 mm"
    plate = found["member knuckle.left"]
    assert (plate["from"], plate["to"]) == ("knuckle-low.left", "knuckle-high.left")
    assert plate["section"] == Flat(84, 14)
    assert plate["up"] == pytest.approx([each / math.sqrt(98) for each in (8, -5, 3)])
    assert "from_end" not in plate
    assert "to_end" not in plate


def test_root_is_nearest_to_the_axle_line() -> None:
    """0.4 of the way from (8, 325, 166): (28, 295, 226), though the axle misses the line by 28.9 mm."""
    found = sound(knuckle())
    assert found.at("knuckle-root.left") == pytest.approx((28, 295, 226))
    assert found["member knuckle.left"]["via"] == ("knuckle-root.left",)
    bore = found["hole knuckle-bore.left"]
    assert bore["along"] == pytest.approx(0.4)
    assert (bore["member"], bore["diameter"], bore["across"]) == ("knuckle.left", 20, "thickness")


def test_steps_are_rigid_and_free_at_the_balls() -> None:
    """Steps are rigid and free at the balls."""
    found = sound(knuckle())
    for side, ball in (("low", "lower"), ("high", "upper")):
        step = found[f"member knuckle-{side}-step.left"]
        assert step["section"] == Rigid()
        assert step["from"] == f"knuckle-{ball}.left"
        assert step["to"] == f"knuckle-{side}.left"
        assert step["from_end"] == "ball"
        assert "to_end" not in step
    assert found.at("knuckle-lower.left") == (-4, 301, 158)
    assert found.at("knuckle-upper.left") == (46, 226, 308)


def test_axle_runs_from_root_to_hub() -> None:
    """Axle runs from root to hub."""
    found = sound(knuckle(axle_material='"42CrMo4+QT"'))
    axle = found["member knuckle-axle.left"]
    assert (axle["from"], axle["to"]) == ("knuckle-root.left", "front-hub.left")
    assert (axle["section"], axle["material"]) == (Bar(20), "42CrMo4+QT")
    assert found.at("front-hub.left") == (38, 336, 259.5)


@pytest.mark.parametrize(("stud", "step"), [("lower", "low"), ("upper", "high")])
def test_studs_across_the_plate(stud: str, step: str) -> None:
    """Studs across the plate."""
    keys = sound(knuckle())[f"stud knuckle-{stud}.left"]
    assert (keys["member"], keys["end"]) == (f"knuckle-{step}-step.left", "from")
    assert keys["axis"] == pytest.approx(N, abs=1e-12)
    assert (keys["reach"], keys["engaged"], keys["size"].text) == (21, 14, "M12")
    assert keys["into"] == MaterialOf("knuckle.left")
    assert isinstance(keys["into"], MaterialOf)


def test_reach_defaults_to_two_diameters() -> None:
    """24 + 7 = 31 mm along n."""
    found = sound(knuckle(ball_reach="", hub="39.2857142857 338.571428571 260.357142857 mm"))
    assert found["stud knuckle-lower.left"]["reach"] == 24
    assert found.at("knuckle-low.left") == pytest.approx(
        (-4 + 31 * 3 / 7, 301 + 31 * 6 / 7, 158 + 31 * 2 / 7)
    )
    assert found.assumed["knuckle.left", "ball_reach"] == "24 mm"
    assert found.assumed["knuckle.left", "ball_engaged"] == "14 mm"


def along(rest: str = "", **keys: str) -> Found:
    """A knuckle with its balls screwed into the edge, 12 n less: the wheel moves with it."""
    return sound(knuckle(rest, hub="26 312 251.5 mm", ball_axis='"along"', **keys))


def test_balls_along_the_plate_need_no_step() -> None:
    """Balls along the plate need no step."""
    found = along()
    assert found.names("member") == ["knuckle.left", "knuckle-axle.left"]
    plate = found["member knuckle.left"]
    assert found.at(plate["from"]) == (-4, 301, 158)
    assert found.at(plate["to"]) == (46, 226, 308)
    assert (plate["from_end"], plate["to_end"]) == ("ball", "ball")
    assert found.at("knuckle-root.left") == pytest.approx((16, 271, 218))
    assert found.assumed["knuckle.left", "set"] == "0 mm"


@pytest.mark.parametrize(("stud", "end"), [("lower", "from"), ("upper", "to")])
def test_studs_along_the_plate_line(stud: str, end: str) -> None:
    """Studs along the plate line."""
    keys = along()[f"stud knuckle-{stud}.left"]
    assert (keys["member"], keys["end"]) == ("knuckle.left", end)
    assert keys["axis"] == pytest.approx(X, abs=1e-12)
    assert (keys["reach"], keys["engaged"]) == (21, 18)


def test_set_zero_across_keeps_the_thickness_axis() -> None:
    """Set zero across keeps the thickness axis."""
    found = sound(knuckle(hub="26 312 251.5 mm", set='"0 mm"'))
    stud = found["stud knuckle-upper.left"]
    assert (stud["member"], stud["end"], stud["engaged"]) == ("knuckle.left", "to", 14)
    assert stud["axis"] == pytest.approx(N, abs=1e-12)
    assert ("knuckle.left", "set") not in found.assumed


def test_set_along_moves_the_plate_and_keeps_the_studs_on_the_steps() -> None:
    """28 mm toward the wheel, as across."""
    found = sound(knuckle(ball_axis='"along"', set='"28 mm"', ball_engaged='"17 mm"'))
    assert found.at("knuckle-high.left") == pytest.approx((58, 250, 316))
    stud = found["stud knuckle-upper.left"]
    assert (stud["member"], stud["end"], stud["engaged"]) == ("knuckle-high-step.left", "from", 17)
    assert stud["axis"] == pytest.approx(X, abs=1e-12)


def test_negative_set_stands_away_from_the_wheel() -> None:
    """Negative set stands away from the wheel."""
    found = sound(knuckle(set='"-7 mm"', hub="23 306 249.5 mm"))
    assert found.at("knuckle-low.left") == pytest.approx((-7, 295, 156))
    assert found["stud knuckle-lower.left"]["axis"] == pytest.approx(N, abs=1e-12)


def test_thickness_points_toward_a_wheel_on_the_other_side() -> None:
    """The balls swapped against a wheel on the right: n turns round with the wheel."""
    # root0 (16, 271, 218) - 28 n = (4, 247, 210); the axle line - (21, -14, -14) from there, hub beyond
    found = sound(knuckle(hub="-6 206 176.5 mm"))
    assert found.at("knuckle-low.left") == pytest.approx((-16, 277, 150))
    assert found["stud knuckle-lower.left"]["axis"] == pytest.approx([-each for each in N], abs=1e-12)
    assert found.at("knuckle-root.left") == pytest.approx((4, 247, 210))


def test_shoulder_stands_at_the_plates_face() -> None:
    """Root to hub (10, 41, 33.5), 49 mm of it along n; the face is 7 mm along n from the middle plane."""
    found = sound(knuckle('shoulder = {larger = "25 mm", fillet = "1.5 mm"}'))
    keys = found["shoulder knuckle-shoulder.left"]
    assert keys["inset"] == pytest.approx(math.sqrt(100 + 1681 + 33.5**2) / 7)
    assert (keys["member"], keys["end"]) == ("knuckle-axle.left", "from")
    assert (keys["larger"], keys["fillet"]) == (25, 1.5)
    assert "root" not in keys


def test_shoulder_may_be_a_thread() -> None:
    """Shoulder may be a thread."""
    found = sound(knuckle('shoulder = {larger = "25 mm", root = "thread M20"}'))
    assert found["shoulder knuckle-shoulder.left"]["root"] == "M20"


def test_shoulder_needs_one_of_fillet_and_root() -> None:
    """Shoulder needs one of fillet and root."""
    found = expanded(knuckle('shoulder = {larger = "25 mm"}'))
    assert "`fillet` or a thread `root`" in found.fault("knuckles.knuckle.left.shoulder")


def test_width_defaults_to_fore_and_aft() -> None:
    """Width defaults to fore and aft."""
    found = sound(knuckle(up="", plate='"flat 90 x 14 mm"'))
    assert found["member knuckle.left"]["up"] == (1, 0, 0)
    assert found.assumed["knuckle.left", "up"] == "1 0 0"


def test_wishbones_give_their_balls() -> None:
    """Wishbones give their balls."""
    rest = 'tube = "tube 25 x 2 mm", pivot = "fixed"'
    text = f"""[wishbones]
lower.left = {{front = "110 90 170 mm", rear = "-100 100 150 mm", ball = "{LOWER}", {rest}}}
upper.left = {{front = "90 110 330 mm", rear = "-70 115 300 mm", ball = "{UPPER}", {rest}}}
"""
    found = sound(text + knuckle(lower='"lower.left"', upper='"upper.left"'))
    assert found["member knuckle-low-step.left"]["from"] == "lower-ball.left"
    assert found["member knuckle-high-step.left"]["from"] == "upper-ball.left"
    assert found.at("upper-ball.left") == (46, 226, 308)


def test_root_at_a_ball_is_that_point() -> None:
    """The axle line through the lower ball's plate point itself."""
    found = sound(knuckle(hub="39 352 185.5 mm", ball_axis='"across"'))
    # K-low (8, 325, 166) + 45.5 (62, 54, 39)/91 = (39, 352, 185.5)
    assert "via" not in found["member knuckle.left"]
    assert found["member knuckle-axle.left"]["from"] == "knuckle-low.left"
    assert found["hole knuckle-bore.left"]["along"] == pytest.approx(0, abs=1e-12)


def test_axle_line_beside_the_plate_is_refused_with_its_distance() -> None:
    """Half of a 57 mm plate is 28.5 mm; the axle line passes 7 sqrt(17) = 28.86 mm away."""
    found = expanded(knuckle(plate='"flat 57 x 14 mm"'))
    told = found.fault("knuckles.knuckle.left")
    assert "passes the plate's centre line by 28.86 mm" in told
    assert "front.left" in told


def test_axle_line_just_on_the_plate_is_taken() -> None:
    """Axle line just on the plate is taken."""
    assert expanded(knuckle(plate='"flat 58 x 14 mm"')).faults == ()


@pytest.mark.parametrize(
    ("hub", "ball", "distance"),
    # the hub of the plain case moved along the ball line by -0.45 and by 0.65 of 175 mm
    [("15.5 369.75 192 mm", "lower", "8.75 mm"), ("70.5 287.25 357 mm", "upper", "8.75 mm")],
)
def test_axle_line_beyond_a_ball_is_refused_with_its_distance(hub: str, ball: str, distance: str) -> None:
    """Axle line beyond a ball is refused with its distance."""
    told = expanded(knuckle(hub=hub)).fault("knuckles.knuckle.left")
    assert f"passes {distance} beyond the {ball} ball" in told


def test_axle_line_just_within_the_balls_is_taken() -> None:
    """Axle line just within the balls is taken."""
    assert expanded(knuckle(hub="18.5 365.25 201 mm")).faults == ()  # 0.01 of the way


def test_wheel_in_the_plates_plane_is_refused() -> None:
    """(16, 271, 218) on the ball line and 49 mm along the width: no side for `set`."""
    found = expanded(knuckle(hub="58 257 197 mm"))
    assert "plane of the plate" in found.fault("knuckles.knuckle.left")


def test_axle_along_the_plate_is_refused() -> None:
    """Axle along the plate is refused."""
    found = expanded(knuckle(axle="2 -3 6"))
    assert "axle line runs along the plate" in found.fault("knuckles.knuckle.left")


def test_width_along_the_balls_is_refused() -> None:
    """Width along the balls is refused."""
    found = expanded(knuckle(up='"-2 3 -6"'))
    assert "`up` points from ball to ball" in found.fault("knuckles.knuckle.left")


def test_one_ball_is_refused() -> None:
    """One ball is refused."""
    found = expanded(knuckle(upper=f'"{LOWER}"'))
    assert "the same place" in found.fault("knuckles.knuckle.left")


def test_wheel_on_the_plate_is_refused() -> None:
    """Wheel on the plate is refused."""
    found = expanded(knuckle(hub="16 271 218 mm", set='"0 mm"'))
    assert "the stub axle has no length" in found.fault("knuckles.knuckle.left")


def test_unknown_wheel_names_the_nearest() -> None:
    """Unknown wheel names the nearest."""
    found = expanded(knuckle().replace('wheel = "front.left"', 'wheel = "frnt.left"'))
    assert "did you mean 'front.left'" in found.fault("knuckles.knuckle.left.wheel")


def test_unknown_ball_names_the_nearest() -> None:
    """Unknown ball names the nearest."""
    text = '[points]\nlow-ball = "-4 301 158 mm"\n' + knuckle(lower='"lowball"')
    assert "did you mean 'low-ball'" in expanded(text).fault("knuckles.knuckle.left.lower")
