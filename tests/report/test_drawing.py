"""The drawing: well-formed, whole, and to be read without colour."""

import re
import xml.etree.ElementTree as ET

import attrs
import numpy as np
import pytest

from strength.report.drawing import KEY, drawing, drawing_record, tagged
from strength.report.outline import outline
from strength.report.view import look
from strength.report.views import FACES, LOOKS, WIDTH
from tests.report.outcomes import PLACES, outcome, rows

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(name="root", scope="module")
def fixture_root() -> ET.Element:
    """The drawing, parsed."""
    return ET.fromstring(drawing(look(outcome())))  # noqa: S314 - our own text


def titles(root: ET.Element) -> list[str]:
    """What the elements tell when pointed at."""
    return [title.text or "" for title in root.iter(f"{SVG}title")]


def test_every_part_stands_in_every_view(root: ET.Element) -> None:
    """Members, struts, joints and wheels, three times each."""
    case = outcome().case
    told = [text.split(": ")[0] for text in titles(root)]
    names = [
        part.name
        for kind in (case.members, case.struts, case.welds, case.bolts, case.studs, case.clamps, case.wheels)
        for part in kind
    ]
    assert len(set(names)) == len(names)
    for name in names:
        assert told.count(name) == len(FACES), name


def test_utilisations_are_told(root: ET.Element) -> None:
    """A part's worst utilisation and its standing in words."""
    assert "knuckle-axle.left: utilisation 1.06, over the limit" in titles(root)
    assert "knuckle-axle.right: utilisation 1.06, over the limit" in titles(root)
    assert "step.left: not checked" in titles(root)


def test_no_two_standings_look_alike_without_colour() -> None:
    """Width and dashes alone tell them apart, and the key says so in words."""
    assert len({(width, dashes) for _, width, dashes in LOOKS.values()}) == len(LOOKS) == len(KEY)


def test_all_is_on_the_sheet(root: ET.Element) -> None:
    """No line runs off the sheet."""
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    assert width == WIDTH
    for path in root.iter(f"{SVG}path"):
        if "stroke-linecap" in path.attrib:
            numbers = [float(n) for n in re.findall(r"-?[\d.]+", path.attrib["d"])]
            assert all(0.0 <= x <= width for x in numbers[0::2])
            assert all(0.0 <= y <= height for y in numbers[1::2])


def test_views_are_seen_from_the_right_side() -> None:
    """Forward is to the right from the right side; left is to the right from the front; up is up."""
    told = look(outcome())
    strokes = {s.name: s.places for s in outline(told.outcome.case, told.folded, tagged(told))}
    svg = drawing(told)
    groups = re.findall(r"<g>(.*?)</g>", svg, re.DOTALL)
    assert len(groups) == 3
    ends = []
    for group in groups:
        path = re.search(
            r'<path d="M([\d.]+) ([\d.]+) L([\d.]+) ([\d.]+)"[^>]*><title>lower-front\.left', group
        )
        assert path is not None
        x1, y1, x2, y2 = map(float, path.groups())
        ends.append((x2 - x1, y1 - y2))
    start, end = (np.array(PLACES[name]) for name in ("pivot-front.left", "ball.left"))
    dx, dy, dz = end - start
    scale = ends[0][0] / dx
    assert scale > 0.0
    expected = [(dx, dz), (dy, dz), (dx, dy)]
    np.testing.assert_allclose(np.array(ends), scale * np.array(expected), atol=0.15)
    np.testing.assert_array_equal(strokes["lower-front.left"], [start, end])


def test_worst_parts_are_numbered(root: ET.Element) -> None:
    """Each number stands once in each view and once in the list, with its words."""
    told = look(outcome())
    texts = [text.text or "" for text in root.iter(f"{SVG}text")]
    for number, line in enumerate(tagged(told), start=1):
        assert texts.count(str(number)) == len(FACES)
        assert any(text.startswith(f"{number}. {line.label}:") for text in texts)


def test_names_are_escaped() -> None:
    """A name with angle brackets is text, not an element."""
    given = outcome()
    case = attrs.evolve(given.case, title="<b>&", welds=(), bolts=())
    row = rows()[0]._replace(part="a<b>&c")
    root = ET.fromstring(drawing(look(outcome(case=case, rows=(row,)))))  # noqa: S314 - our own text
    assert any("a<b>&c" in (text.text or "") for text in root.iter(f"{SVG}text"))


def test_one_part_alone() -> None:
    """A structure without any extent across is drawn all the same."""
    given = outcome()
    main = next(m for m in given.case.members if m.name == "main-tube")
    case = attrs.evolve(
        given.case, members=(main,), struts=(), wheels=(), welds=(), bolts=(), studs=(), clamps=()
    )
    root = ET.fromstring(drawing(look(outcome(case=case, rows=()))))  # noqa: S314 - our own text
    assert sum("main-tube" in text for text in titles(root)) == len(FACES)


def test_record() -> None:
    """What is drawn, for another program."""
    parts = {part["name"]: part for part in drawing_record(look(outcome()))["parts"]}
    assert parts["knuckle-axle.left"]["utilisation"] == pytest.approx(1.06)
    assert parts["knuckle-axle.left"]["standing"] == "over the limit"
    assert parts["step.left"]["utilisation"] is None
