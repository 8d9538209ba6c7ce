"""Which parts buckle together, over what length, held how."""

import attrs
import pytest

from strength.case.model import Case, Member, Strut, Support, Wheel
from strength.case.shape import Bar, Flat, Rigid, Tube
from strength.checks.buckling_lengths import BucklingLength, buckling_lengths
from strength.frame.layout import lay_out
from strength.sections import measure
from tests.checks.loaded import case_of, member

ALL = (True,) * 6
TUBE = Tube(25.0, 2.0)
# a, b, c in one line that is along no axis; d off it
POINTS = {
    "a": (10.0, -20.0, 30.0),
    "b": (210.0, 80.0, 130.0),
    "c": (510.0, 230.0, 280.0),
    "d": (210.0, 400.0, 130.0),
    "e": (510.0, 500.0, 700.0),
    "bent": (510.0, 238.0, 280.0),
}
AB, BC = (200.0**2 + 100.0**2 + 100.0**2) ** 0.5, (300.0**2 + 150.0**2 + 150.0**2) ** 0.5


def held(*names: str) -> tuple[Support, ...]:
    """Supports at these points."""
    return tuple(Support(name=name, at=name, hold=ALL) for name in names)


def lengths(case: Case) -> dict[str, BucklingLength]:
    """Buckling lengths by part."""
    bars = measure(case)
    return {bars.names[n]: whole for n, whole in buckling_lengths(case, lay_out(case), bars).items()}


def line(*members: Member, **parts: object) -> Case:
    """Members with both far ends held."""
    return case_of(POINTS, members=members, **{"supports": held("a", "c"), **parts})


def test_one_part() -> None:
    """From `from` to `to`, via points or not; held at both ends K = 1."""
    whole = lengths(line(member("m", "a", "c", TUBE, via=("b",))))["m"]
    assert (whole.length, whole.factor, whole.start, whole.end) == (pytest.approx(AB + BC), 1.0, "a", "c")


@pytest.mark.parametrize("turn_first", [False, True])
@pytest.mark.parametrize("turn_second", [False, True])
def test_joined(turn_first: bool, turn_second: bool) -> None:
    """Two members in one line count as one, whichever way they were drawn."""
    first = member("one", *("ba" if turn_first else "ab"), TUBE)
    second = member("two", *("cb" if turn_second else "bc"), TUBE)
    found = lengths(line(first, second))
    assert found["one"] is found["two"]
    whole = found["one"]
    assert whole.length == pytest.approx(AB + BC)
    assert {whole.start, whole.end} == {"a", "c"}
    # 30 mm from b, in the second, measured from the end at a
    from_a = AB + 30.0
    at = whole.place(1, BC - 30.0 if turn_second else 30.0)
    assert at == pytest.approx(from_a if whole.start == "a" else AB + BC - from_a)


def test_three_joined() -> None:
    """The line goes on from member to member, both ways from the middle one."""
    points = {**POINTS, "far": (810.0, 380.0, 430.0)}
    parts = (
        member("middle", "b", "c", TUBE),
        member("last", "far", "c", TUBE),
        member("first", "a", "b", TUBE),
    )
    found = lengths(case_of(points, members=parts, supports=held("a", "far")))
    assert found["middle"].length == pytest.approx(AB + 2.0 * BC)
    assert len({id(whole) for whole in found.values()}) == 1


@pytest.mark.parametrize(
    ("change", "parts"),
    [
        ({"shape": Tube(25.0, 2.5)}, {}),
        ({"material": "brittle"}, {}),
        ({"end": "bent"}, {"supports": held("a", "bent")}),
        ({"from_end": "ball"}, {}),
        ({"from_end": "hinge", "hinge_axis": (0.0, 1.0, 0.0)}, {}),
        ({"up": (1.0, 0.0, 0.0)}, {}),
        ({}, {"supports": held("a", "b", "c")}),
    ],
    ids=["size", "material", "1.3 degrees", "ball", "hinge", "up", "support"],
)
def test_not_joined(change: dict[str, object], parts: dict[str, object]) -> None:
    """Another size, metal or `up`, a bend over 1 degree, a free end, a support between."""
    second = attrs.evolve(member("two", "b", "c", TUBE), **change)
    found = lengths(line(member("one", "a", "b", TUBE), second, **parts))
    assert found["one"].length == pytest.approx(AB)


