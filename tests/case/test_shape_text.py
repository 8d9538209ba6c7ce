"""Section and size texts; inches by the definition 1 in = 25.4 mm (NIST SP 811, B.8)."""

import pytest

from strength.case.faults import Faults, RefusedError
from strength.case.shape import Bar, Bare, Box, Flat, Outline, Rigid, Tube
from strength.case.shape_text import looks_like_section, outer_radius, parse, section
from strength.case.sizes import bolt_size, counted, pivot, thread_root
from strength.errors import QuantityError


@pytest.mark.parametrize(
    ("text", "shape"),
    [
        ("tube 25 x 2 mm", Tube(25.0, 2.0)),
        ("tube 25x2mm", Tube(25.0, 2.0)),
        ("  tube   2.5 x 0.2  cm ", Tube(25.0, 2.0)),
        ("tube 1 x 0.065 in", Tube(25.4, 1.651)),
        ("tube 1 in x 2 mm", Tube(25.4, 2.0)),
        ("bar 0.75 in", Bar(19.05)),
        ("square 40 x 3 mm", Box(40.0, 40.0, 3.0)),
        ("box 60 x 40 x 3 mm", Box(60.0, 40.0, 3.0)),
        ("flat 70 x 16 mm", Flat(70.0, 16.0)),
        ("flat 16 x 70 mm", Flat(16.0, 70.0)),
        ("rigid", Rigid()),
        (" rigid ", Rigid()),
    ],
)
def test_section_texts(text, shape):
    """Depth along `up` first, then width, then wall."""
    assert parse(text) == shape
    assert looks_like_section(text)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("tube 25", "is not of the form 'tube OD x WALL' with a unit"),
        ("tube 25 x 2 x 3 mm", "is not of the form 'tube OD x WALL'"),
        ("tube 25 * 2 mm", "is not of the form"),
        ("tube 25 x 2", "'2' has no unit"),
        ("tube 25,4 x 2 mm", "has a comma"),
        ("tube 25 x 2 kg", "is a mass, but a length is wanted"),
        ("tube 25 x 0 mm", "has a size that is not more than 0"),
        ("tube -25 x 2 mm", "has a size that is not more than 0"),
        ("tube 1e400 x 2 mm", "is too large a number"),
        ("tube 25 x 12.5 mm", "a wall of 12.5 mm is not under half the diameter (12.5 mm)"),
        ("square 40 x 20 mm", "a wall of 20 mm is not under half the side (20 mm)"),
        ("box 60 x 11 x 3 mm", "two corners of radius 6 mm"),
        ("rigid 3 mm", "rigid has no sizes"),
        ("Tube 25 x 2 mm", "did you mean 'tube'?"),
        ("pipe", "is not a section"),
        ("", "is not a section"),
    ],
)
def test_refused_section_texts(text, message):
    """One message for each way to get it wrong."""
    with pytest.raises((RefusedError, QuantityError)) as caught:
        parse(text)
    assert message in str(caught.value)


@pytest.mark.parametrize(
    ("wall", "radius"), [(3.0, 6.0), (6.0, 12.0), (8.0, 20.0), (10.0, 25.0), (12.5, 37.5)]
)
def test_outer_corner_radius(wall, radius):
    """EN 10219-2:2006 Table B.3 and A.3 (from memory): 2.0 T to 6 mm, 2.5 T to 10 mm, 3.0 T above."""
    assert outer_radius(wall) == radius


