"""Kinds of pivot side by side: forces by statics, turning by geometry, and what is said of them."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.__main__ import main
from strength.case import case_from_text
from strength.errors import CaseError
from strength.report.pivots import pivots_document
from strength.report.pivots_record import exit_code
from strength.report.record import summary_record
from strength.run import run
from strength.studies.pivots import FREE, HINGED, Pivots, pivots, turn
from strength.studies.typed import case_typed

FRONT, REAR, BALL = (
    np.array([140.0, 5.0, 205.0]),
    np.array([-110.0, -5.0, 195.0]),
    np.array([12.0, 240.0, 190.0]),
)
FORCE = np.array([-250.0, -120.0, 900.0])
# a bench on which the pivots' posts are stiff, so that hinges have something to hold against
ARM = """
title = "Bracken arm on posts"
[defaults]
material = {tube = "E235+N", bar = "S355J2"}
filler = "ER70S-6"
class = "8.8"
[wishbones.arm]
front = "140 5 205 mm"
rear = "-110 -5 195 mm"
ball = "12 240 190 mm"
tube = "tube 22 x 2 mm"
pivot = "PIVOT"
spreader = 0.6
cheek = "5 mm"
[members]
post-front = {from = "140 5 105 mm", to = "arm-front", section = "bar 30 mm"}
post-rear = {from = "-110 -5 85 mm", to = "arm-rear", section = "bar 30 mm"}
[struts]
shock = {from = "arm-spreader", to = "20 60 420 mm", stiffness = "90 N/mm"}
[supports]
post-front-from = "all"
post-rear-from = "all"
shock-to = "x y z"
[loads]
standing = {forces = [{at = "arm", force = "-10 20 300 N"}]}
"hard bump" = {severity = "hard", forces = [{at = "arm", force = "-250 -120 900 N"}]}
"""


def text(pivot: str = "rod end M10") -> str:
    """The case with a kind of pivot."""
    return ARM.replace("PIVOT", pivot)


@pytest.fixture(scope="module")
def found() -> Pivots:
    """All kinds of the bench arm."""
    return pivots(case_typed(text()), "arm")


def passing(found: Pivots, number: int, side: str, load: str = "hard bump") -> Any:
    """What one kind hands over at one pivot."""
    return next(each for each in found.kinds[number].passing if (each.side, each.load) == (side, load))


def test_four_kinds_in_order(found: Pivots) -> None:
    """Two turn freely, two are hinged; nothing of the file is left out."""
    assert [(each.name, each.held) for each in found.kinds] == [
        ("rod ends", FREE), ("ball joints", FREE), ("plain bushes", HINGED), ("bearings", HINGED),
    ]  # fmt: skip
    assert (found.part, found.now, found.size, found.bush) == ("arm", "rod end M10", "M10", 20.0)
    assert not any(each.why for each in found.kinds)


@pytest.mark.parametrize("number", [0, 1])
def test_free_pivots_by_statics(found: Pivots, number: int) -> None:
    """An arm on two balls and a shock is statically determinate but for how the push along is shared.

    Unknown: two forces across each pivot, their sum along, the shock: six equations of one body.
    """
    axis = (FRONT - REAR) / np.linalg.norm(FRONT - REAR)
    first = np.cross(axis, [0.0, 0.0, 1.0])
    first /= np.linalg.norm(first)
    second = np.cross(axis, first)
    spreader = (0.4 * FRONT + 0.6 * BALL + 0.4 * REAR + 0.6 * BALL) / 2.0
    shock = np.array([20.0, 60.0, 420.0]) - spreader
    shock /= np.linalg.norm(shock)
    unknown = [
        (FRONT, first),
        (FRONT, second),
        (REAR, first),
        (REAR, second),
        (REAR, axis),
        (spreader, shock),
    ]
    matrix = np.array([np.concatenate([way, np.cross(at, way)]) for at, way in unknown]).T
    held = np.linalg.solve(matrix, -np.concatenate([FORCE, np.cross(BALL, FORCE)]))
    front, rear = passing(found, number, "front"), passing(found, number, "rear")
    assert front.across == pytest.approx(np.hypot(held[0], held[1]), rel=1e-6)
    assert rear.across == pytest.approx(np.hypot(held[2], held[3]), rel=1e-6)
    assert front.along + rear.along == pytest.approx(-held[4], rel=1e-6)
    for each in (front, rear):
        assert abs(each.tipping) + abs(each.about) < 1e-6 * front.across


@pytest.mark.parametrize("number", [2, 3])
def test_hinged_pivots_from_the_record(found: Pivots, number: int) -> None:
    """End forces of the legs in the record of the case with bushes, turned into the pivot's axes by hand."""
    record = summary_record(run(case_from_text(text("bush M10"))))
    axis = (FRONT - REAR) / np.linalg.norm(FRONT - REAR)
    for side, pivot in (("front", FRONT), ("rear", REAR)):
        row = next(
            each
            for each in record["members"]
            if (each["name"], each["load"], each["end"]) == (f"arm-{side}", "hard bump", "from")
        )
        x = (BALL - pivot) / np.linalg.norm(BALL - pivot)
        z = np.array([0.0, 0.0, 1.0]) - x[2] * x
        z /= np.linalg.norm(z)
        turned = np.array([x, np.cross(z, x), z])
        force = np.array([row["N"], row["Vy"], row["Vz"]]) @ turned
        moment = np.array([row["T"], row["My"], row["Mz"]]) @ turned
        got = passing(found, number, side)
        across = force - (force @ axis) * axis
        tipping = moment - (moment @ axis) * axis
        assert got.along == pytest.approx(force @ axis, rel=1e-6)
        assert got.across == pytest.approx(np.linalg.norm(across), rel=1e-6)
        assert got.tipping == pytest.approx(np.linalg.norm(tipping), rel=1e-6)
        assert abs(got.about) < 1e-6 * got.tipping
        # two bearings 20 mm apart along the axis: forces that balance both about each other's middle
        pair = np.array(
            [across / 2.0 + np.cross(tipping, axis) / 20.0, across / 2.0 - np.cross(tipping, axis) / 20.0]
        )
        arms = np.array([10.0 * axis, -10.0 * axis])
        assert np.allclose(np.cross(arms, pair).sum(axis=0), tipping)
        assert got.bearing == pytest.approx(np.linalg.norm(pair, axis=1).max(), rel=1e-6)
        # a plug pin's linear pressure: F/(d L) + 6 M/(d L^2)
        expected = np.linalg.norm(across) / (10.0 * 20.0) + 6.0 * np.linalg.norm(tipping) / (10.0 * 20.0**2)
        assert got.edge == pytest.approx(expected, rel=1e-6)


