"""The other side: y changes sign in places, directions and forces, x and z in moments."""

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strength.case.mirror import FLIPS, image
from strength.case.model import HandForce, Strike
from strength.case.places import other_side
from strength.case.shape import Outline
from strength.case.trade.entry import Entry
from strength.case.trade.material_of import MaterialOf
from tests.case.cases import TRIKE, faults, read

PARTS = """
[[point]]
name = "toe.left"
at = "120 330 90 mm"
[[member]]
name = "arm.left"
from = "hub.left"
to = "toe.left"
via = ["60 365 170 mm"]
section = {outline = ["0 0 mm", "30 0 mm", "30 4 mm", "4 4 mm", "4 50 mm", "0 50 mm"]}
material = "S235JR"
up = "0.2 0.3 1"
from_end = "hinge"
hinge_axis = "1 -2 0.5"
[[member]]
name = "plate.left"
from = "toe.left"
to = "300 310 80 mm"
section = "flat 50 x 12 mm"
up = "0 0 1"
[[strut]]
name = "rod.left"
from = "toe.left"
to = "middle"
stiffness = "70 N/mm"
[[weld]]
name = "seam.left"
member = "arm.left"
end = "to"
inset = "5 mm"
pattern = {lines = ["3 7 11 -13 mm"]}
onto = "plate.left"
[[bolt]]
name = "pin.left"
member = "plate.left"
end = "to"
axis = "0.1 1 0.2"
size = "M8"
group = ["3 5 7 mm", "-3 5 -7 mm"]
[[stud]]
name = "stud.left"
member = "plate.left"
end = "to"
axis = "0.1 1 0.2"
size = "M8"
reach = "14 mm"
engaged = "12 mm"
[[hole]]
name = "wide.left"
member = "plate.left"
along = 0.4
diameter = "6 mm"
off_centre = "9 mm"
[[hole]]
name = "thin.left"
member = "plate.left"
along = 0.6
diameter = "5 mm"
across = "width"
off_centre = "1.5 mm"
[[mass]]
name = "lamp.left"
mass = "1 kg"
at = "130 340 95 mm"
carried_by = ["toe.left", "middle"]
[[load]]
name = "shove.left"
forces = [{at = "toe.left", force = "3 5 7 N", moment = "11 13 17 N*mm"}]
[[load]]
name = "kerb"
severity = "abuse"
strike = {wheel = "front.left", up = 2, back = 0.5, inward = 1.5}
forces = [{at = "toe.left", force = "3 5 7 N", moment = "11 13 17 N*mm"}]
"""


@pytest.fixture(scope="module")
def both():
    """The case with both sides."""
    return read(TRIKE + PARTS)


def sides(parts, name):
    """A part and its image."""
    found = {part.name: part for part in parts}
    return found[f"{name}.left"], found[f"{name}.right"]


def test_points_and_members(both):
    """Places, `up` and hinge axis turn their y; z_m keeps its meaning, y of an outline turns."""
    left, right = sides(both.points, "toe")
    assert (left.at, right.at) == ((120.0, 330.0, 90.0), (120.0, -330.0, 90.0))
    left, right = sides(both.members, "arm")
    assert (right.start, right.end, right.via) == ("hub.right", "toe.right", ("arm-via.right",))
    assert right.up == (left.up[0], -left.up[1], left.up[2])
    assert right.hinge_axis == (left.hinge_axis[0], -left.hinge_axis[1], left.hinge_axis[2])
    assert right.from_end == "hinge"
    turned = ((0.0, 50.0), (-4.0, 50.0), (-4.0, 4.0), (-30.0, 4.0), (-30.0, 0.0), (0.0, 0.0))
    assert right.shape == Outline(turned)
    assert right.path == left.path


def test_strut_mass_and_wheel(both):
    """References that end in `.left` follow, others stay."""
    _, right = sides(both.struts, "rod")
    assert (right.start, right.end, right.stiffness) == ("toe.right", "middle", 70.0)
    _, right = sides(both.masses, "lamp")
    assert (right.at, right.carried_by) == ((130.0, -340.0, 95.0), ("toe.right", "middle"))
    _, right = sides(both.wheels, "front")
    assert (right.centre, right.braked) == ("hub.right", True)


def test_joints(both):
    """Weld lines turn their y, axes and groups too; a hole through the width moves along y_m."""
    _, right = sides(both.welds, "seam")
    assert (right.member, right.onto, right.lines) == (
        "arm.right",
        "plate.right",
        ((-3.0, 7.0, -11.0, -13.0),),
    )
    left, right = sides(both.bolts, "pin")
    assert right.axis == (left.axis[0], -left.axis[1], left.axis[2])
    assert right.group == ((3.0, -5.0, 7.0), (-3.0, -5.0, -7.0))
    left, right = sides(both.studs, "stud")
    assert right.axis == (left.axis[0], -left.axis[1], left.axis[2])
    assert [hole.off_centre for hole in sides(both.holes, "wide")] == [9.0, 9.0]
    assert [hole.off_centre for hole in sides(both.holes, "thin")] == [1.5, -1.5]


