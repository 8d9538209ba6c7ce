"""From what is typed to what is meant."""

import pytest

from strength.checks.verdict import Row
from strength.errors import UnknownCheckError
from strength.studies.explain.find import meant


def row(part: str, kind: str, load: str, use: float) -> Row:
    """A row with little in it."""
    return Row(
        part=part,
        kind=kind,
        load=load,
        where="",
        demand=use,
        limit=1.0,
        unit="1",
        utilisation=use,
        in_range=True,
        fails="bends",
        source="",
        note="",
    )


ROWS = [
    row("arm.left", "yielding", "hard stop", 0.9),
    row("arm.left", "yielding", "bump", 0.7),
    row("arm.left", "stability", "bump", 0.6),
    row("arm-weld.left", "weld-throat", "bump", 0.5),
]
LOADS = ["hard stop", "bump"]


def test_ids_parts_and_loads() -> None:
    """A whole id, a part with a kind (its worst load), a part, a load, all loads."""
    assert meant("arm.left/yielding/bump", ROWS, LOADS).row is ROWS[1]
    assert meant("arm.left/yielding", ROWS, LOADS).row is ROWS[0]
    assert meant("arm.left", ROWS, LOADS).rows == tuple(ROWS[:3])
    assert meant("loads/hard stop", ROWS, LOADS).load == "hard stop"
    assert meant("loads", ROWS, LOADS).loads == ("hard stop", "bump")


def test_part_called_loads_comes_before_the_word() -> None:
    """A part of that name is the part."""
    rows = [row("loads", "yielding", "bump", 0.4)]
    assert meant("loads", rows, LOADS).rows == tuple(rows)
    assert meant("loads/bump", rows, LOADS).load == "bump"


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [
        ("arm.left/yeilding/bump", "arm.left/yielding/bump"),
        ("arm.left/stabilty", "arm.left/stability"),
        ("arm.lef", "arm.left"),
        ("loads/hrd stop", "loads/hard stop"),
        ("arm-weld.left/yielding/no such thing", "arm-weld.left"),
    ],
)
def test_near_miss_names_the_nearest(typed: str, nearest: str) -> None:
    """The message holds what was typed and the nearest name."""
    with pytest.raises(UnknownCheckError) as refused:
        meant(typed, ROWS, LOADS)
    assert repr(typed) in str(refused.value)
    assert repr(nearest) in str(refused.value)


def test_nothing_near() -> None:
    """Then it says what to give."""
    with pytest.raises(UnknownCheckError, match="give a part's name to list its checks"):
        meant("zzzz", ROWS, LOADS)


def test_part_without_a_check_is_told_so() -> None:
    """A part that is there but has no row: why, instead of another name."""
    with pytest.raises(UnknownCheckError, match="'shock' has no check to explain: nothing of it"):
        meant("shock", ROWS, LOADS, {"shock": "nothing of it is checked"})