def test_hinges_hold_a_moment_that_balls_do_not(found: Pivots) -> None:
    """The posts are stiff, so that bending of the legs reaches the pivots."""
    assert passing(found, 2, "front").tipping > 1000.0


def test_swing_by_geometry(found: Pivots) -> None:
    """How far the ball rises over its distance from the pivot line (the arm itself is stiff: 3 %)."""
    record = summary_record(run(case_from_text(text())))
    axis = (FRONT - REAR) / np.linalg.norm(FRONT - REAR)
    arm = BALL - FRONT - ((BALL - FRONT) @ axis) * axis
    normal = np.cross(axis, arm) / np.linalg.norm(arm)
    moved = next(
        each["displacement"]
        for each in record["points"]
        if (each["name"], each["load"]) == ("arm-ball", "hard bump")
    )
    expected = np.array(moved[:3]) @ normal / np.linalg.norm(arm)
    assert passing(found, 0, "front").swing == pytest.approx(expected, rel=0.03)
    assert passing(found, 0, "front").tilt < 0.1 * abs(expected)


@given(st.tuples(*[st.floats(-0.1, 0.1)] * 3), st.tuples(*[st.floats(-50.0, 50.0)] * 3))
def test_turn_of_a_rigid_body(spin: tuple[float, ...], shift: tuple[float, ...]) -> None:
    """Movements shift + w x r come back as w."""
    places = np.array([FRONT, REAR, BALL])
    moved = np.array(shift) + np.cross(spin, places)
    assert turn(places, moved[None])[0] == pytest.approx(np.array(spin), abs=1e-9)


def test_shank_of_each_stud(found: Pivots) -> None:
    """32 M/(pi d3^3) + F/As by hand: a rod end along its leg, a ball joint square to the arm; 20 mm out."""
    root, area = 8.160, 58.0
    normal = np.cross(FRONT - BALL, REAR - BALL)
    normal /= np.linalg.norm(normal)
    record = summary_record(run(case_from_text(text())))
    for number in (0, 1):
        worst = 0.0
        for side, pivot in (("front", FRONT), ("rear", REAR)):
            for row in record["members"]:
                if (row["name"], row["end"]) != (f"arm-{side}", "from"):
                    continue
                x = (BALL - pivot) / np.linalg.norm(BALL - pivot)
                z = np.array([0.0, 0.0, 1.0]) - x[2] * x
                z /= np.linalg.norm(z)
                force = np.array([row["N"], row["Vy"], row["Vz"]]) @ np.array([x, np.cross(z, x), z])
                way = x if number == 0 else normal
                along = force @ way
                across = np.linalg.norm(force - along * way)
                worst = max(worst, 32.0 * across * 20.0 / (np.pi * root**3) + abs(along) / area)
        shank = found.kinds[number].shank
        assert shank is not None
        assert shank.demand == pytest.approx(worst, rel=2e-3)  # rounded table figures of the thread
        assert shank.limit == pytest.approx(640.0 / 1.67)
    assert found.kinds[2].shank is None