def test_loads(both):
    """A strike on a left wheel makes a load for each side, with its hand forces; so does a load's name."""
    loads = {load.name: load for load in both.loads}
    assert set(loads) == {"standing", "shove.left", "shove.right", "kerb, left wheel", "kerb, right wheel"}
    turned = HandForce(at="toe.right", force=(3.0, -5.0, 7.0), moment=(-11.0, 13.0, -17.0))
    assert loads["shove.right"].forces == (turned,)
    assert loads["kerb, right wheel"].forces == (turned,)
    assert loads["kerb, left wheel"].forces[0].at == "toe.left"
    assert loads["kerb, right wheel"].strike == Strike(wheel="front.right", up=2.0, back=0.5, inward=1.5)
    assert loads["kerb, right wheel"].severity == "abuse"


def test_without_mirror():
    """Without `mirror`, `.left` is a name like any other."""
    text = TRIKE.replace("mirror = true", "") + (
        "[[wheel]]\nname='other'\ncentre='90 -400 250 mm'\nradius='250 mm'\n"
        "[[load]]\nname='kerb'\nstrike={wheel='front.left', up=2}\n"
    )
    case = read(text)
    assert [wheel.name for wheel in case.wheels] == ["front.left", "rear", "other"]
    assert [load.name for load in case.loads] == ["standing", "kerb"]


def test_supports_mirror_with_their_place():
    """A support without a name is named after its place; both sides typed is both sides once."""
    bench = TRIKE[: TRIKE.index("[wheels]")] + "[loads]\nhang = {forces = [{at='tail', force='0 0 -1 N'}]}\n"
    one = read(bench + "[[support]]\nat = 'hub.left'\nhold = 'y z'\n")
    two = read(bench + "[[support]]\nat = ['hub.left', 'hub.right']\nhold = 'y z'\n")
    assert [(support.name, support.at) for support in one.supports] == [
        ("hub.left", "hub.left"),
        ("hub.right", "hub.right"),
    ]
    assert [support.at for support in two.supports] == ["hub.left", "hub.right"]


def test_a_middle_member_carries_both_sides():
    """What stands `on` a member of the middle plane from the left stands on it from the right as well."""
    bar = (
        "[[member]]\nname='bar'\nfrom='hub.left'\nto='hub.right'\nsection='bar 20 mm'\n"
        "[[point]]\nname='seat.left'\non='bar'\nat=0.125\n"
        "[[member]]\nname='post.left'\nfrom='seat.left'\nto='0 300 700 mm'\nsection='bar 12 mm'\n"
    )
    case = read(TRIKE + bar)
    assert case.members[[m.name for m in case.members].index("bar")].via == ("seat.left", "seat.right")
    askew = bar.replace("to='hub.right'", "to='tail'")
    found = faults(TRIKE + askew)
    assert "its image 'seat.right' does not lie on 'bar'" in found["point[0]"][0]


NUMBER = st.floats(-1e4, 1e4, allow_nan=False).filter(lambda value: value != 0.0)
VECTOR = st.tuples(NUMBER, NUMBER, NUMBER)
NAME = st.sampled_from(["a.left", "b.right", "c", "d.left"])
PLACE = st.one_of(NAME, VECTOR)
RING = st.lists(st.tuples(NUMBER, NUMBER), min_size=3, max_size=5).map(tuple)
VALUES = {
    "at": VECTOR,
    "from": NAME,
    "to": NAME,
    "via": st.lists(NAME).map(tuple),
    "carried_by": st.lists(NAME).map(tuple),
    "centre": PLACE,
    "caliper": PLACE,
    "up": VECTOR,
    "axle": VECTOR,
    "axis": VECTOR,
    "hinge_axis": VECTOR,
    "group": st.lists(VECTOR).map(tuple),
    "section": st.builds(Outline, RING, st.lists(RING).map(tuple)),
    "on": NAME,
    "member": NAME,
    "onto": st.one_of(NAME, st.just({"thickness": 3.0})),
    "outer": NAME,
    "weld_from": NAME,
    "weld_to": NAME,
    "into": st.one_of(st.just("S235JR"), NAME.map(MaterialOf)),
    "plates": st.lists(st.fixed_dictionaries({"material": NAME.map(MaterialOf)})).map(tuple),
    "pattern": st.one_of(st.just("around"), st.lists(st.tuples(NUMBER, NUMBER, NUMBER, NUMBER)).map(tuple)),
    "strike": st.fixed_dictionaries({"wheel": NAME, "inward": NUMBER}),
    "off_ground": st.lists(NAME).map(tuple),
    "forces": st.lists(st.fixed_dictionaries({"at": NAME, "force": VECTOR, "moment": VECTOR})).map(tuple),
    "turn": st.sampled_from(["left", "right", "both"]),
    "across": st.sampled_from(["thickness", "width"]),
    "off_centre": NUMBER,
}


@st.composite
def entries(draw):
    """An entry of any kind with values for all that turns."""
    kind = draw(st.sampled_from(sorted(FLIPS)))
    keys = [*FLIPS[kind], *(["across", "off_centre"] if kind == "hole" else [])]
    return Entry(kind=kind, name=draw(NAME), keys={key: draw(VALUES[key]) for key in keys}, path="p")


@given(entries())
def test_twice_mirrored_is_as_it_was(entry):
    """The image of the image is the part itself, in every key that turns."""
    assert image(image(entry)) == entry


@given(NAME)
def test_other_side_twice(name):
    """The other side's other side is this side."""
    assert other_side(other_side(name)) == name


@given(entries())
def test_an_image_keeps_what_does_not_turn(entry):
    """Kind, path and keys stay."""
    twin = image(entry)
    assert (twin.kind, twin.path, set(twin.keys)) == (entry.kind, entry.path, set(entry.keys))
    assert attrs.evolve(twin, keys={}).name == other_side(entry.name)
