"""Where things are: by hand from the coordinates typed."""

import pytest

from tests.case.cases import BENCH, TRIKE, faults, read

POINTS = """
[points]
foot = "0 0 0 mm"
tip = "300 40 120 mm"
"""


def bench(points: str, more: str = "") -> str:
    """The bench with more points, and more below."""
    return BENCH.replace("[members]", f"{points}\n[members]") + more


def at(text: str, name: str) -> tuple[float, float, float]:
    """Where a point of a case is."""
    return next(point.at for point in read(text).points if point.name == name)


def probe(name: str) -> str:
    """A mass that keeps a point in the case."""
    return f"[masses]\nm = {{mass = '1 kg', at = '{name}', carried_by = '{name}'}}"


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("p = {from = 'tip', by = '0.5 0 -1 in'}", (312.7, 40.0, 94.6)),
        ("p = {from = '10 20 30 mm', by = '1 2 3 mm'}", (11.0, 22.0, 33.0)),
        ("p = {between = ['foot', 'tip'], at = 0.25}", (75.0, 10.0, 30.0)),
        ("p = {between = ['tip', 'foot'], at = 0.25}", (225.0, 30.0, 90.0)),
        ("p = {between = ['foot', '4 8 12 mm'], at = 1}", (4.0, 8.0, 12.0)),
        ("p = {on = 'arm', at = 0.4}", (120.0, 16.0, 48.0)),
        ("q = {on = 'arm', at = 0.5}\np = {from = 'q', by = '0 0 7 mm'}", (150.0, 20.0, 67.0)),
        ("p = {at = '1 2 3 cm'}", (10.0, 20.0, 30.0)),
    ],
)
def test_point_definitions(line, expected):
    """A point by itself, from another, between two, on a member; order does not matter."""
    assert at(bench(line, probe("p")), "p") == pytest.approx(expected, abs=1e-12)


def test_a_point_on_a_member_joins_it():
    """Points on a member join its via in order along it, whatever the order of the file."""
    points = "late = {on = 'arm', at = 0.75}\nearly = {on = 'arm', at = 0.1}"
    text = bench(points).replace("section =", 'via = ["150 20 60 mm"], section =')
    assert read(text).members[0].via == ("early", "arm-via", "late")


def test_a_vector_near_a_point_is_that_point():
    """Within 0.01 mm it is the same place, further off another one."""
    near = BENCH.replace('to = "tip"', 'to = "300.006 40.006 120 mm"')
    assert read(near).members[0].end == "tip"
    off = BENCH.replace('to = "tip"', 'to = "300.011 40 120 mm"').replace('at = "tip"', 'at = "arm-to"')
    assert read(off).members[0].end == "arm-to"
    assert at(off, "arm-to") == (300.011, 40.0, 120.0)


def test_names_of_points_that_vectors_make():
    """Named after their entry; the suffix stands before the side."""
    text = (
        'title = "x"\nmirror = true\n'
        '[defaults]\nmaterial = "S235JR"\n'
        "[members]\n"
        'arm.left = {from = "1 50 3 mm", to = "90 50 3 mm", section = "bar 9 mm"}\n'
        'bar = {from = "1 50 3 mm", to = "1 -50 3 mm", section = "bar 9 mm"}\n'
        "[struts]\nrod = {from = '90 50 3 mm', to = '80 0 90 mm'}\n"
        "[supports]\nend = {at = '80 0 -90 mm', hold = 'all'}\n"
        "[masses]\nm = {mass = '2 kg', at = '0 0 0 mm', carried_by = ['9 9 9 mm', '7 7 7 mm']}\n"
        "[loads]\npush = {forces = [{at = '6 6 6 mm', force = '0 0 1 N'}], off_ground = 'rear'}\n"
        "[wheels]\nrear = {centre = '-90 0 50 mm', radius = '50 mm'}\n"
    )
    case = read(text)
    assert {point.name for point in case.points} == {
        "arm-from.left",
        "arm-to.left",
        "arm-from.right",
        "arm-to.right",
        "rod-to",
        "end-at",
        "m-carried-1",
        "m-carried-2",
        "push-force",
        "rear-hub",
    }
    bar = next(member for member in case.members if member.name == "bar")
    assert (bar.start, bar.end) == ("arm-from.left", "arm-from.right")
    assert case.struts[0].start == "arm-to.left"


def test_the_other_side_can_be_named():
    """With mirror a `.right` point, and a vector at one, is known although only `.left` is typed."""
    tie = '[[member]]\nname = "tie"\nfrom = "hub.left"\nto = "hub.right"\nsection = "bar 12 mm"\n'
    case = read(TRIKE + tie)
    assert (case.members[-1].start, case.members[-1].end) == ("hub.left", "hub.right")
    by_vector = read(TRIKE + tie.replace('"hub.right"', '"0 -400 250 mm"'))
    assert by_vector.members[-1].end == "hub.right"


def test_a_point_between_both_sides():
    """What lies between the two sides is found from both."""
    text = TRIKE + (
        "[[point]]\nname = 'mid'\nbetween = ['hub.left', 'hub.right']\nat = 0.25\n"
        "[[mass]]\nname = 'lamp'\nmass = '1 kg'\nat = 'mid'\ncarried_by = 'mid'\n"
    )
    assert at(text, "mid") == (0.0, 200.0, 250.0)


def test_points_that_nothing_stands_at_are_left_out():
    """A point that only helps to find another is no part of the structure."""
    text = bench("help = '5 5 5 mm'\np = {from = 'help', by = '1 0 0 mm'}", probe("p"))
    assert [point.name for point in read(text).points] == ["foot", "tip", "p"]


def test_circles_are_told():
    """A circle of definitions, through a member too."""
    found = faults(
        bench("p = {on = 'bow', at = 0.5}")
        + "[[member]]\nname='bow'\nfrom='p'\nto='foot'\nsection='bar 9 mm'"
    )
    assert any("is defined in a circle" in why for whys in found.values() for why in whys)


def test_a_made_point_has_a_name_of_its_own():
    """A vector must not make a second point of a name that is there."""
    text = bench("arm-to = '1 2 3 mm'").replace('to = "tip"', 'to = "300 40 121 mm"')
    (path, whys), *more = faults(text).items()
    assert path == "members.arm.to"
    assert "'arm-to'" in whys[0]
    assert not more