def test_member_between_them_parts_them() -> None:
    """A third member at the point, by its end or by its via point."""
    two = (member("one", "a", "b", TUBE), member("two", "b", "c", TUBE))
    by_end = lengths(line(*two, member("brace", "b", "d", Bar(8.0)), supports=held("a", "c", "d")))
    points = {**POINTS, "below": (210.0, -240.0, 130.0)}
    crossing = member("cross", "below", "d", Bar(8.0), via=("b",))
    by_via = lengths(case_of(points, members=(*two, crossing), supports=held("a", "c", "d", "below")))
    assert by_end["one"].length == pytest.approx(AB)
    assert by_via["two"].length == pytest.approx(BC)


def test_struts_and_wheels_between_them_do_not() -> None:
    """A shock foot or a wheel at the point holds nothing straight."""
    two = (member("one", "a", "b", TUBE), member("two", "b", "c", TUBE))
    found = lengths(
        line(
            *two,
            struts=(Strut(name="shock", start="b", end="d", stiffness=60.0),),
            wheels=(Wheel(name="w", centre="b", radius=200.0),),
            supports=held("a", "c", "d"),
        )
    )
    assert found["one"].length == pytest.approx(AB + BC)


def test_free_end() -> None:
    """K = 2 where one end carries no other part and no support; a wheel is no part."""
    parts = (member("arm", "a", "b", TUBE), member("axle", "b", "d", Bar(20.0)))
    case = case_of(
        POINTS, members=parts, supports=held("a"), wheels=(Wheel(name="w", centre="d", radius=200.0),)
    )
    found = lengths(case)
    assert (found["arm"].factor, found["axle"].factor) == (1.0, 2.0)


def test_free_end_of_joined_members() -> None:
    """The ends of the whole count, not the point where the two meet."""
    two = (member("one", "a", "b", TUBE), member("two", "b", "c", TUBE))
    found = lengths(line(*two, supports=held("a")))
    assert (found["one"].factor, found["one"].length) == (2.0, pytest.approx(AB + BC))


@pytest.mark.parametrize("part", ["strut", "rigid", "via"])
def test_what_carries_an_end(part: str) -> None:
    """A strut, a rigid part or another member's via point."""
    arm = member("arm", "a", "b", TUBE)
    other: dict[str, object] = {
        "strut": {"members": (arm,), "struts": (Strut(name="s", start="b", end="d", stiffness=9.0),)},
        "rigid": {"members": (arm, member("step", "b", "d", Rigid()))},
        "via": {"members": (arm, member("beam", "d", "e", Flat(30.0, 5.0), via=("b",)))},
    }[part]
    case = case_of(POINTS, supports=held("a", "d", "e"), **other)  # type: ignore[arg-type]
    if part == "via":
        case = attrs.evolve(case, points=case_of({**POINTS, "b": (360.0, 450.0, 415.0)}).points)
    assert lengths(case)["arm"].factor == 1.0


def test_given_factor() -> None:
    """`buckling_factor` takes the place of 1 and 2; of joined members the largest counts."""
    free = case_of(POINTS, members=(member("arm", "a", "b", TUBE, buckling_factor=0.7),), supports=held("a"))
    assert lengths(free)["arm"].factor == 0.7
    two = (
        member("one", "a", "b", TUBE, buckling_factor=0.6),
        member("two", "b", "c", TUBE, buckling_factor=0.9),
    )
    assert lengths(line(*two))["one"].factor == 0.9


def test_struts_with_a_section() -> None:
    """A strut is a buckling length of its own; one by stiffness has none."""
    case = case_of(
        POINTS,
        struts=(
            Strut(name="tie rod", start="a", end="b", shape=Bar(10.0), material="steel", buckling_factor=1.2),
            Strut(name="shock", start="b", end="c", stiffness=40.0),
        ),
        supports=held("a", "c"),
    )
    found = lengths(case)
    assert list(found) == ["tie rod"]
    assert (found["tie rod"].length, found["tie rod"].factor) == (pytest.approx(AB), 1.2)