def test_whole_case_is_that_of_the_file(found: Pivots) -> None:
    """Rod ends and bushes: the worst row of the case typed so."""
    for number, pivot in ((0, "rod end M10"), (2, "bush M10")):
        rows = run(case_from_text(text(pivot))).rows
        whole = found.kinds[number].whole
        assert whole is not None
        assert whole.utilisation == pytest.approx(rows[0].utilisation)
        assert whole.governs == rows[0].id


def test_the_favoured_has_the_least(found: Pivots) -> None:
    """And the words name it, its check and what was not looked at."""
    order = [each.worst.utilisation for each in found.favoured if each.worst]
    assert order == sorted(order)
    assert len(order) == 4
    document = pivots_document(found, "metric")
    assert found.favoured[0].name in document.closing[0]
    assert "not checked" in document.closing[-1]
    assert exit_code(found) in (0, 1, 3)


def test_both_sides_and_changes() -> None:
    """A right-hand arm is the image of the left; ratings of rod ends are theirs alone."""
    sided = (
        ARM.replace('title = "Bracken arm on posts"', 'title = "pair"\nmirror = true')
        .replace("[wishbones.arm]", "[wishbones.arm.left]")
        .replace("post-front =", "post-front.left =")
        .replace("post-rear =", "post-rear.left =")
        .replace('"arm-front"', '"arm-front.left"')
        .replace('"arm-rear"', '"arm-rear.left"')
        .replace("shock =", "shock.left =")
        .replace('"arm-spreader"', '"arm-spreader.left"')
        .replace("post-front-from =", "post-front-from.left =")
        .replace("post-rear-from =", "post-rear-from.left =")
        .replace("shock-to =", "shock-to.left =")
        .replace('at = "arm"', 'at = "arm.left"')
        .replace("PIVOT", "rod end M10")
    ) + '[[change]]\npart = "stud arm-front-rodend.left"\nrating = {radial = "9 kN", axial = "2 kN"}\n'
    sided = sided.replace(
        'force = "-250 -120 900 N"}',
        'force = "-250 -120 900 N"}, {at = "arm.right", force = "-250 120 900 N"}',
    )
    left, right = (pivots(case_typed(sided), name) for name in ("arm.left", "arm.right"))
    for number in range(4):
        assert left.kinds[number].why == right.kinds[number].why == ""
        for side in ("front", "rear"):
            one, other = passing(left, number, side), passing(right, number, side)
            assert other.across == pytest.approx(one.across, rel=1e-6)
            assert other.tipping == pytest.approx(one.tipping, rel=1e-6, abs=1e-3)
    governs = [each.pivots.governs for each in left.kinds if each.pivots]
    assert governs[0].startswith("arm-front-rodend.left/rod-end/")
    assert "rod-end" not in " ".join(governs[1:])


@pytest.mark.parametrize(
    ("pivot", "name", "size", "why"),
    [
        ("rod end M10", "arn", "", "did you mean 'arm'"),
        ("fixed", "arm", "", "--size M10"),
        ("rod end M10", "arm", "M11", "M11"),
        ("bush pin 11 mm", "arm", "", "--size M10"),
    ],
)
def test_refused(pivot: str, name: str, size: str, why: str) -> None:
    """No such wishbone; no size to compare at."""
    with pytest.raises(CaseError, match=why):
        pivots(case_typed(text(pivot)), name, size)


def test_fixed_pivots_at_a_size_that_is_given() -> None:
    """The pivots as typed have no size of their own."""
    found = pivots(case_typed(text("fixed")), "arm", "M12")
    assert (found.now, found.size) == ("fixed", "M12")


def test_a_kind_that_cannot_be_built_is_told() -> None:
    """A change of a bolt that a ball joint does not have."""
    change = '[[change]]\npart = "weld arm-front-pivot"\nonto = {thickness = "5 mm", material = "6082-T6"}\n'
    with pytest.raises(CaseError):
        pivots(case_typed(text() + change), "arm")  # the file itself is at fault
    taken = '[bolts]\nspare = {member = "arm-front", end = "from", axis = "1 0 0", size = "M8"}\n'
    sleeve = text() + taken + '[[change]]\npart = "bolt arm-front-pivot"\nremove = true\n'
    found = pivots(case_typed(sleeve), "arm")
    assert [bool(each.why) for each in found.kinds] == [False, True, False, False]


def test_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A table within 80 columns, and a record with all loads."""
    path = tmp_path / "arm.toml"
    path.write_text(text(), encoding="utf-8")
    code = main(["pivots", str(path), "arm"])
    shown = capsys.readouterr().out
    assert max(map(len, shown.splitlines())) <= 80
    for words in ("rod ends", "ball joints", "plain bushes", "bearings", "What goes through", "pivot line"):
        assert words in shown
    assert main(["pivots", str(path), "arm", "--json", "-"]) == code
    record = json.loads(capsys.readouterr().out)
    assert record["format"] == 1
    assert record["favoured"] in {each["name"] for each in record["kinds"]}
    assert len(record["kinds"][0]["forces"]) == 4
    assert main(["pivots", str(path), "arn"]) == 2
    assert "did you mean" in capsys.readouterr().err