def test_outline_and_bare_properties():
    """Corners across and along `up`; properties out of a table, 1 in^2 = 645.16 mm^2."""
    faults = Faults()
    angle = {"outline": ["0 0 mm", "40 0 mm", "40 5 mm", "5 5 mm", "5 30 mm", "0 30 mm"]}
    found = section.read(angle, "section", faults)
    assert found == Outline(((0.0, 0.0), (40.0, 0.0), (40.0, 5.0), (5.0, 5.0), (5.0, 30.0), (0.0, 30.0)), ())
    table = {"A": "32.9 in^2", "Iy": "236 in^4", "Iz": "716 in^4", "J": "15.1 in^4"}
    bare = section.read(table, "section", faults)
    assert isinstance(bare, Bare)
    assert (bare.area, bare.iy, bare.iz, bare.torsion) == pytest.approx(
        (32.9 * 25.4**2, 236 * 25.4**4, 716 * 25.4**4, 15.1 * 25.4**4), rel=1e-14
    )
    assert not faults


@pytest.mark.parametrize(
    ("hole", "refused"),
    [
        (["10 10 mm", "20 10 mm", "20 20 mm"], False),
        (["10 10 mm", "50 10 mm", "20 20 mm"], True),
        (["60 60 mm", "70 60 mm", "60 70 mm"], True),
        (["0 0 mm", "20 10 mm", "10 20 mm"], True),
    ],
)
def test_holes_lie_inside(hole, refused):
    """A hole that breaks out of its outline is none."""
    faults = Faults()
    square = {"outline": ["0 0 mm", "40 0 mm", "40 30 mm", "0 30 mm"], "holes": [hole]}
    with faults.at("s"):
        section.read(square, "s", faults)
    assert bool(faults) is refused


@pytest.mark.parametrize(
    ("corners", "message"),
    [
        (["0 0 mm", "9 0 mm", "4 0 mm", "4 5 mm"], "runs back on itself after its side 0"),
        (["0 0 mm", "9 0 mm", "9 0 mm", "4 5 mm"], "has the corner 1 twice"),
        (["0 0 mm", "9 0 mm", "18 0 mm"], "has no area"),
    ],
)
def test_outlines_that_are_none(corners, message):
    """A spike, a corner twice, a line there and back."""
    with pytest.raises(RefusedError, match=message):
        section.read({"outline": corners}, "s", Faults())


def test_holes_apart():
    """Two holes that meet are one."""
    faults = Faults()
    holes = [["10 10 mm", "20 10 mm", "20 20 mm"], ["15 11 mm", "25 11 mm", "25 21 mm"]]
    with faults.at("s"):
        section.read({"outline": ["0 0 mm", "40 0 mm", "40 30 mm", "0 30 mm"], "holes": holes}, "s", faults)
    assert faults.under("s")


def test_sizes():
    """Threads, shoulder screws, pins, and how many of them."""
    faults = Faults()
    assert (bolt_size("M10").kind, bolt_size("M10").diameter) == ("thread", 10.0)
    assert bolt_size("M12x1.25").diameter == 12.0
    assert bolt_size("shoulder 10 mm").kind == "shoulder"
    assert bolt_size("pin 0.5 in").diameter == 12.7
    assert counted.read("3 x M8", "", faults) == (3, bolt_size("M8"))
    assert pivot.read("rod end M10", "", faults).size == bolt_size("M10")
    assert pivot.read("bush shoulder 10 mm", "", faults).size == bolt_size("shoulder 10 mm")
    assert pivot.read("fixed", "", faults).size is None
    assert thread_root.read("thread M12", "", faults) == "M12"


@pytest.mark.parametrize(
    ("reader", "text"),
    [(counted, "M8"), (counted, "0 x M8"), (pivot, "rod end"), (pivot, "ball"), (thread_root, "M12")],
)
def test_refused_sizes(reader, text):
    """Half of a text is none."""
    with pytest.raises(RefusedError, match=r"write for instance|write 'rod end M10'"):
        reader.read(text, "", Faults())


@pytest.mark.parametrize("text", ["10", "M", "m10", "M10.5.5", "pin", "pin 12", "shoulder mm", "pin 0 mm"])
def test_refused_bolt_sizes(text):
    """A size is a thread, a shoulder or a pin."""
    with pytest.raises((RefusedError, QuantityError)):
        bolt_size(text)
