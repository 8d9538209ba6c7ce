"""Frozen values behave as classes of attrs do (attrs 26.1 as the reference)."""

import copy
from collections.abc import Callable
from typing import Any

import attrs
import pytest

from strength import values


@values.frozen
class Plate:
    """Ours: fields in order, defaults, a factory, a field that equality leaves out."""

    width: float
    wall: float = 2.5
    holes: list[float] = values.field(factory=list)
    drawn: str = values.field(default="", eq=False)


@attrs.frozen
class Reference:
    """The same by attrs."""

    width: float
    wall: float = 2.5
    holes: list[float] = attrs.Factory(list)
    drawn: str = attrs.field(default="", eq=False)


@values.frozen(kw_only=True, eq=False)
class Load:
    """Ours: fields by name alone, equal only to itself."""

    first: float = 1.0
    second: float


@attrs.frozen(kw_only=True, eq=False)
class ReferenceLoad:
    """The same by attrs."""

    first: float = 1.0
    second: float


BOTH = pytest.mark.parametrize("make", [Plate, Reference])
BOTH_LOADS = pytest.mark.parametrize("make", [Load, ReferenceLoad])


@BOTH
def test_fields_in_order_by_name_and_by_default(make: Callable[..., Any]) -> None:
    """Fields are given in order or by name; a factory makes each value its own."""
    value = make(40.0, drawn="plan.dxf")
    assert (value.width, value.wall, value.holes, value.drawn) == (40.0, 2.5, [], "plan.dxf")
    assert make(40.0).holes is not make(40.0).holes
    assert repr(value).endswith("(width=40.0, wall=2.5, holes=[], drawn='plan.dxf')")


@BOTH
@pytest.mark.parametrize(
    ("ordered", "named"),
    [
        ((), {}),
        ((), {"wall": 3.0}),
        ((1.0,), {"width": 2.0}),
        ((1.0, 2.0, [], "", 5.0), {}),
        ((1.0,), {"colour": "red"}),
        ((), {"width": 1.0, "colour": "red"}),
    ],
)
def test_wrong_arguments(make: Callable[..., Any], ordered: tuple[Any, ...], named: dict[str, Any]) -> None:
    """Missing, given twice, too many, unknown."""
    with pytest.raises(TypeError):
        make(*ordered, **named)


@BOTH_LOADS
def test_fields_by_name_alone(make: Callable[..., Any]) -> None:
    """kw_only: nothing by order; a default may stand before a field without one."""
    assert (make(second=7.0).first, make(second=7.0).second) == (1.0, 7.0)
    with pytest.raises(TypeError):
        make(1.0, 2.0)


@BOTH
def test_nothing_changes(make: Callable[..., Any]) -> None:
    """Neither set, nor added, nor deleted."""
    value = make(40.0)
    for change in (
        lambda: setattr(value, "width", 1.0),
        lambda: setattr(value, "new", 1.0),
        lambda: delattr(value, "width"),
    ):
        with pytest.raises(AttributeError):
            change()
    assert value.width == 40.0


@BOTH
def test_equal_by_its_fields(make: Callable[..., Any]) -> None:
    """Equal and hashed by all fields but those left out."""
    assert make(40.0, 3.0, (), "a") == make(40.0, 3.0, (), "b")
    assert hash(make(40.0, 3.0, (), "a")) == hash(make(40.0, 3.0, (), "b"))
    assert make(40.0, 3.0) != make(40.0, 3.5)
    assert make(40.0) != Load(second=40.0)


def test_kinds_of_equal_fields_differ() -> None:
    """Another class is another value."""
    assert Plate(40.0, 3.0) != Reference(40.0, 3.0)


@BOTH_LOADS
def test_equal_only_to_itself(make: Callable[..., Any]) -> None:
    """eq=False: by identity."""
    value = make(second=2.0)
    assert value != make(second=2.0)
    assert len({value, make(second=2.0), value}) == 2


@BOTH
def test_matched_by_position(make: Any) -> None:
    """`match` takes the fields in their order."""
    match make(40.0, 3.0):
        case make(width, wall):
            assert (width, wall) == (40.0, 3.0)
        case _:
            raise AssertionError("not matched")


@pytest.mark.parametrize("evolve", [attrs.evolve, values.evolve])
@BOTH
def test_changed_copy(evolve: Callable[..., Any], make: Callable[..., Any]) -> None:
    """Both ways of making a changed copy work on both."""
    value = make(40.0, 3.0, [1.0])
    changed = evolve(value, wall=4.0)
    assert (changed.width, changed.wall, changed.holes, value.wall) == (40.0, 4.0, [1.0], 3.0)
    with pytest.raises(TypeError):
        evolve(value, colour="red")


@BOTH
def test_copies(make: Callable[..., Any]) -> None:
    """As `copy` and `pickle` take them apart and put them together."""
    value = make(40.0, 3.0, [1.0], "a")
    for other in (copy.copy(value), copy.deepcopy(value)):
        assert other == value
        assert (other is value, other.drawn) == (False, "a")


@BOTH
def test_as_attrs_sees_it(make: Any) -> None:
    """The fields as attrs reads them, also of values inside lists."""
    assert [field.name for field in attrs.fields(make)] == ["width", "wall", "holes", "drawn"]
    nested = make(make(1.0), 2.0, [make(3.0)])
    wanted = attrs.asdict(nested)
    assert (wanted["holes"][0]["width"], wanted["width"]["wall"]) == (3.0, 2.5)
    if make is Plate:
        assert values.asdict(nested) == wanted
