"""Both ways of writing parts, and names of every sort."""

import attrs
import pytest

from strength.case import Case
from strength.case.model import HandForce, Load, Member, Point, Support
from strength.case.shape import Tube
from tests.case.cases import BENCH, only_fault, read

BLOCKS = """
title = "Lamp bracket on the bench"
[defaults]
material = {tube = "E235+N", box = "S235JRH", flat = "S235JR", bar = "42CrMo4+QT"}
filler = "ER70S-6"
class = "8.8"
[[load]]
name = "hang"
forces = [{at = "tip", force = "0 0 -700 N"}]
[[support]]
name = "foot"
hold = "all"
at = "foot"
[[member]]
name = "arm"
from = "foot"
to = "tip"
section = "tube 25 x 2 mm"
[[point]]
name = "foot"
at = "0 0 0 mm"
[[point]]
name = "tip"
at = "300 40 120 mm"
"""


def without_paths(case: Case) -> Case:
    """A case that says nothing of where its parts stand in the file."""
    kinds = {
        field.name: tuple(attrs.evolve(part, path="") for part in getattr(case, field.name))
        for field in attrs.fields(Case)
        if isinstance(getattr(case, field.name), tuple)
        and all(hasattr(part, "path") for part in getattr(case, field.name))
    }
    return attrs.evolve(case, data=b"", **kinds)


def test_both_forms_are_one():
    """Blocks in any order and lines per part give the same case."""
    assert without_paths(read(BLOCKS)) == without_paths(read(BENCH))


def test_forms_may_be_mixed():
    """A file may use both for one kind."""
    text = BENCH.replace('tip = "300 40 120 mm"', "")
    mixed = text + '[[point]]\nname = "tip"\nat = "300 40 120 mm"\n'
    assert without_paths(read(mixed)) == without_paths(read(BENCH))


def test_values_of_a_case():
    """What is typed stands in the case, in mm and N, with its path."""
    case = read(BENCH)
    assert case.title == "Lamp bracket on the bench"
    assert case.points == (
        Point(name="foot", at=(0.0, 0.0, 0.0), path="points.foot"),
        Point(name="tip", at=(300.0, 40.0, 120.0), path="points.tip"),
    )
    assert case.members == (
        Member(
            name="arm", start="foot", end="tip", shape=Tube(25.0, 2.0), material="E235+N", path="members.arm"
        ),
    )
    assert case.supports == (Support(name="foot", at="foot", hold=(True,) * 6, path="supports.foot"),)
    force = HandForce(at="tip", force=(0.0, 0.0, -700.0))
    assert case.loads == (Load(name="hang", forces=(force,), path="loads.hang"),)
    assert list(case.metals) == ["E235+N"]
    assert case.metals["E235+N"].kind == "steel"


def test_paths_of_blocks_count_from_nought():
    """`member[0]` is the first block."""
    assert read(BLOCKS).members[0].path == "member[0]"


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ('hub.left = "10 20 30 mm"', "hub.left"),
        ('"hub.left" = "10 20 30 mm"', "hub.left"),
        ('hub.left = {at = "10 20 30 mm"}', "hub.left"),
        ('hub = {left = "10 20 30 mm"}', "hub.left"),
        ('front.hub.left = {at = "10 20 30 mm"}', "front.hub.left"),
        ('"seat post, upper" = "10 20 30 mm"', "seat post, upper"),
        ('front = "10 20 30 mm"', "front"),
        ('from = "10 20 30 mm"', "from"),
        ('"Vorderrad größe" = "10 20 30 mm"', "Vorderrad größe"),
    ],
)
def test_names_of_lines(line, name):
    """Dots in a bare name reach us as tables in tables; a point may be just its vector."""
    text = BENCH.replace("[members]", f"{line}\n[members]")
    rod = f'rod = {{from = "{name}", to = "tip", section = "bar 10 mm"}}'
    case = read(text.replace("[supports]", f"{rod}\n[supports]"))
    assert case.members[1].start == name
    assert Point(name=name, at=(10.0, 20.0, 30.0), path=f"points.{name}") in case.points


def test_a_name_may_look_like_a_key_of_its_kind():
    """A wishbone's key is `front`; a point "lower.front" and a member "arm.from" are names all the same."""
    text = BENCH.replace("arm = {from", "arm.from = {from").replace("tip =", "lower.front =")
    case = read(text.replace('"tip"', '"lower.front"'))
    assert case.members[0].name == "arm.from"
    assert case.members[0].end == "lower.front"


def test_a_single_unknown_key_is_no_name():
    """`{aat = ...}` is a misspelt key, not a point of the name tip.aat."""
    path, why = only_fault(BENCH.replace('tip = "300 40 120 mm"', 'tip = {aat = "300 40 120 mm"}'))
    assert path == "points.tip.aat"
    assert "did you mean 'at'" in why


def test_supports_short_and_long():
    """A line may be just its hold; a nameless block is named after its place; a list is one a place."""
    text = BENCH.replace('foot = "all"', "") + (
        '[[support]]\nat = "foot"\nhold = "x y z"\n'
        '[[support]]\nname = "rest"\nat = ["tip", "150 20 60 mm"]\nhold = "z rx"\n'
    )
    supports = read(text).supports
    assert [(support.name, support.at) for support in supports] == [
        ("foot", "foot"),
        ("rest-1", "tip"),
        ("rest-2", "rest-2-at"),
    ]
    assert supports[0].hold == (True, True, True, False, False, False)
    assert supports[1].hold == (False, False, True, True, False, False)


def test_numbers_and_lists_of_one():
    """A list of one may be written without its brackets."""
    one = BENCH.replace(
        "[supports]", '[masses]\nm = {mass = "3 kg", at = "tip", carried_by = "tip"}\n[supports]'
    )
    many = one.replace('carried_by = "tip"', 'carried_by = ["tip"]')
    assert read(one).masses == read(many).masses
    assert read(one).masses[0].at == (300.0, 40.0, 120.0)
