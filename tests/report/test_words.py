"""Words: directions of forces and movements, verdicts, and that no kind goes without a name."""

import pytest

from strength.report.display import Display
from strength.report.load_words import directed, load_words, wheel_words
from strength.report.parts import JOINT_KINDS, Nouns
from strength.report.words import KINDS, count, fails, governed, helps, listed, suddenness, verdict
from tests.report.outcomes import LOADS, balanced, case, rows

METRIC = Display("metric")
# Every kind of check that a record can hold.
EVERY = [
    "yielding",
    "rupture",
    "stability",
    "wall",
    "frame-buckling",
    "weld-throat",
    "weld-toe",
    "chord-wall",
    "chord-punching",
    "tab-wall",
    "plate-bending",
    "bolt-shear",
    "bolt-tension",
    "bolt-combined",
    "pull-through",
    "bearing",
    "tear-out",
    "net-section",
    "lug",
    "bolt-bending",
    "stud-bending",
    "stud-rocking",
    "thread-strip",
    "rod-end",
    "sleeve-bearing",
    "sleeve-wall",
    "clamp-slip",
    "dropout",
    "fatigue",
]


@pytest.mark.parametrize("kind", EVERY)
def test_every_kind_has_words(kind: str) -> None:
    """A name of its own and something that helps."""
    assert kind in KINDS
    assert "-" not in governed(kind, "tube")
    assert helps(kind, "plate")


def test_names_are_all_different() -> None:
    """Two checks never read alike."""
    assert len({known.name for known in KINDS.values()}) == len(KINDS) == len(EVERY)


@pytest.mark.parametrize(
    ("wheel", "force", "words"),
    [
        # body axes x forward, y left, z up (ISO 8855); front.left stands at y > 0
        ("front.left", (-120.0, -340.0, 900.0), "900 N up, 340 N toward the middle, 120 N back"),
        ("front.right", (-120.0, -340.0, 900.0), "900 N up, 340 N outward, 120 N back"),
        ("front.left", (55.0, 210.0, 30.0), "210 N outward, 55 N forward, 30 N up"),
        ("rear", (0.0, -340.0, 900.0), "900 N up, 340 N to the right"),
        ("rear", (0.0, 0.0, 0.0), "nothing"),
    ],
)
def test_wheel_words(wheel: str, force: tuple[float, float, float], words: str) -> None:
    """Toward the middle means toward y = 0 on either side."""
    assert wheel_words(case(), wheel, force, METRIC) == words


def test_directed() -> None:
    """Signs of the body axes; what is small beside the greatest is left out."""
    assert directed((3.0, -4.0, 0.01), lambda v: f"{v:.0f}", " mm") == "3 mm forward, 4 mm to the right"
    assert directed((0.0, 0.0, 0.0), str, "") == "nothing"


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("standing", "stands still"),
        ("full stop", "brakes 0.60 g"),
        ("bend, right turn", "turns right 0.45 g, leans 11° right, eased to 82 %, where it tips"),
        ("speed bump", "bears down with 2.5 times its weight"),
        ("pothole, left wheel", "front.left is knocked 3 x its standing load up and 1.5 x back"),
        (
            "kerb taken sideways, right wheel",
            "front.right is knocked 1 x its standing load up and 1.5 x inward",
        ),
    ],
)
def test_load_words(name: str, words: str) -> None:
    """What happens, as a builder would say it."""
    number, load = next((n, load) for n, load in enumerate(LOADS) if load.name == name)
    assert load_words(balanced(load, number), load, METRIC) == words


@pytest.mark.parametrize(
    ("utilisation", "in_range", "words"),
    [
        (1.34, True, "over the limit by 34 %"),
        (1.34, False, "over by 34 %, out of range"),
        (0.5, False, "out of range (margin 1.00)"),
        (1.0 / 1.12, True, "thin margin 0.12"),
        (0.5, True, "margin 1.00"),
        (0.0, True, "nothing asked"),
    ],
)
def test_verdict(utilisation: float, words: str, *, in_range: bool) -> None:
    """Each standing has its own words."""
    assert verdict(rows()[0]._replace(utilisation=utilisation, in_range=in_range)) == words


def test_what_parts_suddenly_comes_first() -> None:
    """Parting and buckling give no warning, bending does."""
    order = [rows()[0]._replace(fails=how) for how in ("parts", "buckles", "cracks", "slips", "bends")]
    assert [suddenness(row) for row in order] == [0, 1, 2, 3, 4]
    assert "suddenly" in fails(order[0])
    assert "suddenly" in fails(order[1])


def test_nouns() -> None:
    """A name that stands for a member and a weld is told by its check."""
    nouns = Nouns(case())
    assert nouns.noun("knuckle.left", "yielding") == "plate"
    assert nouns.noun("knuckle-axle.right", "yielding") == "bar"
    assert nouns.noun("shock.left", "stability") == "strut"
    assert nouns.noun("lower-front.left", "weld-throat") == "weld"
    assert nouns.noun("caliper-weld.left", "fatigue") == "weld"
    assert nouns.noun("frame", "frame-buckling") == "frame"
    assert {kind for kinds in JOINT_KINDS.values() for kind in kinds} <= set(EVERY)


def test_listed_and_counted() -> None:
    """Lists and numbers in running text."""
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a", "b", "c", "d"], 2) == "a, b and 2 more"
    assert (count(1, "part"), count(2, "part"), count(3, "part is", "parts are")) == (
        "1 part",
        "2 parts",
        "3 parts are",
    )
